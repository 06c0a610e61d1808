package trade

import (
	"math"

	"scarph/calc"
	"scarph/calc/curve"
)

// section is the parameter of a section, from the keel up.
func section() *Param { return sectionPoints("section") }

func sectionPoints(name string) *Param {
	return points(name, 2).says("[[half_breadth, height], …] in order")
}

// lines are the functions of sections, waterlines, diagonals and the stem.
func lines() []Function {
	return []Function{
		{
			Name: "scale_beam_only", Summary: "a half-breadth when the beam alone is changed; given a bevel, the bevel it becomes",
			Params:  []*Param{anything("half_breadth"), number("factor").positive()},
			Result:  "length, or angle",
			Formula: "half_breadth · factor; for an angle from plumb, atan(factor · tan(angle))",
			Limits:  "factor from 0.8 to 1.2 (a remark outside); lengths and heights stay",
			Caution: 'A',
			Source:  "geometry",
			Checks: []Check{
				{Call: "scale_beam_only(18°, 1.06)", Want: "19.0045°"},
				{Call: "scale_beam_only(20 in, 1.06)", Want: "21.2 in", Source: "arithmetic"},
			},
			Eval: func(c *Call) (calc.Value, error) {
				v, k := c.Number(0), c.Number(1)
				if k < 0.8 || k > 1.2 {
					c.Warn("a beam %s times as wide makes another boat of her: 0.8 to 1.2 is advised", trim(k))
				}
				switch d := c.Dim(0); {
				case d == calc.DimLength:
					return calc.Length(v * k), nil
				case d == calc.DimAngle && math.Abs(v) < math.Pi/2:
					return calc.Angle(math.Atan(k * math.Tan(v))), nil
				case d == calc.DimAngle:
					return calc.Value{}, calc.Errorf(calc.CodeDomain, "a bevel of %s is no bevel from plumb", degreesText(v)).WithHint("give it under 90°")
				case d.IsNumber():
					return calc.Value{}, calc.Errorf(calc.CodeBareNumber, "scale_beam_only wants a half-breadth or a bevel").
						WithHint("%s", calc.WhatUnit(c.Value(0), calc.DimLength))
				default:
					return calc.Value{}, calc.Errorf(calc.CodeDimension, "scale_beam_only wants a half-breadth or a bevel; it was given %s", d.A())
				}
			},
		},
		{
			Name: "true_length", Summary: "the true length of a line that runs three ways at once",
			Params:  []*Param{length("dx"), length("dy"), length("dz")},
			Result:  "length",
			Formula: "√(dx² + dy² + dz²)",
			Source:  "geometry",
			Checks:  []Check{{Call: "true_length(20 in, 2.75 in, 1.25 in)", Want: "20.2268 in"}},
			Eval: func(c *Call) (calc.Value, error) {
				return calc.Length(math.Hypot(math.Hypot(c.Number(0), c.Number(1)), c.Number(2))), nil
			},
		},
		{
			Name: "sheer_drop", Summary: "the spring of the sheer: how far its low point hangs under the mean of its ends",
			Params:  []*Param{length("bow_height"), length("low_height"), length("stern_height")},
			Result:  "length",
			Formula: "(bow_height + stern_height) / 2 − low_height",
			Source:  "common practice",
			Checks:  []Check{{Call: "sheer_drop(27 in, 19.5 in, 22 in)", Want: "5 in"}},
			Eval: func(c *Call) (calc.Value, error) {
				return calc.Length((c.Number(0)+c.Number(2))/2 - c.Number(1)), nil
			},
		},
		{
			Name: "stem_rabbet_offset", Summary: "the width of the rabbet on the side of a straight stem: rabbet line to bearding line",
			Params:  []*Param{length("plank_thickness").positive(), planAngle()},
			Result:  "length",
			Formula: "plank_thickness / sin(plan_angle)",
			Limits:  "plan angle from 8° to 80°; draw a curved stem full size",
			Source:  "common practice",
			Checks:  []Check{{Call: "stem_rabbet_offset(5/8 in, 28°)", Want: "1.33128 in"}},
			Eval: func(c *Call) (calc.Value, error) {
				return calc.Length(c.Number(0) / math.Sin(c.Number(1))), nil
			},
		},
		{
			Name: "stem_rabbet", Summary: "the three lines of a rabbet cut for a square plank end in the side of a straight stem",
			Params:  []*Param{length("plank_thickness").positive(), planAngle()},
			Result:  "record: width (rabbet line to bearding line), middle (rabbet line to middle line), depth (of the middle line, square to the side)",
			Formula: "width = t / sin a; middle = t · sin a; depth = t · cos a",
			Limits:  "plan angle from 8° to 80°; draw a curved stem full size",
			Source:  "geometry",
			Checks: []Check{
				{Call: "stem_rabbet(5/8 in, 28°).width", Want: "1.33128 in"},
				{Call: "stem_rabbet(5/8 in, 30°).middle", Want: "0.3125 in", Source: "half the thickness"},
				{Call: "stem_rabbet(5/8 in, 60°).depth", Want: "0.3125 in", Source: "half the thickness"},
			},
			Eval: func(c *Call) (calc.Value, error) {
				t, a := c.Number(0), c.Number(1)
				return calc.Fields(
					calc.Field{Name: "width", Value: calc.Length(t / math.Sin(a))},
					calc.Field{Name: "middle", Value: calc.Length(t * math.Sin(a))},
					calc.Field{Name: "depth", Value: calc.Length(t * math.Cos(a))},
				), nil
			},
		},
	}
}

func planAngle() *Param {
	return angle("plan_angle").degrees(8, 80).says("between the plank and the stem's side")
}

func sections() []Function {
	return []Function{
		{
			Name: "girth_at_station", Summary: "the length round a section, from its first point to its last",
			Params:  []*Param{sectionPoints("points"), fit("straight")},
			Result:  "length",
			Formula: "Σ√(Δy² + Δz²) along straight pieces, or the length of a batten bent through the points",
			Limits:  "two points or more, in order",
			Source:  "geometry",
			Checks:  []Check{{Call: "girth_at_station([[0 in, 0 in], [18.5 in, 1 in], [25 in, 19 in]])", Want: "37.6647 in"}},
			Eval: func(c *Call) (calc.Value, error) {
				pts := planePoints(c, 0)
				if len(pts) < 2 {
					return calc.Value{}, tooFew(len(pts), 2)
				}
				if c.Text(1) == "straight" {
					return calc.Length(curve.PolylineLength(pts)), nil
				}
				path, err := curve.Through(pts)
				if err != nil {
					return calc.Value{}, repeatedPoint(err)
				}
				return calc.Length(path.Length()), nil
			},
		},
		{
			Name: "diagonal_distance", Summary: "the distance down a diagonal, from the centreline to where it meets a section",
			Params: []*Param{
				section(), length("crossing_height").says("where the diagonal leaves the centreline"),
				angle("slope").degrees(-85, 85).says("down from level"), fit("straight"),
			},
			Result:  "length",
			Formula: "y / cos(slope) of the point where the section meets z = crossing_height − y · tan(slope)",
			Limits:  "the diagonal meets the section, once",
			Source:  "common practice (lofting)",
			Checks:  []Check{{Call: "diagonal_distance([[18.5 in, 1 in], [25 in, 19 in]], 24 in, 35°)", Want: "26.1192 in"}},
			Eval: func(c *Call) (calc.Value, error) {
				s := c.Number(2)
				met, err := meets(c, curve.Point{X: 0, Y: c.Number(1)}, curve.Point{X: math.Cos(s), Y: -math.Sin(s)}, c.Text(3))
				if err != nil {
					return calc.Value{}, err
				}
				y, err := outermost(c, met, "the diagonal")
				return calc.Length(y / math.Cos(s)), err
			},
		},
		{
			Name: "waterline_half_breadth", Summary: "the half-breadth at a height, between two points of a section",
			Params:  []*Param{point("low_point"), point("high_point"), length("height")},
			Result:  "length",
			Formula: "y₁ + (y₂ − y₁) · (height − z₁) / (z₂ − z₁)",
			Limits:  "the height lies between the two points; section_half_breadth takes a whole section, by batten too",
			Source:  "common practice (lofting)",
			Checks:  []Check{{Call: "waterline_half_breadth([18.5 in, 1 in], [25 in, 19 in], 7 in)", Want: "20.6667 in"}},
			Eval: func(c *Call) (calc.Value, error) {
				low, high, z := c.Numbers(0), c.Numbers(1), c.Number(2)
				if len(low) != 2 || len(high) != 2 {
					return calc.Value{}, calc.Errorf(calc.CodeShape, "a point of a section has two lengths").WithHint("write [18.5 in, 1 in]: half-breadth, height")
				}
				if low[1] == high[1] {
					return calc.Value{}, calc.Errorf(calc.CodeZero, "both points stand at %s: there is no height between them", In(low[1]))
				}
				t := (z - low[1]) / (high[1] - low[1])
				if t < -1e-12 || t > 1+1e-12 {
					return calc.Value{}, calc.Errorf(calc.CodeDomain, "%s is not within the section, %s to %s", In(z), In(low[1]), In(high[1])).
						WithHint("no guess is made beyond the section")
				}
				return calc.Length(low[0] + t*(high[0]-low[0])), nil
			},
		},
		{
			Name: "section_half_breadth", Summary: "the half-breadth of a whole section at a height",
			Params:  []*Param{section(), length("height"), fit("straight")},
			Result:  "length",
			Formula: "where straight pieces, or a batten through the points, meet the height",
			Limits:  "the height is met; met twice, the outer one is taken with a remark",
			Source:  "common practice (lofting)",
			Checks:  []Check{{Call: "section_half_breadth([[0 in, 0 in], [18.5 in, 1 in], [25 in, 19 in]], 7 in)", Want: "20.6667 in"}},
			Eval: func(c *Call) (calc.Value, error) {
				met, err := meets(c, curve.Point{X: 0, Y: c.Number(1)}, curve.Point{X: 1, Y: 0}, c.Text(2))
				if err != nil {
					return calc.Value{}, err
				}
				y, err := outermost(c, met, "the waterline")
				return calc.Length(y), err
			},
		},
	}
}

// planePoints returns argument i, a list of points of a plane.
func planePoints(c *Call, i int) []curve.Point {
	pts := make([]curve.Point, 0, len(c.Value(i).Items()))
	for _, p := range c.Points(i) {
		pts = append(pts, curve.Point{X: p[0], Y: p[1]})
	}
	return pts
}

// meets returns the points in which the section of argument 0 meets a straight line.
func meets(c *Call, p, d curve.Point, way string) ([]curve.Point, error) {
	pts := planePoints(c, 0)
	if len(pts) < 2 {
		return nil, tooFew(len(pts), 2)
	}
	if way == "straight" {
		return curve.LineMeets(pts, p, d), nil
	}
	path, err := curve.Through(pts)
	if err != nil {
		return nil, repeatedPoint(err)
	}
	return path.Meets(p, d), nil
}

// repeatedPoint is the refusal of a section that gives one point twice.
func repeatedPoint(err error) error {
	if _, ok := err.(*curve.NotRisingError); ok {
		return calc.Errorf(calc.CodeDomain, "a point of the section stands twice").WithHint("give each point once, in order")
	}
	return curveError(err)
}

// outermost returns the greatest half-breadth among the points met.
func outermost(c *Call, met []curve.Point, what string) (float64, error) {
	if len(met) == 0 {
		return 0, calc.Errorf(calc.CodeDomain, "%s does not meet the section", what).
			WithHint("no guess is made beyond the section's first and last point")
	}
	y := met[0].X
	for _, p := range met[1:] {
		y = math.Max(y, p.X)
	}
	if len(met) > 1 {
		c.Warn("%s meets the section %d times; the outermost is taken", what, len(met))
	}
	return y, nil
}
