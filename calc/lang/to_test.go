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
