package kernel

import (
	"context"
	"strings"
	"testing"

	"scarph/calc"
)

// said writes the answers of a block: values as text, errors by their code.
func said(h *Sheet, text string, asOf int) string {
	var out []string
	for _, a := range h.Block(context.Background(), text, asOf) {
		switch {
		case a.Result.OK():
			out = append(out, calc.Style{}.Text(a.Result.Value))
		case a.Result.Err != nil:
			out = append(out, "!"+string(a.Result.Err.Code))
		default:
			out = append(out, "waits for "+strings.Join(a.Result.Waits, ","))
		}
	}
	return strings.Join(out, " | ")
}

func scratched() *Session {
	return open(
		entryOf("a", "2027-01-01", "drawn beam = 4' 1 1/2\"\nplanking = 7/16\"\ninside = beam - 2 * planking\npart thwart: 2 of 3/4\" by 7\" by inside - 1/8\" in larch\nlost = nothing + 1 in"),
		entryOf("b", "2027-02-01", "found beam = 4' 1 3/4\" ± 1/16\"\nlate = 3 in"),
		entryOf("c", "2027-03-01", "table offsets: st_1 st_2\n+ sheer 1-2-4 2-0-3"),
	)
}

func TestSheet(t *testing.T) {
	for _, c := range []struct{ text, want string }{
		{"2 in + 3 in\nit * 2", `5" | 10"`},
		{"x = 3 in\nx * 2\nx = 4 in\nx * 2", `3" | 6" | 4" | 8"`},
		{"x = 3 in\nx = x + 1 in\nx", `3" | 4" | 4"`},
		{"it + 1", "!unknown-name"},
		{"3 in\nmap([1, 2], it * 2)\nit", `3" | 2, 4 | 2, 4`},
		{"hopper_miter(4, 16°)\nit.cross_cut > 0°", ""},
		{"beam to mm", "1263.7 ± 1.6 mm"},
		{"beam = 4'", "!twice"},
		{"revise beam = 4'\ninside\nthwart.length", `4' | 3' 11 1/8" | 3' 11"`},
		{"found beam = 3 kg", "!dimension"},
		{"revise beam = 3", "!bare-number"},
		{"revise beem = 3 in", "!unknown-name"},
		{"made thwart: 2\nwork 3 h on framing", "!syntax | !syntax"},
		{"part stool: 1 of 1\" by 7\" by 12\" in larch\nstool.length * 2", ""},
		{"part thwart: 1 of 1\" by 7\" by 12\" in larch", "!twice"},
		{"lost + 1 in", "waits for lost"},
		{"\n   # a note\n\n", ""},
		{"sum([1 in,\n  2 in,\n 3 in])\n4 in", `6" | 4"`},
		{"sum([1 in,", "!syntax"},
		{"x = 1 in ± 1/16\"\nx - x", "1\" ± 1/16\" | 0\""},
		{"3 in + 19\nit", "!bare-number | !unknown-name"},
		{"check beam < 5'", "yes"},
		{"revise offsets.sheer.st_1 = 1-3-0\noffsets.sheer.st_1\noffsets.st_1.sheer", `1' 3" | 1' 3" | 1' 3"`},
		{"revise offsets.st_1.sheer = 15 in\noffsets.sheer.st_1", `1' 3" | 1' 3"`},
		{"revise offsets.sheer = 1 in", "!table"},
		{"then(beam) - drawn(beam)", `1/4" ± 1/16"`},
		{"spacin = 2 in\nspacing * 2", "2\" | !unknown-name"},
	} {
		got := said(scratched().NewSheet(), c.text, Now)
		if c.want == "" {
			if strings.Contains(got, "!") {
				t.Errorf("%s\n got %s", c.text, got)
			}
			continue
		}
		if got != c.want {
			t.Errorf("%s\n got %s\nwant %s", c.text, got, c.want)
		}
	}
}

func TestSheetAsOf(t *testing.T) {
	s := scratched()
	if got := said(s.NewSheet(), "beam\nlate\nrevise beam = 4'\ninside", 0); got != `4' 1 1/2" | !no-reading | 4' | 3' 11 1/8"` && got != `4' 1 1/2" | waits for late | 4' | 3' 11 1/8"` {
		t.Errorf("got %s", got)
	}
}

// TestSheetKeepsNothing works on a sheet, then looks whether the journal is as it was.
func TestSheetKeepsNothing(t *testing.T) {
	s := scratched()
	before := len(s.sources)
	users := len(s.nodes["beam"].users)
	h := s.NewSheet()
	said(h, "revise beam = 4' ± 1/16\"\nx = inside * 2\nx - 1 in ± 1/8\"\nbeam + nothing", Now)
	if got := said(s.NewSheet(), "inside", Now); got != `4' 0 7/8" ± 1/16"` {
		t.Errorf("inside is %s", got)
	}
	if _, ok := s.Value("x", Now); ok {
		t.Error("the journal has an x")
	}
	if n := len(s.nodes["beam"].users); n != users {
		t.Errorf("beam has %d users, had %d", n, users)
	}
	h.Clear()
	if n := len(s.sources); n != before {
		t.Errorf("%d sources of ±, had %d", n, before)
	}
	if got := strings.Join(h.Names(), " "); got != "" {
		t.Errorf("names after clearing: %s", got)
	}
}

// TestSheetFollowsTheJournal revises the journal under a sheet that tries a number.
func TestSheetFollowsTheJournal(t *testing.T) {
	s := scratched()
	h := s.NewSheet()
	said(h, "revise planking = 1/2\"", Now)
	list := []Entry{entryOf("a", "2027-01-01", "drawn beam = 5'\nplanking = 7/16\"\ninside = beam - 2 * planking")}
	s.Update(context.Background(), list)
	if got := said(h, "inside", Now); got != `4' 11"` {
		t.Errorf("inside is %s", got)
	}
	s.Update(context.Background(), []Entry{entryOf("a", "2027-01-01", "inside = 1 in")})
	if got := said(h, "inside", Now); got != `1"` {
		t.Errorf("when planking is gone, inside is %s", got)
	}
}

func TestSheetInterrupted(t *testing.T) {
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	a, _ := scratched().NewSheet().Line(ctx, "sum(1..100000)", Now)
	if a.Result.Err == nil || a.Result.Err.Code != calc.CodeInterrupted {
		t.Errorf("got %+v", a.Result)
	}
}

func TestSheetSaysWhy(t *testing.T) {
	s := scratched()
	h := s.NewSheet()
	h.Line(context.Background(), "gap = 1/8\" ± 1/32\"", Now)
	a, _ := h.Line(context.Background(), "why(gap)", Now)
	if !a.Result.OK() || strings.Join(a.Result.Value.Labels(), " ") != "gap" {
		t.Errorf("got %+v", a.Result)
	}
}
