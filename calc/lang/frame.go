package lang

import (
	"scarph/calc"
	"scarph/calc/trade"
)

// Limits of one evaluation.
const (
	MaxItems = 1_000_000 // elements touched by lists in one statement
	MaxRange = 100_000   // elements of 1..n
)

// Frame is what an expression is evaluated in: the values of its needs, and what
// came up on the way. A Frame is used by one goroutine at a time and may be used again.
type Frame struct {
	// Vars holds a value for each of the expression's Needs.
	Vars []calc.Value
	// Sources holds an identity for each ± the expression writes.
	Sources []int32
	// Stop, if not nil, is asked now and then whether to give up.
	Stop func() bool

	// Warnings are remarks on results that are still given; Cautions are the safety
	// classes of the functions called, as bits from A = 1.
	Warnings []string
	Cautions uint8

	slate calc.Slate // of the ± of parts of sums
	err   *calc.Error
	it    []calc.Value
	fuel  int
}

type step func(*Frame) calc.Value

// Eval evaluates the expression in the frame.
func (e *Expr) Eval(f *Frame) (calc.Value, *calc.Error) {
	f.err, f.fuel, f.it = nil, MaxItems, f.it[:0]
	f.slate.Wipe(0)
	f.Warnings, f.Cautions = nil, 0
	v := e.run(f)
	if f.err != nil {
		return calc.Value{}, f.err
	}
	if !finite(v) {
		return calc.Value{}, calc.Errorf(calc.CodeLimit, "the number is too large to hold").At(e.Span).WithHint("check the powers and the units")
	}
	return v, nil
}

// finite reports whether all numbers in a value can be written.
func finite(v calc.Value) bool {
	if v.X == nil {
		return v.V-v.V == 0
	}
	for _, x := range v.Items() {
		if !finite(x) {
			return false
		}
	}
	return v.V-v.V == 0
}

// fail keeps the first error.
func (f *Frame) fail(err *calc.Error, at calc.Span) calc.Value {
	if f.err == nil {
		c := *err
		f.err = c.At(at)
	}
	return calc.Value{}
}

// spend charges n list elements, and reports whether the evaluation may go on.
func (f *Frame) spend(n int, at calc.Span) bool {
	if f.err != nil {
		return false
	}
	before := f.fuel
	f.fuel -= n
	if f.fuel < 0 {
		f.fail(calc.Errorf(calc.CodeLimit, "this statement goes through more than a million elements"), at)
		return false
	}
	if f.Stop != nil && before>>10 != f.fuel>>10 && f.Stop() {
		f.fail(calc.Errorf(calc.CodeInterrupted, "the evaluation was interrupted"), at)
		return false
	}
	return true
}

// hold charges an element of a list for all that is in it: a list of one list a thousand
// times over is small to keep, and a million long to show.
func (f *Frame) hold(x calc.Value, at calc.Span) bool {
	items := x.Items()
	if len(items) == 0 {
		return f.err == nil
	}
	if !f.spend(len(items), at) {
		return false
	}
	for _, it := range items {
		if len(it.Items()) > 0 && !f.hold(it, at) {
			return false
		}
	}
	return true
}

func (f *Frame) remark(r trade.Result, c trade.Caution) {
	f.Warnings = append(f.Warnings, r.Warnings...)
	if c != 0 {
		f.Cautions |= 1 << (c - 'A')
	}
}

// CautionsOf lists the classes in a set of caution bits.
func CautionsOf(bits uint8) []trade.Caution {
	var list []trade.Caution
	for c := trade.Caution('A'); c <= 'F'; c++ {
		if bits&(1<<(c-'A')) != 0 {
			list = append(list, c)
		}
	}
	return list
}
