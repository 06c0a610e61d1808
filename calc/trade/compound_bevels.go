package trade

import (
	"math"

	"scarph/calc"
)

// compoundBevels are bevels between faces that lean two ways at once. Each names
// the face and the direction that its angle is counted from.
func compoundBevels() []Function {
	return []Function{
		{
			Name: "compound_transom_bevel", Summary: "the bevel of the transom's edge, from square to the transom's face, where a flared side meets it on a plan angle",
			Params: []*Param{
				angle("plan_angle").degrees(-60, 60).says("how far the side closes in going aft"),
				angle("flare_angle").degrees(-60, 60).says("from plumb, flare plus"),
				angle("rake_angle").degrees(-60, 60).says("from plumb, top aft plus"),
			},
			Result:  "angle from square to the transom's face",
			Formula: "|90° − acos(s · t)| of the unit normals: side s along (tan plan, 1, −tan flare), transom t along (1, 0, −tan rake); x aft, y outboard, z up",
			Limits:  "each angle under 60°",
			Source:  "geometry",
			Checks: []Check{
				{Call: "compound_transom_bevel(9°, 16°, 14°)", Want: "12.2376°"},
				{Call: "compound_transom_bevel(9°, 0°, 0°)", Want: "9°", Source: "a plumb side and a plumb transom: the plan angle itself"},
			},
			Eval: func(c *Call) (calc.Value, error) {
				p, f, r := math.Tan(c.Number(0)), math.Tan(c.Number(1)), math.Tan(c.Number(2))
				s := math.Sqrt(p*p + 1 + f*f)
				t := math.Sqrt(1 + r*r)
				bevel := math.Pi/2 - math.Acos((p+f*r)/(s*t))
				switch {
				case bevel > 1e-9:
					c.Warn("the forward face is the larger: saw to its outline and bevel towards the after face")
				case bevel < -1e-9:
					c.Warn("the after face is the larger: saw to its outline and bevel towards the forward face")
				}
				return calc.Angle(math.Abs(bevel)), nil
			},
		},
		{
			Name: "hopper_miter", Summary: "the two saw settings of a box with sloping sides and mitred corners",
			Params: []*Param{
				count("sides").within(3, 1000), angle("slope_from_plumb").degrees(0, 89.9),
			},
			Result:  "record: cross_cut (angle from square across the board's face), tilt (angle of the blade from square to the board)",
			Formula: "cross_cut = atan(sin s · tan(180°/n)); tilt = asin(cos s · sin(180°/n))",
			Limits:  "three sides or more; slope from 0° to under 90°",
			Source:  "geometry",
			Checks: []Check{
				{Call: "hopper_miter(4, 16°).cross_cut", Want: "15.4102°"},
				{Call: "hopper_miter(4, 16°).tilt", Want: "42.8213°"},
			},
			Eval: func(c *Call) (calc.Value, error) {
				half, s := math.Pi/c.Number(0), c.Number(1)
				return calc.Fields(
					calc.Field{Name: "cross_cut", Value: calc.Angle(math.Atan(math.Sin(s) * math.Tan(half)))},
					calc.Field{Name: "tilt", Value: calc.Angle(math.Asin(math.Cos(s) * math.Sin(half)))},
				), nil
			},
		},
		{
			Name: "true_rake_bevel", Summary: "a bevel taken in the level, as the gauge wants it held square to a raked timber",
			Params:  []*Param{angle("side_bevel").degrees(-85, 85), angle("rake").degrees(-75, 75)},
			Result:  "angle, square to the raked timber",
			Formula: "atan(tan(side_bevel) / cos(rake))",
			Limits:  "rake from −75° to 75°; the bevel opens with the rake",
			Source:  "geometry",
			Checks:  []Check{{Call: "true_rake_bevel(24°, 15°)", Want: "24.7466°"}},
			Eval: func(c *Call) (calc.Value, error) {
				return calc.Angle(math.Atan(math.Tan(c.Number(0)) / math.Cos(c.Number(1)))), nil
			},
		},
		{
			Name: "frame_bevel", Summary: "the bevel of a frame's edge square to the section, from the bevel taken in the level",
			Params: []*Param{
				angle("level_bevel").degrees(-85, 85).says("of the waterline, from fore and aft"),
				angle("flare").degrees(-85, 85).says("of the section there, from plumb"),
			},
			Result:  "angle from square to the frame's face, measured square to the section",
			Formula: "atan(tan(level_bevel) · cos(flare))",
			Limits:  "the frame stands square across the boat; the bevel closes with the flare",
			Source:  "geometry",
			Checks: []Check{
				{Call: "frame_bevel(atan(1/4), atan(1/2))", Want: "12.6044°", Source: "atan(0.25 / √1.25)"},
				{Call: "frame_bevel(24°, 0°)", Want: "24°", Source: "a plumb side: the level bevel itself"},
			},
			Eval: func(c *Call) (calc.Value, error) {
				return calc.Angle(math.Atan(math.Tan(c.Number(0)) * math.Cos(c.Number(1)))), nil
			},
		},
		{
			Name: "plumb_expansion", Summary: "the true length up a raked face, from its plumb height",
			Params:  []*Param{length("height"), angle("rake").degrees(-75, 75)},
			Result:  "length",
			Formula: "height / cos(rake)",
			Limits:  "rake from −75° to 75°",
			Source:  "common practice (lofting: the expanded transom)",
			Checks:  []Check{{Call: "plumb_expansion(16 in, 14°)", Want: "16.4898 in"}},
			Eval: func(c *Call) (calc.Value, error) {
				return calc.Length(c.Number(0) / math.Cos(c.Number(1))), nil
			},
		},
		{
			Name: "expanded_transom", Summary: "the true shape of a flat raked transom: its outline as it lies on the board",
			Params: []*Param{
				points("outline", 2).says("[[half_breadth, height], …] as drawn in the body plan"),
				angle("rake").degrees(-75, 75),
			},
			Result:  "record: outline (list of [half-breadth, length up the face]), area (area, both sides), lengthening (number, true over drawn)",
			Formula: "half-breadths stay; each height above the lowest becomes height / cos(rake)",
			Limits:  "a flat transom; rake from −75° to 75°; at least two points in order",
			Source:  "common practice (lofting)",
			Checks: []Check{
				{Call: "at(at(expanded_transom([[10 in, 4 in], [14 in, 20 in]], 14°).outline, 2), 2)", Want: "16.4898 in"},
				{Call: "expanded_transom([[10 in, 4 in], [14 in, 20 in]], 14°).area", Want: "395.756 in^2", Source: "24 in wide on the mean, 16.4898 in up the face"},
			},
			Eval: func(c *Call) (calc.Value, error) {
				pts := c.Points(0)
				if len(pts) < 2 {
					return calc.Value{}, tooFew(len(pts), 2)
				}
				low := pts[0][1]
				for _, p := range pts {
					low = math.Min(low, p[1])
				}
				more := 1 / math.Cos(c.Number(1))
				outline := make([]calc.Value, len(pts))
				area := 0.0
				for i, p := range pts {
					up := (p[1] - low) * more
					outline[i] = calc.Listed(calc.Length(p[0]), calc.Length(up))
					if i > 0 {
						area += (p[0] + pts[i-1][0]) * (p[1] - pts[i-1][1]) * more
					}
				}
				return calc.Fields(
					calc.Field{Name: "outline", Value: calc.Labelled(c.Labels(0), outline)},
					calc.Field{Name: "area", Value: calc.Of(math.Abs(area), calc.DimArea)},
					calc.Field{Name: "lengthening", Value: calc.Number(more)},
				), nil
			},
		},
		{
			Name: "knee_angle", Summary: "the angle of a knee that stands on a thwart against the side, square to the side",
			Params: []*Param{
				angle("thwart_angle").degrees(-45, 45).says("from level, plus when the outboard end stands higher"),
				angle("side_flare").degrees(-45, 45).says("from plumb, in the section across the boat"),
				angle("sweep").degrees(-75, 75).says("of the side in plan, from fore and aft"),
			},
			Result:  "angle between the top of the thwart and the side",
			Formula: "90° + atan(tan(side_flare) · cos(sweep)) + atan(tan(thwart_angle) · cos(sweep))",
			Limits:  "flare under 45°",
			Source:  "common practice",
			Checks: []Check{
				{Call: "knee_angle(0°, 19.86°, 0°)", Want: "109.86°"},
			},
			Eval: func(c *Call) (calc.Value, error) {
				turned := func(a float64) float64 { return math.Atan(math.Tan(a) * math.Cos(c.Number(2))) }
				return calc.Angle(math.Pi/2 + turned(c.Number(1)) + turned(c.Number(0))), nil
			},
		},
	}
}
