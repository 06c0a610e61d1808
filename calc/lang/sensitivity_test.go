package lang

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"scarph/calc"
	"scarph/calc/trade"
)

// TestSensitivities gives every length and angle in every worked check a ± of its own
// and compares what the result carries from it with a central difference of the
// result itself, taken with another step.
func TestSensitivities(t *testing.T) {
	compared, functions := 0, 0
	for _, f := range trade.All() {
		if f.Stepped {
			continue
		}
		before := compared
		for _, c := range f.Checks {
			l := &line{}
			if err := l.lex(c.Call); err != nil {
				t.Fatalf("%s: %v", c.Call, err)
			}
			for i, tok := range l.tokens {
				if tok.kind == tokLiteral && tok.lit.Plus == 0 && (tok.lit.Value.D == calc.DimLength || tok.lit.Value.D == calc.DimAngle) {
					compared += compareSensitivity(t, c.Call, l, i)
				}
			}
		}
		if compared > before {
			functions++
		}
	}
	if functions < 60 {
		t.Errorf("only %d functions were compared", functions)
	}
	t.Logf("%d sensitivities of %d functions", compared, functions)
}

func compareSensitivity(t *testing.T, call string, l *line, i int) int {
	t.Helper()
	tok := l.tokens[i]
	unit, size := "mm", 0.001
	if tok.lit.Value.D == calc.DimAngle {
		unit, size = "deg", math.Pi/180
	}
	with := func(text string) (calc.Value, bool) {
		src := call[:tok.span.Start] + text + call[tok.span.End:]
		s, err := ParseSlot(src)
		if err != nil {
			t.Fatalf("%s: %v", src, err)
		}
		v, err := s.Expr.Eval(&Frame{})
		return v, err == nil
	}
	const u = 1e-4
	v, ok := with(fmt.Sprintf("%s ± %g %s", tok.text, u, unit))
	up, ok1 := with(fmt.Sprintf("(%s + %g %s)", tok.text, 2*u, unit))
	down, ok2 := with(fmt.Sprintf("(%s - %g %s)", tok.text, 2*u, unit))
	if !ok || !ok1 || !ok2 {
		return 0 // at the edge of what the function takes
	}
	return sameSlope(t, strings.TrimSpace(call)+" by "+tok.text, v, up, down, u*size, 4*u*size)
}

// sameSlope compares the ± of a value with a central difference, through lists and records.
func sameSlope(t *testing.T, what string, v, up, down calc.Value, u, step float64) int {
	t.Helper()
	if items := v.Items(); items != nil {
		n := 0
		if len(up.Items()) != len(items) || len(down.Items()) != len(items) {
			return 0
		}
		for k := range items {
			n += sameSlope(t, what, items[k], up.Items()[k], down.Items()[k], u, step)
		}
		return n
	}
	if !v.IsQuantity() {
		return 0
	}
	got, want := 0.0, (up.V-down.V)/step*u
	for _, term := range v.Terms() {
		got += term.S
	}
	second := math.Abs(up.V - 2*v.V + down.V) // a corner or a strong bend: no first-order answer
	if second > 1e-3*math.Abs(up.V-down.V) {
		return 0
	}
	if math.Abs(got-want) > 1e-4*math.Abs(want)+1e-5*u {
		t.Errorf("%s: carries %g, a central difference gives %g", what, got, want)
	}
	return 1
}
