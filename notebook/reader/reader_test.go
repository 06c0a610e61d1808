package reader

import (
	"fmt"
	"math"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"scarph/calc"
	"scarph/kernel"
	"scarph/notebook"
)

// TestWhatANumberReaches tries another number for every value of some journals, in a
// journal of which only what the number reaches is read, in one of which more and more is
// read, and in one that is read whole. All tell the same; and the lines that are told to
// hang on the number, and no others, are what the page has no longer.
func TestWhatANumberReaches(t *testing.T) {
	journals := []string{"testdata/wren", "../site/testdata/whole/journal"}
	for _, name := range []string{"guide", "pippin", "quillet", "sorrel"} {
		journals = append(journals, filepath.Join("../../examples", name))
	}
	tried, told, moved, read, all := 0, 0, 0, 0, 0
	for _, dir := range journals {
		n, err := notebook.Open(dir)
		if err != nil {
			t.Fatal(err)
		}
		public, _, _ := n.Published(kernel.Now)
		cargo := string(public.Cargo().Encode())
		open := func() *Reader {
			r, ok := Open(cargo)
			if !ok {
				t.Fatal("the cargo cannot be read")
			}
			return r
		}
		whole, grows := open(), open()
		was := map[string][]string{}
		for _, e := range whole.journal.Entries {
			was[e.Key] = whole.Lines(e.Key, "", false)
		}
		numbers := []Number{ // a cell by its other name; sums; what cannot be
			{"offsets.st_1.sheer", "1-4-0"}, {"beam", "thwarts * 20 in"}, {"beam", "gunwale + 4 ft"}, {"beam", `sum(worked("thwarts")) * 1 ft / 1 h`}, {"beam", "2 * beam"}, {"beam", "3 kg"}, {"nothing", "1"},
		}
		for _, v := range whole.session.Dimensions(kernel.Now) {
			if text := another(v.Result); text != "" {
				numbers = append(numbers, Number{v.Name, text})
			}
		}
		for _, number := range numbers {
			list, err := whole.Try([]Number{number}, false)
			for what, r := range map[string]*Reader{"read anew": open(), "read more and more": grows} {
				got, fault := r.Try([]Number{number}, false)
				if (err == nil) != (fault == nil) || err != nil && err.Error() != fault.Error() {
					t.Fatalf("%s with %v, %s: %v; read whole: %v", dir, number, what, fault, err)
				}
				if err != nil {
					continue
				}
				same(t, dir, number, list, got)
				for _, m := range list {
					a, _ := whole.session.Value(m.Name, kernel.Now)
					b, _ := r.session.Value(m.Name, kernel.Now)
					if x, y := bitsOf(m.Name, a), bitsOf(m.Name, b); !slices.Equal(x, y) {
						t.Fatalf("%s with %v, %s: %v, read whole %v", dir, number, what, y, x)
					}
				}
				for i := range r.journal.Entries {
					e := &r.journal.Entries[i]
					every := make([]int, len(e.Lines))
					for k := range every {
						every[k] = k
					}
					now := whole.lines(e, every, "", false)
					for k, line := range r.Lines(e.Key, "", false) {
						told++
						if line == "" {
							line = was[e.Key][k]
						} else {
							moved++
						}
						if line != now[k] {
							t.Fatalf("%s with %v, %s, line %d of %s:\n%s\nis, when all are read and written\n%s", dir, number, what, k, e.Key, line, now[k])
						}
					}
				}
				if r != grows {
					tried++
					for _, yes := range r.web.read {
						if all++; yes {
							read++
						}
					}
				}
			}
		}
	}
	if tried < 300 || moved < 5000 || read*2 > all {
		t.Errorf("%d numbers were tried, which moved %d of %d lines; %d of %d values were read for it", tried, moved, told, read, all)
	}
	t.Logf("%d numbers were tried, which moved %d of %d lines; %d of %d values were read for it", tried, moved, told, read, all)
}

// another is a number that could stand in place of a result, "" where that is no quantity.
func another(r *kernel.Result) string {
	switch x := r.Value.Plain(); {
	case !r.OK() || !x.IsQuantity():
		return ""
	case x.D.IsNumber():
		return calc.Style{}.Text(calc.Number(x.V + 1))
	default:
		return calc.Style{System: calc.Metric}.Text(calc.Of(x.V*1.25, x.D))
	}
}

// bitsOf tells a result to the last bit.
func bitsOf(name string, r *kernel.Result) []string {
	var list []string
	for _, v := range appendValues(nil, name, r.Value) {
		list = append(list, fmt.Sprintf("%s %x %x %s", v.Name, math.Float64bits(v.SI), math.Float64bits(v.Plus), v.Text))
	}
	return append(list, r.Trouble())
}

func same(t *testing.T, dir string, n Number, want, got []Moved) {
	t.Helper()
	if len(want) != len(got) {
		t.Fatalf("%s with %v: %v moved, read whole %v", dir, n, got, want)
	}
	for i := range want {
		if want[i] != got[i] {
			t.Fatalf("%s with %v: %v moved, read whole %v", dir, n, got[i], want[i])
		}
	}
}

// TestNumbersThatNeedEachOther are refused, and the journal is as it was.
func TestNumbersThatNeedEachOther(t *testing.T) {
	n, err := notebook.Open("testdata/wren")
	if err != nil {
		t.Fatal(err)
	}
	public, _, _ := n.Published(kernel.Now)
	r, _ := Open(string(public.Cargo().Encode()))
	for _, numbers := range [][]Number{{{"beam", "2 * beam"}}, {{"planking", "gunwale"}, {"gunwale", "2 * planking"}}} {
		if _, err := r.Try(numbers, false); err == nil || err.Code != calc.CodeCircle {
			t.Errorf("%v: %v", numbers, err)
		}
	}
	if list, err := r.Try([]Number{{"beam", "4 ft"}}, false); err != nil || len(list) < 5 {
		t.Errorf("after that %v moved, %v", list, err)
	}
}

// TestWhatIsNotToldDoesNotFollow: a sum of told and private values is published with its
// result and without its working. A reader's number for what it hangs on, also by way of
// what is private, leaves it without a value, and a check without a verdict.
func TestWhatIsNotToldDoesNotFollow(t *testing.T) {
	n, err := notebook.Open("testdata/trailer")
	if err != nil {
		t.Fatal(err)
	}
	public, _, _ := n.Published(kernel.Now)
	cargo := string(public.Cargo().Encode())
	for _, secret := range []string{"crew", "93", "load"} {
		if strings.Contains(cargo, secret) {
			t.Errorf("the cargo tells of %s: %s", secret, cargo)
		}
	}
	for _, c := range []struct {
		number Number
		follow string // what still follows
		wrong  int    // lines of the entry
	}{
		{Number{"hull_weight", "250 kg"}, "", 6},
		{Number{"keel", "5 m"}, "gear", 6},
		{Number{"hull_weight", "80 kg"}, "", 0},
	} {
		r, ok := Open(cargo)
		if !ok {
			t.Fatal("the cargo cannot be read")
		}
		moved, fault := r.Try([]Number{c.number}, false)
		if fault != nil {
			t.Fatal(fault)
		}
		follow, wrong := "", 0
		for _, m := range moved {
			if !m.Yours && m.To != "" {
				follow += m.Name
			}
		}
		for _, html := range r.Lines(r.journal.Entries[0].Key, "", false) {
			if strings.Contains(html, "its working is not told") || strings.Contains(html, "waits for all_up") {
				wrong++
			}
			if c.wrong > 0 && strings.Contains(html, "holds") || strings.Contains(html, "= 0") || strings.Contains(html, "check 0") {
				t.Errorf("%v: %s", c.number, html)
			}
		}
		if follow != c.follow || wrong != c.wrong {
			t.Errorf("%v: %s follow, and %d lines are wrong: %q", c.number, follow, wrong, r.Lines(r.journal.Entries[0].Key, "", false))
		}
	}
}
