package trade

import (
	"strings"

	"scarph/calc"
	"scarph/calc/tables"
)

// asPercent returns a share, shown in %.
func asPercent(share float64) calc.Value { return calc.Number(share).Shown(calc.InUnit("%")) }

// tabled takes a quantity, or the name of an item of a reference table that has it.
func tabled(name string, d calc.Dimension, table, quantity string) *Param {
	return rowed(name, d, table, []string{quantity}, func(s string) (tables.Row, error) {
		return tables.Lookup(table, s, quantity)
	})
}

// rowed takes a quantity, or a name that find turns into a row of a reference table.
func rowed(name string, d calc.Dimension, table string, quantities []string, find func(string) (tables.Row, error)) *Param {
	p := item(name, d, func(s string) (calc.Value, error) {
		r, err := find(s)
		return r.Value.Plain(), err
	}, func() []string { return namesWith(table, quantities) })
	p.Remark = func(s string) string {
		r, err := find(s)
		if err != nil {
			return ""
		}
		return saying(r)
	}
	return p
}

// unread is said of a figure that was recalled from its source and not read there again.
const unread = "not checked against a publication"

// saying is what has to be said when a row of a table is used: that it was
// recalled and not read again, and the row's own remark.
func saying(r tables.Row) string {
	if about := cautious(r); about != "" {
		return r.Item + ", " + r.Quantity + " " + calc.Style{}.Text(r.Value) + ": " + about
	}
	return ""
}

func cautious(r tables.Row) string {
	switch {
	case r.How != "from memory":
		return r.Remark
	case r.Remark == "":
		return unread
	}
	return unread + "; " + r.Remark
}

// namesWith lists the items of a table that have one of the quantities.
func namesWith(table string, quantities []string) []string {
	t, err := tables.Find(table)
	if err != nil {
		return nil
	}
	var names []string
	for _, r := range t.Rows() {
		for _, q := range quantities {
			if r.Quantity == q && (len(names) == 0 || names[len(names)-1] != r.Item) {
				names = append(names, r.Item)
			}
		}
	}
	return names
}

// grain words: which way of the wood a width runs.
var (
	flatWords    = []string{"flat-sawn", "flat sawn", "flatsawn", "plain-sawn", "plain sawn", "plainsawn", "tangential"}
	quarterWords = []string{"quarter-sawn", "quarter sawn", "quartersawn", "vertical grain", "radial"}
)

// grained parts a name such as "quarter-sawn white oak" or "white oak, radial" into
// the wood and the grain; said is false when no grain word stands in it.
func grained(name string) (wood string, quarter, said bool) {
	low := strings.ToLower(strings.ReplaceAll(name, "_", " "))
	for k, words := range [][]string{flatWords, quarterWords} {
		for _, w := range words {
			if strings.Contains(low, w) {
				return strings.Trim(strings.Replace(low, w, "", 1), " ,"), k == 1, true
			}
		}
	}
	return name, false, false
}

// byGrain takes a number, or the name of a wood with its grain; a wood without a
// grain word is taken as flat-sawn, and that is said.
func byGrain(name string, flat, quarter string) *Param {
	find := func(s string) (tables.Row, error) {
		wood, q, _ := grained(s)
		if q {
			return tables.Lookup("wood", wood, quarter)
		}
		return tables.Lookup("wood", wood, flat)
	}
	p := rowed(name, calc.DimNumber, "wood", []string{flat, quarter}, find)
	remark := p.Remark
	p.Remark = func(s string) string {
		r, err := find(s)
		if _, _, said := grained(s); said || err != nil {
			return remark(s)
		}
		taken := r.Item + " is taken as flat-sawn, " + calc.Style{}.Text(r.Value)
		if about := cautious(r); about != "" {
			taken += " (" + about + ")"
		}
		return taken + `; write "quarter-sawn ` + r.Item + `" for the other`
	}
	return p
}
