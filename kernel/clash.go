package kernel

import (
	"scarph/calc"
	"scarph/calc/lang"
)

// A later reading is of one kind and one dimension with those before it: whoever revises
// a depth of two feet to 19 has left out the unit, and nothing may be cut to that.

// constant is the value of a reading that reads no other value.
func constant(r *statement) (calc.Value, bool) {
	st := r.line.Stmt
	if st == nil || st.Expr == nil || !st.Kind.IsReading() || r.line.Empty || r.line.Err != nil || len(st.Expr.Needs) > 0 {
		return calc.Value{}, false
	}
	x, err := st.Expr.Eval(&lang.Frame{Sources: make([]int32, st.Expr.Spreads)})
	return x, err == nil
}

// constantAmong is the value of a reading of n that reads no other value, where n has
// other readings that it could be unlike.
func (n *node) constantAmong(r *statement) (calc.Value, bool) {
	if len(n.readings) < 2 {
		return calc.Value{}, false
	}
	return constant(r)
}

// unlike says that a later reading cannot be one of the same value, nil when it can.
func unlike(name string, was, is calc.Value) *calc.Error {
	a, b := firstOf(was), firstOf(is)
	if a.Kind() == calc.Missing || b.Kind() == calc.Missing {
		return nil
	}
	if was.Kind() != is.Kind() || a.Kind() != b.Kind() {
		return calc.Errorf(calc.CodeKind, "%s is %s; this reading is %s", name, was.What(), is.What()).
			WithHint("a reading is of one kind with those before it; what is another thing wants another name")
	}
	if !a.IsQuantity() || a.D == b.D {
		return nil
	}
	e := calc.Errorf(calc.CodeDimension, "%s is %s; this reading is %s", name, a.D.A(), b.D.A()).
		WithHint("a reading has the dimension of those before it; what is another thing wants another name")
	if b.D.IsNumber() {
		e.Code = calc.CodeBareNumber
		e = e.WithHint("%s", calc.WhatUnit(b, a.D))
	}
	return e
}

// overWorked reports whether a reading has displaced another and one of the two is
// worked out from other values, so that only evaluation can tell whether they are alike.
func (n *node) overWorked(r *statement) *statement {
	if n.nameless() || len(n.readings) < 2 || r == nil || r.line.Stmt == nil || r.line.Stmt.Expr == nil {
		return nil
	}
	before := displacedBy(r)
	if before == nil || before.line.Stmt == nil || before.line.Stmt.Expr == nil || len(before.line.Stmt.Expr.Needs)+len(r.line.Stmt.Expr.Needs) == 0 {
		return nil
	}
	return before
}

// alike fails a reading that is unlike what its value was worked out to in the entry
// before it.
func (v *view) alike(n *node, r *statement, res *Result) *Result {
	before := n.overWorked(r)
	if before == nil || v.over != nil || !res.OK() || before.entry.order >= r.entry.order {
		return res
	}
	was := v.s.viewAt(r.entry.order - 1).result(n)
	if !was.OK() {
		return res
	}
	if e := unlike(n.name, was.Value, res.Value); e != nil {
		return &Result{Err: e.At(r.line.Stmt.Expr.Span), Reading: r}
	}
	return res
}
