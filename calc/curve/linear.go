package curve

import "sort"

// BrokenLine is made of straight pieces from point to point.
type BrokenLine struct{ xs, ys []float64 }

// Broken returns the straight pieces through (xs[i], ys[i]).
//
// Errors: *UnequalError, *TooFewError (fewer than 2), *NotRisingError.
func Broken(xs, ys []float64) (*BrokenLine, error) {
	if err := rising(xs, ys, 2); err != nil {
		return nil, err
	}
	return &BrokenLine{append([]float64(nil), xs...), append([]float64(nil), ys...)}, nil
}

// Ends returns the positions of the first and last points.
func (l *BrokenLine) Ends() (first, last float64) { return l.xs[0], l.xs[len(l.xs)-1] }

// Covers reports whether x lies between the ends, with a billionth of the length
// for rounding.
func (l *BrokenLine) Covers(x float64) bool { return covers(l.xs, x) }

// At returns the height of the line at x; beyond the ends it goes on along the
// first or last piece.
func (l *BrokenLine) At(x float64) float64 {
	i := span(l.xs, x)
	t := (x - l.xs[i]) / (l.xs[i+1] - l.xs[i])
	return l.ys[i]*(1-t) + l.ys[i+1]*t
}

// Slope returns the slope of the piece in which x lies, of the piece before it
// where two meet.
func (l *BrokenLine) Slope(x float64) float64 {
	i := span(l.xs, x)
	return (l.ys[i+1] - l.ys[i]) / (l.xs[i+1] - l.xs[i])
}

// span returns the index of the point that begins the piece in which x lies.
func span(xs []float64, x float64) int {
	i := sort.SearchFloat64s(xs, x) - 1
	return max(0, min(i, len(xs)-2))
}

func covers(xs []float64, x float64) bool {
	a, b := xs[0], xs[len(xs)-1]
	slack := 1e-9 * (b - a)
	return x >= a-slack && x <= b+slack
}

// Inverse returns the positions at which the broken line through (xs[i], ys[i])
// has the value y, rising; a piece that lies level at y gives its two ends.
//
// Errors: as Broken.
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
