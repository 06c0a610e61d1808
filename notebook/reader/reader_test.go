package reader

import (
	"os"
	"path/filepath"
	"testing"

	"scarph/calc"
	"scarph/kernel"
	"scarph/notebook"
)

// TestLinesThatHangOnANumber tries another number for every value of every example and
// writes all lines of all entries: those that are told to hang on it, and no others, are
// what the page has no longer.
func TestLinesThatHangOnANumber(t *testing.T) {
	const examples = "../../examples"
	found, err := os.ReadDir(examples)
	if err != nil {
		t.Fatal(err)
	}
	tried, moved := 0, 0
	for _, x := range found {
		dir := x.Name()
		if !x.IsDir() {
			continue
		}
		n, err := notebook.Open(filepath.Join(examples, dir))
		if err != nil {
			t.Fatal(err)
		}
		public, _, _ := n.Published(kernel.Now)
		r, ok := Open(string(public.Cargo().Encode()))
		if !ok {
			t.Fatal("the cargo cannot be read")
		}
		was := map[string][]string{}
		for _, e := range r.journal.Entries {
			was[e.Key] = r.Lines(e.Key, "", false)
		}
		for _, v := range r.session.Dimensions(kernel.Now) {
			if !v.Result.OK() || !v.Result.Value.IsQuantity() {
				continue
			}
			x := v.Result.Value.Plain()
			text := calc.Style{System: calc.Metric}.Text(calc.Of(x.V*1.25, x.D))
			if x.D.IsNumber() {
				text = calc.Style{}.Text(calc.Number(x.V + 1))
			}
			if _, err := r.Try([]Number{{v.Name, text}}, false); err != nil {
				continue
			}
			tried++
			for i := range r.journal.Entries {
				e := &r.journal.Entries[i]
				all := make([]int, len(e.Lines))
				for k := range all {
					all[k] = k
				}
				now := r.lines(e, all, "", false)
				for k, line := range r.Lines(e.Key, "", false) {
					if line == "" {
						line = was[e.Key][k]
					} else {
						moved++
					}
					if line != now[k] {
						t.Fatalf("%s with %s = %s, line %d of %s:\n%s\nis, when all are written\n%s", dir, v.Name, text, k, e.Key, line, now[k])
					}
				}
			}
		}
	}
	if tried < 100 || moved < 1000 {
		t.Errorf("only %d numbers were tried, which moved %d lines", tried, moved)
	}
	t.Logf("%d numbers tried, %d lines told", tried, moved)
}
