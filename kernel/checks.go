package kernel

import "scarph/calc/lang"

// Check is a check with both its sides.
type Check struct {
	Text        string
	Note        string
	Place       Place
	Entry       EntryRef
	Ref         LineRef
	Result      *Result
	Holds       bool
	Left, Right *Result // nil when the check is not one comparison
	Sign        string
	Private     bool
}

// Checks lists the checks as of an entry, in the journal's order.
func (s *Session) Checks(asOf int) []Check {
	s.mu.Lock()
	defer s.mu.Unlock()
	v := s.viewAt(asOf)
	var list []Check
	s.each(lang.Check, v, func(r *statement) { list = append(list, s.check(r, v)) })
	return list
}

// each calls f for the statements of one kind up to the view's entry.
func (s *Session) each(kind lang.Kind, v *view, f func(*statement)) {
	for _, e := range s.entries {
		if e.order > v.upTo {
			return
		}
		for _, r := range e.stmts {
			if r.line.Stmt != nil && r.kind() == kind {
				f(r)
			}
		}
	}
}

func (s *Session) check(r *statement, v *view) Check {
	st := r.line.Stmt
	res := v.result(r.node).Result
	c := Check{Text: st.Text, Note: st.Note, Place: r.line.Place, Entry: r.entry.ref(), Ref: LineRef{r.entry.Key, r.index}, Result: res, Holds: res.OK() && res.Value.True(), Sign: st.Sign, Private: r.line.Private}
	if st.Left != nil && st.Right != nil && res.OK() {
		side := func(i int) *Result {
			x := &Result{Reading: r}
			ev := &evaluation{v: v, r: r, res: x}
			x.Value = ev.run(i)
			return x
		}
		c.Left, c.Right = side(1), side(2)
	}
	return c
}
