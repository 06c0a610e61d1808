package trade

import (
	"math"

	"scarph/calc"
)

// weights are the sums of weights and their places. All places of one sum are
// counted from one datum, named once: the stem, say, plus aft.
func weights() []Function {
	const datum = "all places from one datum, plus one way; which datum, stem or transom, is yours to say"
	return []Function{
		{
			Name: "centre_of_weight", Summary: "where the weight of several things together acts",
			Params:  []*Param{mixedPoints("items", calc.DimMass, calc.DimLength).says("[[weight, position], …]")},
			Result:  "length from the datum",
			Formula: "Σ weight · position / Σ weight",
			Limits:  datum + "; the weights do not cancel out (a weight taken away is below zero)",
			Source:  "statics",
			Checks: []Check{
				{Call: "centre_of_weight([[148 lb, 84 in], [170 lb, 96 in], [160 lb, 138 in]])", Want: "106.343 in"},
			},
			Eval: func(c *Call) (calc.Value, error) {
				total, moment, size := 0.0, 0.0, 0.0
				for _, it := range c.Points(0) {
					total += it[0]
					moment += it[0] * it[1]
					size += math.Abs(it[0])
				}
				if math.Abs(total) <= 1e-12*size {
					return calc.Value{}, calc.Errorf(calc.CodeZero, "the weights come to nothing: there is no centre").
						WithHint("give at least one weight; one taken away is written below zero")
				}
				return calc.Length(moment / total), nil
			},
		},
		{
			Name: "weight_moved_shift", Summary: "how far the centre of the whole moves when one weight aboard is moved",
			Params:  []*Param{mass("weight").notNegative(), length("distance"), mass("total").positive().says("of everything, the moved weight with it")},
			Result:  "length, the way the weight went",
			Formula: "weight · distance / total",
			Limits:  "the total holds the moved weight",
			Source:  "statics",
			Checks:  []Check{{Call: "weight_moved_shift(160 lb, 22 in, 478 lb)", Want: "7.36402 in"}},
			Eval: func(c *Call) (calc.Value, error) {
				if c.Number(0) > c.Number(2) {
					c.Warn("the moved weight, %s, is more than the total, %s: does the total hold it?", text(c.Value(0)), text(c.Value(2)))
				}
				return calc.Length(c.Number(0) * c.Number(1) / c.Number(2)), nil
			},
		},
		{
			Name: "weight_added_centre", Summary: "where the centre lies after a weight came aboard, or (below zero) went ashore",
			Params: []*Param{
				mass("total").positive(), length("centre"), mass("added").says("below zero for a weight taken away"), length("added_position"),
			},
			Result:  "length from the datum",
			Formula: "(total · centre + added · added_position) / (total + added)",
			Limits:  datum + "; something is left",
			Source:  "statics",
			Checks: []Check{
				// the printed 110.989 comes of a centre not yet rounded to 106.09
				{Call: "weight_added_centre(478 lb, 106.09 in, 60 lb, 150 in)", Want: "110.989 in", Tol: 2e-5},
				{Call: "weight_added_centre(478 lb, 106.09 in, 60 lb, 150 in)", Want: "59711.02 in / 538", Source: "arithmetic"},
			},
			Eval: func(c *Call) (calc.Value, error) {
				w, added := c.Number(0), c.Number(2)
				if w+added <= 1e-12*w {
					return calc.Value{}, calc.Errorf(calc.CodeZero, "%s less %s leaves nothing to have a centre", text(c.Value(0)), text(calc.Mass(-added)))
				}
				return calc.Length((w*c.Number(1) + added*c.Number(3)) / (w + added)), nil
			},
		},
		{
			Name: "scale_reading_weight", Summary: "weight and centre of a boat that stands on two scales",
			Params:  []*Param{mass("front").notNegative(), mass("aft").notNegative(), length("distance").positive().says("between the two supports")},
			Result:  "record: total (mass), centre (length aft of the front scale)",
			Formula: "total = front + aft; centre = aft · distance / total",
			Limits:  "neither reading below zero; the boat level, the supports plumb over the scales",
			Source:  "statics",
			Checks: []Check{
				{Call: "scale_reading_weight(66 lb, 82 lb, 150 in).centre", Want: "83.1081 in"},
				{Call: "scale_reading_weight(66 lb, 82 lb, 150 in).total", Want: "148 lb", Source: "arithmetic"},
			},
			Eval: func(c *Call) (calc.Value, error) {
				total := c.Number(0) + c.Number(1)
				if total == 0 {
					return calc.Value{}, calc.Errorf(calc.CodeZero, "both scales read nothing")
				}
				return calc.Fields(
					calc.Field{Name: "total", Value: calc.Mass(total)},
					calc.Field{Name: "centre", Value: calc.Length(c.Number(1) * c.Number(2) / total)},
				), nil
			},
		},
	}
}

// text writes a value for a sentence.
func text(v calc.Value) string { return calc.Recognised(v) }
