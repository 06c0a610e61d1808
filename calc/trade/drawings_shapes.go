package trade

import (
	"math"

	"scarph/calc"
	"scarph/calc/draw"
)

func bevelsParam(of string) *Param {
	return &Param{Name: "bevels", Kind: Any, Optional: true, Doc: `angles from square, ` + of + `, or one for all; [] or "none" for none`}
}

func faceParam() *Param {
	return choice("face", "forward", "after", none).optional(calc.Str(none)).says("the face that stands on the station line")
}

func nameParam() *Param {
	return &Param{Name: "name", Kind: Any, Optional: true, Doc: "text: what the drawing is called"}
}

// nameOf reads argument i, a text that may be left out.
func nameOf(c *Call, i int) (string, error) {
	if left(c, i) {
		return "", nil
	}
	if v := c.Value(i); v.Kind() != calc.Text {
		return "", calc.Errorf(calc.CodeKind, "%s wants text for %s; it was given %s", c.fn.Name, c.fn.Params[i].Name, v.What()).WithHint(`write it between quotes: "station 5"`)
	}
	return c.Text(i), nil
}

func faceOf(c *Call, i int) string {
	if left(c, i) {
		return ""
	}
	return c.Text(i)
}

func shapeDrawings() []Function {
	section := section().says("[[half_breadth, height], …] from the keel up, the planking taken off")
	return []Function{
		{
			Name: "panel_drawing", Summary: "a panel laid flat with its datum, rulings and coordinates; prints at true size",
			Params:  []*Param{{Name: "panel", Kind: Any, Doc: "what developed_strip gives"}, nameParam()},
			Formula: "both edges bent with a batten through their points; rulings join the points of a station",
			Limits:  "as many points in both edges, two or more", Source: "geometry (triangulation)",
			Checks: []Check{{Call: `panel_drawing(developed_strip([[0 in, 0 in, 0 in], [30 in, 0 in, 0 in]], [[0 in, 0 in, 16 in], [30 in, 0 in, 16 in]]), "side")`,
				Want: `"Side, laid flat: 2′ 6″ by 1′ 4″ over all, 2 rulings."`, Source: "a rectangle of 30 by 16 in"}},
			Eval: panelDrawing,
		},
		{
			Name: "transom_drawing", Summary: "a raked transom in its true shape, with the bevels of its edges; prints at true size",
			Params: []*Param{
				points("outline", 2).says("[[half_breadth, height], …] as drawn in the body plan, from the bottom up"),
				angle("rake").degrees(-75, 75), bevelsParam("for each piece of the outline or each point, plus where the forward face is the larger"),
			},
			Formula: "half-breadths stay; each height above the lowest becomes height / cos(rake)",
			Limits:  "a flat transom; rake from −75° to 75°; at least two points in order", Source: "common practice (lofting)",
			Checks: []Check{{Call: "transom_drawing([[10 in, 4 in], [14 in, 20 in]], 14°, 12.2°)",
				Want: `"Transom in its true shape, 2′ 4″ wide and 1′ 4 1/2″ up the face; the forward face is the larger."`, Source: "16 in at 14° is 16.4898 in, as plumb_expansion"}},
			Eval: transomDrawing,
		},
		{
			Name: "mould_drawing", Summary: "a mould, both sides, with its bevels and the face that stands on the station line; prints at true size",
			Params:  []*Param{section, bevelsParam("for each corner"), faceParam(), fit("straight"), nameParam()},
			Formula: "the section and its mirror image; corners numbered from the keel up",
			Limits:  "two points or more, in order", Source: "common practice",
			Checks: []Check{{Call: `mould_drawing([[0 in, 0 in], [22 in, 0 in], [27 in, 18 in]], [0°, 3°, 4°], "after")`,
				Want: `"Mould, 2′ 3″ to the side and 1′ 6″ high, 3 corners; the after face stands on the station line."`, Source: "the largest of the points"}},
			Eval: func(c *Call) (calc.Value, error) { return frameDrawing(c, 0, 1) },
		},
		{
			Name: "frame_drawing", Summary: "one side of a frame of a given breadth, with its bevels and the face on the station line; prints at true size",
			Params:  []*Param{section, length("moulded").positive().says("breadth of the frame, in from the planking"), bevelsParam("for each corner"), faceParam(), fit("straight"), nameParam()},
			Formula: "the section, and a line at the breadth inside it with mitred corners",
			Limits:  "two points or more, in order", Source: "common practice",
			Checks: []Check{{Call: `frame_drawing([[0 in, 0 in], [22 in, 0 in], [27 in, 18 in]], 2 1/4 in, "none", "forward")`,
				Want: `"Frame, 2′ 3″ to the side and 1′ 6″ high, 3 corners, stock 2 1/4″ broad; the forward face stands on the station line."`, Source: "the largest of the points"}},
			Eval: func(c *Call) (calc.Value, error) { return frameDrawing(c, c.Number(1), 2) },
		},
		{
			Name: "stem_drawing", Summary: "the side of a stem with the three lines of its rabbet and their figures; prints at true size",
			Params: []*Param{
				points("rabbet", 2).says("[[aft, height], …] of the rabbet line, from the heel up"),
				listOf("plan_angles", calc.DimAngle).degrees(8, 80).says("between plank and side, at each point"),
				length("plank_thickness").positive(),
			},
			Formula: "square to the rabbet line: width = t / sin a, middle = t · sin a; depth = t · cos a, as stem_rabbet",
			Limits:  "two points or more; an angle for each, from 8° to 80°; draw a stem of sharp curve full size", Source: "geometry",
			Checks: []Check{{Call: "stem_drawing([[0 in, 2 in], [3 in, 12 in]], [30°, 60°], 1/2 in)",
				Want: `"Stem with the rabbet for a plank of 1/2″ at 2 heights: from 9/16″ wide where the plank meets the side at 60° to 1″ at 30°."`, Source: "1/2 in over sin 30° and sin 60°"}},
			Eval: stemDrawing,
		},
		{
			Name: "camber_mould", Summary: "the mould of a deck beam with the crown at the eighths; prints at true size",
			Params: []*Param{
				length("beam").positive(), length("camber").notNegative().orZero(),
				choice("way", "parabola", "arc").optional(calc.Str("parabola")),
				length("depth").positive().optional(calc.Value{}).says("of the stock under the chord; left out, half the camber"),
			},
			Formula: "parabola: camber · (1 − (2x / beam)²), as camber_parabola; arc: as arc_height_at",
			Limits:  "camber up to half the beam", Source: "common practice (deck beams)",
			Checks: []Check{
				{Call: "camber_mould(48 in, 2 in)", Want: `"Camber mould of 2″ in 4′, a parabola: 1 1/2″ over the chord at the quarters."`, Source: "as camber_parabola"},
				{Call: `camber_mould(1200 mm, 60 mm, "arc")`, Want: `"Camber mould of 2 3/8″ in 3′ 11 1/4″, an arc: 1 3/4″ strong over the chord at the quarters."`, Source: "as arc_height_at(1200 mm, 60 mm, 300 mm): 45.11 mm"},
			},
			Eval: func(c *Call) (calc.Value, error) {
				d := &draw.CamberMould{Beam: c.Number(0), Camber: c.Number(1), Arc: c.Text(2) == "arc"}
				if d.Camber > d.Beam/2 {
					return calc.Value{}, Refuse("a camber of %s in a beam of %s is more than half a circle", In(d.Camber), In(d.Beam))
				}
				if c.Given(3) {
					d.Depth = c.Number(3)
				}
				return drawn(d)
			},
		},
		{
			Name: "part_sketch", Summary: "one part with its sizes, face and edge; prints at true size",
			Params: []*Param{
				length("thickness").positive(), length("width").positive(), length("length").positive(), nameParam(),
				angle("end_1").degrees(-75, 75).optional(calc.Angle(0)).says("cut of the first end, from square"),
				angle("end_2").degrees(-75, 75).optional(calc.Angle(0)).says("cut of the other end"),
			},
			Formula: "the length runs along the lower edge of the face; plus leans out over the end at the upper edge",
			Limits:  "sizes more than zero", Source: "geometry",
			Checks: []Check{{Call: `part_sketch(7/8 in, 2 1/4 in, 18 in, "side frame", 15.9°)`,
				Want: `"Side frame, 7/8″ by 2 1/4″ by 1′ 6″, ends cut at 15.9° and 0° from square."`, Source: "the sizes given"}},
			Eval: func(c *Call) (calc.Value, error) {
				name, err := nameOf(c, 3)
				if err != nil {
					return calc.Value{}, err
				}
				return drawn(&draw.Part{Name: name, Thick: c.Number(0), Width: c.Number(1), Length: c.Number(2), Ends: [2]float64{c.Number(4), c.Number(5)}})
			},
		},
	}
}

func panelDrawing(c *Call) (calc.Value, error) {
	name, err := nameOf(c, 1)
	if err != nil {
		return calc.Value{}, err
	}
	d := &draw.ExpandedPanel{Name: name}
	v := c.Value(0)
	for i, edge := range [2]*[]draw.Point{&d.Edge1, &d.Edge2} {
		field := [2]string{"edge_1", "edge_2"}[i]
		list, ok := v.Member(field)
		if !ok || v.Kind() != calc.Record {
			return calc.Value{}, calc.Errorf(calc.CodeKind, "panel_drawing wants a developed panel; it was given %s", v.What()).
				WithHint("write panel_drawing(developed_strip(edge_1, edge_2))")
		}
		if *edge, err = planeList(list, field); err != nil {
			return calc.Value{}, err
		}
		if i == 0 {
			d.Stations = stationNames(list.Labels(), len(d.Edge1))
		}
	}
	if len(d.Edge1) != len(d.Edge2) || len(d.Edge1) < 2 {
		return calc.Value{}, calc.Errorf(calc.CodeShape, "the panel has %s on one edge and %d on the other", several(len(d.Edge1), "point"), len(d.Edge2)).
			WithHint("two or more, as many on both")
	}
	return drawn(d)
}

// planeList reads a list of pairs of lengths.
func planeList(list calc.Value, what string) ([]draw.Point, error) {
	var out []draw.Point
	for _, it := range list.Items() {
		q := it.Items()
		if len(q) != 2 || q[0].D != calc.DimLength || q[1].D != calc.DimLength {
			return nil, calc.Errorf(calc.CodeShape, "%s wants points of two lengths", what).WithHint("points are written [[0 in, 0 in], [24 in, 9 in]]")
		}
		out = append(out, draw.Point{X: q[0].V, Y: q[1].V})
	}
	return out, nil
}

func transomDrawing(c *Call) (calc.Value, error) {
	pts, err := flatPointsOf(c, 0, 2)
	if err != nil {
		return calc.Value{}, err
	}
	n := len(pts)
	if l := c.Value(2); l.Kind() == calc.List && len(l.Items()) == n-1 {
		n--
	}
	bevels, err := angles(c, 2, n, "pieces or points of the outline")
	if err != nil {
		return calc.Value{}, err
	}
	// as expanded_transom
	low := pts[0].Y
	for _, p := range pts {
		low = math.Min(low, p.Y)
	}
	half := make([]draw.Point, len(pts))
	for i, p := range pts {
		half[i] = draw.Point{X: p.X, Y: (p.Y - low) / math.Cos(c.Number(1))}
	}
	return drawn(&draw.Transom{Half: half, Bevels: bevels})
}

// frameDrawing draws a mould (moulded 0) or a frame; the arguments from the given one
// on are bevels, face, fit and name.
func frameDrawing(c *Call, moulded float64, from int) (calc.Value, error) {
	pts, err := flatPointsOf(c, 0, 2)
	if err != nil {
		return calc.Value{}, err
	}
	bevels, err := angles(c, from, len(pts), "corners")
	if err != nil {
		return calc.Value{}, err
	}
	name, err := nameOf(c, from+3)
	if err != nil {
		return calc.Value{}, err
	}
	return drawn(&draw.Frame{Name: name, Section: pts, Moulded: moulded, Bevels: bevels, Face: faceOf(c, from+1), Bent: c.Text(from+2) == "batten"})
}

func stemDrawing(c *Call) (calc.Value, error) {
	pts, err := flatPointsOf(c, 0, 2)
	if err != nil {
		return calc.Value{}, err
	}
	if err := sameLength(c, 0, 1); err != nil {
		return calc.Value{}, err
	}
	return drawn(&draw.Stem{Rabbet: pts, Angles: c.Numbers(1), Plank: c.Number(2)})
}
