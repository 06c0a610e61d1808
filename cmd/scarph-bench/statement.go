package main

import (
	"bytes"
	"encoding/json"
	"fmt"
	"math"
	"os/exec"
	"path/filepath"

	"github.com/expr-lang/expr"
	"github.com/expr-lang/expr/vm"

	"scarph/calc"
	"scarph/calc/lang"
)

// sums are worked out by everyone: as bare floats, as quantities, and by a
// general-purpose library of units. Names that begin with an n are plain numbers, the
// others inches.
var sums = []struct{ what, text string }{
	{"a spacing: `(aft - fwd) / (n - 1) + (a + b) * n2 / n3 - a`", "(aft - fwd) / (n - 1) + (a + b) * n2 / n3 - a"},
	{"an area: `(a + b) / 2 * aft + a * b`", "(a + b) / 2 * aft + a * b"},
	{"a volume by thirds: `(a * b + 4 * b * b + a * a) * aft / 3`", "(a * b + 4 * b * b + a * a) * aft / 3"},
	{"a girth of ten parts", "a + b + a + b + a + b + a + b + a + b - fwd / n"},
}

var inputs = map[string]float64{"aft": 180, "fwd": 22.5, "n": 12, "a": 3.5, "b": 2.25, "n2": 1.5, "n3": 4}

// statements races quantities against bare floats in the expression library's own
// machine and against a library of units in node.
func statements(b *bench) error {
	theirs, err := unitLibrary(b)
	worst := 0.0
	for i, x := range sums {
		p, perr := expr.Compile(x.text, expr.Env(floats()))
		if perr != nil {
			return perr
		}
		var m vm.VM
		env := floats()
		exact, perr1 := quantities(x.text, false)
		spread, perr2 := quantities(x.text, true)
		if perr1 != nil || perr2 != nil {
			return fmt.Errorf("%s cannot be read", x.text)
		}
		var got calc.Value
		ns := b.race(
			func() { _, _ = m.Run(p, env) },
			func() { got, _ = exact() },
			func() { _, _ = spread() },
		)
		b.table.atMost(x.what, span(ns[1]), span(ns[0])+" bare floats", ns[1]/ns[0], 1.5)
		b.table.atMost("the same with ± and what it comes from", span(ns[2]), span(ns[0])+" bare floats", ns[2]/ns[0], 4)
		if err != nil {
			continue
		}
		if si := theirs[i].SI; math.Abs(got.V-si) > 1e-12*math.Abs(si) {
			return fmt.Errorf("%s: ours is %v, the library of units says %v", x.text, got.V, si)
		}
		b.table.atLeast("the same by a library of units in node, answers compared", span(ns[1]), span(theirs[i].NS), theirs[i].NS/ns[1], 30)
		worst = max(worst, ns[1]/ns[0])
	}
	text := `frame_spacing = (run - 2 * 3/8") / (frames - 1)   # centre to centre`
	var p lang.Parser
	ns := b.race(func() { _, _ = p.Parse(text) }, func() {
		_, _ = expr.Compile("(run - 2 * 0.375) / (frames - 1)", expr.Env(map[string]any{"run": 1.0, "frames": 2.0}))
	})
	b.table.atMost("reading a statement and making it ready to run", span(ns[0]), span(ns[1])+" the expression library", ns[0]/ns[1], 0)
	return err
}

func floats() map[string]any {
	m := map[string]any{}
	for k, v := range inputs {
		m[k] = v
	}
	return m
}

// quantities readies a sum with lengths in place of floats.
func quantities(text string, spread bool) (func() (calc.Value, *calc.Error), *calc.Error) {
	s, err := lang.ParseSlot(text)
	if err != nil {
		return nil, err
	}
	f := &lang.Frame{}
	for i, n := range s.Expr.Needs {
		v := calc.Number(inputs[n.Path])
		if n.Path[0] != 'n' {
			v = calc.Inches(v.V)
			if spread {
				v = calc.WithSpread(v, 0.001, int32(i+1))
			}
		}
		f.Vars = append(f.Vars, v)
	}
	return func() (calc.Value, *calc.Error) { return s.Expr.Eval(f) }, nil
}

// answer is what a library of units made of a sum.
type answer struct{ NS, SI float64 }

// unitLibrary has node work out the sums with units.
func unitLibrary(b *bench) ([]answer, error) {
	node, err := exec.LookPath("node")
	if err != nil {
		return nil, fmt.Errorf("the library of units wants node")
	}
	var texts []string
	for _, x := range sums {
		texts = append(texts, x.text)
	}
	ask, err := json.Marshal(map[string]any{"sums": texts, "inputs": inputs})
	if err != nil {
		return nil, err
	}
	cmd := exec.Command(node, filepath.FromSlash("testdata/bench/units.js"))
	cmd.Dir, cmd.Stdin = b.root, bytes.NewReader(ask)
	out, err := cmd.Output()
	if err != nil {
		return nil, fmt.Errorf("the library of units is not installed (npm ci): %w", err)
	}
	var list []answer
	return list, json.Unmarshal(out, &list)
}
