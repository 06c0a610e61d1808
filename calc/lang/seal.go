package lang

import (
	"math"

	"scarph/calc"
)

// Seal is the value of an expression whose working is not told: what it is worked out
// from is kept back. Expr counts among the statement's [Stmt.Exprs].
type Seal struct {
	Expr  int
	Value calc.Value
	// Leans are the told values that it hangs on. It holds while they are what they were.
	Leans []Lean
}

// Lean is a value that a sealed one hangs on, as it was when it was sealed.
type Lean struct {
	Name  string
	Value calc.Value
}

// Untold stands for the working that is not told.
const Untold = "not told"

// Sealed returns the statement with expressions that come to a given value, and to none
// when what they hang on is another than it was: how they would follow is not told. Their text is not told either: with a number in it the value could be taken apart.
func (s *Stmt) Sealed(seals []Seal) *Stmt {
	z := *s
	z.Sizes = append([]Size(nil), s.Sizes...)
	var at []**Expr
	for _, e := range [...]**Expr{&z.Expr, &z.Within, &z.Left, &z.Right} {
		if *e != nil {
			at = append(at, e)
		}
	}
	for i := range z.Sizes {
		at = append(at, &z.Sizes[i].Expr)
	}
	for _, x := range seals {
		if x.Expr < 0 || x.Expr >= len(at) {
			continue
		}
		old := *at[x.Expr]
		e := &Expr{Text: Untold, Span: old.Span, System: old.System, Sealed: true, run: x.open}
		for _, l := range x.Leans {
			e.Needs = append(e.Needs, Need{Path: l.Name, Span: old.Span})
		}
		*at[x.Expr] = e
	}
	if z.Kind == Check && len(seals) > 0 {
		z.Text = Untold
	}
	return &z
}

// open gives the sealed value.
func (x Seal) open(f *Frame) calc.Value {
	for i, l := range x.Leans {
		if i < len(f.Vars) && !alike(f.Vars[i], l.Value) {
			return f.fail(calc.Errorf(calc.CodePublish, "this hangs on %s and does not follow it: its working is not told", l.Name), calc.Span{})
		}
	}
	return x.Value
}

// alike reports whether two values are the same but for their ± and the last digits, in
// which machines differ.
func alike(x, y calc.Value) bool {
	a, b := x.Items(), y.Items()
	if x.Kind() != y.Kind() || x.D != y.D || len(a) != len(b) {
		return false
	}
	for i := range a {
		if !alike(a[i], b[i]) {
			return false
		}
	}
	switch {
	case a != nil:
		return true
	case !x.IsQuantity():
		return calc.Same(x, y)
	}
	return math.Abs(x.V-y.V) <= 1e-9*math.Max(math.Abs(x.V), math.Abs(y.V))
}

// TextWithout returns the statement's source with the given expressions, counted
// among its Exprs, written as 0, so that it can be read again without what they name.
func (s *Stmt) TextWithout(src string, seals []Seal) string {
	exprs := s.Exprs()
	if s.Kind == Check && len(seals) > 0 { // its two sides lie within the whole
		seals = seals[:1]
	}
	for i := len(seals) - 1; i >= 0; i-- {
		e := exprs[seals[i].Expr]
		if e.Span.Start >= 0 && e.Span.End <= len(src) {
			src = src[:e.Span.Start] + "0" + src[e.Span.End:]
		}
	}
	return src
}
