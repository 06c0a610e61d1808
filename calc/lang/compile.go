package lang

import (
	"math"
	"strings"

	"scarph/calc"
	"scarph/calc/trade"
)

// compiler turns the parser's tree into closures.
type compiler struct {
	terms *terms
	expr  *Expr
	depth int  // how many lists we are inside of, for it
	part  bool // what is compiled next is a part of a sum
}

func (c *compiler) node(n *tree) (step, *calc.Error) {
	at := n.at
	switch n.kind {
	case operandTree:
		return c.operand(n, at)
	case nameTree:
		return nil, calc.Errorf(calc.CodeSyntax, "%s cannot stand here", n.word).At(at)
	case truthTree:
		v := calc.Bool(n.word == "true")
		return func(*Frame) calc.Value { return v }, nil
	case signTree:
		return c.unary(n, at)
	case pairTree:
		return c.binary(n, at)
	case choiceTree:
		return c.choice(n, at)
	case listTree:
		return c.list(n, at)
	case fieldTree:
		return c.member(n, at)
	case callTree:
		return c.call(n.word, n.parts, at)
	}
	return nil, calc.Errorf(calc.CodeSyntax, "this has no meaning in a sum").At(at).WithHint("use + − * / ^, brackets, functions, lists [a, b] and choices a < b ? c : d")
}

func (c *compiler) operand(n *tree, at calc.Span) (step, *calc.Error) {
	op := &c.terms.operands[n.operand]
	switch op.kind {
	case tokText:
		v := calc.Str(op.text)
		return func(*Frame) calc.Value { return v }, nil
	case tokLiteral:
		v := op.lit.Value
		if op.spread < 0 {
			return func(*Frame) calc.Value { return v }, nil
		}
		u, k := op.lit.Plus, op.spread
		return func(f *Frame) calc.Value { return calc.WithSpread(v, u, f.source(k)) }, nil
	}
	if op.need >= 0 {
		i := op.need
		return func(f *Frame) calc.Value { return f.Vars[i] }, nil
	}
	if t := op.text; t == "yes" || t == "no" || t == "true" || t == "false" {
		v := calc.Bool(t == "yes" || t == "true")
		return func(*Frame) calc.Value { return v }, nil
	}
	if c.depth == 0 && c.terms.l.scratch {
		i := c.terms.need(Need{Path: op.text, Span: op.at})
		return func(f *Frame) calc.Value { return f.Vars[i] }, nil
	}
	if c.depth == 0 {
		return nil, calc.Errorf(calc.CodeSyntax, "it stands for the element of a list, inside map, filter, all, any, count, sum or solve").At(at)
	}
	level := c.depth - 1
	fields := op.member
	return func(f *Frame) calc.Value {
		v := f.it[level]
		for _, name := range fields {
			v = f.member(v, name, at)
		}
		return v
	}, nil
}

// source gives a ± its identity; frames without identities get distinct ones below zero.
func (f *Frame) source(k int) int32 {
	if k < len(f.Sources) {
		return f.Sources[k]
	}
	return int32(-1 - k)
}

func (c *compiler) unary(n *tree, at calc.Span) (step, *calc.Error) {
	if v, ok := c.belowZero(n); ok {
		return func(*Frame) calc.Value { return v }, nil
	}
	x, err := c.node(n.parts[0])
	if err != nil {
		return nil, err
	}
	switch n.word {
	case "-":
		return func(f *Frame) calc.Value {
			v := x(f)
			if v.X == nil && !v.D.OnScale() {
				return calc.Value{V: -v.V, D: v.D}
			}
			return f.op2(nil, (*calc.Slate).Mul, v, calc.Number(-1), at)
		}, nil
	case "+":
		return x, nil
	}
	return func(f *Frame) calc.Value {
		return calc.Bool(!f.truth(x(f), at))
	}, nil
}

// belowZero reads -8 °C: on a scale with its own zero the sign belongs to the number.
func (c *compiler) belowZero(n *tree) (calc.Value, bool) {
	id := n.parts[0]
	if id.kind != operandTree || n.word != "-" {
		return calc.Value{}, false
	}
	op := &c.terms.operands[id.operand]
	if op.kind != tokLiteral || !op.lit.Value.D.OnScale() || op.spread >= 0 {
		return calc.Value{}, false
	}
	v := op.lit.Value
	v.V = 2*op.lit.Zero - v.V
	return v, true
}

func (f *Frame) truth(v calc.Value, at calc.Span) bool {
	if f.err != nil {
		return false
	}
	if v.Kind() != calc.Truth {
		f.fail(calc.Errorf(calc.CodeKind, "a comparison is wanted here; this is %s", v.What()).WithHint("compare with <, <=, >, >= or =="), at)
		return false
	}
	return v.V != 0
}

func (c *compiler) binary(n *tree, at calc.Span) (step, *calc.Error) {
	if isSum(n) {
		return c.sum(n, at)
	}
	x, err := c.node(n.parts[0])
	if err != nil {
		return nil, err
	}
	y, err := c.node(n.parts[1])
	if err != nil {
		return nil, err
	}
	switch n.word {
	case "..":
		return func(f *Frame) calc.Value { return f.between(x(f), y(f), at) }, nil
	case "and", "&&":
		return func(f *Frame) calc.Value { return calc.Bool(f.truth(x(f), at) && f.truth(y(f), at)) }, nil
	case "or", "||":
		return func(f *Frame) calc.Value { return calc.Bool(f.truth(x(f), at) || f.truth(y(f), at)) }, nil
	}
	if holds := comparison(n.word); holds != nil {
		inOrder := n.word != "==" && n.word != "!="
		return func(f *Frame) calc.Value {
			a, b := x(f), y(f)
			if f.err != nil {
				return calc.Value{}
			}
			k, err := calc.Compare(a, b)
			if err == nil && a.Kind() == calc.Text && inOrder {
				err = calc.Errorf(calc.CodeKind, "texts have no order").WithHint("texts are compared with == and !=")
			}
			if err != nil {
				return f.fail(err, at)
			}
			return calc.Bool(holds(k))
		}, nil
	}
	return nil, calc.Errorf(calc.CodeSyntax, "%s has no meaning in a sum", n.word).At(at)
}

// comparison is how a sign tells of two values in their order (−1, 0, 1) whether it
// holds; nil for a sign that compares nothing.
func comparison(sign string) func(order int) bool {
	switch sign {
	case "==":
		return func(k int) bool { return k == 0 }
	case "!=":
		return func(k int) bool { return k != 0 }
	case "<":
		return func(k int) bool { return k < 0 }
	case "<=":
		return func(k int) bool { return k <= 0 }
	case ">":
		return func(k int) bool { return k > 0 }
	case ">=":
		return func(k int) bool { return k >= 0 }
	}
	return nil
}

// between makes the list a..b of whole numbers.
func (f *Frame) between(x, y calc.Value, at calc.Span) calc.Value {
	if f.err != nil {
		return calc.Value{}
	}
	for _, v := range [...]calc.Value{x, y} {
		if !v.IsQuantity() || !v.D.IsNumber() || v.V != math.Trunc(v.V) {
			return f.fail(calc.Errorf(calc.CodeKind, "a range runs between whole numbers; this is %s", v.What()).WithHint("write 1..9"), at)
		}
	}
	n := y.V - x.V + 1
	if n > MaxRange {
		return f.fail(calc.Errorf(calc.CodeLimit, "a range has at most %d elements", MaxRange), at)
	}
	if n < 0 { // 1..0 is a list of none
		return f.fail(calc.Errorf(calc.CodeDomain, "the range begins at %s and ends at %s", calc.Style{}.Text(x), calc.Style{}.Text(y)).
			WithHint("a range runs upward: 1..9"), at)
	}
	if !f.spend(int(n), at) {
		return calc.Value{}
	}
	items := make([]calc.Value, int(n))
	for i := range items {
		items[i] = calc.Number(x.V + float64(i))
	}
	return calc.Listed(items...)
}

func (c *compiler) choice(n *tree, at calc.Span) (step, *calc.Error) {
	cond, err := c.node(n.parts[0])
	if err != nil {
		return nil, err
	}
	yes, err := c.node(n.parts[1])
	if err != nil {
		return nil, err
	}
	no, err := c.node(n.parts[2])
	if err != nil {
		return nil, err
	}
	at = n.parts[0].at // of what is no comparison
	return func(f *Frame) calc.Value {
		if f.truth(cond(f), at) {
			return yes(f)
		}
		return no(f)
	}, nil
}

func (c *compiler) list(n *tree, at calc.Span) (step, *calc.Error) {
	items, err := c.nodes(n.parts)
	if err != nil {
		return nil, err
	}
	return func(f *Frame) calc.Value {
		out := make([]calc.Value, len(items))
		for i, it := range items {
			if out[i] = it(f); !f.hold(out[i], at) {
				return calc.Value{}
			}
		}
		if !f.spend(len(items), at) {
			return calc.Value{}
		}
		return calc.Listed(out...)
	}, nil
}

func (c *compiler) nodes(list []*tree) ([]step, *calc.Error) {
	out := make([]step, len(list))
	for i, a := range list {
		s, err := c.node(a)
		if err != nil {
			return nil, err
		}
		out[i] = s
	}
	return out, nil
}

func (c *compiler) member(n *tree, at calc.Span) (step, *calc.Error) {
	x, err := c.node(n.parts[0])
	if err != nil {
		return nil, err
	}
	if n.word == "" {
		return nil, calc.Errorf(calc.CodeSyntax, "square brackets make lists").At(at).WithHint("the second element of a list is at(list, 2)")
	}
	name := n.word
	return func(f *Frame) calc.Value { return f.member(x(f), name, at) }, nil
}

// member takes a field of a record or a labelled element of a list.
func (f *Frame) member(v calc.Value, name string, at calc.Span) calc.Value {
	if f.err != nil {
		return calc.Value{}
	}
	z, err := Member(v, name)
	if err != nil {
		return f.fail(err, at)
	}
	return z
}

// Member takes a field of a record, a labelled element of a list, or, of a list of
// records, that field of each.
func Member(v calc.Value, name string) (calc.Value, *calc.Error) {
	if z, ok := v.Member(name); ok {
		return z, nil
	}
	if v.Kind() == calc.List && len(v.Items()) > 0 && v.Items()[0].Kind() == calc.Record {
		out := make([]calc.Value, len(v.Items()))
		for i, it := range v.Items() {
			z, err := Member(it, name)
			if err != nil {
				return v, err
			}
			out[i] = z
		}
		return calc.Labelled(v.Labels(), out), nil
	}
	if len(v.Labels()) == 0 {
		return v, calc.Errorf(calc.CodeUnknownItem, "%s has no field %s", v.What(), name)
	}
	e := calc.Errorf(calc.CodeUnknownItem, "there is no %s here", name)
	if near := calc.Nearest(name, v.Labels()); near != "" {
		return v, e.WithHint("did you mean %s?", near)
	}
	return v, e.WithHint("there are %s", listed(v.Labels(), 12))
}

// begunBy lists the names that begin with a word.
func begunBy(word string, names []string) []string {
	var list []string
	for _, n := range names {
		if strings.HasPrefix(n, word) {
			list = append(list, n)
		}
	}
	return list
}

func listed(names []string, most int) string {
	s := ""
	for i, n := range names {
		if i == most {
			return s + ", …"
		}
		if i > 0 {
			s += ", "
		}
		s += n
	}
	return s
}

// call compiles a call: a special form of the language, or a function of the trade.
func (c *compiler) call(name string, args []*tree, at calc.Span) (step, *calc.Error) {
	if form := formOf(name); form != nil {
		return form(c, name, args, at)
	}
	fn, ok := trade.Find(name)
	if !ok {
		e := calc.Errorf(calc.CodeUnknownFunc, "there is no function %s", name).At(at)
		if family := begunBy(name+"_", trade.Names()); len(family) > 0 {
			return nil, e.WithHint("there are %s", listed(family, 6))
		}
		if near := calc.Nearest(name, append(FormNames(), trade.Names()...)); near != "" {
			return nil, e.WithHint("did you mean %s?", near)
		}
		return nil, e.WithHint("scarph functions lists them all")
	}
	steps, err := c.nodes(args)
	if err != nil {
		return nil, err
	}
	c.expr.Calls = append(c.expr.Calls, fn.Name)
	spans := make([]calc.Span, len(args))
	for i, a := range args {
		spans[i] = a.at
	}
	doubt := c.exchanged(fn, args)
	return func(f *Frame) calc.Value {
		if doubt != "" {
			f.Warnings = append(f.Warnings, doubt)
		}
		vals := make([]calc.Value, len(steps))
		n := 1
		for i, s := range steps {
			vals[i] = s(f)
			n += len(vals[i].Items())
		}
		if !f.spend(n, at) {
			return calc.Value{}
		}
		r, err := fn.Invoke(vals)
		if err != nil {
			return f.fail(err, at)
		}
		f.remark(r, fn.Caution)
		return r.Value
	}, nil
}
