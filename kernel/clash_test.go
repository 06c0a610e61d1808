package kernel

import (
	"context"
	"testing"

	"scarph/calc"
)

// TestUnlikeReadings: a later reading without its unit, or of another dimension, is
// refused where it stands, and never counts.
func TestUnlikeReadings(t *testing.T) {
	first := entryOf("a", "2027-01-01", `
		drawn depth = 2'
		beam = 4'
		inside = beam - 2"
		wood = "larch"
		frames = 9
		table o: c0
		+ r0 1-2-4`)
	for _, c := range []struct {
		line string
		code calc.Code
	}{
		{"revise depth = 19", calc.CodeBareNumber}, {"found depth = 5 kg", calc.CodeDimension}, {"revise wood = 3 in", calc.CodeKind},
		{"revise frames = [1, 2]", calc.CodeKind}, {"revise frames = 3 in", calc.CodeDimension}, {"found inside = 46", calc.CodeBareNumber},
		{"revise depth = beam * beam", calc.CodeDimension}, {"revise o.r0.c0 = 14", calc.CodeBareNumber},
		{"revise depth = 610 mm", ""}, {"found inside = 3' 10\"", ""}, {"revise wood = \"ash\"", ""},
	} {
		s := open(first, entryOf("b", "2027-02-01", c.line))
		o := s.Outcomes("b", Now)[0]
		if c.code == "" {
			if !o.Result.OK() {
				t.Errorf("%s: %v", c.line, o.Result.Err)
			}
			continue
		}
		if o.Result.Err == nil || o.Result.Err.Code != c.code {
			t.Errorf("%s: %+v, want %s", c.line, o.Result, c.code)
		} else if o.Result.Err.Hint == "" || o.Result.Err.Span.Start == 0 {
			t.Errorf("%s: no hint or no place: %+v", c.line, o.Result.Err)
		}
	}
	// what was good stays in force, and mending the line mends the journal
	s := open(first, entryOf("b", "2027-02-01", "revise depth = 19"))
	near(t, "depth", inches(t, s, "depth", Now), 24)
	s.Update(context.Background(), []Entry{first, entryOf("b", "2027-02-01", "revise depth = 19 in")})
	near(t, "depth mended", inches(t, s, "depth", Now), 19)
	// in one entry, too
	s = open(entryOf("a", "", "beam = 4'\ninside = beam - 2 in\nfound inside = 46"))
	if o := s.Outcomes("a", Now)[2]; o.Result.Err == nil || o.Result.Err.Code != calc.CodeBareNumber {
		t.Errorf("in one entry: %+v", o.Result)
	}
}
