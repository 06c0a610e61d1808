package trade

import (
	"math"

	"scarph/calc"
)

// liningOff shares the girth of the sections out among the planks.
func liningOff() []Function {
	return []Function{
		{
			Name: "lining_off_widths", Summary: "the width of each plank when all share the girth alike, laps included",
			Params: []*Param{
				length("girth").positive(), count("plank_count").within(1, 1000),
				length("allowance_per_lap").orZero().notNegative().says("0 for carvel"),
			},
			Result:  "length",
			Formula: "(girth + (plank_count − 1) · lap) / plank_count",
			Limits:  "one plank or more; the lap is less than a plank's share of the girth",
			Source:  "common practice",
			Checks: []Check{
				{Call: "lining_off_widths(29.5 in, 7, 3/4 in)", Want: "4.85714 in"},
				{Call: "lining_off_widths(28 in, 7, 0)", Want: "4 in", Source: "carvel: girth over planks"},
			},
			Eval: func(c *Call) (calc.Value, error) {
				girth, n, lap := c.Number(0), c.Number(1), c.Number(2)
				if err := lapFits(lap, girth/n); err != nil {
					return calc.Value{}, err
				}
				return calc.Length((girth + (n-1)*lap) / n), nil
			},
		},
		{
			Name: "lining_off_shares", Summary: "the widths of planks that share the girth unlike, such as a wide garboard and a narrow sheer strake",
			Params: []*Param{
				length("girth").positive(), listOf("shares", calc.DimNumber),
				length("allowance_per_lap").orZero().notNegative().says("0 for carvel"),
			},
			Result:  "list of lengths",
			Formula: "(girth + (n − 1) · lap) · share / Σ share",
			Limits:  "shares more than zero; every plank is wider than the lap",
			Source:  "common practice",
			Checks:  []Check{{Call: "lining_off_shares(28 in, [3, 2, 2], 0)", Want: "[12 in, 8 in, 8 in]", Source: "arithmetic"}},
			Eval: func(c *Call) (calc.Value, error) {
				girth, shares, lap := c.Number(0), c.Numbers(1), c.Number(2)
				total, least := 0.0, math.Inf(1)
				for i, s := range shares {
					if s <= 0 {
						return calc.Value{}, calc.Errorf(calc.CodeDomain, "the share of plank %d is not more than zero", i+1)
					}
					total += s
					least = math.Min(least, s)
				}
				if len(shares) == 0 {
					return calc.Value{}, calc.Errorf(calc.CodeShape, "no plank has a share")
				}
				all := girth + float64(len(shares)-1)*lap
				if err := lapFits(lap, all*least/total); err != nil {
					return calc.Value{}, err
				}
				widths := make([]calc.Value, len(shares))
				for i, s := range shares {
					widths[i] = calc.Length(all * s / total)
				}
				return calc.Labelled(c.Labels(1), widths), nil
			},
		},
		{
			Name: "lining_off_marks", Summary: "where the upper edges of planks come along the girth, from the lower edge of the first",
			Params:  []*Param{lengths("widths"), length("allowance_per_lap").orZero().notNegative()},
			Result:  "list of lengths",
			Formula: "mark k = Σ widths to k − (k − 1) · lap",
			Limits:  "every plank is wider than the lap",
			Source:  "common practice",
			Checks:  []Check{{Call: "lining_off_marks([5 in, 4 in, 4 in], 3/4 in)", Want: "[5 in, 8.25 in, 11.5 in]", Source: "arithmetic"}},
			Eval: func(c *Call) (calc.Value, error) {
				lap := c.Number(1)
				marks := make([]calc.Value, len(c.Numbers(0)))
				at := lap
				for i, w := range c.Numbers(0) {
					if err := lapFits(lap, w); err != nil {
						return calc.Value{}, err
					}
					at += w - lap
					marks[i] = calc.Length(at)
				}
				return calc.Labelled(c.Labels(0), marks), nil
			},
		},
		{
			Name: "lining_off_taper", Summary: "the width of a plank at a station when it keeps its share of the girth",
			Params:  []*Param{length("midship_width").positive(), length("midship_girth").positive(), length("station_girth").positive()},
			Result:  "length",
			Formula: "midship_width · station_girth / midship_girth",
			Limits:  "girths more than zero",
			Source:  "common practice",
			Checks:  []Check{{Call: "lining_off_taper(4.857 in, 29.5 in, 22.25 in)", Want: "3.66333 in"}},
			Eval: func(c *Call) (calc.Value, error) {
				return calc.Length(c.Number(0) * c.Number(2) / c.Number(1)), nil
			},
		},
	}
}

// lapFits refuses a lap as wide as what it is taken from.
func lapFits(lap, width float64) error {
	if lap < width {
		return nil
	}
	return calc.Errorf(calc.CodeDomain, "the lap, %s, is not less than a plank's width, %s", In(lap), In(width)).
		WithHint("fewer planks, or a narrower lap")
}

// deductions lay off parts inside the planking from what was measured outside.
func deductions() []Function {
	return []Function{
		{
			Name: "mould_offset_for_planking", Summary: "the half-breadth of a mould, from that of the outside of the planking",
			Params:  []*Param{length("offset").positive(), length("plank_thickness").positive(), angle("bevel_angle").degrees(-60, 60)},
			Result:  "length",
			Formula: "offset − plank_thickness / cos(bevel_angle)",
			Limits:  "bevel from −60° to 60°, counted from square; something is left",
			Source:  "common practice (lofting)",
			Checks:  []Check{{Call: "mould_offset_for_planking(25.5 in, 5/8 in, 14°)", Want: "24.8559 in"}},
			Eval: func(c *Call) (calc.Value, error) {
				inside := c.Number(0) - c.Number(1)/math.Cos(c.Number(2))
				if inside <= 0 {
					return calc.Value{}, calc.Errorf(calc.CodeDomain, "planking of %s leaves nothing of an offset of %s", In(c.Number(1)), In(c.Number(0))).
						WithHint("is the thickness in the right unit?")
				}
				return calc.Length(inside), nil
			},
		},
		{
			Name: "strongback_height", Summary: "the leg of a mould set up bottom side up: from the strongback to a height of the boat",
			Params: []*Param{
				length("reference_height").positive().says("of the boat's base line over the strongback"),
				length("building_height").says("of the point over the base line, right side up"),
			},
			Result:  "length",
			Formula: "reference_height − building_height",
			Limits:  "something is left, or the station would go through the floor",
			Source:  "geometry",
			Checks:  []Check{{Call: "strongback_height(40 in, 22 5/8 in)", Want: "17.375 in"}},
			Eval: func(c *Call) (calc.Value, error) {
				leg := c.Number(0) - c.Number(1)
				if leg <= 0 {
					return calc.Value{}, calc.Errorf(calc.CodeDomain, "a height of %s under a base line at %s goes through the floor", In(c.Number(1)), In(c.Number(0))).
						WithHint("raise the base line, or are the two swapped?")
				}
				return calc.Length(leg), nil
			},
		},
		{
			Name: "thwart_length", Summary: "the length of a thwart between the planking at its height",
			Params: []*Param{
				length("half_breadth_at_height").positive().says("outside of planking, at the thwart's lower edge where the side flares"),
				length("plank_thickness").positive(), angle("flare").degrees(-60, 60),
				length("fit").orZero().notNegative().says("the clearance of the whole length, each boat's own"),
			},
			Result:  "length",
			Formula: "2 · (half_breadth_at_height − plank_thickness / cos(flare)) − fit",
			Limits:  "something is left; flare from −60° to 60°",
			Source:  "common practice",
			Checks:  []Check{{Call: "thwart_length(25 in, 5/8 in, 19.86°, 1/16 in)", Want: "48.6085 in"}},
			Eval: func(c *Call) (calc.Value, error) {
				inside := 2*(c.Number(0)-c.Number(1)/math.Cos(c.Number(2))) - c.Number(3)
				if inside <= 0 {
					return calc.Value{}, calc.Errorf(calc.CodeDomain, "planking and clearance leave nothing between the sides").
						WithHint("half-breadth %s, plank %s, clearance %s: is one in another unit?", In(c.Number(0)), In(c.Number(1)), In(c.Number(3)))
				}
				return calc.Length(inside), nil
			},
		},
	}
}
