package kernel

import (
	"math"
	"slices"
	"sort"

	"scarph/calc"
)

// tally is all that the journal records of the making of one thing, line after line:
// what was made, and what was done about it.
type tally struct {
	s     *Session
	thing string
	lines int // that it has gone through
	// plain is a line that says no more than how many, and alike the sizes of all such when
	// a settle line last asked.
	plain *statement
	alike *sizes
	// right is how many batches, from the first on, need no second look: they are right by
	// these sizes, or past.
	right int
	count float64 // of all pieces
	owed  float64 // of those whose place others have not yet taken
	// batches stand in the order of their lines, those of a line side by side. Tallies
	// share them: one that changes is put in its place anew.
	batches []*batch
}

// batch is a number of pieces of one made line to which the same has been done.
type batch struct {
	from *statement
	// count is how many there are; 0 for what is no part, and when all are gone.
	count float64
	gone  float64 // how many others were made in place of
	// instead is how many were made in place of others.
	instead float64
	first   []calc.Field // the sizes as cut on the day of the line
	sizes   sizes        // as they are
	// accepted are the sizes against which they are right until the numbers move again.
	accepted sizes
	settled  *Settlement // the last
	// owed is set for pieces that were replaced by others of which no made line tells
	// yet: those made next are the others.
	owed bool
	// alike is set where the line says no more than how many, so that the sizes are those
	// of all such lines.
	alike bool
	// off is what was found when it was last judged, by the sizes of then.
	judged *sizes
	off    bool
}

// tallyOf tells of a thing as of a view.
func (s *Session) tallyOf(thing string, v *view) *tally { return s.chronicle(thing).asOf(v.upTo) }

// tallies tells of all things as of a view.
func (s *Session) tallies(v *view) map[string]*tally {
	all := map[string]*tally{}
	s.chronicle("")
	for thing, c := range s.chronicles {
		if t := c.asOf(v.upTo); len(t.batches) > 0 {
			all[thing] = t
		}
	}
	return all
}

// make enters a made line. Its pieces take the place of those that were replaced.
func (t *tally) make(r *statement) {
	z := t.s.sizesOf(r, t.s.viewAt(r.entry.order))
	b := &batch{from: r, count: z.count, first: slices.Clone(z.sizes), sizes: z, accepted: z, alike: r.line.Stmt.IsCount()}
	if b.alike && z.err == nil && t.plain == nil {
		t.plain = r
	}
	left := min(b.count, t.owed)
	for i := 0; left > 0 && i < len(t.batches); i++ {
		if old := t.batches[i]; old.owed && old.count > 0 {
			n := min(left, old.count)
			old = t.anew(i)
			old.count -= n
			old.gone += n
			left -= n
			b.instead += n
		}
	}
	t.owed -= b.instead
	t.count += b.count - b.instead
	t.batches = append(t.batches, b)
}

// anew puts a batch of this tally's own in the place of one, to be changed.
func (t *tally) anew(i int) *batch {
	b := *t.batches[i]
	t.batches[i] = &b
	return &b
}

// of are the batches of a made line.
func (t *tally) of(r *statement) []*batch {
	i := sort.Search(len(t.batches), func(i int) bool { return !t.batches[i].from.before(r) })
	k := i
	for k < len(t.batches) && t.batches[k].from == r {
		k++
	}
	return t.batches[i:k]
}

// off is how many of them are off in a view, and not settled.
func (t *tally) off(v *view) float64 {
	n := 0.0
	var last *statement
	for _, b := range t.batches {
		if b.from == last {
			continue // the batches of a line stand side by side
		}
		last = b.from
		for _, m := range t.s.made(last, v, t) {
			if m.Off {
				n += m.Count
			}
		}
	}
	return n
}

// countFault says why a number is no count of things made, nil when it is one.
func countFault(n calc.Value, style calc.Style) *calc.Error {
	if n.IsQuantity() && n.D.IsNumber() && n.V == math.Trunc(n.V) && n.V >= 0 {
		return nil
	}
	what := n.What()
	if n.IsQuantity() {
		what = style.Text(n)
	}
	return calc.Errorf(calc.CodePart, "how many is a whole number; this is %s", what).WithHint("write made thwart: 2")
}
