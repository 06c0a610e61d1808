package curve

import "math"

// Point is a point of a plane.
type Point struct{ X, Y float64 }

// Sub returns the step from q to p.
func (p Point) Sub(q Point) Point { return Point{p.X - q.X, p.Y - q.Y} }

// Distance returns the distance of two points.
func Distance(p, q Point) float64 { return math.Hypot(p.X-q.X, p.Y-q.Y) }

// PolylineLength returns the length of the broken line through the points.
func PolylineLength(points []Point) float64 {
	total := 0.0
	for i := 1; i < len(points); i++ {
		total += Distance(points[i-1], points[i])
	}
	return total
}

// PolygonArea returns the area inside the closed ring of points, positive when
// they go round against the clock (x to the right, y up), by the sum of cross
// products.
func PolygonArea(points []Point) float64 {
	if len(points) < 3 {
		return 0
	}
	// taken from the first point, so that a far origin costs no digits
	sum, o := 0.0, points[0]
	for i := 2; i < len(points); i++ {
		a, b := points[i-1].Sub(o), points[i].Sub(o)
		sum += a.X*b.Y - b.X*a.Y
	}
	return sum / 2
}

// Bounds returns the corners of the smallest upright rectangle that holds the points.
func Bounds(points []Point) (low, high Point) {
	if len(points) == 0 {
		return low, high
	}
	low, high = points[0], points[0]
	for _, p := range points[1:] {
		low = Point{math.Min(low.X, p.X), math.Min(low.Y, p.Y)}
		high = Point{math.Max(high.X, p.X), math.Max(high.Y, p.Y)}
	}
	return low, high
}

// LineMeets returns the points at which the broken line meets the straight line
// through p in direction d, in the order of the broken line.
func LineMeets(points []Point, p, d Point) []Point {
	side := func(q Point) float64 { return d.X*(q.Y-p.Y) - d.Y*(q.X-p.X) }
	var met []Point
	for i := 1; i < len(points); i++ {
		a, b := side(points[i-1]), side(points[i])
		switch {
		case a == 0 && i == 1:
			met = append(met, points[0])
		case a*b < 0:
			t := a / (a - b)
			met = append(met, Point{
				points[i-1].X + t*(points[i].X-points[i-1].X),
				points[i-1].Y + t*(points[i].Y-points[i-1].Y),
			})
		}
		if b == 0 {
			met = append(met, points[i])
		}
	}
	return met
}
