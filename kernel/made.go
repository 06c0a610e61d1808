package kernel

import (
	"math"
	"slices"
	"sort"

	"scarph/calc"
	"scarph/calc/lang"
)

// Made is a record that something was made, to the numbers of its day, judged by
// the numbers as they stand.
type Made struct {
	Thing string
	Count float64 // of a part, less those that were replaced; 0 for what is no part
	// Replaced is how many of the line others were made in place of.
	Replaced float64
	Entry    EntryRef
	Place    Place
	Note     string
	Ref      LineRef
	Sizes    []MadeSize
	// Off is set when a size is outside its tolerance and not settled.
	Off     bool
	Settled *Settlement // what was last done about it, nil when nothing was
	// Since is the newest reading that bears on the sizes now, nil when it is no
	// later than the making.
	Since   *Reading
	Err     *calc.Error
	Private bool
}

// MadeSize is one size of what was made.
type MadeSize struct {
	Name   string
	First  calc.Value // as it was cut on the day of the line, frozen for good
	Made   calc.Value // as it is: First, or after trimming the size it was trimmed to
	Now    calc.Value // as it would be cut today
	By     calc.Value // made − now
	Within calc.Value
	Off    bool
	Words  string // "0.249 in short"
	// Began says first − now in words: what the change did, whatever was done about it.
	Began string
}

// Settlement says what was done about a part that was off.
type Settlement struct {
	How   string
	Count float64 // how many the line says, 0 for all that were off
	Note  string
	Entry EntryRef
	Place Place
	Sizes []calc.Field
}

// MadeList lists all that was made up to an entry, judged as of that entry: each made
// line, and where only some of its pieces were settled, those and the others apart.
func (s *Session) MadeList(asOf int) []Made {
	s.enter()
	defer s.mu.Unlock()
	v := s.viewAt(asOf)
	return s.madeOf(v, func(*statement) bool { return true })
}

// Rework lists what was made and is off and not settled.
func (s *Session) Rework(asOf int) []Made {
	var list []Made
	for _, m := range s.MadeList(asOf) {
		if m.Off {
			list = append(list, m)
		}
	}
	return list
}

// madeTouched lists what was made and hangs on moved nodes.
func (s *Session) madeTouched(v *view, movedNode func(*node) bool) []Made {
	return s.madeOf(v, func(r *statement) bool {
		touched := movedNode(r.node)
		for _, l := range r.links {
			touched = touched || l.node != nil && movedNode(l.node)
		}
		return touched
	})
}

// madeOf judges the made lines that are wanted, in the journal's order.
func (s *Session) madeOf(v *view, wanted func(*statement) bool) []Made {
	var list []Made
	s.each(lang.MadeLine, v, func(r *statement) {
		if !wanted(r) {
			return
		}
		list = append(list, s.made(r, v, s.tallyOf(r.line.Stmt.Name, v))...)
	})
	return list
}

// made judges one made line in a view, given the tally of its thing: once for each of its
// batches. The sizes as made are those of the line's own entry; a later settlement may
// give new ones.
func (s *Session) made(r *statement, v *view, t *tally) []Made {
	now := s.sizesOf(r, v)
	var since *Reading
	if n := now.newest; n != nil && n != unkeyed && n.entry.order > r.entry.order {
		since = s.readingOf(n, v)
	}
	var list []Made
	for _, b := range t.of(r) {
		m := Made{Thing: t.thing, Count: b.count, Replaced: b.gone, Entry: r.entry.ref(), Place: r.line.Place, Note: r.line.Stmt.Note, Ref: LineRef{r.entry.Key, r.index}, Private: r.line.Private}
		if m.Err = b.sizes.err; m.Err == nil {
			m.Err = now.err
		}
		if m.Err == nil {
			m.Settled, m.Since = b.settled, since
			s.judged(&m, b, &now)
		}
		list = append(list, m)
	}
	return list
}

// judged fills in how the sizes of a batch stand to those of now. Pieces that others took
// the place of are off no more.
func (s *Session) judged(m *Made, b *batch, now *sizes) {
	for k, f := range b.sizes.sizes {
		z := judge(f, now, &b.accepted, s.style)
		z.First = b.first[k].Value
		z.Began = offBy(calc.Of(z.First.V-z.Now.V, z.Now.D), z.Within, s.style)
		z.Off = z.Off && (b.count > 0 || b.gone == 0)
		m.Sizes = append(m.Sizes, z)
		m.Off = m.Off || z.Off
	}
}

// judge compares a size as made with the size now.
func judge(made calc.Field, now, accepted *sizes, style calc.Style) MadeSize {
	is := now.value(made.Name, made.Value)
	z := MadeSize{Name: made.Name, Made: made.Value, Now: is, By: calc.Of(made.Value.V-is.V, is.D), Within: now.tolerance(is.D, style)}
	z.Off = isOff(made, now, accepted, style)
	z.Words = offBy(z.By, z.Within, style)
	return z
}

// isOff reports whether a size is off, that was right as it was accepted.
func isOff(made calc.Field, now, accepted *sizes, style calc.Style) bool {
	is := now.value(made.Name, made.Value)
	return math.Abs(accepted.value(made.Name, made.Value).V-is.V) > now.tolerance(is.D, style).V*(1+1e-9)
}

// offBy says a difference in words, "right" when it is within the tolerance.
func offBy(by, within calc.Value, style calc.Style) string {
	if math.Abs(by.V) <= within.V*(1+1e-9) {
		return "right"
	}
	return Words(by, style)
}

// sizes are the sizes a made line speaks of, in one view.
type sizes struct {
	count  float64
	sizes  []calc.Field
	within []calc.Value
	newest *statement
	err    *calc.Error
}

func (z *sizes) index(name string) int {
	for i, f := range z.sizes {
		if f.Name == name {
			return i
		}
	}
	if name == "" { // settle x: trimmed to 43 15/16"
		if i := z.index("length"); i >= 0 {
			return i
		}
		if len(z.sizes) == 1 {
			return 0
		}
	}
	return -1
}

func (z *sizes) value(name string, otherwise calc.Value) calc.Value {
	if i := z.index(name); i >= 0 && name != "" {
		return z.sizes[i].Value
	}
	return otherwise
}

// same reports whether two say the same of what was made.
func (z *sizes) same(o *sizes) bool {
	return z.err == nil && o.err == nil &&
		slices.EqualFunc(z.sizes, o.sizes, func(a, b calc.Field) bool { return a.Name == b.Name && calc.Same(a.Value, b.Value) }) &&
		slices.EqualFunc(z.within, o.within, calc.Same)
}

// tolerance is what a size may be off: what the line says, or, where it says
// nothing of the dimension, half the journal's tape mark, or a quarter of a degree.
func (z *sizes) tolerance(d calc.Dimension, style calc.Style) calc.Value {
	for _, w := range z.within {
		if w.D == d {
			return w
		}
	}
	switch d {
	case calc.DimLength:
		mark := style.Nearest
		if mark == 0 {
			mark = 0.0254 / 16
			if style.System == calc.Metric {
				mark = 0.001
			}
		}
		return calc.Length(mark / 2)
	case calc.DimAngle:
		return calc.Degrees(0.25)
	}
	return calc.Of(0, d)
}

// sizesOf works out the sizes a made line speaks of: those of its part, or the
// values it names itself.
func (s *Session) sizesOf(r *statement, v *view) sizes {
	var z sizes
	own := v.evaluate(r)
	if !own.OK() {
		z.err = own.Err
		if z.err == nil {
			z.err = calc.Errorf(calc.CodeWaits, "it waits for %s", joined(own.Waits))
		}
		return z
	}
	z.newest = nil
	for _, f := range fieldsOf(own.Value) {
		switch f.Name {
		case "count":
			z.count = f.Value.V
		case "within":
			z.within = append(z.within, f.Value)
		default:
			z.add(f)
		}
	}
	for _, l := range r.links {
		if l.node != nil && l.need.Mode == lang.Now {
			z.newest = later(z.newest, v.result(l.node).newest)
		}
	}
	if r.line.Stmt.Expr == nil { // made x to a, b
		return z
	}
	n, _ := s.resolve(r.line.Stmt.Name)
	if n == nil {
		return z
	}
	d := v.result(n)
	if !d.OK() {
		z.err = calc.Errorf(calc.CodeWaits, "it waits for %s", joined(roots(n, d.Result)))
		return z
	}
	for _, f := range fieldsOf(d.Value) {
		switch f.Name {
		case "count":
		case "within":
			z.within = append(z.within, f.Value)
		default:
			z.add(f)
		}
	}
	if d.Value.IsQuantity() {
		z.add(calc.Field{Name: n.name, Value: d.Value})
	}
	return z
}

// add enters a size; a list is entered element by element.
func (z *sizes) add(f calc.Field) {
	if f.Value.Kind() == calc.List {
		for i, x := range f.Value.Items() {
			label := calc.Style{}.Text(calc.Number(float64(i + 1)))
			if l := f.Value.Labels(); l != nil {
				label = l[i]
			}
			z.add(calc.Field{Name: f.Name + "." + label, Value: x})
		}
		return
	}
	if f.Value.IsQuantity() {
		z.sizes = append(z.sizes, calc.Field{Name: f.Name, Value: calc.Of(f.Value.V, f.Value.D)})
	}
}

func fieldsOf(v calc.Value) []calc.Field {
	if v.Kind() != calc.Record {
		return nil
	}
	list := make([]calc.Field, len(v.Items()))
	for i, it := range v.Items() {
		list[i] = calc.Field{Name: v.Labels()[i], Value: it}
	}
	return list
}

func joined(names []string) string {
	text := ""
	for i, n := range names {
		if i > 0 {
			text += ", "
		}
		text += n
	}
	return text
}

// partNames lists the names of parts and of things made, for suggestions.
func (s *Session) partNames() []string {
	var list []string
	for name, n := range s.nodes {
		if len(n.readings) > 0 && n.readings[0].kind() == lang.PartLine {
			list = append(list, name)
		}
	}
	for name := range s.things {
		list = append(list, name)
	}
	sort.Strings(list)
	return list
}

// noteThing counts a line "made x to …" that comes, or goes: whether there is any decides
// whether what is settled of x is known.
func (u *update) noteThing(r *statement, by int) {
	if r.kind() != lang.MadeLine || r.line.Stmt.Expr != nil {
		return
	}
	name, things := r.line.Stmt.Name, u.s.things
	was := things[name]
	if things[name] += by; was == 0 || things[name] == 0 {
		u.changedName(name)
	}
	if things[name] == 0 {
		delete(things, name)
	}
}
