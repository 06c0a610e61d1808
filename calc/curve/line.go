package curve

// Line is the straight line y = Offset + Slope·x.
type Line struct{ Slope, Offset float64 }

// At returns the height of the line at x.
func (l Line) At(x float64) float64 { return l.Offset + l.Slope*x }

// FitLine returns the least-squares line through the points, the error taken in
// y alone, and the residuals y − line.
//
// Errors: *UnequalError, *TooFewError (fewer than 2), ErrInLine when all x are one.
func FitLine(xs, ys []float64) (Line, []float64, error) {
	if len(xs) != len(ys) {
		return Line{}, nil, &UnequalError{len(xs), len(ys)}
	}
	n := float64(len(xs))
	if n < 2 {
		return Line{}, nil, &TooFewError{len(xs), 2}
	}
	var mx, my float64
	for i := range xs {
		mx += xs[i] / n
		my += ys[i] / n
	}
	var xx, xy float64
	for i := range xs {
		xx += (xs[i] - mx) * (xs[i] - mx)
		xy += (xs[i] - mx) * (ys[i] - my)
	}
	if xx == 0 {
		return Line{}, nil, ErrInLine
	}
	l := Line{Slope: xy / xx}
	l.Offset = my - l.Slope*mx
	residuals := make([]float64, len(xs))
	for i := range xs {
		residuals[i] = ys[i] - l.At(xs[i])
	}
	return l, residuals, nil
}
