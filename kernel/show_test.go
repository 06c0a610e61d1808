package kernel

import (
	"strings"
	"testing"

	"scarph/calc"
)

// TestShownListWithEmptyEnds: a list whose ends are empty is shown as it asks to be, the
// way the judgement of a line leaves its ends open.
func TestShownListWithEmptyEnds(t *testing.T) {
	s := open(entryOf("a", "2027-01-01", `x = [0 in, 20 in, 40 in, 60 in, 80 in]
off = fairness([0 in, 8 in, 13.5 in, 15 in, 16 in], x, 1 in).residuals to 0.01 in
wrong = fairness([0 in, 8 in, 13.5 in, 15 in, 16 in], x, 1 in).residuals to lb`))
	r, _ := s.Value("off", Now)
	if got := (calc.Style{}).Text(r.Value); !strings.HasPrefix(got, "—, ") || !strings.Contains(got, " in, 0.69 in, ") {
		t.Errorf("shown as %s", got)
	}
	if r, _ := s.Value("wrong", Now); r.Err == nil {
		t.Error("lengths were shown in pounds")
	}
}
