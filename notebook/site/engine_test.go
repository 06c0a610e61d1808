package site_test

import (
	"bytes"
	"encoding/json"
	"fmt"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"scarph/kernel"
	"scarph/notebook"
	"scarph/notebook/reader"
	"scarph/notebook/site"
)

// question is what testdata/engine.mjs is asked.
type question struct {
	Cargo string        `json:"cargo"`
	Tries [][][2]string `json:"tries"`
	Keys  []string      `json:"keys"`
	Lists []string      `json:"lists"`
}

// answer is what it says; numbers as the bits they are.
type answer struct {
	Error  string              `json:"error,omitempty"`
	Values []string            `json:"values,omitempty"`
	Lines  map[string][]string `json:"lines,omitempty"`
	Lists  map[string]string   `json:"lists,omitempty"`
}

// answers are those of the same package built for this machine.
func (q *question) answers(t *testing.T) []answer {
	t.Helper()
	r, ok := reader.Open(q.Cargo)
	if !ok {
		t.Fatal("the cargo cannot be read")
	}
	var list []answer
	for _, numbers := range q.Tries {
		var give []reader.Number
		for _, x := range numbers {
			give = append(give, reader.Number{Name: x[0], Text: x[1]})
		}
		if _, err := r.Try(give, false); err != nil {
			list = append(list, answer{Error: err.Message})
			continue
		}
		a := answer{Lines: map[string][]string{}, Lists: map[string]string{}}
		for _, v := range r.Values() {
			a.Values = append(a.Values, strings.Join([]string{v.Name, bits(v.SI), bits(v.Plus), v.Text}, " "))
		}
		for _, other := range []bool{false, true} {
			for _, k := range q.Keys {
				a.Lines[k+" "+strconv.FormatBool(other)] = r.Lines(k, "", other)
			}
			for _, l := range q.Lists {
				a.Lists[l+" "+strconv.FormatBool(other)] = r.List(l, "", other)
			}
		}
		list = append(list, a)
	}
	return list
}

func bits(x float64) string { return strconv.FormatUint(math.Float64bits(x), 16) }

// TestSameAnswers works every example out with the browser build and with the program:
// the same to the last bit, as published and with numbers of a reader's in it.
func TestSameAnswers(t *testing.T) {
	needEngine(t)
	node, err := exec.LookPath("node")
	if err != nil {
		if os.Getenv("SCARPH_NEEDS_NODE") != "" {
			t.Fatal("node is not there")
		}
		t.Skip("node is not there; it runs the browser build in this test")
	}
	names := append([]string{"guide"}, examples...)
	tries := map[string][][][2]string{
		"sorrel":  {{{"frame_count", "10"}}, {{"beam", `4' 9 1/2" ± 1/8"`}, {"planking", "11 mm"}}, {{"offsets.sheer_half.st_5", "2-4-1+"}}, {{"beam", "19 kg"}}},
		"pippin":  {{{"offsets.chine_half.st_2", "512 mm"}}},
		"quillet": {{{"survey.port.st_3", "630 mm ± 3 mm"}}},
		"guide":   nil,
	}
	var questions []question
	for _, name := range names {
		n, err := notebook.Open(filepath.Join("../../examples", name))
		if err != nil {
			t.Fatal(err)
		}
		public, _, _ := n.Published(kernel.Now)
		q := question{Cargo: string(public.Cargo().Encode()), Tries: append([][][2]string{{}}, tries[name]...), Lists: []string{"dimensions", "cutlist", "rework", "checks", "ledger", "history"}}
		for _, e := range public.Entries() {
			q.Keys = append(q.Keys, e.Key)
		}
		questions = append(questions, q)
		sameAsJournal(t, n, q.Cargo)
	}
	dir := t.TempDir()
	wasm, loader, _ := site.Engine()
	asked, err := json.Marshal(questions)
	if err != nil {
		t.Fatal(err)
	}
	for name, data := range map[string]string{"page.wasm": string(wasm), "wasm_exec.js": loader, "questions.json": string(asked)} {
		save(t, filepath.Join(dir, name), data)
	}
	cmd := exec.Command(node, "testdata/engine.mjs", filepath.Join(dir, "page.wasm"), filepath.Join(dir, "wasm_exec.js"), filepath.Join(dir, "questions.json"))
	var told bytes.Buffer
	cmd.Stderr = &told
	out, err := cmd.Output()
	if err != nil {
		t.Fatal(err, told.String())
	}
	var got [][]answer
	if err := json.Unmarshal(out, &got); err != nil {
		t.Fatal(err)
	}
	count := 0
	for i := range questions {
		for k, want := range questions[i].answers(t) {
			what := fmt.Sprintf("%s with %v", names[i], questions[i].Tries[k])
			a := got[i][k]
			if a.Error != want.Error || len(a.Values) != len(want.Values) {
				t.Errorf("%s: %q and %d values, %q and %d values here", what, a.Error, len(a.Values), want.Error, len(want.Values))
				continue
			}
			if want.Error != "" && !strings.Contains(what, "kg") {
				t.Errorf("%s: %s", what, want.Error)
			}
			for j := range want.Values {
				if count++; a.Values[j] != want.Values[j] {
					t.Errorf("%s: %s, here %s", what, a.Values[j], want.Values[j])
				}
			}
			for key, lines := range want.Lines {
				for j := range lines {
					if a.Lines[key][j] != lines[j] {
						t.Errorf("%s: line %d of %s:\n%s", what, j, key, firstDifference(a.Lines[key][j], lines[j]))
					}
				}
			}
			for key, list := range want.Lists {
				if a.Lists[key] != list {
					t.Errorf("%s: %s:\n%s", what, key, firstDifference(a.Lists[key], list))
				}
			}
		}
	}
	t.Logf("%d values are the same to the last bit", count)
}

// sameAsJournal compares what the cargo comes to with the journal itself.
func sameAsJournal(t *testing.T, n *notebook.Notebook, cargo string) {
	t.Helper()
	r, ok := reader.Open(cargo)
	if !ok {
		t.Fatal("the cargo cannot be read")
	}
	for _, v := range r.Values() {
		x, ok := n.Session.Value(v.Name, kernel.Now)
		if !ok || !x.OK() || !x.Value.IsQuantity() {
			continue
		}
		if bits(x.Value.V) != bits(v.SI) || bits(x.Value.Likely()) != bits(v.Plus) {
			t.Errorf("%s comes to %v ± %v, in the journal %v", v.Name, v.SI, v.Plus, x.Value)
		}
	}
}

// TestEngineFitsAndIsFresh builds the browser build again as make page does: it must be
// the one that the program carries, so that none of an older kernel is ever shipped, and
// small enough for a phone in a harbour.
func TestEngineFitsAndIsFresh(t *testing.T) {
	needEngine(t)
	packed, err := os.ReadFile("dist/page.wasm.gz")
	if err != nil {
		t.Fatal(err)
	}
	if len(packed) > 1_800_000 {
		t.Errorf("the browser build has %d bytes, compressed; 1.8 MB are the most", len(packed))
	}
	t.Logf("%d bytes, compressed", len(packed))
	mk, err := exec.LookPath("make")
	if err != nil {
		t.Skip("make is not there")
	}
	dir := t.TempDir()
	cmd := exec.Command(mk, "-s", "page", "PAGE="+dir, "WASM="+filepath.Join(dir, "built.wasm"))
	cmd.Dir = "../.."
	if out, err := cmd.CombinedOutput(); err != nil {
		t.Fatalf("%v\n%s", err, out)
	}
	for _, name := range []string{"page.wasm.gz", "wasm_exec.js"} {
		now, err := os.ReadFile(filepath.Join(dir, name))
		if err != nil {
			t.Fatal(err)
		}
		was, err := os.ReadFile(filepath.Join("dist", name))
		if err != nil {
			t.Fatal(err)
		}
		if !bytes.Equal(now, was) {
			t.Errorf("%s is not that of the present source: make page", name)
		}
	}
}
