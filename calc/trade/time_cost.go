package trade

import (
	"math"

	"scarph/calc"
)

// timeAndCost are the sums of hours, and of parts made before the numbers changed.
func timeAndCost() []Function {
	return []Function{
		{
			Name: "hours_left", Summary: "the hours still to come, at the pace so far",
			Params:  []*Param{count("done_units").within(1, noLimit), count("total_units").atLeast(1), hours("hours_so_far").notNegative()},
			Result:  "time",
			Formula: "hours_so_far / done_units · (total_units − done_units)",
			Limits:  "at least one done; the pace of the first pieces is slower than that of the last",
			Source:  "common practice",
			Checks: []Check{
				{Call: "hours_left(3, 9, 13.5 h)", Want: "27 h"},
				{Call: "hours_left(9, 9, 40 h)", Want: "0 h", Source: "all done"},
			},
			Eval: func(c *Call) (calc.Value, error) {
				done, total := c.Number(0), c.Number(1)
				if done > total {
					return calc.Value{}, calc.Errorf(calc.CodeDomain, "%s are done of only %s", trim(done), trim(total)).
						WithHint("are the two swapped? Those done are written first")
				}
				return calc.Of(c.Number(2)/done*(total-done), calc.DimTime), nil
			},
		},
		{
			Name: "repeated_part_time", Summary: "the hours of so many parts alike, when each doubling of their number makes them faster",
			Params: []*Param{
				hours("first_time").positive(), count("number").within(1, 10000),
				percent("learning", 70, 100).says("what the hours of a part come to each time the number doubles; 85 % is usual by hand"),
			},
			Result:  "time, of all together",
			Formula: "Σ first_time · n^(log₂ learning), n = 1 … number",
			Limits:  "learning from 70 % to 100 %; 100 % means no gain",
			Source:  "learning curve, common practice",
			Checks: []Check{
				{Call: "repeated_part_time(5 h, 9, 85 %)", Want: "32.6662 h"},
				{Call: "repeated_part_time(5 h, 2, 80 %)", Want: "9 h", Source: "5 + 5 · 0.8"},
				{Call: "repeated_part_time(5 h, 7, 100 %)", Want: "35 h", Source: "no gain"},
			},
			Eval: func(c *Call) (calc.Value, error) {
				power, sum := math.Log2(c.Number(2)), 0.0
				for n := 1; n <= c.Int(1); n++ {
					sum += math.Pow(float64(n), power)
				}
				return calc.Of(c.Number(0)*sum, calc.DimTime), nil
			},
		},
		{
			Name: "made_against_now", Summary: "how far a part that is made is off the size it should have now",
			Params:  []*Param{anything("size_when_made").says("as it was cut, on its day"), anything("size_now")},
			Result:  "quantity of the same dimension: plus when the part was made too large",
			Formula: "size_when_made − size_now",
			Limits:  "both of one dimension; the made size stands fast at what was cut and is not worked out again",
			Source:  "common practice",
			Checks: []Check{
				{Call: "made_against_now(45 7/8 in, 46 1/4 in)", Want: "-0.375 in"},
				{Call: "made_against_now(13°, 9.987°)", Want: "3.013°", Source: "arithmetic"},
			},
			Eval: func(c *Call) (calc.Value, error) {
				d := c.Dim(0)
				if c.Dim(1) != d {
					return calc.Value{}, calc.Errorf(calc.CodeDimension, "made_against_now: the made size is %s, the size now is %s", d.A(), c.Dim(1).A()).
						WithHint("give both in the same kind of unit")
				}
				off := c.Number(0) - c.Number(1)
				if d == calc.DimLength {
					c.sayOff(off, "made %s too small", "made %s too large")
				}
				return calc.Of(off, d.Difference()), nil
			},
		},
	}
}

// sayOff says a difference of lengths in words, for its sign alone tells no side.
func (c *Call) sayOff(v float64, below, above string) {
	switch {
	case v < -1e-9:
		c.Warn(below, bothWays(-v))
	case v > 1e-9:
		c.Warn(above, bothWays(v))
	}
}
