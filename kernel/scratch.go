package kernel

import (
	"context"

	"scarph/calc"
	"scarph/calc/lang"
)

// Eval works out an expression in the journal's scope as of an entry; it may end
// in "to UNIT". Nothing is kept. The error is that of a text that cannot be read;
// what goes wrong in the working out stands in the result.
func (s *Session) Eval(ctx context.Context, text string, asOf int) (*Result, *calc.Error) {
	s.enter()
	defer s.mu.Unlock()
	s.ctx = ctx
	defer func() { s.ctx = nil }()
	return s.scratch(text, s.viewAt(asOf))
}

func (s *Session) scratch(text string, v *view) (*Result, *calc.Error) {
	st, err := lang.ParseSlot(text)
	if err != nil {
		return nil, err
	}
	return s.helped(s.scratchStatement(st, v)), nil
}

// scratchStatement works out a statement that is not part of the journal.
func (s *Session) scratchStatement(st *lang.Stmt, v *view) *Result {
	e := &entry{order: v.upTo}
	r := &statement{line: &Line{Text: st.Text, Stmt: st}, entry: e}
	r.node = lineNode(r)
	s.link(r)
	defer func() {
		s.unlink(r, nil)
		s.forget(r)
	}()
	return v.evaluate(r)
}

// Names lists the names of values, sorted, without the cells of tables.
func (s *Session) Names() []string {
	s.enter()
	defer s.mu.Unlock()
	var list []string
	for _, name := range s.names() {
		if !s.isCellName(name) {
			list = append(list, name)
		}
	}
	return list
}

// Value is the value of a name as of an entry; false when nothing bears it.
func (s *Session) Value(name string, asOf int) (*Result, bool) {
	s.enter()
	defer s.mu.Unlock()
	n, fields := s.resolve(name)
	if n == nil {
		return nil, false
	}
	d := s.viewAt(asOf).result(n)
	res := d.Result
	for _, f := range fields {
		if !res.OK() {
			return res, true
		}
		x, err := lang.Member(res.Value, f)
		if err != nil {
			return &Result{Err: err}, true
		}
		c := *res
		c.Value = x
		res = &c
	}
	return res, true
}

// Members lists what may stand after a name and a dot: rows, columns, labels, fields.
func (s *Session) Members(name string) []string {
	s.enter()
	defer s.mu.Unlock()
	return s.members(name)
}

func (s *Session) members(name string) []string {
	var list []string
	if t := s.tables[name]; t != nil {
		return append(append(list, t.rows...), t.columns...)
	}
	n, _ := s.resolve(name)
	if n == nil {
		return nil
	}
	if res := s.now().result(n); res.OK() {
		list = append(list, res.Value.Labels()...)
	}
	return list
}

// HangsOn lists the names that use a value, directly or through others, in the
// journal's order.
func (s *Session) HangsOn(name string) []string {
	s.enter()
	defer s.mu.Unlock()
	n, _ := s.resolve(name)
	if n == nil {
		return nil
	}
	v := &view{s: s, hit: map[*node]bool{}}
	v.mark(n)
	var list []string
	for _, x := range v.inOrder() {
		if x != n && !x.nameless() && (len(x.readings) > 0 || x.record) && !s.isCellName(x.name) {
			list = append(list, x.name)
		}
	}
	return list
}

// Formula writes the working of a name: the expression as written, and with the
// numbers put in. Both are "" when the value is a plain reading.
func (s *Session) Formula(name string, asOf int) (text, filled string) {
	s.enter()
	defer s.mu.Unlock()
	n, _ := s.resolve(name)
	if n == nil {
		return "", ""
	}
	v := s.viewAt(asOf)
	r := v.winner(n)
	if r == nil {
		return "", ""
	}
	return s.formula(r, v, s.style)
}

// Written is the right side of the reading that counts, as it stands in the journal; ""
// when there is none.
func (s *Session) Written(name string, asOf int) string {
	s.enter()
	defer s.mu.Unlock()
	n, _ := s.resolve(name)
	if n == nil {
		return ""
	}
	if r := s.viewAt(asOf).winner(n); r != nil && r.line.Stmt != nil && r.line.Stmt.Expr != nil {
		return r.line.Stmt.Expr.Text
	}
	return ""
}

// LineFormula is Formula for a line, with the numbers in a style.
func (s *Session) LineFormula(ref LineRef, asOf int, style calc.Style) (text, filled string) {
	s.enter()
	defer s.mu.Unlock()
	r := s.statementAt(ref)
	if r == nil {
		return "", ""
	}
	return s.formula(r, s.viewAt(asOf), style)
}

func (s *Session) formula(r *statement, v *view, style calc.Style) (string, string) {
	st := r.line.Stmt
	if st == nil || st.Expr == nil || len(st.Expr.Needs) == 0 {
		return "", ""
	}
	filled := st.Expr.Fill(func(need lang.Need) string {
		for _, l := range r.links {
			if *l.need == need && l.node != nil {
				ev := &evaluation{v: v, r: r, res: &Result{}}
				x := ev.lookup(l)
				if ev.ok() && (x.IsQuantity() || x.Kind() == calc.Text || x.Kind() == calc.List && len(x.Items()) <= 4) {
					return style.Text(x)
				}
			}
		}
		return need.Path
	})
	return st.Expr.Text, filled
}
