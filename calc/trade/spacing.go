package trade

import (
	"scarph/calc"
)

func spacing() []Function {
	return []Function{
		{
			Name: "frame_spacing", Summary: "the distance of frames, centre to centre, with a frame at both ends",
			Params:  []Param{length("span").positive(), count("frame_count").atLeast(2)},
			Result:  "length",
			Formula: "span / (frame_count − 1)",
			Limits:  "at least two frames: one frame has no spacing",
			Source:  "geometry",
			Checks:  []Check{{Call: "frame_spacing(158.5 in, 9)", Want: "19.8125 in"}},
			Eval: func(c *Call) (calc.Value, error) {
				return calc.Length(c.Number(0) / (c.Number(1) - 1)), nil
			},
		},
	}
}
