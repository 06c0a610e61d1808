package kernel

import (
	"math"
	"slices"
	"sort"

	"scarph/calc"
	"scarph/calc/lang"
)

// tally is all that the journal records of the making of one thing, line after line:
// what was made, and what was done about it.
type tally struct {
	s     *Session
	thing string
	lines int // that it has gone through
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
	left := b.count
	for i, old := range t.batches {
		if n := min(left, old.count); old.owed && n > 0 {
			old = t.anew(i)
			old.count -= n
			old.gone += n
			left -= n
			b.instead += n
		}
	}
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

// total is how many there are.
func (t *tally) total() float64 {
	n := 0.0
	for _, b := range t.batches {
		n += b.count
	}
	return n
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

// settle enters a settle line, or says why it cannot be so: nothing was made that it
// could settle, fewer than it says, a size that the thing does not have, or wood that
// would have to grow. A line that has no result of its own changes nothing.
func (t *tally) settle(x *statement) *calc.Error {
	st := x.line.Stmt
	res := t.s.viewAt(x.entry.order).evaluate(x)
	if !res.OK() {
		return nil
	}
	if len(t.batches) == 0 {
		return calc.Errorf(calc.CodePart, "nothing of %s has been made before this line", st.Name).At(st.NameSpan).
			WithHint("settle says what was done about what is made; made %s: 2 says that some are", st.Name)
	}
	done := settlementOf(x, res)
	list, err := t.meant(x, done.Count)
	if err != nil {
		return err
	}
	for _, p := range list {
		if e := t.cannot(p, done, st); e != nil {
			return e
		}
	}
	// the last first: what a batch is cut from moves those after it
	sort.Slice(list, func(i, j int) bool { return list[i].at > list[j].at })
	for _, p := range list {
		t.cut(p).be(done, p.now)
	}
	return nil
}

// settlementOf is what a settle line with a result says.
func settlementOf(x *statement, res *Result) *Settlement {
	st := x.line.Stmt
	done := &Settlement{How: st.How, Note: st.Note, Entry: x.entry.ref(), Place: x.line.Place}
	for _, f := range fieldsOf(res.Value) {
		if f.Name == "count" && st.Expr != nil {
			done.Count = f.Value.V
		} else {
			done.Sizes = append(done.Sizes, f)
		}
	}
	return done
}

// portion is how many pieces of a batch a settle line means, with the sizes they should
// have had on the day of that line.
type portion struct {
	*batch
	at  int // of the batch, in the tally
	of  float64
	now *sizes
}

// meant finds the pieces that a settle line speaks of: those that are off, or, where none
// is, all; where it says how many, so many, those that are off before the others.
func (t *tally) meant(x *statement, count float64) ([]portion, *calc.Error) {
	st := x.line.Stmt
	v := t.s.viewAt(x.entry.order)
	var alike *sizes // of all lines that say no more than how many
	now := func(b *batch) *sizes {
		if alike != nil && b.alike {
			return alike
		}
		z := t.s.sizesOf(b.from, v)
		if b.alike {
			alike = &z
		}
		return &z
	}
	var list []portion
	var right []int
	pieces := 0.0
	for i, b := range t.batches {
		if b.sizes.err != nil || b.gone > 0 && b.count == 0 {
			continue
		}
		is := now(b)
		if is.err != nil {
			continue
		}
		pieces += b.count
		if b.isOff(is, t.s.style) {
			list = append(list, portion{b, i, b.count, is})
		} else {
			right = append(right, i)
		}
	}
	if st.Expr == nil {
		count = math.Inf(1)
		if len(list) > 0 {
			right = nil
		}
	} else if count > pieces {
		number := func(n float64) string { return t.s.style.Text(calc.Number(n)) }
		return nil, calc.Errorf(calc.CodePart, "%s of %s are more than the %s made before this line", number(count), st.Name, number(pieces)).At(st.Expr.Span)
	}
	for i := range list {
		list[i].of = min(list[i].of, count)
		count -= list[i].of
	}
	list = slices.DeleteFunc(list, func(p portion) bool { return st.Expr != nil && p.of == 0 })
	for _, i := range right {
		if count <= 0 {
			break
		}
		b := t.batches[i]
		if n := min(b.count, count); n > 0 || st.Expr == nil {
			list = append(list, portion{b, i, n, now(b)})
			count -= n
		}
	}
	return list, nil
}

// isOff reports whether a size of a batch is off where the sizes should be now.
func (b *batch) isOff(now *sizes, style calc.Style) bool {
	for _, f := range b.sizes.sizes {
		if isOff(f, now, &b.accepted, style) {
			return true
		}
	}
	return false
}

// cannot says why a settlement cannot be done to pieces, nil when it can.
func (t *tally) cannot(p portion, done *Settlement, st *lang.Stmt) *calc.Error {
	for i, f := range done.Sizes {
		if e := p.sizes.settles(f, st.Name); e != nil {
			return e.At(st.Sizes[i].Expr.Span)
		}
	}
	if done.How != "trimmed" {
		return nil
	}
	for _, f := range p.sizes.sizes {
		if z := judge(f, p.now, &p.accepted, t.s.style); z.Off && z.By.V < 0 && isStockSize(z.Name) && !done.gives(z.Name, p.sizes) {
			return calc.Errorf(calc.CodePart, "%s is too small, its %s %s: trimming takes wood away", st.Name, z.Name, z.Words).At(st.NameSpan).
				WithHint("if it was left large enough, say the size it was trimmed to: settle %s: trimmed to %s = …; if not, write replaced, packed or left", st.Name, z.Name)
		}
	}
	return nil
}

// gives reports whether a settlement says what a size is now.
func (done *Settlement) gives(name string, z sizes) bool {
	for _, f := range done.Sizes {
		if k := z.index(f.Name); k >= 0 && z.sizes[k].Name == name {
			return true
		}
	}
	return false
}

// cut gives the pieces of a portion a batch of their own, to be changed.
func (t *tally) cut(p portion) *batch {
	b := t.anew(p.at)
	if p.of == b.count {
		return b
	}
	some := *b
	some.count, some.gone = p.of, 0
	b.count -= p.of
	t.batches = slices.Insert(t.batches, p.at, &some)
	return &some
}

// be makes the pieces of a batch what a settlement says, on a day on which they should
// be as now says.
func (b *batch) be(done *Settlement, now *sizes) {
	b.settled = done
	if done.How == "left" {
		b.accepted = *now // what was left is off again only when the size moves again
		return
	}
	b.sizes.sizes = slices.Clone(b.sizes.sizes)
	for k := range b.sizes.sizes {
		z := &b.sizes.sizes[k]
		z.Value = now.value(z.Name, z.Value)
	}
	for _, f := range done.Sizes {
		if k := b.sizes.index(f.Name); k >= 0 && f.Value.D == b.sizes.sizes[k].Value.D {
			b.sizes.sizes[k].Value = f.Value
		}
	}
	b.accepted = b.sizes
	b.owed = b.owed || done.How == "replaced" && b.count > 0
}

// settleFault says what is wrong with a settle line that has a result, nil when nothing is.
func (s *Session) settleFault(r *statement) *calc.Error {
	if r.line.Stmt == nil {
		return nil
	}
	c := s.chronicle(r.line.Stmt.Name)
	if _, known := c.faults[r]; !known {
		c.first(len(c.lines))
	}
	return c.faults[r]
}

// SettleFault says why a settle line cannot be so if it is written now, nil when it can.
func (s *Session) SettleFault(text string) *calc.Error {
	st, err := lang.Parse(text)
	if err != nil || st == nil || st.Kind != lang.Settle || len(s.Entries()) == 0 {
		return err
	}
	s.mu.Lock()
	defer s.mu.Unlock()
	last := s.entries[len(s.entries)-1]
	r := &statement{entry: last, index: len(last.stmts), line: &Line{Text: text, Stmt: st}, exprs: st.Exprs()}
	for _, e := range r.exprs {
		for i := range e.Needs {
			need := &e.Needs[i]
			n, fields := s.read(need)
			r.links = append(r.links, link{need: need, node: n, fields: fields})
		}
	}
	c := s.chronicle(st.Name)
	return c.first(len(c.lines)).clone().settle(r)
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
