package docs

import (
	"strconv"
	"strings"
	"testing"

	"scarph/calc"
	"scarph/calc/tables"
)

// unitsPage lists the unit table.
func unitsPage(*testing.T) string {
	p := head("Units", `All units, with what they are in SI base units and where that stands. Units are put together with `+"`*`, `/` and `^`: `lb/ft^3`, `kg*m`"+`.
An exact factor is exact by definition. Currencies are written by their codes of ISO 4217 and are never converted.`)
	dim := ""
	for _, u := range calc.Units() {
		if w := u.D.Word(); w != dim {
			dim = w
			p.line("")
			p.line("## " + strings.ToUpper(dim[:1]) + dim[1:])
			p.table("unit", "also written", "in SI", "", "source")
		}
		names := make([]string, 0, len(u.Names))
		for _, n := range u.Names {
			if n != u.Symbol {
				names = append(names, code(n))
			}
		}
		factor := strconv.FormatFloat(u.Factor, 'g', 12, 64)
		if u.Zero != 0 {
			factor += ", from " + strconv.FormatFloat(u.Zero, 'g', 12, 64)
		}
		exact := ""
		if u.Exact {
			exact = "exact"
		}
		p.row(code(u.Symbol), strings.Join(names, " "), factor, exact, plain(u.Source))
	}
	p.line("")
	p.line("## Currencies")
	p.line("")
	p.line(strings.Join(calc.CurrencyCodes(), " "))
	return p.String()
}

// tablesPage lists the reference tables, item by item.
func tablesPage(*testing.T) string {
	p := head("Reference tables", "The shop's shelf: "+code(`from_table("wood", "white oak", "density")`)+` gives one figure of it, and functions that want a wood or a screw take its
name. Every figure says how it was come by: seen in a copy of its source, derived from it, or recalled *from memory* and not read again; [sources](sources.md) tells
how many of each.`)
	for _, tab := range tables.List() {
		p.line("")
		p.line("## " + tab.Title)
		p.line("")
		p.line(strings.TrimSpace("Its name is " + code(tab.Name) + ". " + plain(tab.Note)))
		p.table("item", "quantity", "value", "how", "source")
		item := ""
		for _, r := range tab.Rows() {
			name := ""
			if r.Item != item {
				item, name = r.Item, plain(r.Item)
			}
			how := r.How
			if how == "from memory" {
				how = "*from memory*"
			}
			if r.Remark != "" {
				how += "; " + plain(r.Remark)
			}
			p.row(name, plain(r.Quantity), plain(calc.Style{}.Text(r.Value)), how, plain(r.Source))
		}
	}
	return p.String()
}
