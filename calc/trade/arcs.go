package trade

import (
	"math"

	"scarph/calc"
	"scarph/calc/curve"
)

// chordAndRise are the two sizes that lay out an arc on the bench.
func chordAndRise(more ...*Param) []*Param {
	return append([]*Param{length("chord").positive(), length("rise").positive()}, more...)
}

// radiusOf returns the radius of the arc of arguments 0 and 1, chord and rise.
func radiusOf(c *Call) (float64, error) {
	chord, rise := c.Number(0), c.Number(1)
	if rise > chord/2*(1+1e-12) {
		return 0, calc.Errorf(calc.CodeDomain, "a rise of %s on a chord of %s is more than half a circle", In(rise), In(chord)).
			WithHint("are chord and rise swapped? The rise is at most half the chord")
	}
	return chord*chord/(8*rise) + rise/2, nil
}

func arcs() []Function {
	const limits = "the rise is at most half the chord"
	return []Function{
		{
			Name: "arc_radius", Summary: "the radius of an arc, from its chord and its rise in the middle",
			Params: chordAndRise(), Result: "length",
			Formula: "chord² / (8 · rise) + rise / 2",
			Limits:  limits, Source: "geometry",
			Checks: []Check{{Call: "arc_radius(48 in, 2 in)", Want: "145 in"}},
			Eval: func(c *Call) (calc.Value, error) {
				r, err := radiusOf(c)
				return calc.Length(r), err
			},
		},
		{
			Name: "arc_rise", Summary: "the rise of an arc in the middle of its chord",
			Params:  []*Param{length("chord").positive(), length("radius").positive()},
			Result:  "length",
			Formula: "radius − √(radius² − chord² / 4)",
			Limits:  "the radius is at least half the chord",
			Source:  "geometry",
			Checks:  []Check{{Call: "arc_rise(48 in, 145 in)", Want: "2 in"}},
			Eval: func(c *Call) (calc.Value, error) {
				half, r := c.Number(0)/2, c.Number(1)
				if r < half*(1-1e-12) {
					return calc.Value{}, calc.Errorf(calc.CodeDomain, "a circle of radius %s has no chord of %s", In(r), In(2*half)).
						WithHint("the radius is at least half the chord, %s", In(half))
				}
				// half² / (R + √…) is R − √… without the loss of digits of a flat arc
				return calc.Length(half * half / (r + math.Sqrt(math.Max(0, r*r-half*half)))), nil
			},
		},
		{
			Name: "arc_length", Summary: "the length round an arc",
			Params: chordAndRise(), Result: "length",
			Formula: "2 · R · asin(chord / 2R), R = arc_radius(chord, rise)",
			Limits:  limits, Source: "geometry",
			Checks: []Check{{Call: "arc_length(48 in, 2 in)", Want: "48.2219 in"}},
			Eval: func(c *Call) (calc.Value, error) {
				r, err := radiusOf(c)
				return calc.Length(2 * r * math.Asin(math.Min(1, c.Number(0)/(2*r)))), err
			},
		},
		{
			Name: "arc_height_at", Summary: "the height of an arc over its chord, away from the middle",
			Params: chordAndRise(length("distance_from_centre").orZero()), Result: "length",
			Formula: "√(R² − distance²) − (R − rise), R = arc_radius(chord, rise)",
			Limits:  limits + "; the distance is at most half the chord", Source: "geometry",
			Checks: []Check{{Call: "arc_height_at(48 in, 2 in, 12 in)", Want: "1.5026 in"}},
			Eval: func(c *Call) (calc.Value, error) {
				r, err := radiusOf(c)
				if err != nil {
					return calc.Value{}, err
				}
				x := c.Number(2)
				if err := withinHalf(x, c.Number(0), "chord"); err != nil {
					return calc.Value{}, err
				}
				// rise less the drop from the top, which is x² / (R + √(R² − x²))
				drop := x * x / (r + math.Sqrt(math.Max(0, r*r-x*x)))
				return calc.Length(c.Number(1) - drop), nil
			},
		},
		{
			Name: "circle_through_three_points", Summary: "the circle through three points: a bow mould, a coaming, a round taken off with a rule",
			Params:  []*Param{point("p1"), point("p2"), point("p3")},
			Result:  "record: radius (length), centre_x (length), centre_y (length)",
			Formula: "R = a · b · c / (4 · area) of the triangle's sides; the centre is as far from all three",
			Limits:  "not in one straight line",
			Source:  "geometry",
			Checks: []Check{
				{Call: "circle_through_three_points([0 in, 0 in], [60 in, 4.5 in], [120 in, 0 in]).radius", Want: "402.25 in"},
				{Call: "circle_through_three_points([0 in, 0 in], [60 in, 4.5 in], [120 in, 0 in]).centre_y", Want: "-397.75 in", Source: "4.5 − 402.25"},
			},
			Eval: func(c *Call) (calc.Value, error) {
				var p [3]curve.Point
				for i := range p {
					xy := c.Numbers(i)
					if len(xy) != 2 {
						return calc.Value{}, calc.Errorf(calc.CodeShape, "a point has two lengths; %s has %d", c.fn.Params[i].Name, len(xy)).
							WithHint("points are written [60 in, 4.5 in]")
					}
					p[i] = curve.Point{X: xy[0], Y: xy[1]}
				}
				circle, err := curve.CircleThrough(p[0], p[1], p[2])
				if err != nil {
					return calc.Value{}, calc.Errorf(calc.CodeDomain, "three points in a straight line have no arc").
						WithHint("check the middle point's offset")
				}
				return calc.Fields(
					calc.Field{Name: "radius", Value: calc.Length(circle.Radius)},
					calc.Field{Name: "centre_x", Value: calc.Length(circle.Centre.X)},
					calc.Field{Name: "centre_y", Value: calc.Length(circle.Centre.Y)},
				), nil
			},
		},
	}
}

// point is one point [x, y].
func point(name string) *Param { return lengths(name).says("a point [x, y]") }

// withinHalf refuses a distance from the middle that passes the end.
func withinHalf(x, whole float64, what string) error {
	if math.Abs(x) <= whole/2*(1+1e-12) {
		return nil
	}
	return calc.Errorf(calc.CodeDomain, "%s from the middle is past the end of a %s of %s", In(math.Abs(x)), what, In(whole)).
		WithHint("the distance is at most %s either way", In(whole/2))
}

// cambers are the parabolas of deck beams.
func cambers() []Function {
	return []Function{
		{
			Name: "camber_parabola", Summary: "the height of a cambered deck beam over its ends, away from the middle",
			Params: []*Param{length("beam").positive(), length("camber"), length("distance_from_centre").orZero()},
			Result: "length", Formula: "camber · (1 − (2 · distance / beam)²)",
			Limits: "the distance is at most half the beam", Source: "common practice (deck beams)",
			Checks: []Check{{Call: "camber_parabola(48 in, 2 in, 12 in)", Want: "1.5 in"}},
			Eval: func(c *Call) (calc.Value, error) {
				if err := withinHalf(c.Number(2), c.Number(0), "beam"); err != nil {
					return calc.Value{}, err
				}
				x := 2 * c.Number(2) / c.Number(0)
				return calc.Length(c.Number(1) * (1 - x*x)), nil
			},
		},
		{
			Name: "camber_for_beam", Summary: "the camber of a shorter beam cut from the one camber mould of the boat",
			Params:  []*Param{length("beam").positive(), length("camber_at_standard"), length("standard_beam").positive()},
			Result:  "length",
			Formula: "camber_at_standard · (beam / standard_beam)²",
			Limits:  "the beam is no longer than the mould",
			Source:  "geometry of the parabola",
			Checks:  []Check{{Call: "camber_for_beam(30 in, 2 in, 48 in)", Want: "0.78125 in"}},
			Eval: func(c *Call) (calc.Value, error) {
				b, b0 := c.Number(0), c.Number(2)
				if b > b0*(1+1e-12) {
					return calc.Value{}, calc.Errorf(calc.CodeDomain, "a beam of %s is longer than the mould, %s", In(b), In(b0)).
						WithHint("make the mould for the widest beam; or are the two swapped?")
				}
				return calc.Length(c.Number(1) * (b / b0) * (b / b0)), nil
			},
		},
	}
}
