package curve

import "math"

// LeaveOneOut judges each inner point by the batten through the others: the
// result holds ys[i] minus that batten at xs[i], and 0 at the two ends, which no
// batten judges.
//
// Errors: *UnequalError, *TooFewError (fewer than 5), *NotRisingError.
func LeaveOneOut(xs, ys []float64) ([]float64, error) {
	if err := rising(xs, ys, 5); err != nil {
		return nil, err
	}
	n := len(xs)
	residuals := make([]float64, n)
	px, py := make([]float64, n-1), make([]float64, n-1)
	for i := 1; i < n-1; i++ {
		copy(px, xs[:i])
		copy(px[i:], xs[i+1:])
		copy(py, ys[:i])
		copy(py[i:], ys[i+1:])
		s, err := Natural(px, py)
		if err != nil {
			return nil, err
		}
		residuals[i] = ys[i] - s.At(xs[i])
	}
	return residuals, nil
}

// Worst returns the index of the residual of greatest size.
func Worst(residuals []float64) int {
	worst := 0
	for i, r := range residuals {
		if math.Abs(r) > math.Abs(residuals[worst]) {
			worst = i
		}
	}
	return worst
}
