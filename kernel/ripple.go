package kernel

import (
	"math"
	"sort"
	"strings"

	"scarph/calc"
	"scarph/calc/lang"
)

// Ripple is all that a change moved.
type Ripple struct {
	// Moved lists the named values that are not what they were, in the order of
	// what hangs on what.
	Moved []Moved
	// Checks lists the checks whose answer turned, or that the change touched.
	Checks []Check
	// Made lists what was made before the change and hangs on what moved.
	Made []Made
	// Recast lists the records of what was made that read otherwise now.
	Recast []Recast
	// Lines lists the lines and slots whose result changed, by entry and position.
	Lines []LineRef
}

// Moved is a value that a change moved.
type Moved struct {
	Name     string
	From, To *Result // nil when the name was not there, or is gone
	By       *calc.Value
	// Row is set for a row of a data table, Gathered for a column or a whole table: both
	// are put together from cells, which are listed by themselves.
	Row, Gathered bool
}

// LineRef names a line of the session.
type LineRef struct {
	Entry string
	Index int
}

// Empty reports whether the ripple moves nothing.
func (r *Ripple) Empty() bool {
	return len(r.Moved) == 0 && len(r.Lines) == 0 && len(r.Recast) == 0
}

// ripple gathers what the update moved.
func (u *update) ripple() Ripple {
	var z Ripple
	s := u.s
	for _, g := range u.removed {
		if s.nodes[g.name] == nil {
			z.Moved = append(z.Moved, Moved{Name: g.name, From: g.result})
		}
	}
	for _, n := range u.order {
		if n.moved != s.epoch {
			n.prev = nil
			continue
		}
		switch {
		case !n.nameless():
			if (len(n.readings) > 0 || n.labels != nil) && (n.prev == nil || !n.prev.unmoved(n.result)) {
				z.Moved = append(z.Moved, s.movedNode(n, n.prev, n.result))
			}
		case len(n.readings) > 0 && n.readings[0].kind() == lang.Check:
			z.Checks = append(z.Checks, s.check(n.readings[0], s.now()))
		}
		for _, r := range n.readings {
			z.Lines = append(z.Lines, LineRef{r.entry.Key, r.index})
		}
		n.prev = nil
	}
	if len(z.Moved) > 0 {
		z.Made = s.madeTouched(s.now(), func(n *node) bool { return n.moved == s.epoch })
	}
	z.Recast = u.recasts()
	for _, x := range z.Recast {
		z.Lines = append(z.Lines, x.Ref)
	}
	return z
}

// movedNode tells of a node that has moved, and whether it is put together from cells.
func (s *Session) movedNode(n *node, from, to *Result) Moved {
	m := moved(n.name, from, to)
	if n.parts != nil && n.labels != nil && len(n.readings) == 0 {
		m.Row = s.isRow(n.name)
		m.Gathered = !m.Row
	}
	return m
}

// Fields lists what moved with records and lists taken apart: of a part whose length
// moved, thwart.length alone; of a data table, the cells and rows.
func (r *Ripple) Fields() []Moved {
	var out []Moved
	for _, m := range r.Moved {
		switch {
		case m.Gathered:
		case m.Row:
			out = append(out, m)
		default:
			out = append(out, m.fields()...)
		}
	}
	return out
}

func (m Moved) fields() []Moved {
	if m.From == nil || m.To == nil || !m.From.OK() || !m.To.OK() {
		return []Moved{m}
	}
	from, to := m.From.Value, m.To.Value
	labels := to.Labels()
	if to.Kind() != from.Kind() || len(from.Items()) == 0 || labels == nil || !sameNames(from.Labels(), labels) {
		return []Moved{m}
	}
	var out []Moved
	for i, x := range to.Items() {
		if !equal(x, from.Items()[i]) {
			out = append(out, moved(m.Name+"."+labels[i], &Result{Value: from.Items()[i]}, &Result{Value: x}))
		}
	}
	return out
}

func moved(name string, from, to *Result) Moved {
	m := Moved{Name: name, From: from, To: to}
	if from != nil && to != nil && from.OK() && to.OK() {
		if d, err := calc.Sub(to.Value.Plain(), from.Value.Plain()); err == nil && from.Value.IsQuantity() {
			d = calc.Of(d.V, d.D)
			m.By = &d
		}
	}
	return m
}

// WhatIf works out what would move if names were given other values, and keeps
// nothing. The expressions are in the calc language and may name values of the journal.
func (s *Session) WhatIf(values map[string]string) (Ripple, *calc.Error) {
	return s.WhatIfAsOf(values, Now)
}

// WhatIfAsOf is WhatIf in the journal as it stood at an entry.
func (s *Session) WhatIfAsOf(values map[string]string, asOf int) (Ripple, *calc.Error) {
	s.enter()
	defer s.mu.Unlock()
	v, err := s.whatIf(values, asOf)
	if err != nil {
		return Ripple{}, err
	}
	var z Ripple
	for _, n := range v.inOrder() {
		if v.winner(n) == nil && len(n.readings) > 0 {
			continue // not yet written
		}
		was, is := v.base.result(n).Result, v.result(n).Result
		if was.same(is) {
			continue
		}
		switch {
		case !n.nameless():
			if (len(n.readings) > 0 || n.labels != nil) && !was.unmoved(is) {
				z.Moved = append(z.Moved, s.movedNode(n, was, is))
			}
		case len(n.readings) > 0 && n.readings[0].kind() == lang.Check:
			z.Checks = append(z.Checks, s.check(n.readings[0], v))
		}
		for _, r := range n.readings {
			z.Lines = append(z.Lines, LineRef{r.entry.Key, r.index})
		}
	}
	z.Made = s.madeTouched(v, func(n *node) bool { return v.hit[n] && !v.base.result(n).Result.same(v.result(n).Result) })
	return z, nil
}

// whatIf is the view in which names have other values.
func (s *Session) whatIf(values map[string]string, asOf int) (*view, *calc.Error) {
	base := s.viewAt(asOf)
	v := &view{s: s, upTo: base.upTo, now: base.now, memo: map[*node]dated{}, busy: map[*node]bool{}, over: map[*node]*Result{}, base: base, hit: map[*node]bool{}}
	names := make([]string, 0, len(values))
	for name := range values {
		names = append(names, name)
	}
	sort.Strings(names)
	for _, name := range names {
		n, fields := s.resolve(name)
		if n != nil {
			n = n.bearer()
		}
		if n == nil || len(fields) > 0 || len(n.readings) == 0 {
			return nil, s.helped(&Result{Err: s.unknown(lang.Need{Path: name}).At(calc.Span{Start: 0, End: len(name)})}).Err
		}
		val, err := s.tryValue(values[name], n, base)
		if err != nil {
			return nil, err
		}
		v.over[n] = &Result{Value: val, Reading: base.winner(n)}
		v.mark(n)
	}
	return v, nil
}

// tryValue reads the value of a what-if; it must be of the kind it displaces.
func (s *Session) tryValue(text string, n *node, base *view) (calc.Value, *calc.Error) {
	if s.isCellName(n.name) && calc.LooksLikeOffset(text) {
		return calc.ParseOffset(text)
	}
	res, err := s.scratch(text, base)
	if err != nil {
		return calc.Value{}, err
	}
	if res.Err != nil {
		return calc.Value{}, res.Err
	}
	if !res.OK() {
		return calc.Value{}, calc.Errorf(calc.CodeWaits, "%s waits for %s", text, strings.Join(res.Waits, ", "))
	}
	return res.Value, s.fits(n, res.Value, text)
}

// fits reports why a value, written as text, cannot stand in place of that of a node.
func (s *Session) fits(n *node, x calc.Value, text string) *calc.Error {
	if was := s.now().result(n); was.OK() {
		if e := unlike(n.name, was.Value, x); e != nil {
			e.Message = n.name + " is " + whatIs(was.Value) + "; " + text + " is " + whatIs(x)
			return e.At(calc.Span{Start: 0, End: len(text)})
		}
	}
	return nil
}

func whatIs(x calc.Value) string {
	if x.IsQuantity() {
		return x.D.A()
	}
	return x.What()
}

// mark notes all that hangs on a node.
func (v *view) mark(n *node) {
	queue := []*node{n}
	for len(queue) > 0 {
		x := queue[0]
		queue = queue[1:]
		if v.hit[x] {
			continue
		}
		v.hit[x] = true
		queue = append(queue, x.users...)
	}
}

// inOrder lists what a what-if touches in the journal's order: by its first
// reading, what is put together after its parts.
func (v *view) inOrder() []*node {
	list := make([]*node, 0, len(v.hit))
	for n := range v.hit {
		if len(n.readings) > 0 || n.parts != nil {
			list = append(list, n)
		}
	}
	sort.Slice(list, func(i, j int) bool { return nodeBefore(list[i], list[j]) })
	return list
}

func nodeBefore(a, b *node) bool {
	if len(a.readings) > 0 && len(b.readings) > 0 {
		if a.readings[0] != b.readings[0] {
			return a.readings[0].before(b.readings[0])
		}
		return a.name < b.name
	}
	if len(a.readings) != len(b.readings) {
		return len(a.readings) > 0
	}
	return a.name < b.name
}

// unmoved lists the values that are not among the moved, in the journal's order;
// cells and rows of tables stand for themselves only where their table moved in part.
func (s *Session) unmoved(list []Moved) []string {
	out := map[string]bool{}
	for _, m := range list {
		out[m.Name] = true
	}
	var nodes []*node
	for _, n := range s.nodes {
		if len(n.readings) > 0 && !out[n.name] && !s.isCellName(n.name) || n.labels != nil && !n.record && !out[n.name] && s.isRow(n.name) {
			nodes = append(nodes, n)
		}
	}
	sort.Slice(nodes, func(i, j int) bool { return nodeBefore(nodes[i], nodes[j]) })
	names := make([]string, len(nodes))
	for i, n := range nodes {
		names[i] = n.name
	}
	return names
}

func (s *Session) isRow(name string) bool {
	t := s.tables[family(name)]
	return t != nil && t.isRow[strings.TrimPrefix(name, t.name+".")]
}

// UnmovedBy lists the named values that a ripple left as they were.
func (s *Session) UnmovedBy(r Ripple) []string {
	s.enter()
	defer s.mu.Unlock()
	return s.unmoved(r.Moved)
}

// Words says a difference made − now in the words of the bench.
func Words(off calc.Value, style calc.Style) string {
	if off.V == 0 {
		return "right"
	}
	text := style.Text(calc.Of(math.Abs(off.V), off.D))
	if off.D == calc.DimLength {
		text = style.Gap(off.V)
	}
	switch {
	case off.D == calc.DimLength && off.V < 0:
		return text + " short"
	case off.D == calc.DimLength:
		return text + " long"
	case off.D == calc.DimAngle && off.V < 0:
		return text + " under"
	case off.D == calc.DimAngle:
		return text + " over"
	case off.V < 0:
		return text + " too little"
	}
	return text + " too much"
}
