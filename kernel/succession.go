package kernel

import (
	"sort"

	"scarph/calc/lang"
)

// succession is how the readings of a value follow one another. It is worked out once and
// kept: a value may be measured a thousand times.
type succession struct {
	// counts are the readings that count, each from its entry on until that of the next.
	counts []*statement
	// displaced is, for each reading, the one that counted until it.
	displaced []*statement
}

// following is the succession of the readings of a node.
func (n *node) following() *succession {
	if n.succession != nil {
		return n.succession
	}
	z := &succession{displaced: make([]*statement, len(n.readings))}
	var w, given *statement // given is the last with a number, for one that is empty displaces nothing
	strength, standing := 0, 0
	for i, r := range n.readings {
		z.displaced[i] = given
		if r.refused == nil && !(r.line.Empty && w != nil) {
			k := r.kind().Strength()
			if r.kind() == lang.Revised && w != nil && k < strength {
				k = strength // a revision takes the place, and the standing, of what it displaces
			}
			if w == nil || k >= strength {
				w, strength = r, k
			}
		}
		if r.refused == nil && !r.line.Empty {
			if k := r.kind().Strength(); given == nil || k >= standing || r.kind() == lang.Revised {
				given, standing = r, max(k, standing)
			}
		}
		last := len(z.counts) - 1
		switch {
		case w == nil || last >= 0 && z.counts[last] == w:
		case last >= 0 && z.counts[last].entry == w.entry:
			z.counts[last] = w
		default:
			z.counts = append(z.counts, w)
		}
	}
	n.succession = z
	return z
}

// place is where a reading stands, or would stand, in a list in the journal's order.
func (r *statement) place(list []*statement) int {
	return sort.Search(len(list), func(i int) bool { return !list[i].before(r) })
}

// reading returns the statement that gives the value its number, counting entries
// up to the given order: the latest, unless it is weaker than one before it.
func (n *node) reading(upTo int) *statement {
	switch len(n.readings) {
	case 0:
		return nil
	case 1:
		if r := n.readings[0]; r.refused == nil && r.entry.order <= upTo {
			return r
		}
		return nil
	}
	list := n.following().counts
	i := sort.Search(len(list), func(i int) bool { return list[i].entry.order > upTo })
	if i == 0 {
		return nil
	}
	return list[i-1]
}

// displacedBy is the reading that counted until r did.
func displacedBy(r *statement) *statement {
	list := r.node.readings
	if len(list) < 2 {
		return nil
	}
	if i := r.place(list); i < len(list) && list[i] == r {
		return r.node.following().displaced[i]
	}
	return nil
}

// successor is the reading that took the place of r as of a view, when r counted.
func (n *node) successor(r *statement, v *view) *statement {
	if len(n.readings) < 2 {
		return nil
	}
	list := n.following().counts
	i := r.place(list)
	if i+1 >= len(list) || list[i] != r || list[i+1].entry.order > v.upTo {
		return nil
	}
	return list[i+1]
}

// mostSteps is how many of the readings between two are told one by one.
const mostSteps = 8

// between lists the readings that counted after one was displaced and before the one
// that counts, and how many of them are left out in the middle.
func (s *Session) between(r, w *statement, v *view) (steps []*Reading, skipped int) {
	list := r.node.following().counts
	from, to := r.place(list), w.place(list)
	if from >= to { // a guess that never counted beside what was measured before
		return nil, 0
	}
	list = list[from:to]
	if list[0] == r || list[0].line.Empty { // only the first can be empty
		list = list[1:]
	}
	if skipped = len(list) - mostSteps; skipped > 1 { // to leave out one saves nothing
		list = append(list[:mostSteps/2:mostSteps/2], list[len(list)-mostSteps/2:]...)
	} else {
		skipped = 0
	}
	for _, x := range list {
		steps = append(steps, s.readingUntil(r.node, x, v))
	}
	return steps, skipped
}
