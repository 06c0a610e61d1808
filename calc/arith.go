package calc

import "math"

// Operations on values. Each spreads over lists: a list and a quantity give a
// list, two lists of one length go element by element, others are a shape error.
// The way a value asks to be shown does not go through a sum.

// Add returns x + y.
func Add(x, y Value) (Value, *Error) { return (*Slate)(nil).Add(x, y) }

// Add returns x + y, the ± of it on the slate.
func (l *Slate) Add(x, y Value) (Value, *Error) {
	if x.X == nil && y.X == nil && x.D == y.D && !x.D.OnScale() {
		return Value{V: x.V + y.V, D: x.D}, nil
	}
	return l.slowSum(x, y, 1, Add)
}

// Sub returns x − y.
func Sub(x, y Value) (Value, *Error) { return (*Slate)(nil).Sub(x, y) }

// Sub returns x − y, the ± of it on the slate.
func (l *Slate) Sub(x, y Value) (Value, *Error) {
	if x.X == nil && y.X == nil && x.D == y.D && !x.D.OnScale() {
		return Value{V: x.V - y.V, D: x.D}, nil
	}
	return l.slowSum(x, y, -1, Sub)
}

func (l *Slate) slowSum(x, y Value, sign float64, op func(x, y Value) (Value, *Error)) (Value, *Error) {
	if !x.IsQuantity() || !y.IsQuantity() {
		return spread(x, y, op, sumWord(sign))
	}
	d := x.D
	if x.D.OnScale() || y.D.OnScale() {
		switch {
		case x.D == y.D && sign < 0: // reading − reading: a difference
			d = d.Difference()
		case x.D.OnScale() && y.D == DimWarmth:
		case y.D.OnScale() && x.D == DimWarmth && sign > 0:
			d = y.D
		case x.D == y.D:
			return x, Errorf(CodeTemperature, "two temperatures on the scale cannot be added").
				WithHint("a difference is written 5 K, 5 C° or 9 F°")
		default:
			return x, sumError(x, y, sign)
		}
	} else if x.D != y.D {
		return x, sumError(x, y, sign)
	}
	return Value{V: x.V + sign*y.V, D: d, X: l.mix(1, x.Terms(), sign, y.Terms())}, nil
}

func sumWord(sign float64) string {
	if sign > 0 {
		return "added to"
	}
	return "subtracted from"
}

func sumError(x, y Value, sign float64) *Error {
	if x.D.HasMoney() && y.D.HasMoney() && x.D.CurrencyCode() != y.D.CurrencyCode() {
		return Errorf(CodeCurrency, "%s and %s do not mix: money is never converted", x.D.CurrencyCode(), y.D.CurrencyCode())
	}
	var e *Error
	if sign > 0 {
		e = Errorf(CodeDimension, "%s cannot be added to %s", y.D.A(), x.D.A())
	} else {
		e = Errorf(CodeDimension, "%s cannot be taken from %s", y.D.A(), x.D.A())
	}
	for _, q := range [...]struct{ bare, other Value }{{x, y}, {y, x}} {
		if q.bare.D.IsNumber() {
			e.Code = CodeBareNumber
			return e.WithHint("%s", WhatUnit(q.bare, q.other.D))
		}
	}
	return e.WithHint("both sides need one dimension")
}

// WhatUnit asks for the unit of a bare number where a dimension is wanted:
// "19 what? Write 19 in, 19 mm or 1 ft 7 in."
func WhatUnit(x Value, want Dimension) string {
	n := formatNumber(x.V, 6)
	switch want {
	case DimLength:
		if f := asFraction(x.V); f != "" {
			return n + " what? Write " + f + "\" or " + n + " mm."
		}
		feet := ""
		if w := math.Floor(x.V / 12); w >= 1 && x.V < 1200 {
			feet = " or " + formatNumber(w, 6) + " ft " + formatNumber(x.V-12*w, 6) + " in"
		} else {
			return n + " what? Write " + n + " in or " + n + " mm."
		}
		return n + " what? Write " + n + " in, " + n + " mm" + feet + "."
	case DimAngle:
		return n + " what? Write " + n + "°."
	case DimMass:
		return n + " what? Write " + n + " lb or " + n + " kg."
	case DimTemperature:
		return n + " what? Write " + n + " °F or " + n + " °C."
	}
	if u := exampleUnits(want); u != "" {
		return n + " what? Write " + u + "."
	}
	return n + " what? It wants " + want.A() + "."
}

// Mul returns x · y.
func Mul(x, y Value) (Value, *Error) { return (*Slate)(nil).Mul(x, y) }

// Mul returns x · y, the ± of it on the slate.
func (l *Slate) Mul(x, y Value) (Value, *Error) {
	if x.X == nil && y.X == nil {
		if d, ok := x.D.Times(y.D); ok {
			return Value{V: x.V * y.V, D: d}, nil
		}
		d, err := x.D.combine(y.D, 1)
		return Value{V: x.V * y.V, D: d}, err
	}
	if !x.IsQuantity() || !y.IsQuantity() {
		return spread(x, y, Mul, "multiplied by")
	}
	d, ok := x.D.Times(y.D)
	if !ok {
		var err *Error
		if d, err = x.D.combine(y.D, 1); err != nil {
			return x, err
		}
	}
	return Value{V: x.V * y.V, D: d, X: l.mix(y.V, x.Terms(), x.V, y.Terms())}, nil
}

// Div returns x / y; a division by nothing is an error.
func Div(x, y Value) (Value, *Error) { return (*Slate)(nil).Div(x, y) }

// Div returns x / y, the ± of it on the slate.
func (l *Slate) Div(x, y Value) (Value, *Error) {
	if !x.IsQuantity() || !y.IsQuantity() {
		return spread(x, y, Div, "divided by")
	}
	if y.V == 0 {
		return x, Errorf(CodeZero, "the divisor is zero").WithHint("nothing can be divided into no parts")
	}
	d, ok := x.D.Over(y.D)
	if !ok {
		var err *Error
		if d, err = x.D.combine(y.D, -1); err != nil {
			return x, err
		}
	}
	z := Value{V: x.V / y.V, D: d}
	if x.X != nil || y.X != nil {
		z.X = l.mix(1/y.V, x.Terms(), -x.V/(y.V*y.V), y.Terms())
	}
	return z, nil
}

// Pow returns x to the power y. A quantity with a dimension takes whole powers
// and halves only.
func Pow(x, y Value) (Value, *Error) {
	if !x.IsQuantity() || !y.IsQuantity() {
		return spread(x, y, Pow, "raised to")
	}
	if !y.D.IsNumber() {
		return x, Errorf(CodeDimension, "an exponent is a plain number; this is %s", y.D.A())
	}
	d := x.D
	if !d.IsNumber() {
		halves := 2 * y.V
		ok := halves == math.Trunc(halves) && math.Abs(halves) <= 60
		if ok {
			d, ok = d.Power(int(halves))
		}
		if !ok {
			return x, Errorf(CodeDimension, "%s cannot be raised to %s", x.D.A(), formatNumber(y.V, 6)).
				WithHint("whole powers, and square roots of what is a square")
		}
	}
	v := math.Pow(x.V, y.V)
	if math.IsNaN(v) || math.IsInf(v, 0) {
		if x.V < 0 {
			return x, Errorf(CodeDomain, "a number below zero has no root").WithHint("check the signs under the root")
		}
		if x.V == 0 {
			return x, Errorf(CodeZero, "zero to a power below zero divides by nothing")
		}
		return x, Errorf(CodeLimit, "the number is too large to hold")
	}
	z := Value{V: v, D: d}
	if x.X != nil || y.X != nil {
		var dx, dy float64
		if y.V != 0 {
			dx = y.V * math.Pow(x.V, y.V-1)
		}
		if len(y.Terms()) > 0 && x.V > 0 {
			dy = v * math.Log(x.V)
		}
		z.X = (*Slate)(nil).mix(dx, x.Terms(), dy, y.Terms())
	}
	return z, nil
}

// Compare returns −1, 0 or +1 for two quantities of one dimension or two texts.
// Lengths that differ by less than a billionth of their size are equal, so that
// 3 × 0.1 in is 0.3 in.
func Compare(x, y Value) (int, *Error) {
	if x.Kind() == Text && y.Kind() == Text {
		switch {
		case x.Text() < y.Text():
			return -1, nil
		case x.Text() > y.Text():
			return 1, nil
		}
		return 0, nil
	}
	if x.Kind() == Truth && y.Kind() == Truth {
		return int(x.V - y.V), nil
	}
	if !x.IsQuantity() || !y.IsQuantity() {
		e := Errorf(CodeKind, "%s cannot be compared with %s", x.What(), y.What())
		if x.Kind() == List || y.Kind() == List {
			return 0, e.WithHint("compare the elements one by one: all(list, it < limit)")
		}
		return 0, e.WithHint("only like goes with like: quantities of one dimension, texts, yes and no")
	}
	if x.D != y.D {
		e := Errorf(CodeDimension, "%s cannot be compared with %s", x.D.A(), y.D.A())
		for _, q := range [...]struct{ bare, other Value }{{x, y}, {y, x}} {
			if q.bare.D.IsNumber() {
				e.Code = CodeBareNumber
				e.Hint = WhatUnit(q.bare, q.other.D)
			}
		}
		return 0, e
	}
	diff := x.V - y.V
	if math.Abs(diff) <= 1e-9*math.Max(math.Abs(x.V), math.Abs(y.V)) {
		return 0, nil
	}
	if diff < 0 {
		return -1, nil
	}
	return 1, nil
}

// spread applies op over lists.
func spread(x, y Value, op func(x, y Value) (Value, *Error), word string) (Value, *Error) {
	xs, ys := x.Kind() == List, y.Kind() == List
	if !xs && !ys {
		if x.Kind() == Missing || y.Kind() == Missing {
			if x.IsQuantity() || y.IsQuantity() || x.Kind() == y.Kind() {
				return NoValue(), nil
			}
		}
		return x, Errorf(CodeKind, "%s cannot be %s %s", x.What(), word, y.What())
	}
	if xs && ys && len(x.X.Items) != len(y.X.Items) {
		return x, Errorf(CodeShape, "the lists have %d and %d elements", len(x.X.Items), len(y.X.Items)).
			WithHint("sums of lists go element by element, so both need one length")
	}
	var labels []string
	n := 0
	if xs {
		n, labels = len(x.X.Items), x.X.Labels
	}
	if ys {
		n = len(y.X.Items)
		if labels == nil {
			labels = y.X.Labels
		}
	}
	out := make([]Value, n)
	for i := range out {
		a, b := x, y
		if xs {
			a = x.X.Items[i]
		}
		if ys {
			b = y.X.Items[i]
		}
		z, err := op(a, b)
		if err != nil {
			return x, err
		}
		out[i] = z
	}
	return Labelled(labels, out), nil
}
