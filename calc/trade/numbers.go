package trade

import (
	"math"
	"sort"

	"scarph/calc"
)

// one makes a function of one quantity.
func one(name, summary, formula string, p *Param, checks []Check, eval func(c *Call) (calc.Value, error)) Function {
	return Function{Name: name, Summary: summary, Params: []*Param{p}, Result: "quantity", Formula: formula, Source: "arithmetic", Checks: checks, Eval: eval}
}

func elementary() []Function {
	trig := func(name string, f func(float64) float64, check Check) Function {
		g := one(name, "the "+name+" of an angle", name+"(angle)", angle("angle"), []Check{check}, func(c *Call) (calc.Value, error) {
			z := f(c.Number(0))
			if math.Abs(z) > 1e15 {
				return calc.Value{}, Refuse("the tangent of %s has no value", degreesText(c.Number(0)))
			}
			return calc.Number(z), nil
		})
		g.Source, g.Result = "geometry", "number"
		return g
	}
	arc := func(name, of string, lim float64, f func(float64) float64, check Check) Function {
		p := number("ratio")
		if lim > 0 {
			p = p.within(-lim, lim)
		}
		g := one(name, "the angle whose "+of+" is the ratio", name+"(ratio)", p, []Check{check}, func(c *Call) (calc.Value, error) {
			return calc.Angle(f(c.Number(0))), nil
		})
		g.Source, g.Result = "geometry", "angle"
		return g
	}
	return []Function{
		one("abs", "the size of a quantity, without its sign", "|x|", anything("x"), []Check{{Call: "abs(-3 in)", Want: "3 in"}}, func(c *Call) (calc.Value, error) {
			return calc.Of(math.Abs(c.Number(0)), c.Dim(0)), nil
		}),
		one("sqrt", "the square root", "√x", anything("x"), []Check{{Call: "sqrt(9 ft^2)", Want: "3 ft"}}, func(c *Call) (calc.Value, error) {
			z, err := calc.Pow(c.Value(0), calc.Number(0.5))
			if err != nil {
				return z, err
			}
			return calc.Of(z.V, z.D), nil
		}),
		trig("sin", math.Sin, Check{Call: "sin(30°)", Want: "0.5"}),
		trig("cos", math.Cos, Check{Call: "cos(60°)", Want: "0.5"}),
		trig("tan", math.Tan, Check{Call: "tan(45°)", Want: "1"}),
		arc("asin", "sine", 1, math.Asin, Check{Call: "asin(0.5)", Want: "30°"}),
		arc("acos", "cosine", 1, math.Acos, Check{Call: "acos(0.5)", Want: "60°"}),
		arc("atan", "tangent", 0, math.Atan, Check{Call: "atan(1)", Want: "45°"}),
		one("ln", "the natural logarithm of a plain number", "ln x", number("x").positive(), []Check{{Call: "ln(1)", Want: "0"}}, func(c *Call) (calc.Value, error) {
			return calc.Number(math.Log(c.Number(0))), nil
		}),
		one("exp", "e to the power of a plain number", "eˣ", number("x").within(-700, 700), []Check{{Call: "exp(0)", Want: "1"}}, func(c *Call) (calc.Value, error) {
			return calc.Number(math.Exp(c.Number(0))), nil
		}),
		{
			Name: "offset", Summary: "a length in the notation of a table of offsets, feet-inches-eighths",
			Params: []*Param{{Name: "text", Kind: Any, Doc: `a text such as "2-3-5+"`}}, Result: "length",
			Formula: "12·feet + inches + eighths/8, + a sixteenth more, - a sixteenth less",
			Limits:  "inches 0 to 11, eighths 0 to 7", Source: "common practice",
			Checks: []Check{{Call: `offset("2-3-5+")`, Want: "27.6875 in"}},
			Eval: func(c *Call) (calc.Value, error) {
				if c.Value(0).Kind() != calc.Text {
					return calc.Value{}, calc.Errorf(calc.CodeKind, "offset wants a text between quotes").WithHint(`write offset("2-3-5+")`)
				}
				v, err := calc.ParseOffset(c.Text(0))
				if err != nil {
					return v, err
				}
				return v, nil
			},
		},
	}
}

// rounding makes a function that moves a quantity to a mark and keeps its ±.
func rounding(name, summary, formula string, to func(float64) float64, check Check) Function {
	return Function{
		Name: name, Summary: summary, Params: []*Param{anything("quantity"), anything("mark").positive()},
		Result: "quantity", Formula: formula, Limits: "the mark has the quantity's dimension", Source: "arithmetic",
		Stepped: true, Checks: []Check{check},
		Eval: func(c *Call) (calc.Value, error) {
			if c.Dim(0) != c.Dim(1) {
				e := calc.Errorf(calc.CodeDimension, "%s wants a mark of the quantity's kind: %s, not %s", name, c.Dim(0).A(), c.Dim(1).A())
				if c.Dim(1).IsNumber() {
					e.Code = calc.CodeBareNumber
					return calc.Value{}, e.WithHint("%s", calc.WhatUnit(c.Value(1), c.Dim(0)))
				}
				return calc.Value{}, e
			}
			mark := c.Number(1)
			n := c.Number(0) / mark
			if r := math.Round(n); math.Abs(n-r) < 1e-9*math.Max(1, math.Abs(n)) {
				n = r // 7.4375000001 does not go up a step
			}
			z := calc.WithTerms(calc.Of(to(n)*mark, c.Dim(0)), append([]calc.Term(nil), c.Value(0).Terms()...))
			if d := markShown(mark, c.Dim(0)); d != nil {
				return z.Shown(d), nil
			}
			return z, nil
		},
	}
}

// markShown shows a quantity to a mark that is finer than those usually shown: 7 13/32",
// 17 1/4°. It is nil for other marks.
func markShown(mark float64, of calc.Dimension) *calc.Display {
	switch {
	case of == calc.DimAngle:
		d := *calc.InUnit("°")
		d.Step = mark
		return &d
	case of == calc.DimLength && (sameMark(mark, Inch/32) || sameMark(mark, Inch/64)):
		return &calc.Display{D: of, Step: mark, System: calc.FeetInches}
	}
	return nil
}

func sameMark(a, b float64) bool { return math.Abs(a-b) < 1e-12 }

func roundings() []Function {
	return []Function{
		rounding("nearest", "the quantity moved to the nearest mark; halves go away from zero", "mark · round(quantity / mark)", math.Round, Check{Call: "nearest(7.4219 in, 1/16 in)", Want: "7.4375 in"}),
		rounding("round_up", "the quantity moved up to a mark", "mark · ⌈quantity / mark⌉", math.Ceil, Check{Call: "round_up(7.38 in, 1/8 in)", Want: "7.5 in"}),
		rounding("round_down", "the quantity moved down to a mark", "mark · ⌊quantity / mark⌋", math.Floor, Check{Call: "round_down(7.49 in, 1/8 in)", Want: "7.375 in"}),
	}
}

// anyList is a list of quantities of one dimension.
func anyList(name string) *Param { return &Param{Name: name, Kind: Scalars, AnyDim: true} }

// same refuses a list of mixed dimensions, and an empty one.
func (c *Call) same(i int) error {
	items := c.Value(i).Items()
	if len(items) == 0 {
		return calc.Errorf(calc.CodeShape, "the list is empty")
	}
	for k, x := range items {
		if x.D != items[0].D {
			return calc.Errorf(calc.CodeDimension, "%s is %s, but the first is %s", labelAt(c.Labels(i), k), x.D.A(), items[0].D.A())
		}
	}
	return nil
}

func overAll(name, summary, formula string, check Check, f func(c *Call, xs []float64) float64) Function {
	return Function{Name: name, Summary: summary, Params: []*Param{anyList("list")}, Result: "quantity", Formula: formula,
		Limits: "at least one element, all of one dimension", Source: "arithmetic", Checks: []Check{check},
		Eval: func(c *Call) (calc.Value, error) {
			if err := c.same(0); err != nil {
				return calc.Value{}, err
			}
			return calc.Of(f(c, c.Numbers(0)), c.Dim(0)), nil
		}}
}

func listFunctions() []Function {
	most := func(name, word string, better func(a, b float64) bool) Function {
		return Function{Name: name, Summary: "the " + word + " of two quantities, or of a list", Source: "arithmetic", Result: "quantity",
			Params:  []*Param{{Name: "a", Kind: Any, Doc: "a list, or a quantity"}, anything("b").optional(calc.Value{})},
			Formula: name + "(a, b)", Limits: "all of one dimension",
			Checks: []Check{{Call: name + "([3 in, 3 in])", Want: "3 in"}, {Call: name + "(2 in, 2 in)", Want: "2 in"}},
			Eval: func(c *Call) (calc.Value, error) {
				xs := c.Value(0).Items()
				if c.Value(0).Kind() != calc.List {
					xs = []calc.Value{c.Value(0)}
				}
				if c.Given(1) {
					xs = append(append([]calc.Value(nil), xs...), c.Value(1))
				}
				if len(xs) == 0 {
					return calc.Value{}, calc.Errorf(calc.CodeShape, "the list is empty")
				}
				best := xs[0]
				for _, x := range xs {
					if _, err := calc.Compare(x, best); err != nil {
						return calc.Value{}, err
					}
					if better(x.V, best.V) {
						best = x
					}
				}
				return calc.Of(best.V, best.D), nil
			}}
	}
	return []Function{
		overAll("mean", "the mean of a list", "Σx / n", Check{Call: "mean([2 in, 4 in])", Want: "3 in"}, func(_ *Call, xs []float64) float64 {
			s := 0.0
			for _, x := range xs {
				s += x
			}
			return s / float64(len(xs))
		}),
		overAll("median", "the middle element of a list in order, or the mean of the middle two", "the middle of the sorted list", Check{Call: "median([9 in, 2 in, 4 in])", Want: "4 in"}, func(_ *Call, xs []float64) float64 {
			s := append([]float64(nil), xs...)
			sort.Float64s(s)
			n := len(s)
			return (s[(n-1)/2] + s[n/2]) / 2
		}),
		most("min", "smallest", func(a, b float64) bool { return a < b }),
		most("max", "largest", func(a, b float64) bool { return a > b }),
		{
			Name: "at", Summary: "one element of a list, counted from 1", Source: "arithmetic", Result: "element",
			Params:  []*Param{{Name: "list", Kind: Any, Doc: "a list"}, count("number")},
			Formula: "element number of the list", Limits: "1 to the length of the list",
			Checks: []Check{{Call: "at([2 in, 4 in], 2)", Want: "4 in"}},
			Eval: func(c *Call) (calc.Value, error) {
				items := c.Value(0).Items()
				k := c.Int(1)
				if c.Value(0).Kind() != calc.List {
					return calc.Value{}, calc.Errorf(calc.CodeKind, "at wants a list; this is %s", c.Value(0).What())
				}
				if k < 1 || k > len(items) {
					return calc.Value{}, calc.Errorf(calc.CodeDomain, "the list has elements 1 to %d; %d is none of them", len(items), k)
				}
				return items[k-1], nil
			},
		},
		{
			Name: "running", Summary: "running sums of a list: each element added to all before it", Source: "arithmetic", Result: "list",
			Params: []*Param{anyList("list")}, Formula: "x₁, x₁ + x₂, …", Limits: "all of one dimension",
			Checks: []Check{{Call: "at(running([2 in, 4 in, 5 in]), 3)", Want: "11 in"}},
			Eval: func(c *Call) (calc.Value, error) {
				if err := c.same(0); err != nil {
					return calc.Value{}, err
				}
				s := 0.0
				out := make([]calc.Value, 0, len(c.Numbers(0)))
				for _, x := range c.Numbers(0) {
					s += x
					out = append(out, calc.Of(s, c.Dim(0)))
				}
				return calc.Labelled(c.Labels(0), out), nil
			},
		},
		{
			Name: "pairs", Summary: "points from two lists: the first of each, the second of each, …", Source: "arithmetic", Result: "list of points",
			Params:  []*Param{{Name: "xs", Kind: Any, Doc: "a list"}, {Name: "ys", Kind: Any, Doc: "a list"}},
			Formula: "[[x₁, y₁], [x₂, y₂], …]", Limits: "lists of one length",
			Checks: []Check{{Call: "at(at(pairs([1 in, 2 in], [5 in, 7 in]), 2), 2)", Want: "7 in"}},
			Eval: func(c *Call) (calc.Value, error) {
				xs, ys := c.Value(0).Items(), c.Value(1).Items()
				if len(xs) != len(ys) || c.Value(0).Kind() != calc.List || c.Value(1).Kind() != calc.List {
					return calc.Value{}, calc.Errorf(calc.CodeShape, "the lists have %d and %d elements", len(xs), len(ys))
				}
				out := make([]calc.Value, len(xs))
				for i := range xs {
					out[i] = calc.Listed(xs[i], ys[i])
				}
				return calc.Labelled(c.Labels(0), out), nil
			},
		},
		{
			Name: "spread_of", Summary: "the ± of a quantity, as a quantity", Source: "JCGM 100:2008, 5.1.2", Result: "quantity",
			Params: []*Param{anything("quantity")}, Formula: "√Σ(contributions²)", Stepped: true,
			Checks: []Check{{Call: "spread_of(10 mm ± 2 mm)", Want: "2 mm"}},
			Eval: func(c *Call) (calc.Value, error) {
				return calc.Of(c.Value(0).Likely(), c.Dim(0)), nil
			},
		},
	}
}
