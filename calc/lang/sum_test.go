package lang

import (
	"math/rand/v2"
	"strings"
	"testing"

	"scarph/calc"
)

// spreadSum writes a sum of quantities with ±, lists and choices among them.
func spreadSum(r *rand.Rand, deep int) string {
	if deep == 0 {
		return []string{"a", "b", "c", "2", "3 in", "1 ft ± 1/8 in", "n"}[r.IntN(7)]
	}
	x := func() string { return spreadSum(r, deep-1) }
	switch r.IntN(9) {
	case 0:
		return "[" + x() + ", " + x() + "]"
	case 1:
		return "map([" + x() + ", " + x() + "], it * " + x() + " + it * " + x() + ")"
	case 2:
		return "(n > 1 ? " + x() + " : " + x() + ")"
	case 3:
		return "sum([" + x() + ", " + x() + "])"
	case 4:
		return "-(" + x() + ")"
	default:
		return "(" + x() + " " + []string{"+", "-", "*", "/"}[r.IntN(4)] + " " + x() + ")"
	}
}

// The ± of a result is its own: working out other sums in the same frame, which writes
// on the same slate, leaves it as it was; and it is what a frame of its own gives.
func TestKeptResultsAreNotOnTheSlate(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 4))
	vars := map[string]calc.Value{
		"a": calc.WithSpread(calc.Inches(10), 0.001, 1), "b": calc.WithSpread(calc.Inches(7), 0.002, 2),
		"c": calc.WithSpread(calc.Inches(3), 0.003, 3), "n": calc.WithSpread(calc.Number(4), 0.1, 4),
	}
	shared := &Frame{}
	var exprs []*Expr
	var kept []calc.Value
	given := func(f *Frame, e *Expr) *Frame {
		f.Vars, f.Sources = f.Vars[:0], nil
		for _, n := range e.Needs {
			f.Vars = append(f.Vars, vars[n.Path])
		}
		return f
	}
	for range 4000 {
		s, perr := ParseSlot(spreadSum(r, 1+r.IntN(4)))
		if perr != nil {
			t.Fatal(perr)
		}
		v, err := s.Expr.Eval(given(shared, s.Expr))
		if err != nil {
			continue
		}
		exprs, kept = append(exprs, s.Expr), append(kept, v)
	}
	if len(kept) < 1000 {
		t.Fatalf("only %d of the sums have a result", len(kept))
	}
	withTerms := 0
	for i, e := range exprs {
		want, err := e.Eval(given(&Frame{}, e))
		if err != nil || !calc.Same(kept[i], want) {
			t.Fatalf("%s was kept as %v, by itself it is %v, %v", e.Text, kept[i], want, err)
		}
		if strings.Contains(e.Text, "*") && len(want.Terms()) > 1 {
			withTerms++
		}
	}
	if withTerms < 100 {
		t.Fatalf("only %d products with ± of several sources", withTerms)
	}
}
