package kernel

import "scarph/calc/lang"

// WrongLine is a line whose result is an error of its own.
type WrongLine struct {
	Ref   LineRef
	Place Place
	Order int // of its entry
}

// Wrong lists the lines that are wrong as of an entry, in the journal's order, without
// those that only wait for another, and counts the checks that do not hold.
func (s *Session) Wrong(asOf int) (lines []WrongLine, failing int) {
	s.enter()
	defer s.mu.Unlock()
	v := s.viewAt(asOf)
	for _, e := range s.entries {
		if e.order > v.upTo {
			break
		}
		for i, r := range e.stmts {
			res := s.ownResult(r, v)
			fault := res.Err
			if r.kind() == lang.Settle && res.OK() {
				fault = s.settleFault(r)
			}
			if r.kind() == lang.Check && res.OK() && !res.Value.True() {
				failing++
			}
			if fault != nil {
				lines = append(lines, WrongLine{LineRef{e.Key, i}, r.line.Place, e.order})
			}
		}
	}
	return lines, failing
}
