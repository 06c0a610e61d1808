package lang

import (
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
	var p Parser
	for b.Loop() {
		if _, err := p.Parse(`frame_spacing = (run - 2 * 3/8") / (frames - 1)   # centre to centre`); err != nil {
			b.Fatal(err)
		}
	}
}

// BenchmarkParseJournal reads what fills a long journal: sums of names and sizes.
func BenchmarkParseJournal(b *testing.B) {
	b.ReportAllocs()
	var p Parser
	for b.Loop() {
		if _, err := p.Parse("v_4213 = (v_4212 + base_17) / 2 - 1/8 in"); err != nil {
			b.Fatal(err)
		}
	}
}
