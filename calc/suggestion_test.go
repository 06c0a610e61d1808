package calc

import "testing"

func TestSuggestion(t *testing.T) {
	for hint, want := range map[string]string{
		"did you mean beam?":                "beam",
		"did you mean white oak?":           "white oak",
		"write 19 in":                       "",
		"":                                  "",
		"did you mean 1/2\", half an inch?": "",
		"did you mean it":                   "",
	} {
		if got := Suggestion(hint); got != want {
			t.Errorf("%q: %q", hint, got)
		}
	}
	if _, err := ScanDisplay("milimetre"); err == nil || Suggestion(err.Hint) != "millimetre" {
		t.Errorf("of a real hint: %v", err)
	}
}
