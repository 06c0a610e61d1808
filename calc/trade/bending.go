package trade

import "scarph/calc"

// steaming are the rules of the steam box and of laminating on a form.
func steaming() []Function {
	return []Function{
		{
			Name: "steaming_time", Summary: "how long to steam a piece once the box is at full steam",
			Params: []*Param{length("thickness").positive().says("the smaller dimension of the piece")},
			Result: "time", Formula: "one hour to the inch of thickness",
			Limits:  "1/8 to 2 in, at 212 °F and no pressure; green wood takes about half; too long wrinkles the inner face",
			Caution: 'D', Source: "common practice",
			Checks: []Check{
				{Call: "steaming_time(7/8 in)", Want: "52.5 min"},
				{Call: "steaming_time(22 mm)", Want: "51.97 min", Tol: 1e-4, Source: "the same rule in millimetres"},
			},
			Eval: func(c *Call) (calc.Value, error) {
				t := c.Number(0)
				if t < Inch/8-1e-9 || t > 2*Inch+1e-9 {
					c.Warn("%s is outside 1/8 to 2 in, where the rule is used", In(t))
				}
				return calc.Of(t/Inch*3600, calc.DimTime).Shown(calc.InUnit("min")), nil
			},
		},
		{
			Name: "laminate_spring_back", Summary: "how far the top of a laminated curve springs back from its form",
			Params: []*Param{count("plies").within(2, 1000), length("form_rise").positive()},
			Result: "length", Formula: "form_rise / plies²",
			Limits: "two plies or more, all alike, glued on the form; elastic, so wood that creeps or was steamed springs less",
			Source: "beam theory: loose plies carry 1/plies² of the solid's stiffness",
			Checks: []Check{{Call: "laminate_spring_back(6, 9 in)", Want: "0.25 in"}},
			Eval: func(c *Call) (calc.Value, error) {
				return calc.Length(c.Number(1) / (c.Number(0) * c.Number(0))), nil
			},
		},
		{
			Name: "form_rise_for", Summary: "the rise to give a form so that the piece keeps the rise that is wanted",
			Params: []*Param{length("wanted_rise").positive(), count("plies").within(2, 1000)},
			Result: "length", Formula: "wanted_rise / (1 − 1/plies²)",
			Limits: "two plies or more, all alike, glued on the form; elastic, without creep",
			Source: "beam theory: loose plies carry 1/plies² of the solid's stiffness",
			Checks: []Check{{Call: "form_rise_for(9 in, 6)", Want: "9.25714 in"}},
			Eval: func(c *Call) (calc.Value, error) {
				n := c.Number(1)
				return calc.Length(c.Number(0) / (1 - 1/(n*n))), nil
			},
		},
		{
			Name: "ply_thickness_for_radius", Summary: "the thickest ply that bends to a radius",
			Params: []*Param{length("radius").positive(), percent("strain_limit", 0.01, 10).says("stretch of the outer face, from a test strip")},
			Result: "length", Formula: "2 · radius · strain_limit",
			Limits: "a strain from a test strip of the same wood: 0.4 to 1 % cold; thin against the radius",
			Source: "beam theory",
			Checks: []Check{{Call: "ply_thickness_for_radius(14 in, 0.5 %)", Want: "0.14 in"}},
			Eval: func(c *Call) (calc.Value, error) {
				if e := c.Number(1); e < 0.004-1e-12 || e > 0.01+1e-12 {
					c.Warn("a strain of %s: dry wood bent cold breaks from about 0.4 to 1 %%; try a strip", calc.Style{}.Text(asPercent(e)))
				}
				return calc.Length(2 * c.Number(0) * c.Number(1)), nil
			},
		},
	}
}
