package trade

import (
	"math"

	"scarph/calc"
	"scarph/calc/tables"
)

func screws() []Function {
	return []Function{
		{
			Name: "screw_diameter", Summary: "the body of a wood screw by its gauge",
			Params: []*Param{count("gauge_number").within(0, 24)},
			Result: "length", Formula: "0.060 in + 0.013 in · gauge_number",
			Limits:  "gauges 0 to 24; the British rule 0.066 + 0.014 · (n − 1) in agrees only at no. 8",
			Source:  "ASME B18.6.1 (wood screws), basic diameter",
			Stepped: true,
			Checks: []Check{
				{Call: "screw_diameter(8)", Want: "0.164 in"},
				{Call: "screw_diameter(12)", Want: "0.216 in"},
			},
			Eval: func(c *Call) (calc.Value, error) {
				return decimals((0.060 + 0.013*c.Number(0)) * Inch), nil
			},
		},
		{
			Name: "screw_length_for", Summary: "the length of screw for a plank, to the nearest quarter inch",
			Params: []*Param{
				length("plank_thickness").positive(), number("factor").positive().says("2 to 2.5"),
				length("frame_thickness").positive().optional(calc.Value{}).says("what the screw goes into, if an eighth must be left"),
			},
			Result: "length", Formula: "factor · plank_thickness, moved to the nearest 1/4 in that leaves 1/8 in of the frame",
			Limits:  "factor 2 to 2.5; longer than plank and frame less 1/8 in would come through",
			Caution: 'B', Source: "common practice", Stepped: true,
			Checks: []Check{
				{Call: "screw_length_for(5/8 in, 2.4)", Want: "1.5 in"},
				{Call: "screw_length_for(3/4 in, 2)", Want: "1.5 in", Source: "Nevins and Herreshoff rules for wooden yachts, planking screw table: no. 12 by 1 1/2 in"},
				{Call: "screw_length_for(5/8 in, 2.4, 7/8 in)", Want: "1.25 in", Source: "arithmetic: 1 1/2 in would leave nothing of the frame"},
			},
			Eval: screwLength,
		},
		{
			Name: "pilot_hole", Summary: "the lead hole for the thread of a screw",
			Params: []*Param{
				tabled("root_diameter", calc.DimLength, "screws", "root diameter").positive().says("or a screw: no. 8"),
				choice("wood_kind", "softwood", "hardwood"),
			},
			Result: "length", Formula: "softwood 0.70 · root_diameter; hardwood 0.90 · root_diameter",
			Limits: "for the greatest hold in withdrawal; practical tables for boats run 1/64 to 1/32 in larger: try one in scrap",
			Source: "AWC National Design Specification for Wood Construction, wood screws in withdrawal (0.90 where G > 0.6, 0.70 from 0.5 to 0.6), and its Commentary 11.1.2",
			Checks: []Check{
				{Call: `pilot_hole(0.122 in, "hardwood")`, Want: "0.1098 in"},
				{Call: `pilot_hole("no. 12", "hardwood")`, Want: "0.1332 in"},
				{Call: `pilot_hole("no. 12", "softwood")`, Want: "0.1036 in"},
			},
			Eval: func(c *Call) (calc.Value, error) {
				share := 0.70
				if c.Text(1) == "hardwood" {
					share = 0.90
				}
				return decimals(share * c.Number(0)), nil
			},
		},
	}
}

// decimals shows a small length in decimals of an inch, where a sixteenth would
// swallow it.
func decimals(v float64) calc.Value { return calc.Length(v).Shown(calc.InUnit("in")) }

func screwLength(c *Call) (calc.Value, error) {
	const quarter = Inch / 4
	plank, factor := c.Number(0), c.Number(1)
	wanted := plank * factor
	n := math.Round(wanted / quarter)
	if math.Abs(wanted/quarter-n) > 0.5-1e-9 {
		n = wholeUp(wanted / quarter) // a half goes up: the longer screw holds
	}
	if factor < 2-1e-9 || factor > 2.5+1e-9 {
		c.Warn("a factor of %s: 2 to 2.5 times the plank is usual", trim(factor))
	}
	if c.Given(2) {
		room := plank + c.Number(2) - Inch/8
		if most := whole(room / quarter); n > most {
			c.Warn("%s would come through or leave less than 1/8 in of the frame; this is the longest that does not", In(n*quarter))
			n = most
		}
	}
	if n*quarter <= plank {
		return calc.Value{}, Refuse("screw_length_for: no quarter-inch length goes through the plank and stays in the frame")
	}
	return calc.Length(n * quarter), nil
}

// holding are the loads at which fastenings pull out.
func holding() []Function {
	withdrawal := func(name, what, deep, formula, source, table string, coefficient float64, power float64, checks []Check) Function {
		return Function{
			Name: name, Summary: "the load at which a " + what + " pulls out of side grain",
			Params: []*Param{
				tabled("specific_gravity", calc.DimNumber, "wood", tables.Gravity).within(0.1, 1.2).says("oven-dry weight over volume at 12 %, or a wood"),
				tabled("diameter", calc.DimLength, table, "diameter").positive(), length(deep).positive(),
			},
			Result: "force", Formula: formula,
			Limits:  "the load at failure: divide it, commonly by 4 to 5; side grain only, with the right lead hole",
			Caution: 'B', Source: source, Checks: checks,
			Eval: func(c *Call) (calc.Value, error) {
				in := coefficient * math.Pow(c.Number(0), power) * c.Number(1) * c.Number(2) / (Inch * Inch)
				if c.Number(2) < 2*c.Number(1) {
					c.Warn("so little of the %s is in the wood that it has hardly a hold", what)
				}
				return calc.Of(in*Pound*standardGravity, calc.DimForce), nil
			},
		}
	}
	return []Function{
		withdrawal("screw_withdrawal", "wood screw", "thread_length",
			"15 700 · G² · D · L lbf, D and L in inches; 108.25 · G² · D · L N in millimetres",
			"USDA Forest Products Laboratory, Wood Handbook, FPL-GTR-190 (2010), ch. 8 (coefficient from memory; 5.5 times the allowable 2850 of NDS eq. 12.2-2)",
			"screws", 15700, 2, []Check{
				{Call: "screw_withdrawal(0.68, 0.164 in, 7/8 in)", Want: "1041.76 lbf"},
				{Call: `screw_withdrawal("white oak", "no. 10", 1 in)`, Want: "1379.3 lbf", Tol: 1e-4, Source: "15 700 · 0.68² · 0.190 by hand"},
				{Call: "screw_withdrawal(0.68, 4.826 mm, 25.4 mm)", Want: "6136 N", Tol: 2e-4, Source: "the metric form, 108.25 N/mm², rounds the coefficient"},
			}),
		withdrawal("nail_withdrawal", "smooth nail", "penetration",
			"7 850 · G^2.5 · D · L lbf, D and L in inches; 54.12 · G^2.5 · D · L N in millimetres",
			"USDA Forest Products Laboratory, Wood Handbook, FPL-GTR-190 (2010), ch. 8 (coefficient from memory; older tables have 6900 with G by oven-dry volume)",
			"nails", 7850, 2.5, []Check{
				{Call: "nail_withdrawal(0.31, 0.113 in, 1 in)", Want: "47.4627 lbf"},
				{Call: `nail_withdrawal(0.31, "6d", 1 in)`, Want: "47.4627 lbf"},
				{Call: `nail_withdrawal(0.45, "8d", 1 in)`, Want: "139.7 lbf", Tol: 5e-4, Source: "7 850 · 0.45^2.5 · 0.131 by hand"},
			}),
	}
}

// standardGravity is exact by definition, in m/s².
const standardGravity = 9.80665

func lengthsAndCounts() []Function {
	return []Function{
		{
			Name: "fastenings_total", Summary: "how many fastenings the crossings of planks and frames take",
			Params: []*Param{count("planks").atLeast(1), count("frames").atLeast(1), count("per_crossing").atLeast(1)},
			Result: "count", Formula: "planks · frames · per_crossing",
			Limits: "whole numbers; spares are for fastenings_to_buy", Source: "common practice", Stepped: true,
			Checks: []Check{{Call: "fastenings_total(8, 9, 2)", Want: "144"}},
			Eval: func(c *Call) (calc.Value, error) {
				return calc.Number(c.Number(0) * c.Number(1) * c.Number(2)), nil
			},
		},
		{
			Name: "fastenings_to_buy", Summary: "how many boxes to buy, spares included",
			Params: []*Param{count("count").atLeast(0), percent("spare_percent", 0, 200), count("box_count").atLeast(1)},
			Result: "count", Formula: "⌈count · (1 + spare_percent) / box_count⌉",
			Limits: "one or more in a box", Source: "common practice", Stepped: true,
			Checks: []Check{
				{Call: "fastenings_to_buy(438, 10 %, 100)", Want: "5"},
				{Call: "fastenings_to_buy(400, 25 %, 100)", Want: "5", Source: "a full box does not go up"},
			},
			Eval: func(c *Call) (calc.Value, error) {
				return calc.Number(wholeUp(c.Number(0) * (1 + c.Number(1)) / c.Number(2))), nil
			},
		},
		{
			Name: "rivet_length", Summary: "the length of a copper nail, cut off above the rove, to peen over",
			Params: []*Param{
				length("plank_1").positive(), length("plank_2").positive(),
				rivet("diameter"), number("factor").positive().says("1 to 1.5 diameters to peen"),
				length("rove").notNegative().optional(calc.Inches(1.0 / 16)).says("thickness of the rove, 1/16 in unless given"),
			},
			Result: "length", Formula: "plank_1 + plank_2 + rove + factor · diameter",
			Limits: "factor more than zero, 1 to 1.5 in use", Source: "common practice",
			Checks: []Check{
				{Call: "rivet_length(7/16 in, 7/16 in, 0.109 in, 1.5)", Want: "1.101 in"},
				{Call: `rivet_length(9 mm, 9 mm, "12 gauge copper nail", 1, 1.5 mm)`, Want: "22.15 mm", Source: "arithmetic"},
			},
			Eval: func(c *Call) (calc.Value, error) {
				if f := c.Number(3); f < 1-1e-9 || f > 1.5+1e-9 {
					c.Warn("%s diameters to peen: 1 to 1.5 is usual", trim(f))
				}
				return calc.Length(c.Number(0) + c.Number(1) + c.Number(4) + c.Number(3)*c.Number(2)), nil
			},
		},
		{
			Name: "clench_nail_length", Summary: "the length of a nail that goes through two planks and is turned over",
			Params: []*Param{length("plank_1").positive(), length("plank_2").positive(), length("turn").positive().says("about 1/4 to 3/8 in")},
			Result: "length", Formula: "plank_1 + plank_2 + turn",
			Limits: "all more than zero", Source: "common practice",
			Checks: []Check{{Call: "clench_nail_length(3/8 in, 3/8 in, 5/16 in)", Want: "1.0625 in"}},
			Eval: func(c *Call) (calc.Value, error) {
				if t := c.Number(2); t < 0.2*Inch || t > 0.5*Inch {
					c.Warn("a turn of %s: about 1/4 to 3/8 in is usual", In(t))
				}
				return calc.Length(c.Number(0) + c.Number(1) + c.Number(2)), nil
			},
		},
		{
			Name: "bolt_length", Summary: "the length of a bolt under its head",
			Params: []*Param{length("grip").positive(), length("washer").orZero().notNegative().says("of all the washers"), length("nut").positive(), length("threads_showing").orZero().notNegative().says("about two threads")},
			Result: "length", Formula: "grip + washer + nut + threads_showing",
			Limits: "grip and nut more than zero", Source: "common practice",
			Checks: []Check{{Call: "bolt_length(3 1/4 in, 1/16 in, 5/16 in, 1/8 in)", Want: "3.75 in"}},
			Eval: func(c *Call) (calc.Value, error) {
				return calc.Length(c.Number(0) + c.Number(1) + c.Number(2) + c.Number(3)), nil
			},
		},
	}
}

// rivet takes a diameter, the name of a nail, or a wire gauge: SWG 12.
func rivet(name string) *Param {
	find := func(s string) (tables.Row, error) {
		if r, err := tables.Lookup("gauges", s, "diameter"); err == nil {
			return r, nil
		}
		return tables.Lookup("nails", s, "diameter")
	}
	return rowed(name, calc.DimLength, "nails", []string{"diameter"}, find).positive()
}
