package kernel

import (
	"slices"
	"sort"

	"scarph/calc"
	"scarph/calc/lang"
)

// chronicle is all that the journal tells of the making of one thing. Its lines are gone
// through once; a question about a day goes on from where an earlier one ended.
type chronicle struct {
	s      *Session
	thing  string
	lines  []*statement               // made and settle lines, in the journal's order
	made   []*statement               // the made lines of them
	faults map[*statement]*calc.Error // of settle lines that cannot be so
	tolls  map[*statement]toll        // of made lines
	// tallies are those that have been asked for, of ever more lines.
	tallies []*tally
}

// toll is what there is after a made line.
type toll struct {
	total   float64
	instead float64 // of the line, in place of others
}

// chronicle is that of a thing; one of which nothing is told is empty.
func (s *Session) chronicle(thing string) *chronicle {
	if s.chronicles == nil {
		s.chronicles = map[string]*chronicle{}
		for thing, lines := range s.records() {
			c := &chronicle{s: s, thing: thing, lines: lines, faults: map[*statement]*calc.Error{}, tolls: map[*statement]toll{}}
			for _, r := range lines {
				if r.kind() == lang.MadeLine {
					c.made = append(c.made, r)
				}
			}
			s.chronicles[thing] = c
		}
	}
	if c := s.chronicles[thing]; c != nil {
		return c
	}
	return &chronicle{s: s, thing: thing}
}

// records are the made and settle lines by what they speak of, in the journal's order.
func (s *Session) records() map[string][]*statement {
	by := map[string][]*statement{}
	for _, kind := range [...]lang.Kind{lang.MadeLine, lang.Settle} {
		for r := range s.kinds[kind] {
			by[r.line.Stmt.Name] = append(by[r.line.Stmt.Name], r)
		}
	}
	for _, lines := range by {
		sort.Slice(lines, func(i, j int) bool { return lines[i].before(lines[j]) })
	}
	return by
}

// asOf is the tally up to an entry. It is not to be changed.
func (c *chronicle) asOf(order int) *tally {
	return c.first(sort.Search(len(c.lines), func(i int) bool { return c.lines[i].entry.order > order }))
}

// maxTallies is how many are kept of those that were asked for.
const maxTallies = 128

// first is the tally of the first n lines. It is not to be changed.
func (c *chronicle) first(n int) *tally {
	i := sort.Search(len(c.tallies), func(i int) bool { return c.tallies[i].lines >= n })
	if i < len(c.tallies) && c.tallies[i].lines == n {
		return c.tallies[i]
	}
	t := &tally{s: c.s, thing: c.thing}
	if i > 0 {
		t = c.tallies[i-1].clone()
	}
	c.goOn(t, n)
	if len(c.tallies) == maxTallies { // every second will do, and the last
		for k := range maxTallies / 2 {
			c.tallies[k] = c.tallies[2*k+1]
		}
		c.tallies = slices.Delete(c.tallies, maxTallies/2, maxTallies)
		i /= 2
	}
	c.tallies = slices.Insert(c.tallies, i, t)
	return t
}

// goOn takes a tally through the lines up to the n-th.
func (c *chronicle) goOn(t *tally, n int) {
	for _, r := range c.lines[t.lines:n] {
		if r.kind() == lang.MadeLine {
			t.make(r)
			c.tolls[r] = toll{t.count, t.batches[len(t.batches)-1].instead}
		} else {
			c.faults[r] = t.settle(r) // a line that cannot be so changes nothing
		}
	}
	t.lines = n
}

// clone is a tally that can go on without changing this one.
func (t *tally) clone() *tally {
	z := *t
	z.batches = slices.Clone(t.batches)
	return &z
}

// lastMade is the last made line before a statement, nil where there is none.
func (c *chronicle) lastMade(r *statement) *statement {
	i := sort.Search(len(c.made), func(i int) bool { return !c.made[i].before(r) })
	if i == 0 {
		return nil
	}
	return c.made[i-1]
}
