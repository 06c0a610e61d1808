package curve

import "math"

// Spline is a cubic spline through given points.
type Spline struct {
	xs, ys []float64
	second []float64 // the second derivative at each point
}

// Natural returns the natural cubic spline through (xs[i], ys[i]): two continuous
// derivatives, no bending at either end. Two points give the straight line.
//
// Errors: *UnequalError, *TooFewError (fewer than 2), *NotRisingError.
// Source: W. H. Press et al., Numerical Recipes, 2nd ed., section 3.3, equations
// 3.3.3 to 3.3.7 (from memory; the tests use closed forms).
func Natural(xs, ys []float64) (*Spline, error) {
	if err := rising(xs, ys, 2); err != nil {
		return nil, err
	}
	n := len(xs)
	s := &Spline{xs: append([]float64(nil), xs...), ys: append([]float64(nil), ys...), second: make([]float64, n)}
	// One equation an inner point, three unknowns each: eliminated downwards,
	// then solved upwards.
	upper := make([]float64, n)
	right := make([]float64, n)
	for i := 1; i < n-1; i++ {
		before, after := xs[i]-xs[i-1], xs[i+1]-xs[i]
		bend := (ys[i+1]-ys[i])/after - (ys[i]-ys[i-1])/before
		pivot := 2*(before+after) - before*upper[i-1]
		upper[i] = after / pivot
		right[i] = (6*bend - before*right[i-1]) / pivot
	}
	for i := n - 2; i > 0; i-- {
		s.second[i] = right[i] - upper[i]*s.second[i+1]
	}
	return s, nil
}

// Ends returns the positions of the first and last points.
func (s *Spline) Ends() (first, last float64) { return s.xs[0], s.xs[len(s.xs)-1] }

// Covers reports whether x lies between the ends, with a billionth of the length
// for rounding.
func (s *Spline) Covers(x float64) bool { return covers(s.xs, x) }

// beyond reports on which side of the ends x lies: −1, 0 or +1, and the end.
func (s *Spline) beyond(x float64) (side int, end float64) {
	a, b := s.Ends()
	switch {
	case x < a:
		return -1, a
	case x > b:
		return 1, b
	}
	return 0, x
}

// At returns the height of the curve at x. Beyond the ends it goes on straight,
// as a free batten does.
func (s *Spline) At(x float64) float64 {
	if side, end := s.beyond(x); side != 0 {
		return s.At(end) + s.Slope(end)*(x-end)
	}
	i := span(s.xs, x)
	h := s.xs[i+1] - s.xs[i]
	a, b := (s.xs[i+1]-x)/h, (x-s.xs[i])/h
	return a*s.ys[i] + b*s.ys[i+1] + ((a*a*a-a)*s.second[i]+(b*b*b-b)*s.second[i+1])*h*h/6
}

// Slope returns the first derivative at x.
func (s *Spline) Slope(x float64) float64 {
	_, x = s.beyond(x)
	i := span(s.xs, x)
	h := s.xs[i+1] - s.xs[i]
	a, b := (s.xs[i+1]-x)/h, (x-s.xs[i])/h
	return (s.ys[i+1]-s.ys[i])/h + ((3*b*b-1)*s.second[i+1]-(3*a*a-1)*s.second[i])*h/6
}

// Second returns the second derivative at x, 0 beyond the ends.
func (s *Spline) Second(x float64) float64 {
	if side, _ := s.beyond(x); side != 0 {
		return 0
	}
	i := span(s.xs, x)
	b := (x - s.xs[i]) / (s.xs[i+1] - s.xs[i])
	return (1-b)*s.second[i] + b*s.second[i+1]
}

// Radius returns the radius of curvature at x, +Inf where the curve is straight.
func (s *Spline) Radius(x float64) float64 {
	d := s.Slope(x)
	return math.Pow(1+d*d, 1.5) / math.Abs(s.Second(x))
}

// Length returns the length along the curve from end to end.
func (s *Spline) Length() float64 {
	a, b := s.Ends()
	return s.LengthBetween(a, b)
}

// LengthBetween returns the length along the curve from x = a to x = b, negative
// when b is before a. Accuracy: a part in 10¹¹.
func (s *Spline) LengthBetween(a, b float64) float64 {
	if b < a {
		return -s.LengthBetween(b, a)
	}
	along := func(x float64) float64 { return math.Hypot(1, s.Slope(x)) }
	return s.between(a, b, along)
}

// Area returns the area under the curve from x = a to x = b.
func (s *Spline) Area(a, b float64) float64 {
	if b < a {
		return -s.Area(b, a)
	}
	return s.between(a, b, s.At)
}

// between integrates f from a to b, one span after another, for f is smooth only
// inside a span.
func (s *Spline) between(a, b float64, f func(float64) float64) float64 {
	total, from := 0.0, a
	for _, x := range s.xs {
		if x > from && x < b {
			total += Integrate(f, from, x)
			from = x
		}
	}
	return total + Integrate(f, from, b)
}
