// Package examples holds the journals that show the program at work; its tests hold their
// figures to those worked out apart from it.
package examples

import (
	"context"
	"io/fs"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"scarph/calc"
	"scarph/kernel"
	"scarph/notebook"
)

// open opens a journal of this folder.
func open(t *testing.T, name string) *notebook.Notebook {
	t.Helper()
	n, err := notebook.Open(name)
	if err != nil {
		t.Fatal(err)
	}
	return n
}

// journals lists the journals of this folder.
func journals(t *testing.T) []string {
	t.Helper()
	paths, err := filepath.Glob("*/" + notebook.TitlePage)
	if err != nil || len(paths) < 4 {
		t.Fatal("the journals were not found", paths, err)
	}
	for i, p := range paths {
		paths[i] = filepath.Dir(p)
	}
	return paths
}

// TestJournalsHaveNoProblems: every journal reads without an error, its checks hold, and
// nothing in it earns a remark about old numbers or rounded steps.
func TestJournalsHaveNoProblems(t *testing.T) {
	for _, name := range journals(t) {
		n := open(t, name)
		for _, p := range n.Problems(kernel.Now) {
			t.Errorf("%s/%s:%d:%d: %s (%s)", name, p.File, p.Line, p.Column, p.Message, p.Hint)
		}
		for _, c := range n.Session.Checks(kernel.Now) {
			if !c.Holds {
				t.Errorf("%s: check %s does not hold", name, c.Text)
			}
		}
		for _, d := range n.Notes(kernel.Now) {
			t.Errorf("%s/%s:%d: %s", name, d.File, d.Line, d.Message)
		}
		for _, m := range n.Session.Rework(kernel.Now) {
			t.Errorf("%s: %s, made %s, is off and not settled", name, m.Thing, m.Entry.Date)
		}
	}
}

// TestSketchesAreOurs: the pictures are drawings in this folder, small, and all shown.
func TestSketchesAreOurs(t *testing.T) {
	for _, name := range journals(t) {
		text := ""
		var sketches []string
		err := filepath.WalkDir(name, func(p string, d fs.DirEntry, err error) error {
			if err != nil || d.IsDir() {
				return err
			}
			b, err := os.ReadFile(p)
			switch filepath.Ext(p) {
			case ".md":
				text += string(b)
			case ".svg":
				if sketches = append(sketches, filepath.Base(p)); len(b) > 8<<10 {
					t.Errorf("%s is %d bytes long", p, len(b))
				}
			default:
				t.Errorf("%s is neither text nor drawing", p)
			}
			return err
		})
		if err != nil {
			t.Fatal(err)
		}
		for _, s := range sketches {
			if !strings.Contains(text, "/"+s) {
				t.Errorf("%s: the sketch %s is shown nowhere", name, s)
			}
		}
	}
}

// figure is a figure worked out apart from the program, and the expression in the
// journal's scope that must come to it.
type figure struct {
	expr string
	unit string // "" for a plain number
	half float64
	want []float64 // to within half: half of the last digit printed
}

// one is a figure of one number.
func one(expr, unit string, want, half float64) figure {
	return figure{expr, unit, half, []float64{want}}
}

// judge compares figures with the journal as it stood on a day; "" is today.
func judge(t *testing.T, n *notebook.Notebook, day string, figures []figure) {
	t.Helper()
	order := kernel.Now
	if day != "" {
		if order = n.Session.OrderOn(day); order < 0 {
			t.Fatalf("no entry is as old as %s", day)
		}
	}
	for _, f := range figures {
		got := numbers(t, n, order, f)
		if got == nil {
			continue
		}
		if len(got) != len(f.want) {
			t.Errorf("%s: %d numbers, want %d", f.expr, len(got), len(f.want))
			continue
		}
		for i := range got {
			if !(math.Abs(got[i]-f.want[i]) <= f.half*(1+1e-9)) {
				t.Errorf("%s, %d: %.6g %s, want %.6g", f.expr, i+1, got[i], f.unit, f.want[i])
			}
		}
	}
}

// numbers evaluates a figure's expression and writes it in its unit.
func numbers(t *testing.T, n *notebook.Notebook, order int, f figure) []float64 {
	t.Helper()
	r, err := n.Session.Eval(context.Background(), f.expr, order)
	if err == nil && r.Err != nil {
		err = r.Err
	}
	if err != nil || !r.OK() {
		t.Errorf("%s: %v", f.expr, err)
		return nil
	}
	scale, zero := 1.0, 0.0
	dim := calc.DimNumber
	if f.unit != "" {
		u, perr := calc.ParseLiteral("1 " + f.unit)
		if perr != nil {
			t.Fatalf("%s: %v", f.unit, perr)
		}
		scale, dim = u.Value.V, u.Value.D
	}
	var out []float64
	var take func(x calc.Value)
	take = func(x calc.Value) {
		switch {
		case x.Kind() == calc.List:
			for _, it := range x.Items() {
				take(it)
			}
		case x.Kind() == calc.Missing:
		case !x.IsQuantity() || x.D != dim:
			t.Errorf("%s is %s, not in %s", f.expr, x.What(), f.unit)
		default:
			out = append(out, (x.V-zero)/scale)
		}
	}
	take(r.Value)
	return out
}

// unsettled is the journal without its settle lines: what was made, judged before
// anything was done about it.
func unsettled(t *testing.T, name, file string) *notebook.Notebook {
	t.Helper()
	n := open(t, name)
	src, err := os.ReadFile(filepath.Join(name, file))
	if err != nil {
		t.Fatal(err)
	}
	var kept []string
	for _, line := range strings.Split(string(src), "\n") {
		if !strings.HasPrefix(line, "settle ") {
			kept = append(kept, line)
		}
	}
	if _, err := n.SetOverlay(context.Background(), file, []byte(strings.Join(kept, "\n"))); err != nil {
		t.Fatal(err)
	}
	return n
}

// off is how much longer than wanted a size was made, in inches.
func off(t *testing.T, n *notebook.Notebook, day, thing, size string) float64 {
	t.Helper()
	for _, m := range n.Session.MadeList(n.Session.OrderOn(day)) {
		for _, z := range m.Sizes {
			if m.Thing == thing && z.Name == size {
				return (z.Made.V - z.Now.V) / 0.0254
			}
		}
	}
	t.Fatalf("no %s of %s was made by %s", size, thing, day)
	return 0
}

// words are the words in which a thing made is off, size by size, as of a day.
func words(t *testing.T, n *notebook.Notebook, day, thing string) map[string]string {
	t.Helper()
	for _, m := range n.Session.MadeList(n.Session.OrderOn(day)) {
		if m.Thing == thing {
			list := map[string]string{}
			for _, z := range m.Sizes {
				list[z.Name] = z.Words
			}
			return list
		}
	}
	t.Fatalf("no %s was made by %s", thing, day)
	return nil
}
