package kernel

import (
	"context"
	"strings"
	"testing"

	"scarph/calc"
)

// outcomes writes what the lines of an entry come to, with the words of faults.
func outcomes(s *Session, key string) string {
	text := ""
	for _, o := range s.Outcomes(key, Now) {
		text += o.Line.Text + ": "
		if e := o.Result.Err; e != nil {
			text += e.Message + "; " + e.Hint
		}
		for _, w := range o.Result.Waits {
			text += " waits for " + w
		}
		text += "\n"
	}
	return text
}

// TestCirclesThroughThePast has entries come and go after values that need themselves as
// of their own entry: each state is told as if it had been opened at once, and the circle
// stays one.
func TestCirclesThroughThePast(t *testing.T) {
	for name, text := range map[string]string{
		"of one":         "x = then(x) - drawn(nothing)",
		"of two":         "y = x + 1 in\nx = then(y) - drawn(nothing)",
		"as of an entry": "y = x + 1 in\nx = y as of entry 1",
		"with a part":    "part y: 2 of 1\" by 7\" by x in larch\nx = then(y)",
	} {
		t.Run(name, func(t *testing.T) {
			one, two := entryOf("a", "2027-01-02", text), entryOf("b", "2027-01-03", "z = 1 in")
			before := entryOf("c", "2027-01-01", "")
			s := New(calc.Style{})
			for i, list := range [][]Entry{{one}, {one, two}, {one}, {one, two}, {before, one, two}, {before, one}, {one}} {
				s.Update(context.Background(), list)
				if got, want := outcomes(s, "a"), outcomes(open(list...), "a"); got != want {
					t.Errorf("state %d: followed\n%s\nopened\n%s", i, got, want)
				}
			}
			s.Update(context.Background(), []Entry{one, two})
			if got := outcomes(s, "a"); !strings.Contains(got, "a circle") {
				t.Errorf("with an entry after it, no circle is told of:\n%s", got)
			}
		})
	}
}

// TestHintsFollow changes a number that only the hint of an error speaks of.
func TestHintsFollow(t *testing.T) {
	s := open(entryOf("a", "", "x = 3\ny = x + 1 in"))
	list := []Entry{entryOf("a", "", "x = 12\ny = x + 1 in")}
	s.Update(context.Background(), list)
	if got, want := outcomes(s, "a"), outcomes(open(list...), "a"); got != want || !strings.Contains(got, "12 what?") {
		t.Errorf("followed\n%s\nopened\n%s", got, want)
	}
}
