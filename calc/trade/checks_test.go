package trade_test

import (
	"math"
	"strings"
	"testing"

	"scarph/calc"
	"scarph/calc/trade"
)

// agree reports whether got is want, to a relative tolerance.
func agree(got, want calc.Value, tol float64) bool {
	if got.Kind() == calc.Picture && want.Kind() == calc.Text {
		// a drawing is checked by its description; an inch mark would end the text
		// that is wanted, so feet and inches stand there as ′ and ″
		return strings.NewReplacer(`"`, "″", "'", "′").Replace(got.X.Drawing.Describe(calc.Style{})) == want.Text()
	}
	if got.Kind() != want.Kind() {
		return false
	}
	switch want.Kind() {
	case calc.Text:
		return got.Text() == want.Text()
	case calc.Quantity:
		return got.D == want.D && math.Abs(got.V-want.V) <= tol*math.Abs(want.V)+1e-15
	case calc.Truth:
		return got.V == want.V
	case calc.List:
		if len(got.Items()) != len(want.Items()) {
			return false
		}
		for i := range want.Items() {
			if !agree(got.Items()[i], want.Items()[i], tol) {
				return false
			}
		}
		return true
	}
	return false
}

// TestChecks runs every worked example of the registry in the calc language; a
// function without one fails.
func TestChecks(t *testing.T) {
	for _, f := range trade.All() {
		if len(f.Checks) == 0 {
			t.Errorf("%s has no check", f.Name)
		}
		for _, c := range f.Checks {
			got, _, err := evaluate(c.Call)
			if err != nil {
				t.Errorf("%s: %v", c.Call, err)
				continue
			}
			want, _, err := evaluate(c.Want)
			if err != nil {
				t.Errorf("%s wants %s: %v", c.Call, c.Want, err)
				continue
			}
			tol := c.Tol
			if tol == 0 {
				tol = 1e-5
			}
			if !agree(got, want, tol) {
				t.Errorf("%s = %s (%.9g), want %s (%.9g)", c.Call, calc.Style{}.Text(got), got.V, c.Want, want.V)
			}
		}
	}
}

// TestEntriesAreComplete keeps an entry from standing without what the reference
// page shows of it.
func TestEntriesAreComplete(t *testing.T) {
	for _, f := range trade.All() {
		for what, text := range map[string]string{"summary": f.Summary, "result": f.Result, "formula": f.Formula, "source": f.Source, "group": f.Group} {
			if text == "" {
				t.Errorf("%s has no %s", f.Name, what)
			}
		}
		if f.Caution != 0 && f.Caution.Text() == "" {
			t.Errorf("%s: caution %c has no wording", f.Name, f.Caution)
		}
		optional := false
		for _, p := range f.Params {
			if optional && !p.Optional {
				t.Errorf("%s: %s follows an argument that may be left out", f.Name, p.Name)
			}
			optional = optional || p.Optional
			if p.What() == "" {
				t.Errorf("%s: %s does not say what it must be", f.Name, p.Name)
			}
		}
	}
}
