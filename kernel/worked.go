package kernel

import (
	"strings"

	"scarph/calc"
)

// Worked returns the values of a line's expressions as of an entry, in the order of
// the statement's Exprs; false when the line has no result of its own.
func (s *Session) Worked(ref LineRef, asOf int) ([]calc.Value, bool) {
	s.mu.Lock()
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

// RowOf is the row that a cell of a data table stands in, TABLE.ROW; false for what is
// no cell.
func (s *Session) RowOf(name string) (string, bool) {
	s.mu.Lock()
	defer s.mu.Unlock()
	n, fields := s.resolve(name)
	if n == nil || len(fields) > 0 {
		return "", false
	}
	n = n.bearer()
	if !s.isCellName(n.name) {
		return "", false
	}
	return n.name[:strings.LastIndexByte(n.name, '.')], true
}

// Tables lists the data tables with all their rows and columns, in the journal's order.
func (s *Session) Tables() []Table {
	s.mu.Lock()
	defer s.mu.Unlock()
	var list []Table
	for _, t := range s.tablesInOrder() {
		list = append(list, Table{Name: t.name, Rows: append([]string(nil), t.rows...), Columns: append([]string(nil), t.columns...)})
	}
	return list
}
