package kernel

import (
	"sort"

	"scarph/calc/lang"
)

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
	s.enter()
	defer s.mu.Unlock()
	v := s.viewAt(asOf)
	var list []Check
	s.each(lang.Check, v, func(r *statement) { list = append(list, s.check(r, v)) })
	return list
}

// each calls f for the statements of one kind up to the view's entry, in the
// journal's order.
func (s *Session) each(kind lang.Kind, v *view, f func(*statement)) {
	list := make([]*statement, 0, len(s.kinds[kind]))
	for r := range s.kinds[kind] {
		if r.entry.order <= v.upTo {
			list = append(list, r)
		}
	}
	sort.Slice(list, func(i, j int) bool { return list[i].before(list[j]) })
	for _, r := range list {
		f(r)
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
