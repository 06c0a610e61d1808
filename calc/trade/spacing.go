package trade

import (
	"math"

	"scarph/calc"
)

// spaces are fence-post sums: so many pieces, so many gaps.
func spaces() []Function {
	return []Function{
		{
			Name: "spaces_from_frames", Summary: "how many spaces lie between so many frames",
			Params:  []*Param{count("frame_count").atLeast(1), choice("ends", "both", "one", "neither", "ring")},
			Result:  "number",
			Formula: "frames − 1 with a frame at both ends; frames with one at one end, or round a ring; frames + 1 with none at the ends",
			Limits:  "one frame or more",
			Source:  "geometry (a fence of ten spaces has eleven posts)",
			Stepped: true,
			Checks: []Check{
				{Call: `spaces_from_frames(11, "both")`, Want: "10"},
				{Call: `spaces_from_frames(11, "ring")`, Want: "11", Source: "geometry"},
				{Call: `spaces_from_frames(11, "neither")`, Want: "12", Source: "geometry"},
			},
			Eval: func(c *Call) (calc.Value, error) {
				return calc.Number(c.Number(0) + map[string]float64{"both": -1, "neither": 1}[c.Text(1)]), nil
			},
		},
		{
			Name: "frame_spacing", Summary: "the distance of frames, centre to centre, with a frame at both ends",
			Params:  []*Param{length("span").positive(), count("frame_count").atLeast(2)},
			Result:  "length",
			Formula: "span / (frame_count − 1)",
			Limits:  "at least two frames: one frame has no spacing",
			Source:  "geometry",
			Checks:  []Check{{Call: "frame_spacing(158.5 in, 9)", Want: "19.8125 in"}},
			Eval: func(c *Call) (calc.Value, error) {
				return calc.Length(c.Number(0) / (c.Number(1) - 1)), nil
			},
		},
		{
			Name: "frames_needed", Summary: "the fewest frames that stand no further apart than a greatest spacing, with one at both ends",
			Params:  []*Param{length("span").positive(), length("maximum_spacing").positive()},
			Result:  "number",
			Formula: "⌈span / maximum_spacing⌉ + 1",
			Limits:  "the spacing is more than zero",
			Source:  "geometry",
			Stepped: true,
			Checks: []Check{
				{Call: "frames_needed(158.5 in, 16 in)", Want: "11"},
				{Call: "frames_needed(160 in, 16 in)", Want: "11", Source: "geometry: ten spaces exactly"},
			},
			Eval: func(c *Call) (calc.Value, error) {
				return calc.Number(wholeUp(c.Number(0)/c.Number(1)) + 1), nil
			},
		},
		{
			Name: "clear_gap", Summary: "the even gap between pieces laid in a space",
			Params: []*Param{
				length("span").positive(), length("piece_width").positive(), count("count").atLeast(1),
				choice("ends", "gaps at ends", "tight to ends"),
			},
			Result:  "length",
			Formula: "(span − count · piece_width) / (count + 1) with a gap at both ends, / (count − 1) with a piece tight to each",
			Limits:  "the pieces together are shorter than the space; two pieces or more when tight",
			Source:  "geometry",
			Checks: []Check{
				{Call: `clear_gap(42 in, 3 in, 11, "gaps at ends")`, Want: "0.75 in"},
				{Call: `clear_gap(42 in, 3 in, 11, "tight to ends")`, Want: "0.9 in"},
			},
			Eval: func(c *Call) (calc.Value, error) {
				span, n := c.Number(0), c.Number(2)
				wood := n * c.Number(1)
				if wood >= span {
					return calc.Value{}, calc.Errorf(calc.CodeDomain, "the pieces alone, %s, are longer than the space, %s", In(wood), In(span)).
						WithHint("%s of them at most leave a gap", trim(math.Ceil(span/c.Number(1)-1e-9)-1))
				}
				gaps := n + 1
				if c.Text(3) == "tight to ends" {
					gaps = n - 1
				}
				if gaps == 0 {
					return calc.Value{}, calc.Errorf(calc.CodeZero, "one piece cannot be tight to both ends and leave a gap").
						WithHint(`give two pieces or more, or "gaps at ends"`)
				}
				return calc.Length((span - wood) / gaps), nil
			},
		},
		{
			Name: "pieces_to_fill", Summary: "how many pieces with a gap between each two fill a space, tight to both ends",
			Params:  []*Param{length("span").positive(), length("piece_width").positive(), length("gap").notNegative()},
			Result:  "number",
			Formula: "⌈(span + gap) / (piece_width + gap)⌉",
			Limits:  "width and gap together more than zero; the remark says what an even gap becomes",
			Source:  "geometry",
			Stepped: true,
			Checks:  []Check{{Call: "pieces_to_fill(42 in, 3 in, 3/4 in)", Want: "12"}},
			Eval:    func(c *Call) (calc.Value, error) { return fillSpace(c), nil },
		},
		{
			Name: "bottom_planks_count", Summary: "how many planks of one width cross-plank a bottom",
			Params:  []*Param{length("length").positive(), length("plank_width").positive(), length("gap").notNegative()},
			Result:  "number",
			Formula: "⌈(length + gap) / (plank_width + gap)⌉",
			Limits:  "the width is more than zero; the last plank is ripped to fit",
			Source:  "common practice",
			Stepped: true,
			Checks:  []Check{{Call: "bottom_planks_count(162 in, 5 3/8 in, 1/16 in)", Want: "30"}},
			Eval: func(c *Call) (calc.Value, error) {
				length, w, gap := c.Number(0), c.Number(1), c.Number(2)
				n := wholeUp((length + gap) / (w + gap))
				if last := length - (n-1)*(w+gap); last < w-1e-9 {
					c.Warn("the last plank is ripped to %s", In(last))
				}
				return calc.Number(n), nil
			},
		},
	}
}

// fillSpace counts pieces and remarks on the gap that spreads them evenly.
func fillSpace(c *Call) calc.Value {
	span, w, gap := c.Number(0), c.Number(1), c.Number(2)
	n := wholeUp((span + gap) / (w + gap))
	switch even := (span - n*w) / (n - 1); {
	case n == 1 || math.Abs(even-gap) < 1e-9:
	case even >= 0:
		c.Warn("spread evenly, the gap becomes %s", small(even))
	default:
		c.Warn("%s pieces do not go in whole: with no gap at all the last is cut to %s", trim(n), In(span-(n-1)*w))
	}
	return calc.Number(n)
}

// wholeUp is the next whole number up; what is whole but for the last digits of
// the arithmetic stays.
func wholeUp(n float64) float64 { return math.Ceil(n - 1e-9) }
