package trade

import (
	"math"

	"scarph/calc"
	"scarph/calc/curve"
)

// xyz is a point of the boat: aft, outboard, up.
type xyz [3]float64

func apart(p, q xyz) float64 {
	return math.Hypot(math.Hypot(p[0]-q[0], p[1]-q[1]), p[2]-q[2])
}

// edges returns arguments 0 and 1, the edges of a panel, as points of one number.
func edges(c *Call) (e1, e2 []xyz, err error) {
	for _, p := range c.Points(0) {
		e1 = append(e1, xyz{p[0], p[1], p[2]})
	}
	for _, p := range c.Points(1) {
		e2 = append(e2, xyz{p[0], p[1], p[2]})
	}
	if len(e1) != len(e2) {
		return nil, nil, calc.Errorf(calc.CodeShape, "edge_1 has %d points but edge_2 has %d", len(e1), len(e2)).
			WithHint("a panel is ruled from station to station: both edges want a point at each")
	}
	if len(e1) < 2 {
		return nil, nil, tooFew(len(e1), 2)
	}
	return e1, e2, nil
}

// twist is the angle between the rulings at stations i and i+1; a ruling of no
// length has no direction and twists nothing.
func twist(e1, e2 []xyz, i int) float64 {
	var a, b xyz
	for k := range a {
		a[k], b[k] = e2[i][k]-e1[i][k], e2[i+1][k]-e1[i+1][k]
	}
	cross := xyz{a[1]*b[2] - a[2]*b[1], a[2]*b[0] - a[0]*b[2], a[0]*b[1] - a[1]*b[0]}
	dot := a[0]*b[0] + a[1]*b[1] + a[2]*b[2]
	// the arc tangent keeps its digits at the small angles met here
	return math.Atan2(apart(cross, xyz{}), dot)
}

func largestTwist(e1, e2 []xyz) float64 {
	largest := 0.0
	for i := 0; i+1 < len(e1); i++ {
		largest = math.Max(largest, twist(e1, e2, i))
	}
	return largest
}

// swing returns the point, over a base along x from 0, that lies a from its
// beginning and b from its end.
func swing(a, b, base float64) (x, y float64) {
	x = (a*a - b*b + base*base) / (2 * base)
	return x, math.Sqrt(math.Max(0, a*a-x*x))
}

// swingFrom returns the point to the left of the base from p to q that lies a from
// p and b from q.
func swingFrom(p, q curve.Point, a, b float64) curve.Point {
	base := curve.Distance(p, q)
	x, y := swing(a, b, base)
	along := curve.Point{X: (q.X - p.X) / base, Y: (q.Y - p.Y) / base}
	return curve.Point{X: p.X + x*along.X - y*along.Y, Y: p.Y + x*along.Y + y*along.X}
}

// layFlat lays a panel flat by triangles of true lengths, edge 1 below and edge 2
// above, and turns it so that the ends of edge 1 lie on the x axis.
func layFlat(e1, e2 []xyz) (f1, f2 []curve.Point) {
	n := len(e1)
	f1, f2 = make([]curve.Point, n), make([]curve.Point, n)
	f1[1] = curve.Point{X: apart(e1[0], e1[1])}
	f2[0] = swingFrom(f1[0], f1[1], apart(e1[0], e2[0]), apart(e2[0], e1[1]))
	for i := 1; i < n; i++ {
		if i > 1 {
			f1[i] = swingFrom(f2[i-1], f1[i-1], apart(e2[i-1], e1[i]), apart(e1[i-1], e1[i]))
		}
		f2[i] = swingFrom(f2[i-1], f1[i], apart(e2[i-1], e2[i]), apart(e1[i], e2[i]))
	}
	chord := f1[n-1].Sub(f1[0])
	if l := math.Hypot(chord.X, chord.Y); l > 0 {
		cos, sin := chord.X/l, chord.Y/l
		for _, f := range [2][]curve.Point{f1, f2} {
			for i, p := range f {
				f[i] = curve.Point{X: p.X*cos + p.Y*sin, Y: p.Y*cos - p.X*sin}
			}
		}
	}
	return f1, f2
}
