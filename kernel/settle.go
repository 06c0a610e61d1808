package kernel

import (
	"math"
	"slices"
	"sort"

	"scarph/calc"
	"scarph/calc/lang"
)

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
		b := t.cut(p)
		t.owed -= b.owing()
		b.be(done, p.now)
		t.owed += b.owing()
		if p.at < t.right && b.isOff(t.alike, t.s.style) {
			t.right = p.at
		}
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
	now := t.asOf(t.s.viewAt(x.entry.order))
	if st.Expr == nil {
		count = math.Inf(1)
	}
	var list []portion
	var right []int // of those after the first so many
	first, pieces, wrong := t.right, 0.0, 0.0
	for i := first; i < len(t.batches) && (st.Expr == nil || wrong < count); i++ {
		b := t.batches[i]
		if b.isPast() {
			t.passed(i)
			continue
		}
		is := now(b)
		if is.err != nil {
			continue
		}
		pieces += b.count
		if !b.isOff(is, t.s.style) {
			if !b.alike || !t.passed(i) {
				right = append(right, i)
			}
			continue
		}
		if n := min(b.count, count-wrong); n > 0 || st.Expr == nil {
			list = append(list, portion{b, i, n, is})
			wrong += n
		}
	}
	if wrong >= count || st.Expr == nil && len(list) > 0 {
		return list, nil
	}
	for _, b := range t.batches[:first] {
		if !b.isPast() {
			pieces += b.count
		}
	}
	if st.Expr != nil && count > pieces {
		number := func(n float64) string { return t.s.style.Text(calc.Number(n)) }
		return nil, calc.Errorf(calc.CodePart, "%s of %s are more than the %s made before this line", number(count), st.Name, number(pieces)).At(st.Expr.Span)
	}
	count -= wrong
	take := func(i int) {
		b := t.batches[i]
		if n := min(b.count, count); !b.isPast() && (n > 0 || st.Expr == nil) {
			list = append(list, portion{b, i, n, now(b)})
			count -= n
		}
	}
	for i := 0; i < t.right && count > 0; i++ {
		take(i)
	}
	for k := 0; k < len(right) && count > 0; k++ {
		take(right[k])
	}
	return list, nil
}

// isPast reports whether nothing can be done any more about a batch: nobody knows what was
// made, or others are in its place.
func (b *batch) isPast() bool { return b.sizes.err != nil || b.gone > 0 && b.count == 0 }

// passed notes that a batch needs no second look, where all before it need none.
func (t *tally) passed(i int) bool {
	if i == t.right {
		t.right++
		return true
	}
	return false
}

// owing is how many of a batch others are to be made in place of.
func (b *batch) owing() float64 {
	if b.owed {
		return b.count
	}
	return 0
}

// asOf gives the sizes that batches should have in a view: those of all whose lines say no
// more than how many are the same, and the very ones of the settle line before while they
// have not moved.
func (t *tally) asOf(v *view) func(*batch) *sizes {
	if t.plain != nil {
		if z := t.s.sizesOf(t.plain, v); t.alike == nil || !t.alike.same(&z) {
			t.alike, t.right = &z, 0
		}
	}
	return func(b *batch) *sizes {
		if b.alike {
			return t.alike
		}
		z := t.s.sizesOf(b.from, v)
		return &z
	}
}

// isOff reports whether a size of a batch is off where the sizes should be now.
func (b *batch) isOff(now *sizes, style calc.Style) bool {
	if b.judged != now {
		b.judged, b.off = now, false
		for _, f := range b.sizes.sizes {
			b.off = b.off || isOff(f, now, &b.accepted, style)
		}
	}
	return b.off
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
	b.settled, b.judged = done, nil
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

// settles says why a settled size is none of the thing's, nil when it is one.
func (z sizes) settles(f calc.Field, thing string) *calc.Error {
	k := z.index(f.Name)
	if k < 0 {
		names := make([]string, len(z.sizes))
		for i := range z.sizes {
			names[i] = z.sizes[i].Name
		}
		if f.Name == "" {
			return calc.Errorf(calc.CodePart, "%s has several sizes", thing).WithHint("say which one: %s = …", joined(names))
		}
		e := calc.Errorf(calc.CodeUnknownItem, "%s has no size %s", thing, f.Name)
		if near := calc.Nearest(f.Name, names); near != "" {
			return e.WithHint("did you mean %s?", near)
		}
		return e.WithHint("there are %s", joined(names))
	}
	return unlike("the "+z.sizes[k].Name+" of "+thing, z.sizes[k].Value, f.Value)
}
