package kernel

import (
	"context"
	"strings"
	"testing"

	"scarph/calc"
)

// TestMadeAndSettledGuards: records that make no sense are refused where they stand.
func TestMadeAndSettledGuards(t *testing.T) {
	first := entryOf("a", "2027-01-01", `
		long = 18 in
		saw = 13°
		part frame: 4 of 1" by 2" by long in oak, heel = 12°
		part seat: 2 of 1" by 7" by long in oak
		made frame: 2
		made log to saw, long`)
	for line, want := range map[string]string{
		"made frame: -1":                    "−1",
		"made frame: 1.5":                   "1.5",
		"made frame to 3 in":                "made frame: 2",
		"settle frame: trimmed to 5 kg":     "length of frame is a length",
		"settle frame: trimmed to 17":       "17 what?",
		"settle frame: trimmed to heal = 9": "did you mean heel?",
		"settle frame: trimmed to heel = 9": "9 what?",
		"settle seat: replaced":             "made seat: 2",
		"settle log: trimmed to 12°":        "say which one",
		"settle log: trimmed to saw = 3 in": "saw of log is an angle",
		"settle frame: trimmed to 17 in":    "",
		"settle log: packed to saw = 12°":   "",
	} {
		s := open(first, entryOf("b", "2027-02-01", line))
		o := s.Outcomes("b", Now)[0]
		switch e := o.Result.Err; {
		case want == "" && e != nil:
			t.Errorf("%s: %v", line, e)
		case want != "" && (e == nil || !strings.Contains(e.Message+" "+e.Hint, want) || e.Span.Start == 0):
			t.Errorf("%s: %+v, want %q", line, e, want)
		}
		for _, m := range s.MadeList(Now) {
			for _, z := range m.Sizes {
				if z.Made.D != z.Now.D {
					t.Errorf("%s: %s made %v, now %v", line, z.Name, z.Made, z.Now)
				}
			}
		}
	}
}

// TestRemarksAndHints: remarks about the writing stand with the result; a function's
// name without brackets, and a slope shown as an angle, are helped.
func TestRemarksAndHints(t *testing.T) {
	s := open(entryOf("a", "", "gap = 1 / 2\"\nx = frame_spacing\n1/4\" per ft to °"))
	list := s.Outcomes("a", Now)
	if w := list[0].Result.Warnings; len(w) != 1 || !strings.Contains(w[0], `1/2"`) {
		t.Errorf("remarks %q", w)
	}
	for i, hint := range map[int]string{1: "frame_spacing(span, frame_count)", 2: `atan(1/4" per ft)`} {
		if e := list[i].Result.Err; e == nil || !strings.Contains(e.Hint, hint) {
			t.Errorf("%s: %+v", list[i].Line.Text, e)
		}
	}
}

// TestHintsAtNames: a slip in a name is helped in the journal and on a sheet; a
// family's name alone is told its members; labelled lists are told with their labels.
func TestHintsAtNames(t *testing.T) {
	s := open(entryOf("a", "", "found side.port = 622 mm ± 2 mm\nfound side.starboard = 641 mm ± 2 mm\nmid = (side.port + side.starboard) / 2"))
	sheet := s.NewSheet()
	for src, hint := range map[string]string{"side.prot": "did you mean side.port?", "side": "there are side.port, side.starboard", "midd": "did you mean mid?"} {
		a, _ := sheet.Line(context.Background(), src, Now)
		if a.Result.Err == nil || a.Result.Err.Hint != hint {
			t.Errorf("%s on a sheet: %+v", src, a.Result.Err)
		}
		o := open(entryOf("a", "", "found side.port = 622 mm\nfound side.starboard = 641 mm\nmid = side.port\n"+src)).Outcomes("a", Now)[3]
		if o.Result.Err == nil || o.Result.Err.Hint != hint {
			t.Errorf("%s in a journal: %+v", src, o.Result.Err)
		}
	}
	a, _ := sheet.Line(context.Background(), "why(mid)", Now)
	if got := Worded(a.Result, calc.Style{System: calc.Metric}); got != "side.port: 1 mm, side.starboard: 1 mm" {
		t.Error(got)
	}
}
