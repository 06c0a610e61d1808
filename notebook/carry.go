package notebook

import (
	"scarph/calc/lang"
	"scarph/notebook/cargo"
)

// Cargo is what the pages of a published journal carry for their readers' browsers.
// The notebook must be one that Published made.
func (n *Notebook) Cargo() *cargo.Journal {
	set := n.Settings()
	web := n.Session.Web()
	j := &cargo.Journal{Style: n.Session.Style(), Buying: n.buying(), Hide: set.Hide, Names: web.Names, Reads: web.Reads}
	for i, ref := range n.Session.Entries() {
		e, ok := n.Entry(ref.Key)
		if !ok {
			j.Entries = append(j.Entries, cargo.Entry{Key: ref.Key, Date: ref.Date})
			continue
		}
		j.Entries = append(j.Entries, cargo.Entry{Key: e.Key, Title: e.said, Date: e.Date, Tables: e.tables, Lines: e.cargo(), Of: web.Of[i]})
	}
	return j
}

// cargo lists the lines of the entry.
func (e *Entry) cargo() []cargo.Line {
	lines := make([]cargo.Line, len(e.lines))
	for i, l := range e.lines {
		lines[i] = cargo.Line{Text: l.Text, Seals: e.seals[i]}
		switch {
		case l.Slot:
			lines[i].Kind = cargo.Slot
		case l.Cell:
			lines[i].Kind = cargo.Cell
			if st := l.Stmt; st != nil {
				lines[i].Name = st.Name
				if st.Kind != lang.Chosen {
					lines[i].Reading = st.Kind.Word()
				}
			}
		}
	}
	for _, s := range e.Section.Slots {
		if i, ok := e.lineOf(s.Span); ok {
			lines[i].Plain = s.InHeading || s.InLink
		}
	}
	for _, t := range e.Section.Tables {
		for row := range t.Cells {
			for col := range t.Cells[row] {
				i, ok := e.cellLine(t, row, col)
				switch {
				case ok && t.Cells[row][col].Slot != nil:
					lines[i].Kind = cargo.SlotCell
				case ok:
					lines[i].Unit = t.BareUnit(row, col)
				}
			}
		}
	}
	return lines
}

// Calls names the functions of the trade that the entry's lines call, each once.
func (n *Notebook) Calls(e *Entry) []string {
	var names []string
	for _, l := range e.lines {
		if l.Stmt == nil {
			continue
		}
		for _, x := range l.Stmt.Exprs() {
			for _, name := range x.Calls {
				if !inList(names, name) {
					names = append(names, name)
				}
			}
		}
	}
	return names
}
