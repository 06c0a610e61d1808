package lang

import "scarph/calc"

// operation is a sum, a difference, a product, a quotient or a power. It keeps the ±
// of what it makes on the slate, or for good where that is nil.
type operation func(l *calc.Slate, x, y calc.Value) (calc.Value, *calc.Error)

func power(_ *calc.Slate, x, y calc.Value) (calc.Value, *calc.Error) { return calc.Pow(x, y) }

// isSum reports whether a node is worked out by an operation.
func isSum(n *tree) bool {
	if n.kind != pairTree {
		return false
	}
	switch n.word {
	case "+", "-", "*", "/", "^", "**":
		return true
	}
	return false
}

// sum compiles an operation. Parts of a sum that are sums themselves keep their ± on
// the frame's slate; the whole wipes it, for only its own ± is kept.
func (c *compiler) sum(n *tree, at calc.Span) (step, *calc.Error) {
	part := c.part
	x, err := c.partOf(n.parts[0])
	if err != nil {
		return nil, err
	}
	y, err := c.partOf(n.parts[1])
	if err != nil {
		return nil, err
	}
	switch n.word {
	case "+":
		return func(f *Frame) calc.Value {
			mark := f.slate.Mark()
			a, b := x(f), y(f)
			if a.X == nil && b.X == nil && a.D == b.D && !a.D.OnScale() {
				return calc.Value{V: a.V + b.V, D: a.D}
			}
			return f.sum((*calc.Slate).Add, a, b, part, mark, at)
		}, nil
	case "-":
		return func(f *Frame) calc.Value {
			mark := f.slate.Mark()
			a, b := x(f), y(f)
			if a.X == nil && b.X == nil && a.D == b.D && !a.D.OnScale() {
				return calc.Value{V: a.V - b.V, D: a.D}
			}
			return f.sum((*calc.Slate).Sub, a, b, part, mark, at)
		}, nil
	case "*":
		return func(f *Frame) calc.Value {
			mark := f.slate.Mark()
			a, b := x(f), y(f)
			if a.X == nil && b.X == nil {
				if d, ok := a.D.Times(b.D); ok {
					return calc.Value{V: a.V * b.V, D: d}
				}
			}
			return f.sum((*calc.Slate).Mul, a, b, part, mark, at)
		}, nil
	case "/":
		return func(f *Frame) calc.Value {
			mark := f.slate.Mark()
			a, b := x(f), y(f)
			if a.X == nil && b.X == nil && b.V != 0 {
				if d, ok := a.D.Over(b.D); ok {
					return calc.Value{V: a.V / b.V, D: d}
				}
			}
			return f.sum((*calc.Slate).Div, a, b, part, mark, at)
		}, nil
	}
	return func(f *Frame) calc.Value {
		mark := f.slate.Mark()
		return f.sum(power, x(f), y(f), part, mark, at)
	}, nil
}

// partOf compiles one side of a sum.
func (c *compiler) partOf(n *tree) (step, *calc.Error) {
	c.part = isSum(n)
	s, err := c.node(n)
	c.part = false
	return s, err
}

// sum works out an operation that is not that of two plain quantities.
func (f *Frame) sum(op operation, x, y calc.Value, part bool, mark int, at calc.Span) calc.Value {
	if part {
		return f.op2(&f.slate, op, x, y, at)
	}
	z := f.op2(nil, op, x, y, at)
	f.slate.Wipe(mark)
	return z
}

func (f *Frame) op2(l *calc.Slate, op operation, x, y calc.Value, at calc.Span) calc.Value {
	if f.err != nil {
		return calc.Value{}
	}
	if n := len(x.Items()) + len(y.Items()); n > 0 && !f.spend(n, at) {
		return calc.Value{}
	}
	z, err := op(l, x, y)
	if err != nil {
		return f.fail(err, at)
	}
	return z
}
