package curve

import "sort"

// Linear returns the value at x on the broken line through (xs[i], ys[i]); beyond
// the ends it goes on along the first or last piece.
//
// Errors: *UnequalError, *TooFewError (fewer than 2), *NotRisingError.
func Linear(xs, ys []float64, x float64) (float64, error) {
	if err := rising(xs, ys, 2); err != nil {
		return 0, err
	}
	i := sort.SearchFloat64s(xs, x) - 1
	i = max(0, min(i, len(xs)-2))
	t := (x - xs[i]) / (xs[i+1] - xs[i])
	return ys[i]*(1-t) + ys[i+1]*t, nil
}

// Inverse returns the positions at which the broken line through (xs[i], ys[i])
// has the value y, rising; a piece that lies level at y gives its two ends.
//
// Errors: as Linear.
func Inverse(xs, ys []float64, y float64) ([]float64, error) {
	if err := rising(xs, ys, 2); err != nil {
		return nil, err
	}
	var found []float64
	add := func(x float64) {
		if n := len(found); n == 0 || x > found[n-1] {
			found = append(found, x)
		}
	}
	for i := 1; i < len(xs); i++ {
		a, b := ys[i-1]-y, ys[i]-y
		if a == 0 {
			add(xs[i-1])
		}
		if a*b < 0 {
			add(xs[i-1] + (xs[i]-xs[i-1])*a/(a-b))
		}
		if b == 0 {
			add(xs[i])
		}
	}
	return found, nil
}

// Crossings returns the positions at which the spline has the value y, rising. A
// touch that does not cross may be missed.
func (s *Spline) Crossings(y float64) []float64 {
	var found []float64
	add := func(x float64) {
		if n := len(found); n == 0 || x > found[n-1] {
			found = append(found, x)
		}
	}
	// Within a span a cubic turns at most twice: sixteen steps tell its crossings
	// apart unless two lie closer than that.
	const steps = 16
	for i := 1; i < len(s.xs); i++ {
		from := s.xs[i-1]
		a := s.At(from) - y
		for k := 1; k <= steps; k++ {
			to := s.xs[i-1] + (s.xs[i]-s.xs[i-1])*float64(k)/steps
			if k == steps {
				to = s.xs[i]
			}
			b := s.At(to) - y
			if a == 0 {
				add(from)
			}
			if a*b < 0 {
				add(bisect(func(x float64) float64 { return s.At(x) - y }, from, to))
			}
			if b == 0 {
				add(to)
			}
			from, a = to, b
		}
	}
	return found
}

// bisect finds the root of f between a and b, where f has opposite signs.
func bisect(f func(float64) float64, a, b float64) float64 {
	below := f(a) < 0
	for range 80 {
		mid := (a + b) / 2
		if (f(mid) < 0) == below {
			a = mid
		} else {
			b = mid
		}
	}
	return (a + b) / 2
}
