package lang

import (
	"math"
	"sort"
	"strconv"

	"scarph/calc"
)

// form compiles a call that is more than a function of its arguments.
type form func(c *compiler, name string, args []*tree, at calc.Span) (step, *calc.Error)

// formOf finds a special call of the language; nil for any other. The words that choose a
// reading (then, drawn, found, built, why) are in readingWord, those that read the ledger
// (worked, spent) in ledgerWord.
func formOf(name string) form {
	switch name {
	case "map":
		return each(mapped)
	case "filter":
		return each(filtered)
	case "all":
		return each(allOf)
	case "any":
		return each(anyOf)
	case "count":
		return counted
	case "taken":
		return takenOf
	case "sum":
		return summed
	case "solve":
		return solve
	case "plus_minus":
		return plusMinus
	}
	return nil
}

// Form documents a special call.
type Form struct{ Name, Call, Summary string }

// Forms documents the special calls, in reading order.
func Forms() []Form {
	return []Form{
		{"then", "then(name)", "the value as it stood in the entry where this is written"},
		{"drawn", "drawn(name)", "the latest drawn reading"},
		{"found", "found(name)", "the latest found reading"},
		{"built", "built(name)", "the latest built reading"},
		{"why", "why(name)", "the readings that the value's ± comes from, the largest first"},
		{"worked", `worked("subject")`, "the hours of the work lines on a subject, or of all with nothing in the brackets, each under its day"},
		{"spent", `spent("subject")`, "the money of the spend lines on a subject, or of all with nothing in the brackets, each under its day"},
		{"map", "map(list, expression of it)", "the expression for each element"},
		{"filter", "filter(list, condition on it)", "the elements for which the condition holds"},
		{"taken", "taken(list)", "the readings that were taken: the list without its empty cells"},
		{"all", "all(list, condition on it)", "whether the condition holds for every element"},
		{"any", "any(list, condition on it)", "whether the condition holds for one element or more"},
		{"count", "count(list, condition on it)", "how many elements there are, empty cells not counted, or for how many the condition holds"},
		{"sum", "sum(list, expression of it)", "the sum of the elements, or of the expression for each"},
		{"solve", "solve(expression of it, target, low, high)", "the value between low and high for which the expression reaches the target"},
		{"plus_minus", "plus_minus(quantity, spread)", "the quantity with ± of its own"},
	}
}

// FormNames lists the names of the special calls.
func FormNames() []string {
	var names []string
	for _, f := range Forms() {
		names = append(names, f.Name)
	}
	sort.Strings(names)
	return names
}

// overList evaluates body for the elements of a list; it stops when use says so.
type overList func(f *Frame, list calc.Value, body func(calc.Value) calc.Value, at calc.Span) calc.Value

// each compiles a form of a list and an expression of it.
func each(run overList) form {
	return func(c *compiler, name string, args []*tree, at calc.Span) (step, *calc.Error) {
		if len(args) != 2 {
			return nil, calc.Errorf(calc.CodeArguments, "%s wants a list and an expression of it", name).At(at).WithHint("write %s(list, it < 2 in)", name)
		}
		list, err := c.node(args[0])
		if err != nil {
			return nil, err
		}
		body, err := c.body(args[1])
		if err != nil {
			return nil, err
		}
		level := c.depth
		return func(f *Frame) calc.Value {
			l := list(f)
			if f.err != nil {
				return l
			}
			if l.Kind() != calc.List {
				return f.fail(calc.Errorf(calc.CodeKind, "%s wants a list; this is %s", name, l.What()), at)
			}
			switch name { // of an empty cell nothing can be asked
			case "filter", "count":
				l = f.taken(l, false)
			case "all", "any":
				l = f.taken(l, true)
			}
			return run(f, l, f.binder(level, body, at), at)
		}, nil
	}
}

// taken is a list without its empty cells; aloud, it remarks that there were some.
func (f *Frame) taken(l calc.Value, aloud bool) calc.Value {
	empty := 0
	for _, x := range l.Items() {
		if x.Kind() == calc.Missing {
			empty++
		}
	}
	if empty == 0 {
		return l
	}
	items := make([]calc.Value, 0, len(l.Items())-empty)
	var labels []string
	for i, x := range l.Items() {
		if x.Kind() != calc.Missing {
			items = append(items, x)
			if l.Labels() != nil {
				labels = append(labels, l.Labels()[i])
			}
		}
	}
	if aloud {
		f.Warnings = append(f.Warnings, strconv.Itoa(empty)+" of "+strconv.Itoa(len(l.Items()))+" are empty and are passed over")
	}
	return calc.Labelled(labels, items)
}

// takenOf is taken(list).
func takenOf(c *compiler, name string, args []*tree, at calc.Span) (step, *calc.Error) {
	if len(args) != 1 {
		return nil, calc.Errorf(calc.CodeArguments, "taken wants one list").At(at).WithHint("write taken(survey.port)")
	}
	list, err := c.node(args[0])
	return func(f *Frame) calc.Value {
		l := list(f)
		if f.err == nil && l.Kind() != calc.List {
			return f.fail(calc.Errorf(calc.CodeKind, "taken wants a list; this is %s", l.What()), at)
		}
		return f.taken(l, false)
	}, err
}

// body compiles an expression of it.
func (c *compiler) body(n *tree) (step, *calc.Error) {
	c.depth++
	s, err := c.node(n)
	c.depth--
	return s, err
}

// binder evaluates body with it bound at a level of nesting.
func (f *Frame) binder(level int, body step, at calc.Span) func(calc.Value) calc.Value {
	return func(x calc.Value) calc.Value {
		if !f.spend(1, at) {
			return calc.Value{}
		}
		for len(f.it) <= level {
			f.it = append(f.it, calc.Value{})
		}
		f.it[level] = x
		return body(f)
	}
}

func mapped(f *Frame, l calc.Value, body func(calc.Value) calc.Value, at calc.Span) calc.Value {
	out := make([]calc.Value, len(l.Items()))
	for i, x := range l.Items() {
		if out[i] = body(x); !f.hold(out[i], at) {
			return calc.Value{}
		}
	}
	return calc.Labelled(l.Labels(), out)
}

func filtered(f *Frame, l calc.Value, body func(calc.Value) calc.Value, at calc.Span) calc.Value {
	var out []calc.Value
	var labels []string
	for i, x := range l.Items() {
		if f.truth(body(x), at) {
			out = append(out, x)
			if l.Labels() != nil {
				labels = append(labels, l.Labels()[i])
			}
		}
	}
	return calc.Labelled(labels, out)
}

func allOf(f *Frame, l calc.Value, body func(calc.Value) calc.Value, at calc.Span) calc.Value {
	for _, x := range l.Items() {
		if !f.truth(body(x), at) {
			return calc.Bool(false)
		}
	}
	return calc.Bool(true)
}

func anyOf(f *Frame, l calc.Value, body func(calc.Value) calc.Value, at calc.Span) calc.Value {
	for _, x := range l.Items() {
		if f.truth(body(x), at) {
			return calc.Bool(true)
		}
	}
	return calc.Bool(false)
}

// counted is count(list) and count(list, condition).
func counted(c *compiler, name string, args []*tree, at calc.Span) (step, *calc.Error) {
	if len(args) == 2 {
		return each(func(f *Frame, l calc.Value, body func(calc.Value) calc.Value, at calc.Span) calc.Value {
			return calc.Number(float64(len(filtered(f, l, body, at).Items())))
		})(c, name, args, at)
	}
	if len(args) != 1 {
		return nil, calc.Errorf(calc.CodeArguments, "count wants a list, and a condition if you like").At(at)
	}
	list, err := c.node(args[0])
	return func(f *Frame) calc.Value {
		l := list(f)
		if f.err == nil && l.Kind() != calc.List {
			return f.fail(calc.Errorf(calc.CodeKind, "count wants a list; this is %s", l.What()), at)
		}
		return calc.Number(float64(len(f.taken(l, true).Items())))
	}, err
}

// summed is sum(list) and sum(list, expression).
func summed(c *compiler, name string, args []*tree, at calc.Span) (step, *calc.Error) {
	if len(args) == 2 {
		return each(func(f *Frame, l calc.Value, body func(calc.Value) calc.Value, at calc.Span) calc.Value {
			return f.total(mapped(f, l, body, at), at)
		})(c, name, args, at)
	}
	if len(args) != 1 {
		return nil, calc.Errorf(calc.CodeArguments, "sum wants a list, and an expression of it if you like").At(at).WithHint("write sum([2 in, 3 in])")
	}
	list, err := c.node(args[0])
	return func(f *Frame) calc.Value { return f.total(list(f), at) }, err
}

func (f *Frame) total(l calc.Value, at calc.Span) calc.Value {
	if f.err != nil {
		return calc.Value{}
	}
	if l.Kind() != calc.List {
		return f.fail(calc.Errorf(calc.CodeKind, "sum wants a list; this is %s", l.What()), at)
	}
	var z calc.Value
	for i, x := range l.Items() {
		if x.Kind() == calc.Missing {
			return f.fail(calc.Errorf(calc.CodeMissing, "element %d is empty", i+1).WithHint("an empty cell is not zero; sum(taken(list)) leaves it out"), at)
		}
		if i == 0 { // what cannot be added to its like is no sum, however short the list
			if f.op2(nil, (*calc.Slate).Add, x, x, at); f.err != nil {
				return calc.Value{}
			}
			z = x.Plain()
			continue
		}
		z = f.op2(nil, (*calc.Slate).Add, z, x, at)
	}
	return z
}

// solve finds it in [low, high] so that the expression is target, by Brent's
// method in its bisection-and-secant form; the two ends must lie on both sides.
func solve(c *compiler, name string, args []*tree, at calc.Span) (step, *calc.Error) {
	if len(args) != 4 {
		return nil, calc.Errorf(calc.CodeArguments, "solve wants an expression of it, a target, a low and a high end").At(at).
			WithHint("write solve(2 * it + 3 in, 24 in, 0 in, 20 in)")
	}
	body, err := c.body(args[0])
	if err != nil {
		return nil, err
	}
	rest, err := c.nodes(args[1:])
	if err != nil {
		return nil, err
	}
	level := c.depth
	return func(f *Frame) calc.Value {
		target, lo, hi := rest[0](f), rest[1](f), rest[2](f)
		if f.err != nil {
			return calc.Value{}
		}
		if !lo.IsQuantity() || lo.D != hi.D {
			return f.fail(calc.Errorf(calc.CodeDimension, "the low end is %s and the high end is %s", lo.What(), hi.What()), at)
		}
		eval := f.binder(level, body, at)
		g := func(v float64) float64 {
			z := f.op2(nil, (*calc.Slate).Sub, eval(calc.Of(v, lo.D)), target, at)
			if f.err == nil && !z.IsQuantity() {
				f.fail(calc.Errorf(calc.CodeKind, "solve wants an expression that is one quantity"), at)
			}
			return z.V
		}
		return f.root(g, lo, hi, at)
	}, nil
}

func (f *Frame) root(g func(float64) float64, lo, hi calc.Value, at calc.Span) calc.Value {
	a, b := lo.V, hi.V
	ga, gb := g(a), g(b)
	if f.err != nil {
		return calc.Value{}
	}
	if ga*gb > 0 {
		return f.fail(calc.Errorf(calc.CodeDomain, "the target is not reached between the two ends").
			WithHint("at the low end the expression is off by as much on the same side as at the high end; widen the ends"), at)
	}
	side := 0
	for n := 0; n < 200 && math.Abs(b-a) > 1e-15*math.Max(math.Abs(a), math.Abs(b)); n++ {
		// false position with the Illinois weighting, and a bisection every third step
		x := (a*gb - b*ga) / (gb - ga)
		if n%3 == 2 || math.IsNaN(x) || x <= math.Min(a, b) || x >= math.Max(a, b) {
			x = a + (b-a)/2
		}
		gx := g(x)
		if f.err != nil {
			return calc.Value{}
		}
		switch {
		case gx == 0:
			return calc.Of(x, lo.D)
		case gx*gb < 0:
			a, ga = b, gb
			b, gb, side = x, gx, 0
		default:
			b, gb = x, gx
			if side == 1 {
				ga /= 2
			}
			side = 1
		}
	}
	return calc.Of(b, lo.D)
}

// plusMinus gives a quantity a ± of its own, apart from those it has.
func plusMinus(c *compiler, name string, args []*tree, at calc.Span) (step, *calc.Error) {
	if len(args) != 2 {
		return nil, calc.Errorf(calc.CodeArguments, "plus_minus wants a quantity and its spread").At(at).WithHint(`write plus_minus(beam, 1/16")`)
	}
	s, err := c.nodes(args)
	if err != nil {
		return nil, err
	}
	k := c.expr.Spreads
	c.expr.Spreads++
	return func(f *Frame) calc.Value {
		x, u := s[0](f), s[1](f)
		if f.err == nil && (!x.IsQuantity() || !u.IsQuantity() || u.D != x.D) {
			return f.fail(calc.Errorf(calc.CodePlusMinus, "%s cannot be ± %s", x.What(), u.What()), at)
		}
		if f.err != nil {
			return calc.Value{}
		}
		own := calc.Term{Source: f.source(k), S: math.Abs(u.V)}
		return calc.WithTerms(x, append([]calc.Term{own}, x.Terms()...))
	}, nil
}
