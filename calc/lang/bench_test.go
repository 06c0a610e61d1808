package lang

import (
	"encoding/json"
	"math"
	"os/exec"
	"path/filepath"
	"testing"

	"github.com/expr-lang/expr"
	"github.com/expr-lang/expr/vm"

	"scarph/calc"
)

const benchText = "(aft - fwd) / (n - 1) + (a + b) * c / d - a"

// BenchmarkStatement works out one statement: as bare floats in the expression
// library's own machine, as quantities, and as quantities with ±.
func BenchmarkStatement(b *testing.B) {
	floats := map[string]any{"aft": 180.0, "fwd": 22.5, "n": 12.0, "a": 3.5, "b": 2.25, "c": 1.5, "d": 4.0}
	b.Run("bare-floats", func(b *testing.B) {
		p, err := expr.Compile(benchText, expr.Env(floats))
		if err != nil {
			b.Fatal(err)
		}
		var m vm.VM
		b.ReportAllocs()
		for b.Loop() {
			if _, err := m.Run(p, floats); err != nil {
				b.Fatal(err)
			}
		}
	})
	for _, c := range []struct {
		name   string
		spread bool
	}{{"quantities", false}, {"with-spread", true}} {
		b.Run(c.name, func(b *testing.B) {
			s, err := ParseSlot(benchText)
			if err != nil {
				b.Fatal(err)
			}
			f := &Frame{}
			for i, n := range s.Expr.Needs {
				v := calc.Number(floats[n.Path].(float64))
				if n.Path == "aft" || n.Path == "fwd" || n.Path == "a" || n.Path == "b" {
					v = calc.Inches(v.V)
					if c.spread {
						v = calc.WithSpread(v, 0.001, int32(i+1))
					}
				}
				f.Vars = append(f.Vars, v)
			}
			b.ReportAllocs()
			for b.Loop() {
				if _, err := s.Expr.Eval(f); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}

// BenchmarkParse reads and compiles a statement.
func BenchmarkParse(b *testing.B) {
	b.ReportAllocs()
	for b.Loop() {
		if _, err := Parse(`frame_spacing = (run - 2 * 3/8") / (frames - 1)   # centre to centre`); err != nil {
			b.Fatal(err)
		}
	}
}

// BenchmarkAgainstUnitLibrary works out the same statement by a general-purpose
// library of units (mathjs, from npm) and by ours, in one run, and reports how many
// times faster ours is. The answers must agree.
func BenchmarkAgainstUnitLibrary(b *testing.B) {
	node, err := exec.LookPath("node")
	if err != nil {
		b.Skip("node is not installed")
	}
	cmd := exec.Command(node, filepath.FromSlash("testdata/bench/units.js"))
	cmd.Dir = filepath.FromSlash("../..")
	out, err := cmd.Output()
	if err != nil {
		b.Skipf("mathjs is not installed (npm ci): %v", err)
	}
	var theirs struct{ NS, Metres float64 }
	if err := json.Unmarshal(out, &theirs); err != nil {
		b.Fatal(err)
	}
	s, perr := ParseSlot(benchText)
	if perr != nil {
		b.Fatal(perr)
	}
	vars := map[string]calc.Value{"aft": calc.Inches(180), "fwd": calc.Inches(22.5), "n": calc.Number(12), "a": calc.Inches(3.5), "b": calc.Inches(2.25), "c": calc.Number(1.5), "d": calc.Number(4)}
	f := &Frame{}
	for _, n := range s.Expr.Needs {
		f.Vars = append(f.Vars, vars[n.Path])
	}
	var v calc.Value
	for b.Loop() {
		v, _ = s.Expr.Eval(f)
	}
	if math.Abs(v.V-theirs.Metres) > 1e-12 {
		b.Fatalf("ours is %v m, theirs %v m", v.V, theirs.Metres)
	}
	ours := float64(b.Elapsed().Nanoseconds()) / float64(b.N)
	b.ReportMetric(theirs.NS/ours, "times-faster")
}
