package trade

import (
	"math"

	"scarph/calc"
)

// stationBevels are bevels taken from half-breadths and heights, and from one
// another along a timber.
func stationBevels() []Function {
	return []Function{
		{
			Name: "station_bevel", Summary: "the bevel that the side asks for at a station, from the half-breadths before and after it",
			Params:  []*Param{length("half_breadth_before"), length("half_breadth_after"), length("distance").positive()},
			Result:  "angle from square to the station, plus where the boat widens",
			Formula: "atan((after − before) / distance)",
			Limits:  "the station lies midway between the two",
			Source:  "common practice (lofting)",
			Checks:  []Check{{Call: "station_bevel(22.25 in, 25.5 in, 42 in)", Want: "4.42478°"}},
			Eval: func(c *Call) (calc.Value, error) {
				return calc.Angle(math.Atan((c.Number(1) - c.Number(0)) / c.Number(2))), nil
			},
		},
		{
			Name: "flare_angle", Summary: "the lean of a side from plumb: plus is flare, minus is tumblehome",
			Params: []*Param{
				length("half_breadth_low"), length("half_breadth_high"),
				length("height_low"), length("height_high"),
			},
			Result:  "angle from plumb",
			Formula: "atan((half_breadth_high − half_breadth_low) / (height_high − height_low))",
			Limits:  "the heights differ",
			Source:  "common practice",
			Checks:  []Check{{Call: "flare_angle(18.5 in, 25 in, 4 in, 22 in)", Want: "19.8552°"}},
			Eval: func(c *Call) (calc.Value, error) {
				rise := c.Number(3) - c.Number(2)
				if rise == 0 {
					return calc.Value{}, calc.Errorf(calc.CodeZero, "both heights are %s: a side between them has no height to lean over", In(c.Number(2)))
				}
				if rise < 0 {
					c.Warn("the low point, %s, stands above the high one, %s: are they swapped?", In(c.Number(2)), In(c.Number(3)))
				}
				return calc.Angle(math.Atan((c.Number(1) - c.Number(0)) / rise)), nil
			},
		},
		{
			Name: "deadrise_angle", Summary: "the rise of a V bottom from the level",
			Params:  []*Param{length("half_breadth").positive(), length("rise")},
			Result:  "angle from level",
			Formula: "atan(rise / half_breadth)",
			Limits:  "half-breadth more than zero",
			Source:  "common practice",
			Checks:  []Check{{Call: "deadrise_angle(21 in, 4.5 in)", Want: "12.0948°"}},
			Eval: func(c *Call) (calc.Value, error) {
				return calc.Angle(math.Atan(c.Number(1) / c.Number(0))), nil
			},
		},
		{
			Name: "rolling_bevel", Summary: "the bevel at a place along a timber, between those found at the stations",
			Params:  []*Param{bevelTable(), length("position"), fit("batten")},
			Result:  "angle, counted as the table's bevels are",
			Formula: "a natural batten through the bevels over their positions, or straight lines between them",
			Limits:  "between the first and the last station; positions rise",
			Source:  "common practice",
			Checks: []Check{
				{Call: `rolling_bevel([[57 in, 18°], [78 in, 21.5°]], 66 in, "straight")`, Want: "19.5°"},
				{Call: "rolling_bevel([[57 in, 18°], [78 in, 21.5°]], 66 in)", Want: "19.5°", Source: "two bevels: the batten is straight"},
			},
			Eval: func(c *Call) (calc.Value, error) {
				at, _, err := rollingBevel(c)
				return calc.Angle(at), err
			},
		},
		{
			Name: "rolling_bevel_mark", Summary: "what to write on a timber at a place along a rolling bevel",
			Params:  []*Param{bevelTable(), length("position"), fit("batten")},
			Result:  "record: bevel (angle), in_twelve (length), change_per_foot (angle)",
			Formula: "bevel = rolling_bevel; in_twelve = 12 in · tan(bevel); change_per_foot = slope of the bevel along the timber · 1 ft",
			Limits:  "between the first and the last station; positions rise",
			Source:  "common practice",
			Checks: []Check{
				{Call: "rolling_bevel_mark([[57 in, 18°], [78 in, 21.5°]], 66 in).change_per_foot", Want: "2°"},
				{Call: "rolling_bevel_mark([[57 in, 18°], [78 in, 21.5°]], 66 in).in_twelve", Want: "4.24943 in", Source: "12 tan 19.5°"},
			},
			Eval: func(c *Call) (calc.Value, error) {
				at, slope, err := rollingBevel(c)
				return calc.Fields(
					calc.Field{Name: "bevel", Value: calc.Angle(at)},
					calc.Field{Name: "in_twelve", Value: calc.Length(12 * Inch * math.Tan(at))},
					calc.Field{Name: "change_per_foot", Value: calc.Angle(slope * Foot)},
				), err
			},
		},
		{
			Name: "bevel_error_gap", Summary: "wood still to plane off, or already gone, when an edge was cut to another bevel than it wants",
			Params: []*Param{
				angle("angle_made").degrees(-75, 75), angle("angle_wanted").degrees(-75, 75),
				length("thickness").positive(),
			},
			Result:  "length: plus is wood still to plane off, minus is wood already cut away",
			Formula: "thickness · (tan(angle_wanted) − tan(angle_made)), the deep edge left full",
			Limits:  "from −75° to 75°; to cut again, pack or leave it is the builder's choice",
			Source:  "geometry",
			Checks:  []Check{{Call: "bevel_error_gap(19°, 21.5°, 1 1/2 in)", Want: "0.0743743 in"}},
			Eval: func(c *Call) (calc.Value, error) {
				gap := c.Number(2) * (math.Tan(c.Number(1)) - math.Tan(c.Number(0)))
				switch {
				case gap > 1e-9:
					c.Warn("%s still to plane off, the deep edge left full", small(gap))
				case gap < -1e-9:
					c.Warn("%s short: the wood is already cut away", small(-gap))
				}
				return calc.Length(gap), nil
			},
		},
	}
}

func bevelTable() *Param {
	return mixedPoints("bevel_table", calc.DimLength, calc.DimAngle).says("[[position, bevel], …]")
}

// rollingBevel returns the bevel at a position and its change per metre.
func rollingBevel(c *Call) (at, slope float64, err error) {
	xs, ys := columns(c.Points(0))
	x := c.Number(1)
	line, err := fitted(xs, ys, c.Text(2), 2)
	if err != nil {
		return 0, 0, err
	}
	if !line.Covers(x) {
		first, last := line.Ends()
		return 0, 0, calc.Errorf(calc.CodeDomain, "%s is beyond the bevels, which run from %s to %s", In(x), In(first), In(last)).
			WithHint("a bevel past the last station is a guess: draw it")
	}
	return line.At(x), line.Slope(x), nil
}
