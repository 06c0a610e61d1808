package trade

import (
	"math"
	"sort"

	"scarph/calc/curve"
)

// The ways to go from point to point of a section.
const (
	straightSections = "straight" // a plank lies flat between keel, chine and sheer
	battenSections   = "batten"   // bent through the points, free at the keel
	roundSections    = "round"    // bent from sheer to sheer, across the keel without a break
)

// wetted is what one side of a section has below a water line: its area, and the
// moment of the area about the base line.
type wetted struct{ area, moment float64 }

// cut is what one side of a section has at a water line: its half-breadth, and the
// cube that second moments want. Where the line is met more than once (a hollow
// bottom) both are the sums over the wet parts.
type cut struct{ half, cube float64 }

// trace is the outline of one side of a section, from the keel up.
//
// By Green's theorem the area between outline, centreline and water is ∫y dz along
// the wet outline: pieces that lie level, water and a flat bottom, add nothing.
type trace interface {
	below(water float64) wetted
	at(water float64) cut
	// reach returns the heights at which the outline has the half-breadth, from the
	// keel up.
	reach(half float64) []float64
	// bounds returns the lowest and the highest height of the outline.
	bounds() (low, top float64)
}

// straightTrace is an outline of flat pieces. X is half-breadth, Y height.
type straightTrace []curve.Point

func (s straightTrace) bounds() (low, top float64) {
	a, b := curve.Bounds(s)
	return a.Y, b.Y
}

func (s straightTrace) below(water float64) wetted {
	var z wetted
	for i := 1; i < len(s); i++ {
		p, q := s[i-1], s[i]
		if p.Y > water && q.Y > water {
			continue
		}
		if p.Y > water {
			p = between(q, p, water)
		}
		if q.Y > water {
			q = between(p, q, water)
		}
		rise := q.Y - p.Y
		z.area += rise * (p.X + q.X) / 2
		z.moment += rise / 6 * (p.X*(2*p.Y+q.Y) + q.X*(p.Y+2*q.Y))
	}
	return z
}

// between returns the point of the piece from p to q that stands at the height.
func between(p, q curve.Point, height float64) curve.Point {
	t := (height - p.Y) / (q.Y - p.Y)
	return curve.Point{X: p.X + t*(q.X-p.X), Y: height}
}

func (s straightTrace) at(water float64) cut {
	var c cut
	for i := 1; i < len(s); i++ {
		if p, q := s[i-1], s[i]; (p.Y <= water) != (q.Y <= water) {
			c.cross(between(p, q, water).X, q.Y > p.Y)
		}
	}
	if end := s[len(s)-1]; end.Y == water { // the water stands at the sheer itself
		c.cross(end.X, true)
	}
	return c
}

// cross adds a place where the outline leaves the water, or takes away one where it
// dips in again.
func (c *cut) cross(y float64, leaves bool) {
	if !leaves {
		y = -y
	}
	c.half += y
	c.cube += y * y * y
}

func (s straightTrace) reach(half float64) []float64 {
	if half < s[0].X { // a bottom that lies level from the centreline
		return []float64{s[0].Y}
	}
	var heights []float64
	for _, p := range curve.LineMeets(s, curve.Point{X: half}, curve.Point{Y: 1}) {
		heights = append(heights, p.Y)
	}
	return heights
}

// bentTrace is an outline bent as a batten: half-breadth and height over the
// distance along the chords, from the place that is the keel.
type bentTrace struct {
	half, height *curve.Spline
	knots        []float64
	low, top     float64
}

// bend lays a batten through the points; across lays it from sheer to sheer, the
// other side being the mirror of this one.
func bend(points []curve.Point, across bool) (*bentTrace, error) {
	if across {
		var both []curve.Point
		for i := len(points) - 1; i >= 0; i-- {
			if points[i].X > 0 {
				both = append(both, curve.Point{X: -points[i].X, Y: points[i].Y})
			}
		}
		points = append(both, points...)
	}
	at := make([]float64, len(points))
	ys, zs := make([]float64, len(points)), make([]float64, len(points))
	for i, p := range points {
		if i > 0 {
			at[i] = at[i-1] + curve.Distance(points[i-1], p)
		}
		ys[i], zs[i] = p.X, p.Y
	}
	half, err := curve.Natural(at, ys)
	if err != nil {
		return nil, err
	}
	height, err := curve.Natural(at, zs)
	if err != nil {
		return nil, err
	}
	b := &bentTrace{half: half, height: height}
	keel := 0.0
	if across { // the middle of the mirrored batten
		keel = at[len(at)-1] / 2
	}
	b.knots = []float64{keel}
	for _, t := range at {
		if t > keel+1e-12*at[len(at)-1] {
			b.knots = append(b.knots, t)
		}
	}
	b.low, b.top = height.At(keel), height.At(keel)
	for i := 1; i < len(b.knots); i++ {
		for k := 1; k <= 32; k++ { // fine enough to say where the bottom lies
			z := height.At(b.knots[i-1] + (b.knots[i]-b.knots[i-1])*float64(k)/32)
			b.low, b.top = math.Min(b.low, z), math.Max(b.top, z)
		}
	}
	return b, nil
}

func (b *bentTrace) bounds() (low, top float64) { return b.low, b.top }

// pieces calls f for each stretch of the outline under water, none across a knot.
func (b *bentTrace) pieces(water float64, f func(from, to float64)) {
	marks := append([]float64(nil), b.knots...)
	for _, t := range b.height.Crossings(water) {
		if t > b.knots[0] {
			marks = append(marks, t)
		}
	}
	sort.Float64s(marks)
	for i := 1; i < len(marks); i++ {
		if from, to := marks[i-1], marks[i]; to > from && b.height.At((from+to)/2) <= water {
			f(from, to)
		}
	}
}

func (b *bentTrace) below(water float64) wetted {
	var z wetted
	b.pieces(water, func(from, to float64) {
		z.area += curve.Integrate(func(t float64) float64 { return b.half.At(t) * b.height.Slope(t) }, from, to)
		z.moment += curve.Integrate(func(t float64) float64 { return b.half.At(t) * b.height.At(t) * b.height.Slope(t) }, from, to)
	})
	return z
}

func (b *bentTrace) at(water float64) cut {
	var c cut
	for _, t := range b.height.Crossings(water) {
		if t > b.knots[0] {
			c.cross(b.half.At(t), b.height.Slope(t) > 0)
		}
	}
	return c
}

func (b *bentTrace) reach(half float64) []float64 {
	keel := b.knots[0]
	if half < b.half.At(keel) { // a bottom that lies level from the centreline
		return []float64{b.height.At(keel)}
	}
	var heights []float64
	for _, t := range b.half.Crossings(half) {
		if t >= keel {
			heights = append(heights, b.height.At(t))
		}
	}
	return heights
}

// outline lays the outline of a section through its points, in order from the keel.
func outline(points []curve.Point, way string) (trace, error) {
	kept := points[:1:1]
	for _, p := range points[1:] {
		if p != kept[len(kept)-1] {
			kept = append(kept, p)
		}
	}
	if way == straightSections || len(kept) < 3 && way == battenSections || len(kept) < 2 {
		return straightTrace(kept), nil
	}
	return bend(kept, way == roundSections)
}
