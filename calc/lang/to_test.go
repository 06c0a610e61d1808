package lang

import "testing"

// TestToSign: a value is asked for in percent or in degrees by the sign alone.
func TestToSign(t *testing.T) {
	for _, src := range []string{"heavier - 1 to %", "flare to °", "x = rise / run to %"} {
		s, err := Parse(src)
		if err != nil {
			t.Errorf("%s: %v", src, err)
			continue
		}
		if s.To == nil {
			t.Errorf("%s: the sign was lost", src)
		}
	}
	if s, err := ParseSlot("waste to %"); err != nil || s.To == nil {
		t.Errorf("in a slot: %v", err)
	}
	if _, err := Parse("to %"); err == nil {
		t.Error("a sign after nothing was read")
	}
}

// TestShareAsWritten: what is written in per cent asks to be shown so, and a sum of
// shares asks for nothing.
func TestShareAsWritten(t *testing.T) {
	unit := func(s *Stmt) string {
		if s == nil || s.To == nil {
			return ""
		}
		return s.To.Unit
	}
	of := func(src string) string {
		s, err := Parse(src)
		if err != nil {
			t.Errorf("%s: %v", src, err)
		}
		return unit(s)
	}
	for src, want := range map[string]string{
		"moisture = 8.2 %": "%", "found moisture = 8.2 % ± 0.5 %": "%", "revise moisture = 9%": "%", "12 %": "%",
		"moisture = 5 % + 2 %": "", "beam = 12 mm": "", "ratio = 1:12": "", "beam * 8 %": "",
	} {
		if got := of(src); got != want {
			t.Errorf("%s asks for %q, want %q", src, got, want)
		}
	}
	for _, c := range []struct{ text, unit, want string }{{"8.2 %", "", "%"}, {"8.2", "%", "%"}, {"4 % ± 0.5 %", "", "%"}, {"8.2", "", ""}, {"12", "mm", ""}, {"1-2-3", "", ""}} {
		s, err := ParseCell(Chosen, "oak.moisture", c.text, c.unit)
		if err != nil {
			t.Errorf("%s (%s): %v", c.text, c.unit, err)
			continue
		}
		if got := unit(s); got != c.want {
			t.Errorf("the cell %s (%s) asks for %q, want %q", c.text, c.unit, got, c.want)
		}
	}
}
