package draw

import (
	"math"

	"scarph/calc/curve"
)

// hair is how far a flattened curve may lie off the true one, in metres: a fifth
// of what a drawing at true size may be out.
const hair = 1e-5

// tolerance is hair for anything of a boat's size, and a fine part of the whole
// for what is much smaller or larger.
func tolerance(points []Point) float64 {
	low, high := curve.Bounds(points)
	size := curve.Distance(low, high)
	if size > 100 {
		return size * hair / 100
	}
	return math.Min(hair, size/2000)
}

// Bend returns a batten bent through the points as a broken line that lies
// within 0.01 mm of it and meets every point. Fewer than three points, or a batten
// that cannot be (a point given twice), are joined straight.
func Bend(points []Point) []Point {
	points = clean(points)
	if len(points) < 3 {
		return points
	}
	path, err := curve.Through(points)
	if err != nil {
		return points
	}
	f := flattener{path, tolerance(points)}
	out := []Point{points[0]}
	t := 0.0
	for i := 1; i < len(points); i++ {
		next := t + curve.Distance(points[i-1], points[i])
		out = f.flatten(out, t, next, points[i-1], points[i], 12)
		out[len(out)-1] = points[i]
		t = next
	}
	return out
}

type flattener struct {
	path *curve.Path
	tol  float64
}

// flatten appends the path from parameter a (not itself) to b (itself), halving
// until the middle and the quarters lie on the chord.
func (f *flattener) flatten(out []Point, a, b float64, p, q Point, left int) []Point {
	m := (a + b) / 2
	mid := f.path.At(m)
	flat := off(mid, p, q) <= f.tol && off(f.path.At((a+m)/2), p, q) <= f.tol && off(f.path.At((m+b)/2), p, q) <= f.tol
	if left == 0 || flat {
		return append(out, q)
	}
	out = f.flatten(out, a, m, p, mid, left-1)
	return f.flatten(out, m, b, mid, q, left-1)
}

// off returns the distance of m from the straight line through p and q.
func off(m, p, q Point) float64 {
	d := q.Sub(p)
	l := math.Hypot(d.X, d.Y)
	if l == 0 {
		return curve.Distance(m, p)
	}
	return math.Abs(d.X*(m.Y-p.Y)-d.Y*(m.X-p.X)) / l
}

// clean leaves out points that are no points, and one that repeats the one before it.
func clean(points []Point) []Point {
	var out []Point
	for _, p := range points {
		if finite(p) && (len(out) == 0 || p != out[len(out)-1]) {
			out = append(out, p)
		}
	}
	return out
}

// thinned leaves out inner points that lie within tol of the line through the
// points that stay.
func thinned(points []Point, tol float64) []Point {
	if len(points) < 3 {
		return points
	}
	keep := make([]bool, len(points))
	keep[0], keep[len(points)-1] = true, true
	type part struct{ a, b int }
	todo := []part{{0, len(points) - 1}}
	for len(todo) > 0 {
		s := todo[len(todo)-1]
		todo = todo[:len(todo)-1]
		worst, at := tol, -1
		for i := s.a + 1; i < s.b; i++ {
			if d := offSegment(points[i], points[s.a], points[s.b]); d > worst {
				worst, at = d, i
			}
		}
		if at >= 0 {
			keep[at] = true
			todo = append(todo, part{s.a, at}, part{at, s.b})
		}
	}
	var out []Point
	for i, k := range keep {
		if k {
			out = append(out, points[i])
		}
	}
	return out
}

func offSegment(m, p, q Point) float64 {
	d, e := q.Sub(p), m.Sub(p)
	t := d.X*e.X + d.Y*e.Y
	if l := d.X*d.X + d.Y*d.Y; t > 0 && t < l {
		return off(m, p, q)
	}
	return math.Min(curve.Distance(m, p), curve.Distance(m, q))
}
