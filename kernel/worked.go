package kernel

import (
	"strings"

	"scarph/calc"
	"scarph/calc/lang"
)

// Worked returns the values of a line's expressions as of an entry, in the order of
// the statement's Exprs; false when the line has no result of its own.
func (s *Session) Worked(ref LineRef, asOf int) ([]calc.Value, bool) {
	s.enter()
	defer s.mu.Unlock()
	r := s.statementAt(ref)
	if r == nil || r.line.Stmt == nil || !r.linked || !s.ownResult(r, s.viewAt(asOf)).OK() {
		return nil, false
	}
	v := s.viewAt(asOf)
	list := make([]calc.Value, len(r.exprs))
	for i := range r.exprs {
		ev := &evaluation{v: v, r: r, res: &Result{}}
		list[i] = ev.run(i)
		if !ev.ok() {
			return nil, false
		}
	}
	return list, true
}

// Failing reports which of a line's expressions cannot be worked out by themselves, in the
// order of the statement's Exprs.
func (s *Session) Failing(ref LineRef, asOf int) []bool {
	s.enter()
	defer s.mu.Unlock()
	r := s.statementAt(ref)
	if r == nil || r.line.Stmt == nil {
		return nil
	}
	v := s.viewAt(asOf)
	list := make([]bool, len(r.exprs))
	for i := range r.exprs {
		ev := &evaluation{v: v, r: r, res: &Result{}}
		ev.run(i)
		list[i] = !ev.ok()
	}
	return list
}

// Listed is the name under which the list of dimensions has what a name means: the
// name itself, the row of a cell, the first row of a column or a table, the value that
// an item or a size belongs to; "" for what nothing is named. Given reports whether a
// reading can be given of the name.
func (s *Session) Listed(name string) (listed string, given bool) {
	s.enter()
	defer s.mu.Unlock()
	n, items := s.resolve(name)
	if n == nil {
		return "", false
	}
	n = n.bearer()
	given = len(items) == 0 && len(n.readings) > 0 && n.readings[0].kind() != lang.PartLine
	for len(n.readings) == 0 && len(n.parts) > 0 {
		n = n.parts[0]
	}
	listed = n.name
	if s.isCellName(listed) {
		listed = listed[:strings.LastIndexByte(listed, '.')]
	}
	return listed, given
}

// Tables lists the data tables with all their rows and columns, in the journal's order.
func (s *Session) Tables() []Table {
	s.enter()
	defer s.mu.Unlock()
	var list []Table
	for _, t := range s.tablesInOrder() {
		list = append(list, Table{Name: t.name, Rows: append([]string(nil), t.rows...), Columns: append([]string(nil), t.columns...)})
	}
	return list
}
