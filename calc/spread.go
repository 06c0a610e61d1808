package calc

import (
	"math"
	"sort"
)

// Term is what one independent reading contributes to the ± of a quantity: the
// sensitivity of the quantity to the reading times the reading's own ±, in SI
// units of the quantity, with its sign. Because terms are kept apart by source,
// readings that are shared cancel: x − x is 0 ± 0.
//
// Source: JCGM 100:2008 (GUM), 5.1.2, equation (10), for independent inputs.
type Term struct {
	Source int32
	S      float64
}

// WithSpread returns x with ± u from the given source.
func WithSpread(x Value, u float64, source int32) Value {
	if u == 0 {
		return x
	}
	e := Extra{Terms: []Term{{source, math.Abs(u)}}}
	if x.X != nil {
		e.Show = x.X.Show
	}
	x.X = &e
	return x
}

// Terms returns the contributions to the value's ±, sorted by source.
func (x Value) Terms() []Term {
	if x.X == nil {
		return nil
	}
	return x.X.Terms
}

// Likely returns the root of the sum of squares of the contributions: one
// standard error when the readings' ± are standard errors (GUM 5.1.2).
func (x Value) Likely() float64 {
	t := x.Terms()
	if len(t) == 1 {
		return math.Abs(t[0].S)
	}
	s := 0.0
	for _, t := range t {
		s = math.Hypot(s, t.S)
	}
	return s
}

// Worst returns the straight sum of the contributions: all errors at once, each
// at its end and pulling the same way.
func (x Value) Worst() float64 {
	s := 0.0
	for _, t := range x.Terms() {
		s += math.Abs(t.S)
	}
	return s
}

// WithTerms returns a quantity with the given contributions, in any order;
// those of one source are added and those of zero left out.
func WithTerms(x Value, terms []Term) Value {
	sort.SliceStable(terms, func(i, j int) bool { return terms[i].Source < terms[j].Source })
	var out []Term
	for _, t := range terms {
		if n := len(out); n > 0 && out[n-1].Source == t.Source {
			out[n-1].S += t.S
		} else {
			out = append(out, t)
		}
	}
	kept := out[:0]
	for _, t := range out {
		if t.S != 0 {
			kept = append(kept, t)
		}
	}
	return x.terms(kept)
}

func (x Value) terms(t []Term) Value {
	var show *Display
	if x.X != nil {
		show = x.X.Show
	}
	if len(t) == 0 && show == nil {
		x.X = nil
	} else {
		x.X = &Extra{Terms: t, Show: show}
	}
	return x
}
