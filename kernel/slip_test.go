package kernel

import (
	"context"
	"strings"
	"testing"

	"scarph/calc"
	"scarph/calc/lang"
)

func warningsOf(s *Session, key string) map[string]string {
	said := map[string]string{}
	for _, o := range s.Outcomes(key, Now) {
		said[o.Line.Text] = strings.Join(o.Result.Warnings, "; ")
	}
	return said
}

// TestSlips: a measurement under a mistyped name is remarked on, names that are meant to
// be near each other are not.
func TestSlips(t *testing.T) {
	s := open(entryOf("a", "2027-01-01", `
		planking = 3/8"
		rib_1 = 2 in
		side_a = 3 ft
		frame = 4 in
		beam = 4 ft
		inside = beam - 2 * planking + rib_1 + side_a + frame`), entryOf("b", "2027-02-01", `
		found plankng = 7/16"
		Planking = 1/2"
		rib_2 = 2 in
		side_b = 3 ft
		frames = 4 in
		baem = 49 in
		plank_ing = 1/2 in
		bean = 3 lb`))
	said := warningsOf(s, "b")
	for text, meant := range map[string]string{`found plankng = 7/16"`: "planking", `Planking = 1/2"`: "planking", "baem = 49 in": "beam",
		"rib_2 = 2 in": "", "side_b = 3 ft": "", "frames = 4 in": "", "bean = 3 lb": ""} {
		if meant == "" && said[text] != "" || !strings.Contains(said[text], meant) {
			t.Errorf("%s: %q, want %q", text, said[text], meant)
		}
	}
}

// TestSlipsFollow: a remark on a slip comes and goes with the other name and with what both
// measure.
func TestSlipsFollow(t *testing.T) {
	b := entryOf("b", "2027-02-01", "found plankng = 7/16 in")
	s := open(b)
	for i, x := range []struct{ first, said string }{
		{"planking = 3/8 in\ninside = 2 * planking", "planking"},
		{"planking = 3/8 lb\ninside = 2 * planking", ""}, // another measure
		{"planking = 4/8 in\ninside = 2 * planking", "planking"},
		{"plating = 4/8 in\ninside = 2 * plating", ""},
		{"plankung = 4/8 in\ninside = plankung", "plankung"},
		{"plankung = 4/8 in\ninside = plankung + plankng", ""}, // it is spoken of
	} {
		s.Update(context.Background(), []Entry{entryOf("a", "2027-01-01", x.first), b})
		if said := warningsOf(s, "b")["found plankng = 7/16 in"]; x.said == "" && said != "" || !strings.Contains(said, x.said) {
			t.Errorf("%d, after %q: %q, want %q", i, x.first, said, x.said)
		}
	}
}

// TestTwiceInAnEntry: a second reading in one entry counts and says so; of a value that
// was chosen, in a line or a table, it is refused.
func TestTwiceInAnEntry(t *testing.T) {
	s := open(entryOf("a", "2027-01-01", "found beam = 49 in\nfound beam = 50 in\ndrawn beam = 48 in\ntable o: c1\n+ r1 1-0-0\ntable o: c1\n+ r1 2-0-0\ntable o: c1\n+ r1 _"), entryOf("b", "2027-02-01", "found beam = 51 in"))
	said := warningsOf(s, "a")
	if !strings.Contains(said["found beam = 50 in"], "second found reading of beam") || said["found beam = 49 in"] != "" || said["drawn beam = 48 in"] != "" || warningsOf(s, "b")["found beam = 51 in"] != "" {
		t.Errorf("%q", said)
	}
	if !strings.Contains(said["2-0-0"], "second drawn reading of o.r1.c1") || said["1-0-0"] != "" {
		t.Errorf("%q", said)
	}
	chosen := func(text string) Line {
		l := Line{Text: text, Cell: true}
		l.Stmt, l.Err = lang.Parse("t.a.b = " + text)
		return l
	}
	e := Entry{Key: "t", Tables: []Table{{Name: "t", Rows: []string{"a"}, Columns: []string{"b"}}}, Lines: []Line{chosen("38 mm"), chosen("461 mm")}}
	out := open(e).Outcomes("t", Now)
	if out[0].Result.Err != nil || out[1].Result.Err == nil || out[1].Result.Err.Code != calc.CodeTwice {
		t.Errorf("two cells of one name: %v, %v", out[0].Result.Err, out[1].Result.Err)
	}
}
