package lang

import "testing"

// TestEveryWordIsTold asks that each word that begins a statement has its help, whose
// example can be read.
func TestEveryWordIsTold(t *testing.T) {
	for _, w := range Words() {
		h, ok := AboutWord(w)
		if !ok || h.Summary == "" {
			t.Errorf("%s is not told of", w)
			continue
		}
		if s, err := Parse(h.Example); err != nil || s == nil || len(s.Text) < len(w) || s.Text[:len(w)] != w {
			t.Errorf("the example of %s, %q: %v", w, h.Example, err)
		}
	}
	if _, ok := AboutWord("beam"); ok {
		t.Error("beam is no word")
	}
}
