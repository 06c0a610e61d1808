package curve

import "math"

// Path is a batten bent through points of a plane in their order, free to turn
// back on itself: two splines over the distance along the chords.
type Path struct {
	x, y *Spline
}

// Through returns the path through the points.
//
// Errors: *TooFewError (fewer than 2), *NotRisingError when a point repeats the
// one before it.
func Through(points []Point) (*Path, error) {
	at := make([]float64, len(points))
	xs, ys := make([]float64, len(points)), make([]float64, len(points))
	for i, p := range points {
		if i > 0 {
			at[i] = at[i-1] + Distance(points[i-1], p)
		}
		xs[i], ys[i] = p.X, p.Y
	}
	x, err := Natural(at, xs)
	if err != nil {
		return nil, err
	}
	y, err := Natural(at, ys)
	if err != nil {
		return nil, err
	}
	return &Path{x, y}, nil
}

// Chords returns the distance along the chords from the first point to the last,
// which is the range of the path's parameter.
func (p *Path) Chords() float64 {
	_, last := p.x.Ends()
	return last
}

// At returns the point at parameter t, 0 to Chords.
func (p *Path) At(t float64) Point { return Point{p.x.At(t), p.y.At(t)} }

// Length returns the length along the path from end to end.
func (p *Path) Length() float64 {
	along := func(t float64) float64 { return math.Hypot(p.x.Slope(t), p.y.Slope(t)) }
	return p.x.between(0, p.Chords(), along)
}

// Meets returns the points at which the path meets the straight line through q in
// direction d, in the order of the path. A touch that does not cross may be missed.
func (p *Path) Meets(q, d Point) []Point {
	// the distance from the line is itself a natural spline over the same chords,
	// for such splines add and scale with their heights
	off := make([]float64, len(p.x.xs))
	for i := range off {
		off[i] = d.X*(p.y.ys[i]-q.Y) - d.Y*(p.x.ys[i]-q.X)
	}
	side, err := Natural(p.x.xs, off)
	if err != nil { // the chords of a path rise
		return nil
	}
	var met []Point
	for _, t := range side.Crossings(0) {
		met = append(met, p.At(t))
	}
	return met
}

// Polyline returns the path as a broken line with n pieces in each span.
func (p *Path) Polyline(n int) []Point {
	at := p.x.xs
	points := []Point{p.At(at[0])}
	for i := 1; i < len(at); i++ {
		for k := 1; k <= n; k++ {
			points = append(points, p.At(at[i-1]+(at[i]-at[i-1])*float64(k)/float64(n)))
		}
	}
	return points
}
