package calc

import "testing"

// TestRecognised: what was written in millimetres is told of in millimetres.
func TestRecognised(t *testing.T) {
	for text, want := range map[string]string{
		"60 mm": "60 mm", "1200 mm": "1200 mm", "0.5 mm": "0.5 mm", "1.22 m": "1220 mm", "3/8 in": `3/8"`, "25.4 mm": `1"`,
		"17 7/9 in": `451.6 mm (1' 5 3/4" strong)`, "0 mm": `0"`, "60 kg": "60 kg", "132 lb": "132 lb", "12 oz": "0.75 lb", "9": "9", "12°": "12°",
	} {
		l, err := ParseLiteral(text)
		if err != nil {
			t.Fatal(err)
		}
		if got := Recognised(l.Value); got != want {
			t.Errorf("%s: %q, want %q", text, got, want)
		}
	}
}
