package kernel

import (
	"scarph/calc"
	"scarph/calc/lang"
)

// Place is where a statement stands: a file and a one-based line and column, the
// column counted in runes.
type Place struct {
	File   string
	Line   int
	Column int
}

// Entry is one dated piece of the journal, as the notebook read it. Entries are
// given in the journal's order.
type Entry struct {
	Key   string // its identity from one update to the next
	Title string
	Date  string // ISO 8601, "" when it has none
	Draft bool
	Lines []Line
	// Tables declares the data tables of the entry; their cells are Lines.
	Tables []Table
}

// Line is one statement, slot or cell of an entry.
type Line struct {
	Text  string
	Stmt  *lang.Stmt  // nil when it could not be read
	Err   *calc.Error // why not
	Place Place
	// Slot marks a slot of the running text, Cell a cell of a data table.
	Slot, Cell bool
	// Empty marks an empty cell: a reading of nothing.
	Empty bool
	// Private lines are left out of everything that is published.
	Private bool
}

// Table declares a data table: offsets with its rows and columns. The cells are
// named NAME.ROW.COLUMN.
type Table struct {
	Name          string
	Rows, Columns []string
	Place         Place
}

// sameLine reports whether two lines say the same, wherever they stand.
func sameLine(a, b *Line) bool {
	return a.Text == b.Text && a.Slot == b.Slot && a.Cell == b.Cell && a.Empty == b.Empty && a.Private == b.Private &&
		(a.Stmt == nil) == (b.Stmt == nil) && (a.Stmt == nil || a.Stmt.Kind == b.Stmt.Kind && a.Stmt.Name == b.Stmt.Name)
}

func sameTables(a, b []Table) bool {
	if len(a) != len(b) {
		return false
	}
	for i := range a {
		if a[i].Name != b[i].Name || !sameNames(a[i].Rows, b[i].Rows) || !sameNames(a[i].Columns, b[i].Columns) {
			return false
		}
	}
	return true
}

func sameNames(a, b []string) bool {
	if len(a) != len(b) {
		return false
	}
	for i := range a {
		if a[i] != b[i] {
			return false
		}
	}
	return true
}
