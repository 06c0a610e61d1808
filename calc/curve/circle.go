package curve

import "math"

// Circle is a circle by its centre and radius.
type Circle struct {
	Centre Point
	Radius float64
}

// CircleThrough returns the circle through three points.
//
// Errors: ErrInLine when their triangle has no height worth the name.
func CircleThrough(p, q, r Point) (Circle, error) {
	a, b := q.Sub(p), r.Sub(p)
	cross := a.X*b.Y - a.Y*b.X
	aa, bb := a.X*a.X+a.Y*a.Y, b.X*b.X+b.Y*b.Y
	if math.Abs(cross) <= 1e-12*math.Max(aa, bb) {
		return Circle{}, ErrInLine
	}
	c := Point{(b.Y*aa - a.Y*bb) / (2 * cross), (a.X*bb - b.X*aa) / (2 * cross)}
	return Circle{Point{p.X + c.X, p.Y + c.Y}, math.Hypot(c.X, c.Y)}, nil
}

// FitCircle returns the algebraic least-squares circle, which makes the sum of
// (distance² − radius²)² least, and for each point how far outside it lies.
//
// Errors: *TooFewError (fewer than 3), ErrInLine.
// Source: I. Kåsa, A circle fitting procedure and its error analysis, IEEE Trans.
// Instrum. Meas. 25 (1976), pages 8 to 14 (from memory; tested on true circles).
func FitCircle(points []Point) (Circle, []float64, error) {
	n := float64(len(points))
	if n < 3 {
		return Circle{}, nil, &TooFewError{len(points), 3}
	}
	var mid Point
	for _, p := range points {
		mid.X += p.X / n
		mid.Y += p.Y / n
	}
	var xx, xy, yy, xz, yz, zz float64
	for _, p := range points {
		d := p.Sub(mid)
		r := d.X*d.X + d.Y*d.Y
		xx, xy, yy = xx+d.X*d.X, xy+d.X*d.Y, yy+d.Y*d.Y
		xz, yz, zz = xz+d.X*r, yz+d.Y*r, zz+r
	}
	det := xx*yy - xy*xy
	if math.Abs(det) <= 1e-14*zz*zz {
		return Circle{}, nil, ErrInLine
	}
	c := Point{(xz*yy - yz*xy) / (2 * det), (yz*xx - xz*xy) / (2 * det)}
	z := Circle{Point{mid.X + c.X, mid.Y + c.Y}, math.Sqrt(c.X*c.X + c.Y*c.Y + zz/n)}
	residuals := make([]float64, len(points))
	for i, p := range points {
		residuals[i] = Distance(p, z.Centre) - z.Radius
	}
	return z, residuals, nil
}
