package trade

import (
	"math"

	"scarph/calc"
)

// carrySpread gives the result the ± of the arguments, to first order: for each
// independent source the arguments are moved together along that source by a small
// part of its ±, and the result's change is its contribution. The part is not so
// small that the change drowns in the last digits of a boat's length.
//
// Source: JCGM 100:2008, 5.1.3, note 2: sensitivities may be found by moving an
// input and noting the change; here by a central difference, refined once by
// Richardson's rule.
func (f *Function) carrySpread(args []calc.Value, v calc.Value) calc.Value {
	sources := map[int32]bool{}
	for _, a := range args {
		gatherSources(a, sources)
	}
	if len(sources) == 0 {
		return v
	}
	terms := map[int32]calc.Value{}
	sizes := map[calc.Dimension]float64{}
	for _, a := range args {
		largest(a, sizes)
	}
	for s := range sources {
		h := 1e-3
		for _, a := range args {
			h = math.Max(h, leastStep(a, s, sizes))
		}
		d, ok := f.along(args, s, h)
		if ok {
			if fine, ok2 := f.along(args, s, h/2); ok2 {
				d = combine(fine, d, func(a, b float64) float64 { return (4*a - b) / 3 })
			}
			terms[s] = d
		}
	}
	return attach(v, terms)
}

func gatherSources(x calc.Value, into map[int32]bool) {
	for _, t := range x.Terms() {
		into[t.Source] = true
	}
	for _, it := range x.Items() {
		gatherSources(it, into)
	}
}

// largest notes the largest quantity of each dimension in x.
func largest(x calc.Value, into map[calc.Dimension]float64) {
	if x.IsQuantity() {
		into[x.D] = math.Max(into[x.D], math.Abs(x.V))
	}
	for _, it := range x.Items() {
		largest(it, into)
	}
}

// leastStep returns the part of source s that moves a quantity in x by a millionth
// of the largest quantity of its dimension, 0 when none hangs on s.
func leastStep(x calc.Value, s int32, sizes map[calc.Dimension]float64) float64 {
	h := 0.0
	for _, t := range x.Terms() {
		if t.Source == s {
			h = 1e-6 * sizes[x.D] / math.Abs(t.S)
		}
	}
	for _, it := range x.Items() {
		h = math.Max(h, leastStep(it, s, sizes))
	}
	return h
}

// along returns the change of the result per unit of source s: (f(+h) − f(−h)) / 2h.
func (f *Function) along(args []calc.Value, s int32, h float64) (calc.Value, bool) {
	up, e1 := f.eval(&Call{fn: f, args: moved(args, s, h)})
	down, e2 := f.eval(&Call{fn: f, args: moved(args, s, -h)})
	if e1 != nil || e2 != nil {
		return calc.Value{}, false
	}
	return combine(up, down, func(a, b float64) float64 {
		if math.Abs(a-b) <= 8e-16*math.Max(math.Abs(a), math.Abs(b)) {
			return 0 // the last digits of a result that does not hang on s
		}
		return (a - b) / (2 * h)
	}), true
}

func moved(args []calc.Value, s int32, h float64) []calc.Value {
	z := make([]calc.Value, len(args))
	for i, a := range args {
		z[i] = move(a, s, h)
	}
	return z
}

func move(x calc.Value, s int32, h float64) calc.Value {
	if items := x.Items(); items != nil {
		y := make([]calc.Value, len(items))
		for i, it := range items {
			y[i] = move(it, s, h)
		}
		return x.WithItems(y)
	}
	for _, t := range x.Terms() {
		if t.Source == s {
			x.V += h * t.S
		}
	}
	return x
}

// combine applies op to the numbers of two values of one shape.
func combine(x, y calc.Value, op func(a, b float64) float64) calc.Value {
	if a, b := x.Items(), y.Items(); a != nil && len(a) == len(b) {
		z := make([]calc.Value, len(a))
		for i := range a {
			z[i] = combine(a[i], b[i], op)
		}
		return calc.Labelled(nil, z)
	}
	d := op(x.V, y.V)
	if math.IsNaN(d) || math.IsInf(d, 0) {
		d = 0
	}
	return calc.Number(d)
}

func attach(v calc.Value, terms map[int32]calc.Value) calc.Value {
	if items := v.Items(); items != nil {
		y := make([]calc.Value, len(items))
		for i, it := range items {
			sub := make(map[int32]calc.Value, len(terms))
			for s, t := range terms {
				if ti := t.Items(); i < len(ti) {
					sub[s] = ti[i]
				}
			}
			y[i] = attach(it, sub)
		}
		return v.WithItems(y)
	}
	if !v.IsQuantity() {
		return v
	}
	list := make([]calc.Term, 0, len(terms))
	for s, t := range terms {
		list = append(list, calc.Term{Source: s, S: t.V})
	}
	return calc.WithTerms(v, list)
}
