package lang

import "scarph/calc"

// Seal is the value of an expression whose working is not told: what it is worked out
// from is kept back. Expr counts among the statement's [Stmt.Exprs].
type Seal struct {
	Expr  int
	Value calc.Value
}

// Untold stands for the working that is not told.
const Untold = "not told"

// Sealed returns the statement with expressions that need nothing and come to a given
// value. Their text is not told either: with a number in it the value could be taken apart.
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
		old, v := *at[x.Expr], x.Value
		*at[x.Expr] = &Expr{Text: Untold, Span: old.Span, System: old.System, Sealed: true, run: func(*Frame) calc.Value { return v }}
	}
	if z.Kind == Check && len(seals) > 0 {
		z.Text = Untold
	}
	return &z
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
