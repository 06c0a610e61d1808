package trade

import (
	"math"

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

// trace is the outline of one side of a section, from the keel up, in pieces of
// polynomials: straight ones, or those of a batten.
//
// By Green's theorem the area between outline, centreline and water is ∫y dz along
// the wet outline: pieces that lie level, water and a flat bottom, add nothing. So
// areas and moments are differences of polynomials, exact for either kind of piece.
type trace []piece

// piece is a stretch of the outline over u from 0 to 1.
type piece struct {
	half, height poly
	area, moment poly      // ∫y dz and ∫yz dz from the start of the piece
	turns        []float64 // 0, where the height turns, and 1
	low, top     float64
}

func newPiece(half, height poly) piece {
	p := piece{half: half, height: height, turns: []float64{0}, low: height[0], top: height[0]}
	strip := half.times(height.slope())
	p.area, p.moment = strip.primitive(), strip.times(height).primitive()
	for _, u := range append(height.turns(), 1) {
		p.turns = append(p.turns, u)
		p.low, p.top = math.Min(p.low, height.at(u)), math.Max(p.top, height.at(u))
	}
	return p
}

func (t trace) bounds() (low, top float64) {
	low, top = math.Inf(1), math.Inf(-1)
	for i := range t {
		low, top = math.Min(low, t[i].low), math.Max(top, t[i].top)
	}
	return low, top
}

func (t trace) below(water float64) wetted {
	var z wetted
	add := func(p *piece, from, to float64) {
		z.area += p.area.at(to) - p.area.at(from)
		z.moment += p.moment.at(to) - p.moment.at(from)
	}
	for i := range t {
		p := &t[i]
		switch {
		case p.top <= water:
			add(p, 0, 1)
		case p.low < water:
			for k := 1; k < len(p.turns); k++ {
				from, to := p.turns[k-1], p.turns[k]
				a, b := p.height.at(from) <= water, p.height.at(to) <= water
				switch {
				case a && b:
					add(p, from, to)
				case a:
					add(p, from, p.height.meets(water, from, to))
				case b:
					add(p, p.height.meets(water, from, to), to)
				}
			}
		}
	}
	return z
}

func (t trace) at(water float64) cut {
	var c cut
	for i := range t {
		p := &t[i]
		if p.top < water || p.low > water {
			continue
		}
		for k := 1; k < len(p.turns); k++ {
			from, to := p.turns[k-1], p.turns[k]
			a, b := p.height.at(from) <= water, p.height.at(to) <= water
			if a != b {
				c.cross(p.half.at(p.height.meets(water, from, to)), a)
			}
		}
	}
	if last := &t[len(t)-1]; last.height.at(1) == water { // the water stands at the sheer itself
		c.cross(last.half.at(1), true)
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

// reach returns the heights at which the outline has the half-breadth, from the keel
// up. A bottom without a keel line lies level from the centreline.
func (t trace) reach(half float64) []float64 {
	if half < t[0].half.at(0) {
		return []float64{t[0].height.at(0)}
	}
	var heights []float64
	add := func(z float64) {
		if n := len(heights); n == 0 || heights[n-1] != z {
			heights = append(heights, z)
		}
	}
	for i := range t {
		p := &t[i]
		from := 0.0
		for _, to := range append(p.half.turns(), 1) {
			a, b := p.half.at(from)-half, p.half.at(to)-half
			switch {
			case a == 0:
				add(p.height.at(from))
			case a*b < 0:
				add(p.height.at(p.half.meets(half, from, to)))
			}
			if b == 0 {
				add(p.height.at(to))
			}
			from = to
		}
	}
	return heights
}

// outline lays the outline of a section through its points, in order from the keel.
// X is half-breadth, Y height.
func outline(points []curve.Point, way string) (trace, error) {
	kept := points[:1:1]
	for _, p := range points[1:] {
		if p != kept[len(kept)-1] {
			kept = append(kept, p)
		}
	}
	if len(kept) == 1 {
		return trace{newPiece(poly{kept[0].X}, poly{kept[0].Y})}, nil
	}
	if way != straightSections {
		return bend(kept, way == roundSections)
	}
	return straight(kept), nil
}

func straight(points []curve.Point) trace {
	t := make(trace, len(points)-1)
	for i := range t {
		p, q := points[i], points[i+1]
		t[i] = newPiece(poly{p.X, q.X - p.X}, poly{p.Y, q.Y - p.Y})
	}
	return t
}

// bend lays a batten through the points: half-breadth and height as splines over the
// distance along the chords. across lays it from sheer to sheer, the other side
// being the mirror of this one, and gives this side.
func bend(points []curve.Point, across bool) (trace, error) {
	if across {
		var mirror []curve.Point
		for i := len(points) - 1; i >= 0; i-- {
			if points[i].X > 0 {
				mirror = append(mirror, curve.Point{X: -points[i].X, Y: points[i].Y})
			}
		}
		points = append(mirror, points...)
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
	from, whole := 0.0, at[len(at)-1]
	if across { // the keel is the middle of the mirrored batten
		from = whole / 2
	}
	var t trace
	for _, to := range at {
		if to > from+1e-12*whole {
			t = append(t, newPiece(cubic(half, from, to), cubic(height, from, to)))
			from = to
		}
	}
	return t, nil
}
