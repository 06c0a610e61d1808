package trade

import (
	"math"

	"scarph/calc"
)

// displaced is what a hull has below a water surface, both sides.
type displaced struct {
	volume float64
	along  float64 // the centre of buoyancy, as the stations are counted
	height float64 // the centre of buoyancy over the base line
}

// displacedTo integrates the sections below a surface that stands at plane(x) over
// the base line at the station x. Sections stand square to the base line, so a
// surface that slopes along the boat is met exactly.
func (h *hull) displacedTo(plane func(x float64) float64) displaced {
	var d displaced
	for i := range h.stations {
		z := h.stations[i].below(plane(h.xs[i]))
		d.volume += 2 * h.w[i] * z.area
		d.along += 2 * h.w[i] * z.area * h.xs[i]
		d.height += 2 * h.w[i] * z.moment
	}
	if d.volume != 0 {
		d.along /= d.volume
		d.height /= d.volume
	}
	return d
}

func level(water float64) func(float64) float64 {
	return func(float64) float64 { return water }
}

// plane is the figure that the water draws on the hull.
type plane struct {
	area, centre  float64
	across, along float64 // second moments: about the centreline, and about the centre
	breadth       float64 // the greatest, both sides
	fore, aft     float64 // where it begins and ends
}

func (h *hull) plane(water float64) plane {
	var p plane
	first := 0.0
	for i := range h.stations {
		c := h.stations[i].at(water)
		p.area += 2 * h.w[i] * c.half
		first += 2 * h.w[i] * c.half * h.xs[i]
		p.across += 2.0 / 3 * h.w[i] * c.cube
		p.breadth = math.Max(p.breadth, 2*c.half)
	}
	p.centre = first / p.area
	for i := range h.stations {
		r := h.xs[i] - p.centre
		p.along += 2 * h.w[i] * h.stations[i].at(water).half * r * r
	}
	p.fore, p.aft = h.waterline(water)
	return p
}

// waterline returns where the water meets the lowest line of the hull, straight
// from station to station; the end stations where it runs past them.
func (h *hull) waterline(water float64) (fore, aft float64) {
	depth := func(i int) float64 {
		low, _ := h.stations[i].bounds()
		return water - low
	}
	crossing := func(dry, wet int) float64 {
		t := depth(wet) / (depth(wet) - depth(dry))
		return h.xs[wet] + t*(h.xs[dry]-h.xs[wet])
	}
	n := len(h.stations)
	first, last := 0, n-1
	for first < n-1 && depth(first) <= 0 {
		first++
	}
	for last > 0 && depth(last) <= 0 {
		last--
	}
	fore, aft = h.xs[first], h.xs[last]
	if first > 0 {
		fore = crossing(first-1, first)
	}
	if last < n-1 {
		aft = crossing(last+1, last)
	}
	return fore, aft
}

// wet refuses a level water line that does not reach the hull, or stands over it.
func (h *hull) wet(water float64) error {
	if low := h.bottom(); water <= low {
		return calc.Errorf(calc.CodeDomain, "water at %s does not reach the hull, whose lowest point is at %s", In(water), In(low)).
			WithHint("heights are counted from the base line of the table")
	}
	return h.under(water)
}

// waterFor returns the height of level water at which the hull displaces the volume.
//
// Errors: *calc.Error when the volume is more than the hull has below its sheer.
func (h *hull) waterFor(volume, density float64) (float64, error) {
	low := h.bottom()
	top, s := h.sheer()
	most := h.displacedTo(level(top)).volume
	if volume >= most {
		return 0, calc.Errorf(calc.CodeDomain, "%s would put the sheer under: at %s she floats %s with the water up to it", text(calc.Mass(volume*density)), s.name, text(calc.Mass(most*density))).
			WithHint("she fills; the table has nothing above the sheer")
	}
	return root(func(z float64) float64 { return h.displacedTo(level(z)).volume - volume }, low, top), nil
}

// afloat is a hull at rest under its weights: the water stands at middle over the
// base line in the middle of the stations, and rises by slope aft.
type afloat struct {
	middle, slope float64
	displaced
}

// steepest bounds the slope that is looked for, 1 in 3.
const steepest = 1.0 / 3

// balance finds the surface at which the hull displaces the volume with its centre
// of buoyancy plumb under or over the centre of weight. lift is the height of the
// centre of weight over that of buoyancy, as a function of the latter.
//
// Errors: *calc.Error when the sheer goes under, or no slope balances.
func (h *hull) balance(volume, density, centre float64, lift func(buoyancy float64) float64) (*afloat, error) {
	if _, err := h.waterFor(volume, density); err != nil {
		return nil, err
	}
	mid := (h.xs[0] + h.xs[len(h.xs)-1]) / 2
	at := func(slope float64) *afloat {
		low, high := math.Inf(1), math.Inf(-1)
		for i := range h.stations {
			a, b := h.stations[i].bounds()
			low = math.Min(low, a-slope*(h.xs[i]-mid))
			high = math.Max(high, b-slope*(h.xs[i]-mid))
		}
		surface := func(z float64) func(float64) float64 {
			return func(x float64) float64 { return z + slope*(x-mid) }
		}
		z := root(func(z float64) float64 { return h.displacedTo(surface(z)).volume - volume }, low, high)
		return &afloat{middle: z, slope: slope, displaced: h.displacedTo(surface(z))}
	}
	// at rest the line from B to G stands square to the water
	moment := func(slope float64) float64 {
		a := at(slope)
		return a.along - centre - slope*lift(a.height)
	}
	for _, reach := range []float64{steepest / 16, steepest / 4, steepest} {
		if moment(-reach) < 0 && moment(reach) > 0 {
			a := at(root(moment, -reach, reach))
			for i := range h.stations {
				_, top := h.stations[i].bounds()
				if water := a.middle + a.slope*(h.xs[i]-mid); water > top {
					return nil, calc.Errorf(calc.CodeDomain, "the sheer goes under at %s, with the weight at %s", h.stations[i].name, In(centre)).
						WithHint("move the weights; the table has nothing above the sheer")
				}
			}
			return a, nil
		}
	}
	return nil, calc.Errorf(calc.CodeDomain, "no trim up to 1 in 3 brings the buoyancy under the weight, at %s", In(centre)).
		WithHint("one end goes under; or are weights and stations counted from two datums? The stations run from %s to %s", In(h.xs[0]), In(h.xs[len(h.xs)-1]))
}

// root returns where the continuous f, below zero at a and above at b or the other
// way round, is zero: false position with the standing end's weight halved.
// Source: M. Dowell and P. Jarratt, A modified regula falsi method, BIT 11 (1971)
// (from memory; tested on closed forms).
func root(f func(float64) float64, a, b float64) float64 {
	fa, fb := f(a), f(b)
	if fa == 0 {
		return a
	}
	side := 0
	for range 200 {
		if fb == 0 {
			return b
		}
		x := (a*fb - b*fa) / (fb - fa)
		if near := 1e-15 * (math.Abs(a) + math.Abs(b)); math.Abs(x-a) <= near || math.Abs(x-b) <= near {
			return x
		}
		fx := f(x)
		switch {
		case fx == 0:
			return x
		case (fx < 0) == (fb < 0):
			b, fb = x, fx
			if side == 1 {
				fa /= 2
			}
			side = 1
		default:
			a, fa = x, fx
			if side == -1 {
				fb /= 2
			}
			side = -1
		}
	}
	return (a + b) / 2
}
