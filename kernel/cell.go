package kernel

import (
	"strings"

	"scarph/calc"
)

// cellName is the one name of a value: of a cell, that with the row first, whichever
// way it was written.
func (s *Session) cellName(name string) string {
	t, a, b := s.cellOf(name)
	if t == nil || t.isRow[a] && t.isColumn[b] || !t.isColumn[a] || !t.isRow[b] {
		return name
	}
	return t.name + "." + b + "." + a
}

// cellOf splits a name of three words that begins with a table's; nil when it is none.
func (s *Session) cellOf(name string) (t *table, a, b string) {
	family, rest, ok := strings.Cut(name, ".")
	if !ok || s.tables[family] == nil {
		return nil, "", ""
	}
	a, b, ok = strings.Cut(rest, ".")
	if !ok || strings.Contains(b, ".") {
		return nil, "", ""
	}
	return s.tables[family], a, b
}

// houseCells brings each reading to the node of its cell, now that the rows and columns
// of tables are known, and marks those whose table has no such cell.
func (u *update) houseCells(old map[string]*table) {
	s := u.s
	var list []*statement
	for name, n := range s.nodes {
		f := family(name)
		if strings.Count(name, ".") == 2 && (s.tables[f] != nil || old[f] != nil) {
			list = append(list, n.readings...)
		}
	}
	for _, r := range list {
		want := s.cellName(r.line.Stmt.Name)
		if want != r.node.name {
			u.move(r, want)
		}
		if t, a, b := s.cellOf(want); t != nil && !(t.isRow[a] && t.isColumn[b]) {
			r.node.stray = t.without(a, b)
			u.touch(r.node)
		}
	}
}

// move brings a reading to the node of another name.
func (u *update) move(r *statement, name string) {
	s, from := u.s, r.node
	to := s.nodes[name]
	if to == nil {
		to = &node{name: name}
		s.nodes[name] = to
	}
	for _, l := range r.links {
		if l.node != nil {
			l.node.removeUser(from)
			l.node.addUser(to)
		}
	}
	from.removeReading(r)
	r.node = to
	to.addReading(r)
	u.touch(from)
	u.touch(to)
	if len(from.readings) == 0 && from.parts == nil {
		u.removed = append(u.removed, gone{from.name, from.result})
		delete(s.nodes, from.name)
	}
}

// without says which of a cell's row and column the table does not have.
func (t *table) without(a, b string) *calc.Error {
	word, list, kind := a, append(append([]string{}, t.rows...), t.columns...), "row or column"
	switch {
	case t.isRow[a]:
		word, list, kind = b, t.columns, "column"
	case t.isColumn[a]:
		word, list, kind = b, t.rows, "row"
	}
	e := calc.Errorf(calc.CodeUnknownItem, "%s has no %s %s", t.name, kind, word)
	if near := calc.Nearest(word, list); near != "" {
		return e.WithHint("did you mean %s?", near)
	}
	return e.WithHint("there are %s", joined(list))
}
