package trade

import (
	"math"

	"scarph/calc"
	"scarph/calc/draw"
)

func stripDrawings() []Function {
	return []Function{
		{
			Name: "tick_strip", Summary: "running marks from one zero on a strip of paper, read from either end; prints at true size",
			Params:  []*Param{lengths("marks")},
			Formula: "over each mark its distance from the zero, under it the distance back from the last mark",
			Limits:  "one mark or more, up to 500", Source: "common practice",
			Checks: []Check{{Call: "tick_strip(mark_positions(0 in, 14.318181818 in, 12))", Want: `"Tick strip of 12 marks from one zero, the last at 13′ 1 1/2″."`, Source: "eleven spaces of 157.5/11 in"}},
			Eval: func(c *Call) (calc.Value, error) {
				marks := c.Numbers(0)
				if len(marks) == 0 {
					return calc.Value{}, calc.Errorf(calc.CodeShape, "tick_strip: no mark is given")
				}
				d := &draw.TickStrip{Marks: marks}
				if l := c.Labels(0); l != nil {
					d.Names = stationNames(l, len(marks))
				}
				return drawn(d)
			},
		},
		{
			Name: "bevel_strip", Summary: "a bevel along its run: each station's angle with a wedge drawn to it, and what was made against what is wanted now; prints at true size",
			Params: []*Param{
				lengths("positions"), listOf("bevels", calc.DimAngle).degrees(-85, 85).says("from square, one a station"),
				{Name: "made", Kind: Any, Optional: true, Doc: `the angle that was sawn, or one a station; "none" for not yet`},
				length("thickness").positive().optional(calc.Value{}).says("of the bevelled edge; with it the strip says what is to plane off or short"),
			},
			Formula: "wedge of each angle; to plane off = thickness · (tan(bevel) − tan(made)), the deep edge left full",
			Limits:  "as many bevels as positions; positions rise; bevels under 85° from square", Source: "common practice",
			Checks: []Check{
				{Call: "bevel_strip([0 in, 20 in, 40 in], [10°, 14°, 16°], 13°, 1 1/2 in)", Want: `"Bevel strip of 3 stations: from 10° at 1 to 16° at 3, from square; cut short at 1."`, Source: "10° is less than the 13° sawn"},
			},
			Eval: bevelStrip,
		},
		{
			Name: "fairness_plot", Summary: "each station off the batten through the others, magnified, the worst of them named",
			Params:  fairnessParams(),
			Formula: "as fairness: offset less the batten through all other stations",
			Limits:  "five stations or more; the ends are not judged, and those next to them are marked as end effect",
			Source:  "common practice (spring the batten, pull one nail)",
			Checks: []Check{{Call: "fairness_plot([0 in, 8 in, 13.5 in, 15 in, 16 in], [0 in, 20 in, 40 in, 60 in, 80 in])",
				Want: `"Fairness, 5 stations: worst is 3, 0.688 in more than the batten: mend the worst, then look again."`, Source: "as fairness_bump: 0.6875 in at 40 in"}},
			Eval: func(c *Call) (calc.Value, error) {
				j, err := judge(c)
				if err != nil {
					return calc.Value{}, err
				}
				j.remark(c)
				labels := c.Labels(0)
				if labels == nil {
					labels = c.Labels(1)
				}
				return drawn(&draw.Fairness{Stations: stationNames(labels, len(j.xs)), At: j.xs, Values: j.ys})
			},
		},
	}
}

func bevelStrip(c *Call) (calc.Value, error) {
	if err := sameLength(c, 0, 1); err != nil {
		return calc.Value{}, err
	}
	d := &draw.BevelStrip{At: c.Numbers(0), Bevels: c.Numbers(1)}
	if len(d.At) == 0 {
		return calc.Value{}, calc.Errorf(calc.CodeShape, "bevel_strip: no station is given")
	}
	if err := risingPositions(d.At); err != nil {
		return calc.Value{}, err
	}
	labels := c.Labels(1)
	if labels == nil {
		labels = c.Labels(0)
	}
	d.Stations = stationNames(labels, len(d.At))
	var err error
	if d.Made, err = angles(c, 2, len(d.At), "stations"); err != nil {
		return calc.Value{}, err
	}
	if c.Given(3) {
		d.Thick = c.Number(3)
	}
	for i := range d.Bevels {
		if gap := d.Gap(i); gap < -0.05e-3 {
			c.Warn("%s: %s short, already cut away", d.Stations[i], small(-gap))
		} else if math.IsNaN(gap) && d.Thick > 0 && d.Made != nil {
			c.Warn("%s has no angle that was made", d.Stations[i])
		}
	}
	return drawn(d)
}
