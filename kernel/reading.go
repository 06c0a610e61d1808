package kernel

import (
	"math"
	"sort"
	"strings"

	"scarph/calc"
	"scarph/calc/lang"
	"scarph/calc/trade"
)

// evaluate works out a statement in the view: its needs are looked up, then each
// expression runs in a frame.
func (v *view) evaluate(r *statement) *Result {
	res := &Result{Reading: r}
	if r.line.Err != nil {
		res.Err = r.line.Err
		return res
	}
	if r.refused != nil {
		res.Err = r.refused
		return res
	}
	st := r.line.Stmt
	if st == nil || r.line.Empty {
		res.Value = calc.NoValue()
		return res
	}
	res.Warnings = append(res.Warnings, st.Remarks...)
	v.s.work.Evaluated++
	if v.stop() {
		res.Err = v.interruption().At(calc.Span{Start: 0, End: len(st.Text)})
		return res
	}
	if res.Err = v.circleThen(r); res.Err != nil {
		return res
	}
	ev := &evaluation{v: v, r: r, res: res}
	switch st.Kind {
	case lang.PartLine, lang.Stock:
		ev.pieces(st)
	case lang.MadeLine, lang.Settle:
		ev.record(st)
	case lang.Check:
		res.Value = ev.run(0)
		if ev.ok() && res.Value.Kind() != calc.Truth {
			ev.fail(calc.Errorf(calc.CodeKind, "a check wants a comparison; this is %s", res.Value.What()).WithHint("write check beam < 4' 2\""), st.Expr.Span)
		}
	case lang.Work:
		res.Value = ev.run(0)
		ev.want(calc.DimTime, "hours", "write work 3.5 h on "+st.Name)
	case lang.Spend:
		res.Value = ev.run(0)
		if ev.ok() && !(res.Value.IsQuantity() && res.Value.D.IsMoney()) {
			ev.fail(calc.Errorf(calc.CodeDimension, "spend wants money; this is %s", res.Value.What()).WithHint("write spend 48.20 USD on %s", st.Name), st.Expr.Span)
		}
	default:
		res.Value = ev.run(0)
		if l := st.Expr.Literal; l != nil && st.To == nil && ev.ok() {
			if d := l.Trade(); d != nil {
				res.Value = res.Value.Shown(d)
			}
		}
	}
	if ev.ok() && st.To != nil {
		ev.show(st)
	}
	if !ev.ok() {
		res.Value = calc.Value{}
	}
	return res
}

// circleThen is the error of a statement that needs itself as of its own entry, which is
// a circle in the view of that entry; it is one still when later entries have come.
func (v *view) circleThen(r *statement) *calc.Error {
	at := r.entry.order
	if at >= v.upTo || r.node.nameless() {
		return nil
	}
	for _, l := range r.links {
		if l.node == nil || !looksBack(l.need.Mode) || v.orderOf(l.need, r) != at {
			continue
		}
		then := v.s.viewAt(at)
		if then.result(l.node).OK() {
			continue
		}
		if d := then.result(r.node); d.Err != nil && d.Err.Code == calc.CodeCircle && d.Reading == r {
			return d.Err
		}
	}
	return nil
}

// looksBack reports whether a need is read as of some entry.
func looksBack(m lang.Mode) bool {
	return m == lang.Then || m == lang.AsOfEntry || m == lang.AsOfDate
}

// evaluation is the working out of one statement.
type evaluation struct {
	v    *view
	r    *statement
	res  *Result
	next int // the first link of the next expression
}

func (ev *evaluation) ok() bool { return ev.res.Err == nil && len(ev.res.Waits) == 0 }

func (ev *evaluation) fail(e *calc.Error, at calc.Span) {
	if ev.res.Err == nil {
		c := *e
		ev.res.Err = c.At(at)
	}
}

// run works out expression i of the statement.
func (ev *evaluation) run(i int) calc.Value {
	e := ev.r.exprs[i]
	first := 0
	for k := 0; k < i; k++ {
		first += len(ev.r.exprs[k].Needs)
	}
	f := ev.v.s.borrow()
	defer ev.v.s.giveBack(f)
	if i < len(ev.r.sources) {
		f.Sources = ev.r.sources[i]
	}
	for k := range e.Needs {
		f.Vars = append(f.Vars, ev.lookup(ev.r.links[first+k]))
	}
	if !ev.ok() {
		return calc.Value{}
	}
	val, err := e.Eval(f)
	ev.res.Warnings = append(ev.res.Warnings, f.Warnings...)
	ev.res.Cautions |= f.Cautions
	if err != nil {
		if err.Code == calc.CodeInterrupted && ev.v.stop() {
			err = ev.v.interruption().At(err.Span)
		}
		ev.fail(err, e.Span)
		return calc.Value{}
	}
	return val
}

// borrow lends a frame with no values in it. To look a value up may mean to work
// another statement out, so that several are lent at a time.
func (s *Session) borrow() *lang.Frame {
	n := len(s.frames) - 1
	if n < 0 {
		return &lang.Frame{Stop: s.stop}
	}
	f := s.frames[n]
	s.frames = s.frames[:n]
	return f
}

func (s *Session) giveBack(f *lang.Frame) {
	clear(f.Vars) // so that they are not kept alive
	f.Vars, f.Sources = f.Vars[:0], nil
	s.frames = append(s.frames, f)
}

// lookup finds the value of a need.
func (ev *evaluation) lookup(l link) calc.Value {
	if l.need.Mode.OfLedger() {
		return ev.postings(l)
	}
	if l.node == nil {
		ev.fail(ev.v.s.unknown(*l.need), l.need.Span)
		return calc.Value{}
	}
	d := ev.find(l)
	if d == nil {
		return calc.Value{}
	}
	if !d.OK() {
		ev.res.Waits = addNames(ev.res.Waits, roots(l.node, d))
		return calc.Value{}
	}
	ev.res.Cautions |= d.Cautions
	val := asRead(d.Value)
	if val.Kind() == calc.Missing && l.need.Mode != lang.Why {
		ev.fail(calc.Errorf(calc.CodeMissing, "%s is an empty cell", l.need.Path).WithHint("an empty cell is not zero; give it a number first"), l.need.Span)
	}
	for _, name := range l.fields {
		z, err := lang.Member(val, name)
		if err != nil {
			ev.fail(err, l.need.Span)
			return calc.Value{}
		}
		val = z
	}
	return val
}

// find chooses the reading that a need asks for.
func (ev *evaluation) find(l link) *Result {
	v := ev.v
	switch l.need.Mode {
	case lang.Then, lang.AsOfEntry, lang.AsOfDate:
		if l.need.Entry > len(v.s.entries) {
			ev.fail(calc.Errorf(calc.CodeDate, "there are %d entries; %d is none of them", len(v.s.entries), l.need.Entry), l.need.Span)
			return nil
		}
		if at := v.orderOf(l.need, ev.r); at != v.upTo {
			return v.s.viewAt(at).result(l.node).Result
		}
	case lang.Drawn, lang.Found, lang.Built:
		return ev.ofKind(l)
	case lang.Why:
		return v.s.whyResult(v.result(l.node).Result)
	}
	return v.result(l.node).Result
}

var kindOfMode = map[lang.Mode]lang.Kind{lang.Drawn: lang.DrawnAs, lang.Found: lang.FoundAs, lang.Built: lang.BuiltAs}

// ofKind is the latest reading of one kind; of a row or a table, of each cell.
func (ev *evaluation) ofKind(l link) *Result {
	kind := kindOfMode[l.need.Mode]
	if l.node.parts != nil && len(l.node.readings) == 0 {
		items := make([]calc.Value, len(l.node.parts))
		for i, p := range l.node.parts {
			d := ev.ofKind(link{need: l.need, node: p})
			if d == nil || !d.OK() {
				return d
			}
			items[i] = d.Value
		}
		if l.node.labels == nil && len(items) == 1 {
			return &Result{Value: items[0]}
		}
		if l.node.record {
			fields := make([]calc.Field, len(items))
			for i := range items {
				fields[i] = calc.Field{Name: l.node.labels[i], Value: items[i]}
			}
			return &Result{Value: calc.Fields(fields...)}
		}
		return &Result{Value: calc.Labelled(l.node.labels, items)}
	}
	r := l.node.latest(kind, ev.v.upTo)
	if r == nil {
		ev.fail(calc.Errorf(calc.CodeNoReading, "%s has no %s reading", l.node.name, kind.Word()).
			WithHint("write %s %s = … where it was taken", kind.Word(), l.node.name), l.need.Span)
		return nil
	}
	if ev.v.winner(l.node) == r {
		return ev.v.result(l.node).Result
	}
	return ev.v.evaluate(r)
}

// unknown is the error of a name that nothing bears. What it may have meant is
// added when it is shown, for names come and go.
func (s *Session) unknown(n lang.Need) *calc.Error {
	e := calc.Errorf(calc.CodeUnknownName, "nothing is named %s", n.Path)
	if u, ok := calc.FindUnit(n.Path); ok {
		return e.WithHint("%s is a unit: it stands after a number, 1 %s", n.Path, u.Symbol)
	}
	if n.Path == "then" || n.Path == "why" {
		return e.WithHint("write %s(beam)", n.Path)
	}
	if f, ok := trade.Find(n.Path); ok {
		return e.WithHint("%s is a function: %s", f.Name, f.Signature())
	}
	e.Near = n.Path
	return e.WithHint("give it a number first: %s = …", n.Path)
}

// helped adds to an error the name that was likely meant, as names stand now.
func (s *Session) helped(r *Result) *Result {
	if r == nil || r.Err == nil || r.Err.Near == "" {
		return r
	}
	hint := s.likely(r.Err.Near, r.Err.Parts)
	if hint == "" {
		return r
	}
	c, e := *r, *r.Err
	e.Hint = hint
	c.Err = &e
	return &c
}

// familyIn lists the first names of a family, side.port and side.starboard for side; ""
// when there are none.
func familyIn(names []string, word string) string {
	const most = 6
	var list []string
	for _, name := range names {
		if strings.HasPrefix(name, word+".") {
			list = append(list, name)
		}
	}
	if len(list) > most {
		list = append(list[:most], "…")
	}
	return joined(list)
}

// mostMeant is how many mistyped names are looked up after an update; a journal
// with more has other troubles.
const mostMeant = 500

// likely is the hint at the name most like a mistyped one, or at the names of a family,
// as names stand since the last update; "" when there is none.
func (s *Session) likely(word string, parts bool) string {
	if s.meantIn != s.epoch {
		s.meantIn, s.meant = s.epoch, map[string]string{}
	}
	key := word
	names := s.names
	if parts {
		key, names = "part "+word, s.partNames
	}
	hint, ok := s.meant[key]
	if !ok && len(s.meant) < mostMeant {
		list := names()
		if family := familyIn(list, word); family != "" {
			hint = "there are " + family
		} else if near := calc.Nearest(word, list); near != "" {
			hint = "did you mean " + near + "?"
		}
		s.meant[key] = hint
	}
	return hint
}

// names lists the names of values, for suggestions.
func (s *Session) names() []string {
	list := make([]string, 0, len(s.nodes))
	for name, n := range s.nodes {
		if n.parts == nil || n.labels != nil {
			list = append(list, name)
		}
	}
	sort.Strings(list)
	return list
}

// orderOn is the order of the last entry dated on or before a day; −1 for none.
func (s *Session) orderOn(date string) int {
	order := -1
	for _, e := range s.entries {
		if e.Date == "" || e.Date <= date {
			order = e.order
		}
	}
	return order
}

func (ev *evaluation) want(d calc.Dimension, what, hint string) {
	x := ev.res.Value
	if ev.ok() && !(x.IsQuantity() && x.D == d) {
		e := calc.Errorf(calc.CodeDimension, "%s wants %s; this is %s", ev.r.kind().Word(), what, x.What()).WithHint("%s", hint)
		if x.IsQuantity() && x.D.IsNumber() {
			e.Code = calc.CodeBareNumber
		}
		ev.fail(e, ev.r.line.Stmt.Expr.Span)
	}
}

// asRead is a value as another line reads it: without the wish of its own line how to be
// shown, but a share that was written in per cent stays one until something is done with it.
func asRead(x calc.Value) calc.Value {
	if x.X != nil && x.D.IsNumber() && x.X.Show != nil && x.X.Show.Unit == "%" {
		return x
	}
	return x.Plain()
}

// show attaches the way a value asks to be shown.
func (ev *evaluation) show(st *lang.Stmt) {
	x := ev.res.Value
	probe := firstOf(x)
	if probe.Kind() == calc.Missing {
		return
	}
	if !probe.IsQuantity() || probe.D != st.To.D {
		e := calc.Errorf(calc.CodeDimension, "%s cannot be shown as %s", x.What(), st.To.D.A())
		if probe.IsQuantity() && probe.D.IsNumber() {
			e.Code = calc.CodeBareNumber
		}
		e = e.WithHint("to says how a value is shown, never what it is")
		if e.Code == calc.CodeBareNumber && st.To.D == calc.DimAngle {
			e = e.WithHint("the angle of a slope is atan(%s)", st.Expr.Text)
		}
		ev.fail(e, st.Expr.Span)
		return
	}
	ev.res.Value = x.Shown(st.To)
}

// firstOf is the first element of a list, and of a list in it, that is not empty.
func firstOf(x calc.Value) calc.Value {
	if x.Kind() != calc.List {
		return x
	}
	for _, it := range x.Items() {
		if f := firstOf(it); f.Kind() != calc.Missing {
			return f
		}
	}
	return calc.NoValue()
}

// pieces works out a part or boards at hand: a record of count and sizes.
func (ev *evaluation) pieces(st *lang.Stmt) {
	n := ev.run(0)
	if ev.ok() && (!n.IsQuantity() || !n.D.IsNumber() || n.V < 0 || n.V != math.Trunc(n.V)) {
		ev.fail(calc.Errorf(calc.CodePart, "the count of a part is a whole number; this is %s", ev.v.s.style.Text(n)), st.Expr.Span)
	}
	fields := []calc.Field{{Name: "count", Value: n}}
	i := 1
	if st.Within != nil {
		w := ev.run(i)
		i++
		fields = append(fields, calc.Field{Name: "within", Value: w})
	}
	for _, z := range st.Sizes {
		x := ev.run(i)
		i++
		if ev.ok() && isStockSize(z.Name) {
			if !x.IsQuantity() || x.D != calc.DimLength {
				e := calc.Errorf(calc.CodeDimension, "the %s of a part is a length; this is %s", z.Name, x.What())
				if x.IsQuantity() && x.D.IsNumber() {
					e.Code = calc.CodeBareNumber
					e.Hint = calc.WhatUnit(x, calc.DimLength)
				}
				ev.fail(e, z.Expr.Span)
			} else if x.V <= 0 {
				ev.fail(calc.Errorf(calc.CodePart, "the %s is %s", z.Name, ev.v.s.style.Text(x)).WithHint("a size is more than nothing"), z.Expr.Span)
			}
		}
		fields = append(fields, calc.Field{Name: z.Name, Value: x})
	}
	ev.res.Value = calc.Fields(fields...)
}

func isStockSize(name string) bool {
	return name == "thickness" || name == "width" || name == "length"
}

// record works out the values that a made or settle line names itself.
func (ev *evaluation) record(st *lang.Stmt) {
	if st.Kind == lang.MadeLine && st.Expr != nil || st.Kind == lang.Settle {
		if n, _ := ev.v.s.resolve(st.Name); n == nil && ev.v.s.things[st.Name] == 0 {
			e := calc.Errorf(calc.CodePart, "there is no part %s", st.Name).At(st.NameSpan)
			e.Near, e.Parts, e.Hint = st.Name, true, "a part has a line: part "+st.Name+": 2 of …"
			ev.fail(e, st.NameSpan)
			return
		}
	}
	if n, _ := ev.v.s.resolve(st.Name); st.Kind == lang.MadeLine && st.Expr == nil && n != nil && len(n.readings) > 0 && n.readings[0].kind() == lang.PartLine {
		ev.fail(calc.Errorf(calc.CodePart, "%s is a part, whose sizes stand on its own line", st.Name).
			WithHint("say how many were made: made %s: 2", st.Name), st.NameSpan)
		return
	}
	var fields []calc.Field
	i := 0
	if st.Expr != nil {
		n := ev.run(i)
		i++
		if e := countFault(n, ev.v.s.style); ev.ok() && e != nil {
			ev.fail(e, st.Expr.Span)
		}
		fields = append(fields, calc.Field{Name: "count", Value: n})
	}
	if st.Within != nil {
		fields = append(fields, calc.Field{Name: "within", Value: ev.run(i)})
		i++
	}
	for _, z := range st.Sizes {
		name := z.Name
		fields = append(fields, calc.Field{Name: name, Value: ev.run(i)})
		i++
	}
	ev.res.Value = calc.Fields(fields...)
}
