package trade

import (
	"math"

	"scarph/calc"
	"scarph/calc/curve"
)

// rowing are the sums of oars, sails and spars.
func oarsAndSpars() []Function {
	return []Function{oarLength(), squareToOctagon()}
}

func oarLength() Function {
	return Function{
		Name: "oar_length", Summary: "the length of an oar for the distance between the oarlocks",
		Params: []*Param{
			length("distance_between_oarlocks").positive(),
			number("handle_share").within(0.15, 0.5).optional(calc.Number(7.0 / 25)).says("inboard part over the whole; 7/25 is usual"),
			length("overlap").optional(calc.Inches(2)).says("of each handle past the middle; 2 in is usual, below zero for a gap"),
		},
		Result:  "length",
		Formula: "(distance_between_oarlocks / 2 + overlap) / handle_share",
		Limits:  "from 24 to 60 in between the oarlocks (a remark outside); oars are bought by the next 3 in or 6 in",
		Source:  "common practice (an oarmaker's rule)",
		Checks: []Check{
			{Call: "oar_length(46 in, 7/25)", Want: "89.2857 in"},
			{Call: "oar_length(52 in)", Want: "100 in"},
		},
		Eval: func(c *Call) (calc.Value, error) {
			span := c.Number(0)
			if span < 24*Inch-1e-9 || span > 60*Inch+1e-9 {
				c.Warn("%s between the oarlocks is outside 24 to 60 in, where the rule was made", In(span))
			}
			inboard := span/2 + c.Number(2)
			if inboard <= 0 {
				return calc.Value{}, calc.Errorf(calc.CodeDomain, "a gap of %s between the handles leaves nothing inboard", In(-2*c.Number(2)))
			}
			return calc.Length(inboard / c.Number(1)), nil
		},
	}
}

func squareToOctagon() Function {
	return Function{
		Name: "square_to_octagon", Summary: "how far from each corner of a square spar to gauge the line that makes it eight-sided",
		Params:  []*Param{length("square_side").positive()},
		Result:  "length",
		Formula: "square_side · (1 − 1/√2); the flat between two lines, and each side of the octagon, is square_side · (√2 − 1)",
		Limits:  "a square stick; the spar gauge 7 : 10 : 7 comes within one part in 230 of it",
		Source:  "geometry",
		Checks: []Check{
			{Call: "square_to_octagon(2.5 in)", Want: "0.732233 in"},
			{Call: "1 in - 2 * square_to_octagon(1 in)", Want: "0.41421356 in", Source: "√2 − 1"},
		},
		Eval: func(c *Call) (calc.Value, error) {
			return calc.Length(c.Number(0) * (1 - math.Sqrt2/2)), nil
		},
	}
}

// heron returns the area of a triangle by its sides, summed so that thin ones keep
// their digits.
//
// Errors: *calc.Error when the sides do not close.
// Source: Heron's formula; W. Kahan's order of the terms (from memory).
func heron(a, b, c float64) (float64, error) {
	a, b, c = math.Max(math.Max(a, b), c), math.Max(math.Min(math.Max(a, b), c), math.Min(a, b)), math.Min(math.Min(a, b), c)
	if a >= b+c {
		return 0, calc.Errorf(calc.CodeDomain, "%s, %s and %s do not close a triangle", In(a), In(b), In(c)).
			WithHint("the longest side is shorter than the other two together: check the tape")
	}
	return math.Sqrt((a+(b+c))*(c-(a-b))*(c+(a-b))*(a+(b-c))) / 4, nil
}

func sails() []Function {
	return []Function{
		{
			Name: "sail_area_triangle", Summary: "the area of a three-sided sail, or of one triangle of a sail, by its sides",
			Params:  []*Param{length("foot").positive(), length("luff").positive(), length("diagonal").positive().says("the third side: the leech of a three-sided sail")},
			Result:  "area",
			Formula: "√(s(s − a)(s − b)(s − c)), s = (a + b + c) / 2",
			Limits:  "the sides close; straight edges, no roach",
			Source:  "geometry (Heron)",
			Checks: []Check{
				{Call: "sail_area_triangle(8 ft, 12 ft, 13 ft)", Want: "46.9993 ft^2"},
				{Call: "sail_area_triangle(3 ft, 4 ft, 5 ft)", Want: "6 ft^2", Source: "a right angle"},
			},
			Eval: func(c *Call) (calc.Value, error) {
				a, err := heron(c.Number(0), c.Number(1), c.Number(2))
				return calc.Of(a, calc.DimArea), err
			},
		},
		{
			Name: "sail_area_four_sides", Summary: "the area of a four-sided sail by its edges and one diagonal",
			Params: []*Param{
				length("foot").positive(), length("luff").positive(), length("head").positive(), length("leech").positive(), length("diagonal").positive(),
				choice("measured", "throat to clew", "tack to peak").optional(calc.Str("throat to clew")).says("the way of the diagonal"),
			},
			Result:  "area",
			Formula: "two triangles: luff, foot and head, leech on the diagonal from throat to clew; luff, head and foot, leech on that from tack to peak",
			Limits:  "both triangles close; straight edges, no roach",
			Source:  "geometry (Heron)",
			Checks: []Check{
				{Call: "sail_area_four_sides(8 ft, 12 ft, 7 ft, 9 ft, 13 ft)", Want: "76.9524 ft^2"},
				{Call: `sail_area_four_sides(3 ft, 4 ft, 3 ft, 4 ft, 5 ft, "tack to peak")`, Want: "12 ft^2", Source: "a rectangle"},
			},
			Eval: func(c *Call) (calc.Value, error) {
				foot, luff, head, leech, d := c.Number(0), c.Number(1), c.Number(2), c.Number(3), c.Number(4)
				if c.Text(5) == "tack to peak" {
					foot, head = head, foot
				}
				one, err := heron(luff, foot, d)
				if err != nil {
					return calc.Value{}, err
				}
				two, err := heron(head, leech, d)
				return calc.Of(one+two, calc.DimArea), err
			},
		},
		{
			Name: "sail_from_corners", Summary: "area and centre of a sail drawn by its corners",
			Params:  []*Param{points("corners", 2).says("[[aft of the datum, up], …] in order round the sail")},
			Result:  "record: area (area), centre (length from the datum), centre_height (length)",
			Formula: "sums of cross products round the corners; the centre of a triangle is the mean of its corners",
			Limits:  "three corners or more, in order, edges that do not cross; no roach",
			Source:  "geometry",
			Checks: []Check{
				{Call: "sail_from_corners([[0 ft, 0 ft], [8 ft, 0.5 ft], [7 ft, 11 ft], [-0.5 ft, 7 ft]]).area", Want: "69.5 ft^2"},
				{Call: "sail_from_corners([[0 ft, 0 ft], [8 ft, 0.5 ft], [7 ft, 11 ft], [-0.5 ft, 7 ft]]).centre", Want: "3.88909 ft"},
				{Call: "sail_from_corners([[0 ft, 0 ft], [8 ft, 0.5 ft], [7 ft, 11 ft], [-0.5 ft, 7 ft]]).centre_height", Want: "4.68285 ft"},
			},
			Eval: sailFromCorners,
		},
	}
}

func sailFromCorners(c *Call) (calc.Value, error) {
	pts := planePoints(c, 0)
	if len(pts) < 3 {
		return calc.Value{}, tooFew(len(pts), 3)
	}
	whole := curve.PolygonArea(pts)
	if low, high := curve.Bounds(pts); math.Abs(whole) <= 1e-9*(high.X-low.X)*(high.Y-low.Y) {
		return calc.Value{}, calc.Errorf(calc.CodeDomain, "the corners enclose nothing").WithHint("give them in order round the sail")
	}
	var x, y float64
	for i := 2; i < len(pts); i++ {
		t := []curve.Point{pts[0], pts[i-1], pts[i]}
		share := curve.PolygonArea(t) / whole
		x += share * (t[0].X + t[1].X + t[2].X) / 3
		y += share * (t[0].Y + t[1].Y + t[2].Y) / 3
	}
	return calc.Fields(
		calc.Field{Name: "area", Value: calc.Of(math.Abs(whole), calc.DimArea)},
		calc.Field{Name: "centre", Value: calc.Length(x)},
		calc.Field{Name: "centre_height", Value: calc.Length(y)},
	), nil
}

func balanceOfSail() []Function {
	return []Function{
		{
			Name: "centre_of_effort", Summary: "where the sails together pull, from the area and the centre of each",
			Params:  []*Param{mixedPoints("sails", calc.DimArea, calc.DimLength).says("[[area, position], …]")},
			Result:  "length from the datum",
			Formula: "Σ area · position / Σ area",
			Limits:  "areas more than zero, positions from one datum; sail_from_corners gives the centre of one sail",
			Source:  "common practice",
			Checks: []Check{
				{Call: "centre_of_effort([[60 ft^2, 66 in], [22 ft^2, 28 in]])", Want: "55.8049 in"},
			},
			Eval: func(c *Call) (calc.Value, error) {
				total, moment := 0.0, 0.0
				for k, s := range c.Points(0) {
					if s[0] < 0 {
						return calc.Value{}, calc.Errorf(calc.CodeDomain, "%s: a sail has no area below zero", calc.Words(labelAt(c.Labels(0), k)))
					}
					total += s[0]
					moment += s[0] * s[1]
				}
				if total == 0 {
					return calc.Value{}, calc.Errorf(calc.CodeZero, "the sails have no area")
				}
				return calc.Length(moment / total), nil
			},
		},
		{
			Name: "lead", Summary: "how far the sails' centre stands before that of the underwater side, over the waterline",
			Params: []*Param{
				length("centre_of_effort").says("aft of the forward datum"), length("centre_of_lateral_plane").says("aft of the same datum"), length("waterline_length").positive(),
			},
			Result:  "share, shown in %: plus with the centre of effort forward",
			Formula: "(centre_of_lateral_plane − centre_of_effort) / waterline_length",
			Limits:  "2 to 15 % is usual (a remark outside): tune by trial",
			Source:  "common practice",
			Checks: []Check{
				{Call: "lead(66.4 in, 73 in, 157 in)", Want: "4.20382 %"},
			},
			Eval: func(c *Call) (calc.Value, error) {
				v := (c.Number(1) - c.Number(0)) / c.Number(2)
				if v < 0.02-1e-12 || v > 0.15+1e-12 {
					c.Warn("a lead of %s is outside the usual 2 to 15 %%: tune by trial", text(asPercent(math.Round(v*1e4)/1e4)))
				}
				return asPercent(v), nil
			},
		},
		{
			Name: "sail_area_displacement", Summary: "sail area over the two-thirds power of the displaced volume: how much sail she carries",
			Params:  []*Param{area("sail_area").positive(), mass("displacement").positive()},
			Result:  "number",
			Formula: "sail_area / (displacement / 64 lb/ft³)^⅔",
			Limits:  "both more than zero; crew and gear with the boat", Source: navalPractice,
			Checks: []Check{
				{Call: "sail_area_displacement(82 ft^2, 520 lb)", Want: "20.2892"},
				{Call: "sail_area_displacement(100 ft^2, 1000 lb)", Want: "16", Source: "1000/64 is 2.5³"},
			},
			Eval: func(c *Call) (calc.Value, error) {
				displaced := c.Number(1) / (64 * Pound) * Foot * Foot * Foot
				return calc.Number(c.Number(0) / math.Pow(displaced, 2.0/3)), nil
			},
		},
	}
}
