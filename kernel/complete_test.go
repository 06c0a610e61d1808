package kernel

import (
	"context"
	"strings"
	"testing"
)

// proposed writes the texts proposed at the | of a statement.
func proposed(s *Session, h *Sheet, src string) (string, Completion) {
	at := strings.IndexByte(src, '|')
	c := s.Complete(strings.Replace(src, "|", "", 1), at, h)
	var out []string
	for _, p := range c.Items {
		out = append(out, p.Text)
	}
	return strings.Join(out, " "), c
}

func TestComplete(t *testing.T) {
	s := scratched()
	h := s.NewSheet()
	h.Line(context.Background(), "inset = 2 in", Now)
	for _, c := range []struct{ src, want string }{
		{"x = insi|", "inside"},
		{"x = ins|", "inset inside"},
		{"it|", "it"},
		{"x = 3 mil|", "millimetre millimetres millimeter millimeters mile miles"},
		{"x = 3mil|", "millimetre millimetres millimeter millimeters mile miles"},
		{"x = 2.5mil|", "millimetre millimetres millimeter millimeters mile miles"},
		{"x = beam to milli|", "millimetre millimetres millimeter millimeters"},
		{"x = offsets.|", "sheer st_1 st_2"},
		{"x = offsets.sheer.|", "st_1 st_2"},
		{"x = offsets.sheer.st_2|", "st_2"},
		{"thwart.l|", "length"},
		{"rev|", "revise"},
		{"x = rev|", ""},
		{"frame_spac|", "frame_spacing"},
		{"part rail: 2 of 1\" by 2\" by 9' in white_o|", "white_oak"},
		{"x = 15|", ""},
		{"x = \"|", ""},
		{"|", "*"},
		{"x = |", "*"},
		{"beam|.x", "beam"},
		{"x = é|", ""},
	} {
		got, _ := proposed(s, h, c.src)
		if c.want == "*" {
			if len(strings.Fields(got)) < 5 {
				t.Errorf("%s: %s", c.src, got)
			}
			continue
		}
		if got != c.want {
			t.Errorf("%s\n got %s\nwant %s", c.src, got, c.want)
		}
	}
}

func TestCompleteTellsMore(t *testing.T) {
	s := scratched()
	_, c := proposed(s, nil, "x = bea|")
	if len(c.Items) == 0 || c.Items[0].Kind != "value" || !strings.HasPrefix(c.Items[0].Detail, "4' 1 3/4\"") || c.Span.Start != 4 || c.Span.End != 7 {
		t.Errorf("beam: %+v", c)
	}
	_, c = proposed(s, nil, "frame_spac|")
	if p := c.Items[0]; p.Kind != "function" || !p.Call || p.About == "" || !strings.HasPrefix(p.Detail, "frame_spacing(") {
		t.Errorf("a function: %+v", p)
	}
	_, c = proposed(s, nil, "fou|")
	if p := c.Items[0]; p.Kind != "word" || p.About == "" {
		t.Errorf("a word: %+v", p)
	}
	_, c = proposed(s, nil, "los|")
	if p := c.Items[0]; !strings.Contains(p.Detail, "waits") && !strings.Contains(p.Detail, "error") {
		t.Errorf("what has no value: %+v", p)
	}
}

// TestCompleteItems proposes the choices and the items of tables between quotes.
func TestCompleteItems(t *testing.T) {
	s := scratched()
	for _, c := range []struct{ src, has string }{
		{`pilot_hole("no. 8", "|`, "hardwood"},
		{`pilot_hole("no. 8", "har|")`, "hardwood"},
		{`pilot_hole("no. 1|`, "no. 12"},
		{`2 * pilot_hole("no. 1|", "hardwood")`, "no. 12"},
	} {
		if got, _ := proposed(s, nil, c.src); !strings.Contains(got, c.has) {
			t.Errorf("%s: %s", c.src, got)
		}
	}
	for _, src := range []string{`pilot_hole(1 in, 2 in, "|`, `"|`, `nothing_such("|`} {
		if got, _ := proposed(s, nil, src); got != "" {
			t.Errorf("%s: %s", src, got)
		}
	}
	if got, c := proposed(s, nil, `part rail: 2 of 1" by 2" by 9' in "white o|`); got != "white oak" || c.Items[0].Kind != "text" {
		t.Errorf("a wood between quotes: %s", got)
	}
}

// TestCompleteMany bounds the list and says so.
func TestCompleteMany(t *testing.T) {
	s := open(generated(2000, 10, false)...)
	_, c := proposed(s, nil, "x = v|")
	if len(c.Items) != MaxProposals || !c.More {
		t.Errorf("%d proposals, more %v", len(c.Items), c.More)
	}
	for at := range 20 { // places outside the text are brought inside
		s.Complete("x = v_1", at-5, nil)
	}
}
