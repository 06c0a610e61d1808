package kernel

import (
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
