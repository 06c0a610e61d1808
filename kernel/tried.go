package kernel

import "scarph/calc"

// Tried is a line under a what-if.
type Tried struct {
	Outcome
	// Filled is its working with the numbers put in as they would be; "" for what is no sum.
	Filled string
}

// EntryIf gives the lines of an entry that hang on the tried values, as they would be:
// what they come to, their working, both sides of checks, what was made.
func (s *Session) EntryIf(values map[string]string, key string, style calc.Style) (map[LineRef]Tried, *calc.Error) {
	s.enter()
	defer s.mu.Unlock()
	v, err := s.whatIf(values, Now)
	if err != nil {
		return nil, err
	}
	out := map[LineRef]Tried{}
	if e := s.byKey[key]; e != nil {
		for _, r := range e.stmts {
			if v.touches(r) {
				z := Tried{Outcome: s.outcome(r, v)}
				_, z.Filled = s.formula(r, v, style)
				out[z.Ref] = z
			}
		}
	}
	return out, nil
}

// Hanging lists the lines of an entry, by their places in it, that hang on names.
func (s *Session) Hanging(names []string, key string) []int {
	s.enter()
	defer s.mu.Unlock()
	v := &view{hit: map[*node]bool{}}
	for _, name := range names {
		if n, _ := s.resolve(name); n != nil {
			v.mark(n.bearer())
		}
	}
	var list []int
	if e := s.byKey[key]; e != nil {
		for i, r := range e.stmts {
			if v.touches(r) {
				list = append(list, i)
			}
		}
	}
	return list
}

// touches reports whether a line hangs on what a what-if displaces.
func (v *view) touches(r *statement) bool {
	if v.hit[r.node] {
		return true
	}
	for _, l := range r.links {
		if l.node != nil && v.hit[l.node] {
			return true
		}
	}
	return false
}

// LineFormulaIf is LineFormula under a what-if.
func (s *Session) LineFormulaIf(values map[string]string, ref LineRef, style calc.Style) (text, filled string) {
	s.enter()
	defer s.mu.Unlock()
	v, err := s.whatIf(values, Now)
	r := s.statementAt(ref)
	if err != nil || r == nil {
		return "", ""
	}
	return s.formula(r, v, style)
}
