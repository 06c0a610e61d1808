package kernel

import (
	"strings"

	"scarph/calc"
	"scarph/calc/lang"
)

// mostCompared is how many names are held against each other in search of slips until
// names come or go, so that a journal of very many names does not pay for it.
const mostCompared = 2_000_000

// doubtOf is what makes a reading doubtful that is no error: a second one of its kind in
// one entry; or a name that nothing in the journal speaks of and that is a slip of the
// finger away from another's, for found plankng = 7/16" beside planking is a measurement
// that goes nowhere.
func (s *Session) doubtOf(r *statement, v *view) string {
	n := r.node
	if n.nameless() || r.refused != nil {
		return ""
	}
	switch r.kind() {
	case lang.DrawnAs, lang.FoundAs, lang.BuiltAs, lang.Guessed:
		if r.secondInEntry() {
			return "the second " + r.kind().Word() + " reading of " + n.name + " in this entry; it is the one that counts"
		}
	case lang.Chosen:
	default:
		return ""
	}
	if len(n.users) > 0 || r.line.Cell || n.readings[0] != r || n.parts != nil {
		return ""
	}
	if d := v.result(n); d.OK() {
		if meant := s.slipOf(n, d.Value, v); meant != "" {
			return "nothing speaks of " + n.name + "; is it " + meant + "?"
		}
	}
	return ""
}

// slips keeps for names which others are a letter off them, as long as no name comes or
// goes.
type slips struct {
	near     map[string][]*node
	compared int // names that were held against each other
}

// slipOf is the name that n was likely meant to be, as names stand since the last update.
func (s *Session) slipOf(n *node, x calc.Value, v *view) string {
	meant := ""
	for _, o := range s.slipsOf(n) {
		if len(o.readings) == 0 || len(o.users) == 0 && len(o.readings) == 1 || meant != "" && o.name >= meant {
			continue
		}
		if was := v.result(o); !was.OK() || was.Value.D == x.D && was.Value.Kind() == x.Kind() {
			meant = o.name
		}
	}
	return meant
}

// slipsOf lists what bears a name one letter off that of n.
func (s *Session) slipsOf(n *node) []*node {
	if s.slips.near == nil {
		s.slips.near = map[string][]*node{}
	}
	list, ok := s.slips.near[n.name]
	if ok || s.slips.compared+len(s.nodes) > mostCompared {
		return list
	}
	s.slips.compared += len(s.nodes)
	for name, o := range s.nodes {
		if isSlip(n.name, name) {
			list = append(list, o)
		}
	}
	s.slips.near[n.name] = list
	return list
}

// isSlip reports whether a name is one letter off another: one wrong, missing, added, in
// the wrong place or in the other case. Names that differ by a digit, by the s of a
// plural or by a word of one letter (side_a, side_b) are meant to.
func isSlip(a, b string) bool {
	if len(a) < 4 || len(a)-len(b) > 1 || len(b)-len(a) > 1 || a == b {
		return false
	}
	if strings.EqualFold(a, b) {
		return true
	}
	a, b = strings.ToLower(a), strings.ToLower(b)
	i := 0
	for i < len(a) && i < len(b) && a[i] == b[i] {
		i++
	}
	x, y := a[i:], b[i:]
	switch {
	case len(x) == len(y):
		if len(x) > 1 && x[0] == y[1] && x[1] == y[0] && x[2:] == y[2:] {
			return !isDigit(x[0]) && !isDigit(x[1])
		}
		return x[1:] == y[1:] && !isDigit(x[0]) && !isDigit(y[0]) && !alone(a, i)
	case len(x) > len(y):
		return x[1:] == y && !addition(a, i)
	}
	return x == y[1:] && !addition(b, i)
}

func isDigit(c byte) bool { return '0' <= c && c <= '9' }

// addition reports whether the letter at i makes another name of the rest: a digit, an
// s at the end of a word, a word or a stroke of its own.
func addition(s string, i int) bool {
	ends := i+1 == len(s) || s[i+1] == '_' || s[i+1] == '.'
	return isDigit(s[i]) || s[i] == '.' || s[i] == 's' && ends || alone(s, i)
}

// alone reports whether the letter at i is a word by itself.
func alone(s string, i int) bool {
	begins := i == 0 || s[i-1] == '_' || s[i-1] == '.'
	ends := i+1 == len(s) || s[i+1] == '_' || s[i+1] == '.'
	return begins && ends
}
