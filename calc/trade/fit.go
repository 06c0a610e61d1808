package trade

import (
	"errors"

	"scarph/calc"
	"scarph/calc/curve"
)

// fit is the parameter that chooses between a batten and straight lines; def is
// what is taken when it is left out.
func fit(def string) *Param {
	return choice("fit", "batten", "straight").optional(calc.Str(def)).
		says(`"batten" or "straight"; left out, it is ` + def)
}

// columns parts a list of points into its first and second numbers.
func columns(points [][]float64) (xs, ys []float64) {
	for _, p := range points {
		xs, ys = append(xs, p[0]), append(ys, p[1])
	}
	return xs, ys
}

// fair is a line through given points: a batten, or straight pieces.
type fair interface {
	Ends() (first, last float64)
	Covers(x float64) bool
	At(x float64) float64
	Slope(x float64) float64
}

// fitted lays a batten or straight pieces through at least want points.
func fitted(xs, ys []float64, way string, want int) (fair, error) {
	if len(xs) == len(ys) && len(xs) < want {
		return nil, tooFew(len(xs), want)
	}
	if way == "straight" {
		b, err := curve.Broken(xs, ys)
		return b, curveError(err)
	}
	s, err := curve.Natural(xs, ys)
	return s, curveError(err)
}

// batten lays a batten through at least three points.
func batten(points [][]float64) (*curve.Spline, error) {
	xs, ys := columns(points)
	if len(xs) < 3 {
		return nil, tooFew(len(xs), 3)
	}
	s, err := curve.Natural(xs, ys)
	return s, curveError(err)
}

func tooFew(got, want int) error {
	return calc.Errorf(calc.CodeShape, "%d given: a line needs at least %d points", got, want)
}

// curveError puts the refusals of package curve into the words of the shop, for
// positions that are lengths.
func curveError(err error) error { return curveErrorOf(err, calc.DimLength) }

// curveErrorOf is curveError for positions of any dimension.
func curveErrorOf(err error, positions calc.Dimension) error {
	text := func(v float64) string { return calc.Recognised(calc.Of(v, positions)) }
	var rise *curve.NotRisingError
	var few *curve.TooFewError
	var unequal *curve.UnequalError
	switch {
	case err == nil:
		return nil
	case errors.As(err, &rise):
		return calc.Errorf(calc.CodeDomain, "station positions must rise: %s comes after %s", text(rise.After), text(rise.Before)).
			WithHint("put the stations in their order from the bow, each once")
	case errors.As(err, &few):
		return tooFew(few.Got, few.Want)
	case errors.As(err, &unequal):
		return unequalLists(unequal.Xs, unequal.Ys)
	case errors.Is(err, curve.ErrInLine):
		return calc.Errorf(calc.CodeDomain, "the points stand in one straight line: no circle goes through them")
	}
	return err
}

// unequalLists is the refusal of stations and values that do not pair up.
func unequalLists(stations, values int) error {
	e := calc.Errorf(calc.CodeShape, "%s but %s", several(stations, "position"), several(values, "value"))
	if values < stations {
		return e.WithHint("the position counted %d has none", values+1)
	}
	return e.WithHint("the value counted %d has no position", stations+1)
}

// several counts things in words: 1 value, 8 values.
func several(n int, what string) string {
	if n == 1 {
		return "1 " + what
	}
	return trim(float64(n)) + " " + what + "s"
}

// inside refuses a place past the ends of a line over positions that are lengths.
func inside(line fair, x float64) error { return insideOf(line, x, calc.DimLength) }

// insideOf is inside for positions of any dimension.
func insideOf(line fair, x float64, positions calc.Dimension) error {
	if line.Covers(x) {
		return nil
	}
	text := func(v float64) string { return calc.Recognised(calc.Of(v, positions)) }
	first, last := line.Ends()
	e := calc.Errorf(calc.CodeDomain, "%s is before the first station, %s", text(x), text(first))
	if x > last {
		e = calc.Errorf(calc.CodeDomain, "%s is past the last station, %s", text(x), text(last))
	}
	return e.WithHint("no guess is made beyond the table")
}
