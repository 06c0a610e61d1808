package results

import (
	"testing"

	"scarph/calc"
	"scarph/kernel"
)

// TestAFailingCheckShowsWhatIsSo never sets the sign that was asked for between two sides
// of which it is not so.
func TestAFailingCheckShowsWhatIsSo(t *testing.T) {
	side := func(inches float64) *kernel.Result { return &kernel.Result{Value: calc.Length(inches * 0.0254)} }
	r := &Writer{}
	for _, c := range []struct {
		left, right float64
		sign        string
		holds       bool
		want        string
	}{
		{49, 48.5, "==", false, `4' 1" ≠ 4' 0 1/2"`},
		{1.5, 1.375, "<", false, `1 1/2" > 1 3/8"`},
		{1.5, 1.5, "<", false, `1 1/2" = 1 1/2"`},
		{1.5, 1.375, "<=", false, `1 1/2" > 1 3/8"`},
		{1, 2, ">", false, `1" < 2"`},
		{2, 2, ">", false, `2" = 2"`},
		{1, 2, ">=", false, `1" < 2"`},
		{2, 2, "!=", false, `2" = 2"`},
		{1, 2, "<=", true, `1" ≤ 2"`},
		{2, 1, ">=", true, `2" ≥ 1"`},
		{2, 2, "==", true, `2" = 2"`},
		{2, 1, "!=", true, `2" ≠ 1"`},
	} {
		k := &kernel.Check{Left: side(c.left), Right: side(c.right), Sign: c.sign, Holds: c.holds}
		if got := r.sides(k); got != c.want {
			t.Errorf("%s: %s, want %s", c.sign, got, c.want)
		}
	}
}
