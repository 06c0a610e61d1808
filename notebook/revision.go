package notebook

import (
	"sort"

	"scarph/calc"
	"scarph/kernel"
	"scarph/notebook/results"
)

// Revision is the letter of the journal's numbers as of an entry, and the day since
// which they are so: A until a reading is displaced, then a letter further for each entry
// that displaces one. It stands on every sheet that leaves for the shop, so that
// one can see whether a sheet is still current.
func (n *Notebook) Revision(asOf int) (letter, date string) {
	entries := n.Session.Entries()
	if asOf >= len(entries) {
		asOf = len(entries) - 1
	}
	turned := map[int]bool{}
	for _, h := range n.Session.Histories(asOf) {
		for _, r := range h.Readings {
			if r.Until != nil {
				turned[r.Until.Number] = true
			}
		}
	}
	last := 0
	for k := range turned {
		last = max(last, k)
	}
	for i := 0; i <= asOf && date == ""; i++ {
		date = entries[i].Date
	}
	if last > 0 && entries[last-1].Date != "" {
		date = entries[last-1].Date
	}
	for k := len(turned); ; k = k/26 - 1 {
		letter = string(rune('A'+k%26)) + letter
		if k < 26 {
			return letter, date
		}
	}
}

// Sheet is a table for the shop's wall.
type Sheet struct {
	Title string
	Rows  [][]string
	// Turnable is set where rows may as well stand as columns.
	Turnable bool
	// Cautions are those of its figures, as bits from A = 1.
	Cautions uint8
}

// Sheets lists the tables that can be printed for the wall: the cut list, the
// dimensions, the rework, each named list and each data table.
func (n *Notebook) Sheets(asOf int) map[string]Sheet {
	style := n.Session.Style()
	l := n.Cutlist(asOf)
	parts := l.Table(style)
	for _, row := range parts[1:] {
		row[0] = calc.Words(row[0])
	}
	out := map[string]Sheet{"cutlist": {Title: "Cut list", Rows: parts, Cautions: results.CautionsOf(n.Session, "cutlist", asOf)}}
	dims := [][]string{{"value", "is", "kind"}}
	cautions := uint8(0)
	for _, d := range n.Session.Dimensions(asOf) {
		if d.Result.OK() && !d.Cell && !d.Row && !d.Part && d.Result.Value.IsQuantity() {
			dims = append(dims, []string{calc.Words(d.Name), style.Text(d.Result.Value), d.Kind})
			cautions |= d.Result.Cautions
		}
	}
	out["dimensions"] = Sheet{Title: "Dimensions", Rows: dims, Cautions: cautions}
	rework := [][]string{{"made before the change", "size", "as made", "now", "made − now"}}
	for _, m := range n.Session.Rework(asOf) {
		for _, z := range m.Sizes {
			if z.Off {
				rework = append(rework, []string{results.Pieces(m, style), calc.Words(z.Name), style.Text(z.Made), style.Text(z.Now), z.Words})
			}
		}
	}
	if len(rework) == 1 {
		rework = append(rework, []string{"nothing is off"})
	}
	out["rework"] = Sheet{Title: "Rework", Rows: rework, Cautions: results.CautionsOf(n.Session, "rework", asOf)}
	for _, d := range n.Session.Dimensions(asOf) {
		if t, ok := listTable(d.Name, d.Result, style); ok && !d.Row && !d.Cell {
			out[d.Name] = t
		}
	}
	for name, t := range n.dataTables(asOf) {
		out[name] = t
	}
	return out
}

// listTable writes a named list of quantities as a table, a row an element: the bevels
// station by station, the marks of a strip.
func listTable(name string, r *kernel.Result, style calc.Style) (Sheet, bool) {
	if !r.OK() || r.Value.Kind() != calc.List || len(r.Value.Items()) == 0 {
		return Sheet{}, false
	}
	s := Sheet{Title: calc.Words(name), Rows: [][]string{{"", calc.Words(name)}}, Cautions: r.Cautions}
	labels := r.Value.Labels()
	for i, x := range r.Value.Items() {
		if !x.IsQuantity() {
			return Sheet{}, false
		}
		label := style.Text(calc.Number(float64(i + 1)))
		if labels != nil {
			label = calc.Words(labels[i])
		}
		s.Rows = append(s.Rows, []string{label, style.Text(x)})
	}
	return s, true
}

// SheetNames lists the names of Sheets, sorted.
func (n *Notebook) SheetNames(asOf int) []string {
	var names []string
	for name := range n.Sheets(asOf) {
		names = append(names, name)
	}
	sort.Strings(names)
	return names
}

// dataTables writes each data table with its values as they stand, lengths as offsets
// where all of the table are as good as offsets say it.
func (n *Notebook) dataTables(asOf int) map[string]Sheet {
	style := n.Session.Style()
	out := map[string]Sheet{}
	var rows []kernel.Dimension
	plain := map[string]bool{} // tables that are not offsets
	for _, d := range n.Session.Dimensions(asOf) {
		if !d.Row || !d.Result.OK() {
			continue
		}
		rows = append(rows, d)
		table, _ := cutName(d.Name)
		for _, x := range d.Result.Value.Items() {
			plain[table] = plain[table] || style.System == calc.Metric || len(x.Terms()) > 0
		}
	}
	for _, d := range rows {
		table, row := cutName(d.Name)
		s := out[table]
		if s.Rows == nil {
			head := []string{table}
			for _, l := range d.Result.Value.Labels() {
				head = append(head, calc.Words(l))
			}
			s = Sheet{Title: calc.Words(table), Rows: [][]string{head}, Turnable: true}
		}
		cells := []string{calc.Words(row)}
		for _, x := range d.Result.Value.Items() {
			text := style.Text(x)
			if x.IsQuantity() && x.D == calc.DimLength && !plain[table] {
				text = calc.FormatOffset(x.V)
			}
			cells = append(cells, text)
		}
		s.Rows = append(s.Rows, cells)
		s.Cautions |= d.Result.Cautions
		out[table] = s
	}
	return out
}

func cutName(name string) (table, row string) {
	for i := range name {
		if name[i] == '.' {
			return name[:i], name[i+1:]
		}
	}
	return name, ""
}
