package trade_test

import (
	"testing"

	"scarph/calc"
)

// TestMarksShown: what was moved to a fine mark is shown to that mark.
func TestMarksShown(t *testing.T) {
	for src, want := range map[string]string{
		`nearest(17.3°, 1/4°)`: "17 1/4°", `round_up(7.39 in, 1/32")`: `7 13/32"`, `nearest(7.3 in, 1/16")`: `7 5/16"`,
		`nearest(7.41 in, 1/64 in)`: `7 13/32"`, `nearest([17.3°, 12.1°], 1/4°)`: "17 1/4°, 12°", `nearest(17.3°, 0.05°)`: "17.3°",
	} {
		v, _, err := evaluate(src)
		if err != nil {
			t.Errorf("%s: %v", src, err)
			continue
		}
		if got := (calc.Style{}).Text(v); got != want {
			t.Errorf("%s is shown as %s, want %s", src, got, want)
		}
	}
	if _, _, err := evaluate("tan(90°)"); err == nil {
		t.Error("tan(90°) has a value")
	}
}
