package kernel

import (
	"strings"

	"scarph/calc"
)

// table is a data table of the journal, put together from every place that gives
// it: rows and columns in the order they are first met.
type table struct {
	name          string
	rows, columns []string
	// isRow and isColumn hold the same names: a table may have thousands.
	isRow, isColumn map[string]bool
	made            []string // names of the nodes it has put into the session
}

// touchesTable reports whether a cell has come or gone, so that rows and columns
// must be put together again.
func (u *update) touchesTable() bool {
	for name := range u.names {
		if u.s.tables[name] != nil {
			return true
		}
	}
	return false
}

// rebuildTables puts rows, columns and tables together from their cells.
func (u *update) rebuildTables() {
	s := u.s
	s.slips = slips{}
	for _, t := range s.tables {
		for _, name := range t.made {
			n := s.nodes[name]
			if n == nil {
				continue
			}
			for _, p := range n.parts {
				p.removeUser(n)
			}
			n.parts = []*node{}
			if len(n.readings) == 0 {
				delete(s.nodes, name)
			} else {
				n.parts = nil // a cell that a table left out has been given a reading
			}
		}
	}
	for _, n := range s.nodes {
		if n.clash != nil || n.stray != nil {
			n.clash, n.stray = nil, nil
			u.touch(n)
		}
	}
	old := s.tables
	s.tables = map[string]*table{}
	var order []*table
	for _, e := range s.entries {
		for _, d := range e.Tables {
			t := s.tables[d.Name]
			if t == nil {
				t = &table{name: d.Name, isRow: map[string]bool{}, isColumn: map[string]bool{}}
				s.tables[d.Name] = t
				order = append(order, t)
			}
			t.rows, t.columns = union(t.rows, d.Rows, t.isRow), union(t.columns, d.Columns, t.isColumn)
		}
	}
	u.houseCells(old)
	for _, t := range order {
		u.buildTable(t)
		u.changedName(t.name)
	}
	for name := range old {
		u.changedName(name)
	}
}

// union adds to a list what it does not have; had holds what it has.
func union(a, b []string, had map[string]bool) []string {
	for _, x := range b {
		if !had[x] {
			had[x] = true
			a = append(a, x)
		}
	}
	return a
}

func (u *update) buildTable(t *table) {
	s := u.s
	cell := func(row, col string) *node {
		name := t.name + "." + row + "." + col
		n := s.nodes[name]
		if n == nil { // a row or column that this cell's table left out
			n = &node{name: name, parts: []*node{}}
			s.nodes[name] = n
			t.made = append(t.made, name)
			u.touch(n)
		}
		other := t.name + "." + col + "." + row
		if _, taken := s.nodes[other]; !taken {
			alias := &node{name: other, parts: []*node{n}, labels: nil}
			n.addUser(alias)
			s.nodes[other] = alias
			t.made = append(t.made, other)
			u.touch(alias)
		}
		return n
	}
	var rows, cols []*node
	for _, r := range t.rows {
		var cells []*node
		for _, c := range t.columns {
			cells = append(cells, cell(r, c))
		}
		rows = append(rows, u.put(t, t.name+"."+r, cells, t.columns, false))
	}
	for i, c := range t.columns {
		var cells []*node
		for _, r := range t.rows {
			cells = append(cells, cell(r, c))
		}
		if n := s.nodes[t.name+"."+c]; n != nil && t.isRow[c] {
			n.clash = calc.Errorf(calc.CodeTable, "%s has a row and a column named %s", t.name, t.columns[i]).WithHint("rename one of them")
			continue
		}
		cols = append(cols, u.put(t, t.name+"."+c, cells, t.rows, false))
	}
	u.put(t, t.name, rows, t.rows, true)
}

func contains(list []string, s string) bool {
	for _, x := range list {
		if x == s {
			return true
		}
	}
	return false
}

// put makes the node of a row, a column or a table.
func (u *update) put(t *table, name string, parts []*node, labels []string, record bool) *node {
	n := &node{name: name, parts: parts, labels: labels, record: record}
	if was := u.s.nodes[name]; was != nil && len(was.readings) > 0 {
		was.clash = calc.Errorf(calc.CodeTwice, "%s is a data table and a value as well", name).WithHint("rename one of them")
		u.touch(was)
		return was
	} else if was != nil {
		n.users = was.users
	}
	for _, p := range parts {
		p.addUser(n)
	}
	u.s.nodes[name] = n
	t.made = append(t.made, name)
	u.touch(n)
	return n
}

// isCellName reports whether a name is one of a table's cells.
func (s *Session) isCellName(name string) bool {
	return strings.Count(name, ".") == 2 && s.tables[family(name)] != nil
}
