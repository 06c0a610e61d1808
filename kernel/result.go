package kernel

import (
	"math"

	"scarph/calc"
)

// Result is what a value or a line came to. It is not changed after it is made.
type Result struct {
	Value calc.Value
	// Err says why there is no value: the statement's own fault, placed by a span in
	// its text; nil for an echo.
	Err *calc.Error
	// Waits names the values whose failure this one waits for, when the fault is
	// not its own.
	Waits []string
	// Reading is the statement that gave the value its number, nil for what is put
	// together from others.
	Reading  *statement
	Warnings []string
	Cautions uint8 // classes of safety remarks, as bits from A = 1
}

// OK reports whether there is a value.
func (r *Result) OK() bool { return r.Err == nil && r.Waits == nil }

// unmoved reports whether two results are the same but for what the arithmetic leaves
// behind: a ripple does not tell of a hair's breadth of a hair.
func (r *Result) unmoved(o *Result) bool {
	if r == nil || o == nil || !r.OK() || !o.OK() {
		return r.same(o)
	}
	return r.Cautions == o.Cautions && sameNames(r.Warnings, o.Warnings) && equal(r.Value, o.Value)
}

func equal(x, y calc.Value) bool {
	a, b := x.Items(), y.Items()
	if len(a) == 0 || len(a) != len(b) || !sameNames(x.Labels(), y.Labels()) {
		return calc.Same(x, y) || x.IsQuantity() && y.IsQuantity() && x.D == y.D && closeTo(x.V, y.V) && closeTo(x.Likely(), y.Likely())
	}
	for i := range a {
		if !equal(a[i], b[i]) {
			return false
		}
	}
	return true
}

func closeTo(x, y float64) bool {
	return math.Abs(x-y) <= 1e-12*math.Max(math.Abs(x), math.Abs(y))+1e-15
}

// same reports whether two results say the same.
func (r *Result) same(o *Result) bool {
	if r == nil || o == nil {
		return r == o
	}
	if r.OK() != o.OK() || r.Cautions != o.Cautions || !sameNames(r.Warnings, o.Warnings) {
		return false
	}
	if r.OK() {
		return calc.Same(r.Value, o.Value)
	}
	if (r.Err == nil) != (o.Err == nil) || r.Err != nil && (r.Err.Code != o.Err.Code || r.Err.Message != o.Err.Message || r.Err.Hint != o.Err.Hint || r.Err.Span != o.Err.Span) {
		return false
	}
	return sameNames(r.Waits, o.Waits)
}
