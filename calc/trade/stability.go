package trade

import (
	"math"

	"scarph/calc"
)

// smallHeel bounds the angles for which the metacentre stands still, some 10°.
const smallHeel = 10 * math.Pi / 180

// stability are the sums of heel and trim.
func stability() []Function {
	const derrett = "C. B. Barrass and D. R. Derrett, Ship Stability for Masters and Mates"
	return []Function{
		{
			Name: "metacentric_height", Summary: "the height of the metacentre over the centre of weight: what makes a boat stiff at small heel",
			Params:  []*Param{length("buoyancy_height"), length("metacentric_radius").notNegative(), length("centre_height").says("of the whole weight, crew and gear with it")},
			Result:  "length",
			Formula: "GM = KB + BM − KG",
			Limits:  "all heights from one base; small heel; loose water and moving crew take from it",
			Caution: 'E', Source: derrett,
			Checks: []Check{
				{Call: "metacentric_height(0.209 ft, 4.2 ft, 1.55 ft)", Want: "2.859 ft"},
			},
			Eval: func(c *Call) (calc.Value, error) {
				gm := c.Number(0) + c.Number(1) - c.Number(2)
				c.sayUpright(gm)
				return calc.Length(gm), nil
			},
		},
		{
			Name: "righting_arm_small", Summary: "the arm on which weight and buoyancy turn a heeled boat back, at small heel",
			Params:  []*Param{length("metacentric_height"), angle("heel").degrees(-90, 90)},
			Result:  "length",
			Formula: "GM · sin(heel)",
			Limits:  "heel to some 7 to 10° (a remark beyond)",
			Caution: 'E', Source: derrett,
			Checks: []Check{
				{Call: "righting_arm_small(2.86 ft, 7°)", Want: "0.348546 ft"},
				{Call: "righting_arm_small(2.2 ft, 8°)", Want: "0.30618 ft", Source: "Nicholls's Seamanship, p. 527: KM 16, KG 13.8 ft", Tol: 2e-5},
			},
			Eval: func(c *Call) (calc.Value, error) {
				c.sayUpright(c.Number(0))
				c.sayHeel(c.Number(1))
				return calc.Length(c.Number(0) * math.Sin(c.Number(1))), nil
			},
		},
		{
			Name: "heel_from_moved_weight", Summary: "how far a boat heels when a weight is moved to one side",
			Params: []*Param{
				mass("weight").notNegative(), length("distance"), mass("total").positive().says("of everything, the moved weight with it"),
				length("metacentric_height").positive(),
			},
			Result:  "angle",
			Formula: "tan(heel) = weight · distance / (total · GM)",
			Limits:  "small angles (a remark beyond 10°)", Source: derrett,
			Checks: []Check{
				{Call: "heel_from_moved_weight(160 lb, 14 in, 478 lb, 2.86 ft)", Want: "7.77532°"},
			},
			Eval: func(c *Call) (calc.Value, error) {
				heel := math.Atan(c.Number(0) * c.Number(1) / (c.Number(2) * c.Number(3)))
				c.sayHeel(heel)
				return calc.Angle(heel), nil
			},
		},
		{
			Name: "inclining_height", Summary: "the metacentric height found afloat: a weight moved across, the heel measured",
			Params: []*Param{
				mass("weight").positive(), length("distance").positive(), mass("total").positive().says("of everything, the moved weight with it"),
				angle("heel").degrees(0, 45),
			},
			Result:  "length",
			Formula: "GM = weight · distance / (total · tan(heel))",
			Limits:  "heel from 1° to 6° (a remark outside); flat water, slack lines, no loose water, everyone else still",
			Caution: 'E', Source: derrett + " (the inclining test)",
			Checks: []Check{
				{Call: "inclining_height(25 lb, 30 in, 300 lb, 3.2°)", Want: "3.72631 ft"},
				{Call: "inclining_height(25 lb, 30 in, 300 lb, heel_from_moved_weight(25 lb, 30 in, 300 lb, 3.5 ft))", Want: "3.5 ft", Source: "the same rule, turned round"},
			},
			Eval: func(c *Call) (calc.Value, error) {
				heel := c.Number(3)
				if heel == 0 {
					return calc.Value{}, calc.Errorf(calc.CodeZero, "no heel, no answer: a boat that does not heel would be as stiff as the shore").
						WithHint("move more weight, or further, until she heels 1 to 6°")
				}
				if d := heel * 180 / math.Pi; d < 1 || d > 6 {
					c.Warn("a heel of %s: from 1 to 6° the test is trusted", degreesText(heel))
				}
				return calc.Length(c.Number(0) * c.Number(1) / (c.Number(2) * math.Tan(heel))), nil
			},
		},
		{
			Name: "moment_to_trim_one_inch", Summary: "the weight times distance that trims a boat one inch over her waterline (or by any other unit of length)",
			Params: []*Param{
				mass("displacement").positive(), length("longitudinal_metacentric_height").positive(), length("waterline_length").positive(),
			},
			Result:  "weight · distance for each length of trim",
			Formula: "displacement · GML / waterline_length",
			Limits:  "small trim",
			Caution: 'E', Source: derrett + " (MCT)",
			Checks: []Check{
				{Call: "moment_to_trim_one_inch(478 lb, 24.6 ft, 157 in)", Want: "898.762 lb·in per in"},
			},
			Eval: func(c *Call) (calc.Value, error) {
				return perTrim(c.Number(0) * c.Number(1) / c.Number(2)), nil
			},
		},
		{
			Name: "trim_change", Summary: "how much a boat changes trim when a weight is moved along her",
			Params: []*Param{
				mass("weight").notNegative(), length("distance").says("plus aft"),
				scalar("moment_to_change_trim", calc.DimMass).positive().called("a moment for each length of trim").says("write 900 lb·in per in, or 400 kg·cm/cm"),
			},
			Result:  "length over the whole waterline, plus by the stern when the distance is plus aft",
			Formula: "weight · distance / moment_to_change_trim",
			Limits:  "small trim", Source: derrett,
			Checks: []Check{
				{Call: "trim_change(160 lb, 22 in, 900 lb·in per in)", Want: "3.91111 in"},
				{Call: "trim_change(40 long ton, 36 ft, 480 ft·long ton/in)", Want: "3 in", Source: "Nicholls's Seamanship, p. 527: 40 tons moved 36 ft, 480 ft·tons to the inch"},
			},
			Eval: func(c *Call) (calc.Value, error) {
				return calc.Length(c.Number(0) * c.Number(1) / c.Number(2)), nil
			},
		},
		{
			Name: "freeboard_left", Summary: "the height of the sheer over the water",
			Params:  []*Param{length("depth").says("of the sheer over the base line"), length("draft").says("of the water over the same base line")},
			Result:  "length",
			Formula: "depth − draft",
			Limits:  "more than zero (a remark if not)", Source: "definition",
			Checks: []Check{{Call: "freeboard_left(17.25 in, 4.6 in)", Want: "12.65 in"}},
			Eval: func(c *Call) (calc.Value, error) {
				free := c.Number(0) - c.Number(1)
				if free <= 0 {
					c.Warn("the sheer is under water")
				}
				return calc.Length(free), nil
			},
		},
	}
}

// sayHeel remarks on heel at which the metacentre no longer stands still.
func (c *Call) sayHeel(heel float64) {
	if math.Abs(heel) > smallHeel+1e-9 {
		c.Warn("a heel of %s is no small one: beyond some 10° the metacentre wanders, and this is wrong", degreesText(heel))
	}
}
