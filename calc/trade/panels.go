package trade

import (
	"math"

	"scarph/calc"
	"scarph/calc/curve"
)

func edge(name string) *Param {
	return points(name, 3).says("[[x, half_breadth, height], …], station by station")
}

func development() []Function {
	return []Function{
		{
			Name: "triangle_point", Summary: "where two arcs meet that are swung from the ends of a base",
			Params: []*Param{
				length("length_a").positive().says("from the base's beginning"),
				length("length_b").positive().says("from its end"), length("base").positive(),
			},
			Result:  "record: x (length along the base), y (length square to it)",
			Formula: "x = (a² − b² + base²) / (2 · base); y = √(a² − x²)",
			Limits:  "the three lengths close a triangle",
			Source:  "geometry (triangulation)",
			Checks: []Check{
				{Call: "triangle_point(30 in, 25 in, 35 in).x", Want: "21.4286 in"},
				{Call: "triangle_point(30 in, 25 in, 35 in).y", Want: "20.9956 in"},
			},
			Eval: func(c *Call) (calc.Value, error) {
				a, b, base := c.Number(0), c.Number(1), c.Number(2)
				slack := 1e-12 * (a + b + base)
				if a+b < base-slack || a+base < b-slack || b+base < a-slack {
					return calc.Value{}, calc.Errorf(calc.CodeDomain, "%s, %s and %s do not close a triangle", In(a), In(b), In(base)).
						WithHint("check the tape: each is at most the other two together")
				}
				x, y := swing(a, b, base)
				return calc.Fields(
					calc.Field{Name: "x", Value: calc.Length(x)},
					calc.Field{Name: "y", Value: calc.Length(y)},
				), nil
			},
		},
		{
			Name: "edge_points", Summary: "an edge of a panel from three rows of the table of offsets: one point a station",
			Params:  []*Param{lengths("positions"), lengths("half_breadths"), lengths("heights")},
			Result:  "list of points [x, half-breadth, height]",
			Formula: "[[x₁, y₁, z₁], [x₂, y₂, z₂], …]",
			Limits:  "lists of one length",
			Source:  "arithmetic",
			Checks:  []Check{{Call: "at(at(edge_points([0 in, 10 in], [3 in, 4 in], [5 in, 6 in]), 2), 3)", Want: "6 in"}},
			Eval: func(c *Call) (calc.Value, error) {
				names, xs, ys, err := paired(c, 0, 1)
				if err != nil {
					return calc.Value{}, err
				}
				_, _, zs, err := paired(c, 0, 2)
				if err != nil {
					return calc.Value{}, err
				}
				list := make([]calc.Value, len(names))
				for i := range list {
					list[i] = calc.Listed(calc.Length(xs[i]), calc.Length(ys[i]), calc.Length(zs[i]))
				}
				labels := c.Labels(1)
				if labels == nil {
					labels = c.Labels(0)
				}
				return calc.Labelled(labels, list), nil
			},
		},
		{
			Name: "developed_strip", Summary: "a panel between two edges laid flat by true-length triangles",
			Params: []*Param{edge("edge_1_points"), edge("edge_2_points")},
			Result: "record: edge_1 and edge_2 (lists of [x, y], the ends of edge 1 on the x axis), length and width over all, diagonal_1 (start of edge 1 to end of edge 2), diagonal_2 (start of edge 2 to end of edge 1), area, edge_1_length, edge_2_length, twist (angle)",
			Formula: "between each two stations two triangles, their sides true lengths in space: edge 1, ruling, " +
				"and the diagonal from edge 2 at the first station to edge 1 at the next",
			Limits: "as many points in both edges, two or more; true to the surface where the twist is small",
			Source: "geometry (triangulation)",
			Checks: []Check{
				{Call: "at(at(developed_strip(" + stripCheck + ").edge_2, 1), 1)", Want: "-0.292683 in"},
				{Call: "at(at(developed_strip(" + stripCheck + ").edge_2, 1), 2)", Want: "17.9976 in"},
			},
			Eval: developedStrip,
		},
		{
			Name: "development_twist_check", Summary: "the largest twist of a panel from one station to the next; small means it lies down flat",
			Params:  []*Param{edge("edge_1"), edge("edge_2")},
			Result:  "angle",
			Formula: "the largest angle between the rulings, edge 1 to edge 2, at successive stations",
			Limits:  "as many points in both edges, two stations or more",
			Source:  "geometry",
			Checks: []Check{{Call: "development_twist_check([[0 in, 0 in, 0 in], [24 in, 0 in, 0 in]], " +
				"[[0 in, 6.5 in, 18 in], [24 in, 5.5 in, 17.9 in]])", Want: "2.77498°"}},
			Eval: func(c *Call) (calc.Value, error) {
				e1, e2, err := edges(c)
				if err != nil {
					return calc.Value{}, err
				}
				return calc.Angle(largestTwist(e1, e2)), nil
			},
		},
		{
			Name: "development_twists", Summary: "the twist of a panel between each two stations",
			Params:  []*Param{edge("edge_1"), edge("edge_2")},
			Result:  "list of angles, one a space",
			Formula: "the angle between the rulings, edge 1 to edge 2, at successive stations",
			Limits:  "as many points in both edges, two stations or more; 0° where the edges meet in a point",
			Source:  "geometry",
			Checks: []Check{{Call: "at(development_twists([[0 in, 0 in, 0 in], [24 in, 0 in, 0 in]], " +
				"[[0 in, 6.5 in, 18 in], [24 in, 5.5 in, 17.9 in]]), 1)", Want: "2.77498°"}},
			Eval: func(c *Call) (calc.Value, error) {
				e1, e2, err := edges(c)
				if err != nil {
					return calc.Value{}, err
				}
				twists := make([]calc.Value, len(e1)-1)
				for i := range twists {
					twists[i] = calc.Angle(twist(e1, e2, i))
				}
				return calc.Listed(twists...), nil
			},
		},
	}
}

// stripCheck is a panel of two stations whose first end is 18 in, base edge 20.5 in
// and diagonal 27.5 in: the base lies 12.3 in along and 16.4 in across (3 : 4 : 5),
// the first end 6 in against it, and upright for the rest.
const stripCheck = "[[0 in, 0 in, 0 in], [12.3 in, 16.4 in, 0 in]], " +
	"[[0 in, -6/16.4 * 1 in, sqrt(324 in^2 - (6/16.4 * 1 in)^2)], [12.3 in, 16.4 in, 18 in]]"

func developedStrip(c *Call) (calc.Value, error) {
	e1, e2, err := edges(c)
	if err != nil {
		return calc.Value{}, err
	}
	for i := 1; i < len(e1); i++ {
		if e1[i] == e1[i-1] {
			return calc.Value{}, calc.Errorf(calc.CodeDomain, "edge_1 stands still from point %d to point %d", i, i+1).WithHint("give each station once")
		}
		if i < len(e1)-1 && e1[i] == e2[i] {
			return calc.Value{}, calc.Errorf(calc.CodeDomain, "the edges meet at point %d, inside the panel", i+1).WithHint("only the ends of a panel may come to a point")
		}
	}
	f1, f2 := layFlat(e1, e2)
	ring := append([]curve.Point(nil), f1...)
	for i := len(f2) - 1; i >= 0; i-- {
		ring = append(ring, f2[i])
	}
	low, high := curve.Bounds(ring)
	last := len(f1) - 1
	labels := c.Labels(0)
	if labels == nil {
		labels = c.Labels(1)
	}
	size := func(v float64) calc.Value { return calc.Length(v) }
	return calc.Fields(
		calc.Field{Name: "edge_1", Value: flatPoints(labels, f1)},
		calc.Field{Name: "edge_2", Value: flatPoints(labels, f2)},
		calc.Field{Name: "length", Value: size(high.X - low.X)},
		calc.Field{Name: "width", Value: size(high.Y - low.Y)},
		calc.Field{Name: "diagonal_1", Value: size(curve.Distance(f1[0], f2[last]))},
		calc.Field{Name: "diagonal_2", Value: size(curve.Distance(f2[0], f1[last]))},
		calc.Field{Name: "area", Value: calc.Of(curve.PolygonArea(ring), calc.DimArea)},
		calc.Field{Name: "edge_1_length", Value: size(curve.PolylineLength(f1))},
		calc.Field{Name: "edge_2_length", Value: size(curve.PolylineLength(f2))},
		calc.Field{Name: "twist", Value: calc.Angle(largestTwist(e1, e2))},
	), nil
}

func flatPoints(labels []string, pts []curve.Point) calc.Value {
	list := make([]calc.Value, len(pts))
	for i, p := range pts {
		list[i] = calc.Listed(calc.Length(p.X), calc.Length(p.Y))
	}
	return calc.Labelled(labels, list)
}

// spiling are planks taken off the boat.
func spiling() []Function {
	return []Function{
		{
			Name: "spiling_offset", Summary: "the edge of a plank from a spiling batten: datum plus compass distance at each tick",
			Params: []*Param{
				lengths("compass_distances"),
				{Name: "datum", Kind: Any, Doc: "a length, or one for each compass distance"},
			},
			Result:  "list of lengths",
			Formula: "datum + compass distance, tick by tick; the compass is not altered in between",
			Limits:  "a datum for each tick, or one for all",
			Source:  "common practice",
			Checks: []Check{
				{Call: "at(spiling_offset([1 1/2 in], 3.250 in), 1)", Want: "4.75 in"},
				{Call: "spiling_offset([1 1/2 in, 1 1/2 in], [3 1/4 in, 3 in])", Want: "[4.75 in, 4.5 in]", Source: "arithmetic"},
			},
			Eval: func(c *Call) (calc.Value, error) {
				compass := c.Numbers(0)
				datum, err := datums(c, len(compass))
				if err != nil {
					return calc.Value{}, err
				}
				edge := make([]calc.Value, len(compass))
				for i, d := range compass {
					edge[i] = calc.Length(datum[i] + d)
					if c.Value(1).Kind() == calc.List && d != compass[0] {
						c.Warn("the compass stands at %s and at %s: was it changed?", In(compass[0]), In(d))
					}
				}
				return calc.Labelled(c.Labels(0), edge), nil
			},
		},
		{
			Name: "stock_width_for_sweep", Summary: "the width of board that a curved plank is cut from",
			Params: []*Param{
				length("plank_width").positive(), length("sweep").orZero().notNegative(),
				length("margin").notNegative().optional(calc.Inches(0.25)).says("at each edge; left out, 1/4 in"),
			},
			Result:  "length",
			Formula: "plank_width + sweep + 2 · margin",
			Limits:  "margin not below zero",
			Source:  "geometry",
			Checks:  []Check{{Call: "stock_width_for_sweep(5 in, 3 1/8 in, 1/4 in)", Want: "8.625 in"}},
			Eval: func(c *Call) (calc.Value, error) {
				return calc.Length(c.Number(0) + c.Number(1) + 2*c.Number(2)), nil
			},
		},
		{
			Name: "lap_bevel", Summary: "the wood to plane off a strake's upper edge so that the next one lies on it",
			Params: []*Param{
				length("lap_width").positive(), length("plank_thickness_at_edge").positive(),
				angle("angle_between_strakes").degrees(-60, 60),
			},
			Result:  "length, at the edge of the lap",
			Formula: "lap_width · tan(angle_between_strakes)",
			Limits:  "less than the thickness, or the bevel runs out",
			Source:  "common practice",
			Checks:  []Check{{Call: "lap_bevel(3/4 in, 1/2 in, 9°)", Want: "0.118788 in"}},
			Eval: func(c *Call) (calc.Value, error) {
				off := c.Number(0) * math.Tan(c.Number(2))
				if math.Abs(off) >= c.Number(1) {
					return calc.Value{}, calc.Errorf(calc.CodeDomain, "the bevel takes %s off a plank of %s: it would run out", In(math.Abs(off)), In(c.Number(1))).
						WithHint("a narrower lap, or strakes lined off to meet at less of an angle")
				}
				return calc.Length(off), nil
			},
		},
	}
}

// datums returns one datum a tick, from argument 1, a length or a list of them.
func datums(c *Call, n int) ([]float64, error) {
	v := c.Value(1)
	items := v.Items()
	if v.Kind() != calc.List {
		items = []calc.Value{v}
	}
	if len(items) != n && v.Kind() == calc.List {
		return nil, calc.Errorf(calc.CodeShape, "%d compass distances but %d datums", n, len(items)).WithHint("give one for each tick, or one for all")
	}
	out := make([]float64, n)
	for i := range out {
		d := items[0]
		if v.Kind() == calc.List {
			d = items[i]
		}
		switch {
		case !d.IsQuantity():
			return nil, calc.Errorf(calc.CodeKind, "a datum is a length; this is %s", d.What())
		case d.D.IsNumber():
			return nil, calc.Errorf(calc.CodeBareNumber, "the datum has no unit").WithHint("%s", calc.WhatUnit(d, calc.DimLength))
		case d.D != calc.DimLength:
			return nil, calc.Errorf(calc.CodeDimension, "a datum is a length; this is %s", d.D.A())
		}
		out[i] = d.V
	}
	return out, nil
}
