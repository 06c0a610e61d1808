package trade

import (
	"math"

	"scarph/calc"
	"scarph/calc/curve"
)

// The rules that integrate ordinates along a boat, by the names that arguments give
// them. Each is a list of multipliers, one an ordinate: areas, moments and second
// moments then are sums of products, as on a printed displacement sheet.
const (
	whatFits      = "what fits"
	simpsonFirst  = "simpson first"  // 1 4 1, spaces equal two by two: half-spaced ends too
	simpsonSecond = "simpson second" // 1 3 3 1, spaces equal three by three
	simpsonBoth   = "simpson both"   // the first rule, and the second on the last three spaces
	parabolas     = "parabolas"      // a parabola through each three ordinates, spaces as they come
	trapezoid     = "trapezoid"      // straight from ordinate to ordinate
)

// ruleParam chooses the rule; left out, it is what fits.
func ruleParam() *Param {
	return choice("rule", whatFits, simpsonFirst, simpsonSecond, simpsonBoth, parabolas, trapezoid).optional(calc.Str(whatFits)).
		says(`"what fits" is Simpson's first rule where the spaces, two by two, are alike to 2 %; else what is used is said`)
}

const ruleFormula = "Simpson's first rule h/3 · (1 4 1), his second 3h/8 · (1 3 3 1), both (the second on the last three spaces), parabolas over unequal spaces, or trapezoids"

// multipliers returns the factors w for which Σ w·f is the integral of f over xs,
// and the rule that was used.
//
// Errors: *calc.Error when the stations are too few, do not rise, or their spaces
// do not suit the rule.
// Source: C. B. Barrass and D. R. Derrett, Ship Stability for Masters and Mates,
// chapter on Simpson's rules; half-spaced ends, exercise 10, question 8.
func multipliers(xs []float64, rule string) (w []float64, used string, err error) {
	if len(xs) < 2 {
		return nil, "", calc.Errorf(calc.CodeShape, "%s: an area needs 2 or more", several(len(xs), "ordinate"))
	}
	for i := 1; i < len(xs); i++ {
		if !(xs[i] > xs[i-1]) {
			return nil, "", curveError(&curve.NotRisingError{Index: i, Before: xs[i-1], After: xs[i]})
		}
	}
	spaces := len(xs) - 1
	w = make([]float64, len(xs))
	switch rule {
	case whatFits:
		for _, r := range []string{simpsonFirst, simpsonBoth} {
			if w, used, err = multipliers(xs, r); err == nil {
				return w, used, nil
			}
		}
		return multipliers(xs, trapezoid)
	case simpsonFirst:
		if err := evenSpaces(xs, 2, "Simpson's first rule", "an even number"); err != nil {
			return nil, "", err
		}
		return bent(w, xs, 0, spaces, 2), rule, nil
	case simpsonSecond:
		if err := evenSpaces(xs, 3, "Simpson's second rule", "a number that three divides"); err != nil {
			return nil, "", err
		}
		return bent(w, xs, 0, spaces, 3), rule, nil
	case simpsonBoth:
		if spaces < 3 || spaces%2 == 0 {
			return nil, "", calc.Errorf(calc.CodeShape, "%s make %s: the two rules together want an odd number of spaces, 3 or more", several(len(xs), "ordinate"), several(spaces, "space")).
				WithHint(`"simpson first" takes an even number`)
		}
		cut := spaces - 3
		if cut > 0 {
			if err := evenSpaces(xs[:cut+1], 2, "Simpson's first rule", "an even number"); err != nil {
				return nil, "", err
			}
		}
		if err := evenSpaces(xs[cut:], 3, "Simpson's second rule", "a number that three divides"); err != nil {
			return nil, "", err
		}
		return bent(bent(w, xs, 0, cut, 2), xs, cut, spaces, 3), rule, nil
	case parabolas:
		if spaces%2 != 0 {
			return nil, "", wrongCount(len(xs), "a parabola through each three", "an even number")
		}
		return bent(w, xs, 0, spaces, 2), rule, nil
	}
	for i := 1; i < len(xs); i++ {
		h := xs[i] - xs[i-1]
		w[i-1] += h / 2
		w[i] += h / 2
	}
	return w, trapezoid, nil
}

// bent lays a polynomial through each n + 1 neighbouring ordinates, from place
// first to place last, and adds its multipliers to w. Over equal spaces that is
// Simpson's first rule for n = 2 and his second for n = 3; where the spaces differ a
// little, as measured ones do, the difference is allowed for, so that an answer moves
// smoothly with the place of a station.
func bent(w, xs []float64, first, last, n int) []float64 {
	for i := first; i+n <= last; i += n {
		x0, h := xs[i], xs[i+n]-xs[i]
		for k := 0; k <= n; k++ {
			one := poly{1} // 1 at ordinate k, 0 at the others, over u from 0 to 1
			for j := 0; j <= n; j++ {
				if j != k {
					r := (xs[i+k] - xs[i+j]) / h
					one = one.times(poly{-(xs[i+j] - x0) / h / r, 1 / r})
				}
			}
			w[i+k] += h * one.primitive().at(1)
		}
	}
	return w
}

// sameSpace is how far a space that passes for equal may stand off the mean of its
// group, as a share: more than stations stand off their marks, less than a half-space.
const sameSpace = 0.02

// evenSpaces checks that the spaces come in groups of n, alike inside each group.
func evenSpaces(xs []float64, n int, rule, want string) error {
	spaces := len(xs) - 1
	if spaces%n != 0 {
		return wrongCount(len(xs), rule, want)
	}
	for i := 0; i < spaces; i += n {
		h := (xs[i+n] - xs[i]) / float64(n)
		for k := i; k < i+n; k++ {
			if math.Abs(xs[k+1]-xs[k]-h) > sameSpace*h {
				return calc.Errorf(calc.CodeDomain, "the space from %s to %s is unlike its neighbour: %s wants them alike", In(xs[k]), In(xs[k+1]), rule).
					WithHint(`"parabolas" and "trapezoid" take spaces as they come`)
			}
		}
	}
	return nil
}

func wrongCount(ordinates int, rule, want string) error {
	return calc.Errorf(calc.CodeShape, "%s make %s: %s wants %s of spaces", several(ordinates, "ordinate"), several(ordinates-1, "space"), rule, want).
		WithHint(`add a station, or use "simpson both" or "trapezoid"`)
}

// sayRule remarks on the rule where what fits was not Simpson's first.
func (c *Call) sayRule(asked, used string, stations int) {
	if asked != whatFits || used == simpsonFirst {
		return
	}
	how := "trapezoids were used"
	if used == simpsonBoth {
		how = "his second rule was used on the last three"
	}
	c.Warn("Simpson's first rule does not fit the %d stations as they stand: %s", stations, how)
}

// sum returns Σ w·f.
func sum(w, f []float64) float64 {
	total := 0.0
	for i := range w {
		total += w[i] * f[i]
	}
	return total
}

// centroid returns the integral of f over xs and the place of its centre.
func centroid(w, xs, f []float64) (area, at float64) {
	moment := 0.0
	for i := range w {
		area += w[i] * f[i]
		moment += w[i] * f[i] * xs[i]
	}
	return area, moment / area
}

// evenly returns n places from 0, each a spacing after the last.
func evenly(n int, spacing float64) []float64 {
	xs := make([]float64, n)
	for i := range xs {
		xs[i] = float64(i) * spacing
	}
	return xs
}
