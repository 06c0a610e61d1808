package trade

import (
	"math"

	"scarph/calc"
)

// A bevel is counted from square: 0° is a square edge.

// fromLengths makes a function of lengths that gives an angle or a length.
func fromLengths(f Function, eval func(c *Call) (calc.Value, error)) Function {
	f.Source = "geometry"
	f.Eval = eval
	return f
}

// triangles are the plain right-angled ones.
func triangles() []Function {
	return []Function{
		fromLengths(Function{
			Name: "hypotenuse", Summary: "the long side of a right-angled triangle",
			Params:  []*Param{length("rise"), length("run")},
			Result:  "length",
			Formula: "√(rise² + run²)",
			Checks:  []Check{{Call: "hypotenuse(21 in, 72 in)", Want: "75 in"}},
		}, func(c *Call) (calc.Value, error) {
			return calc.Length(math.Hypot(c.Number(0), c.Number(1))), nil
		}),
		fromLengths(Function{
			Name: "angle_from_rise_run", Summary: "the angle of a slope from the level, with the sign of its rise",
			Params:  []*Param{length("rise"), length("run")},
			Result:  "angle",
			Formula: "atan2(rise, run)",
			Limits:  "rise and run not both zero",
			Checks:  []Check{{Call: "angle_from_rise_run(2.25 in, 12 in)", Want: "10.6197°"}},
		}, func(c *Call) (calc.Value, error) {
			rise, run := c.Number(0), c.Number(1)
			if rise == 0 && run == 0 {
				return calc.Value{}, calc.Errorf(calc.CodeZero, "a slope with neither rise nor run has no angle")
			}
			a := math.Atan2(rise, run)
			if math.Abs(rise) > math.Abs(run) {
				c.Warn("the rise, %s, is more than the run, %s: if a slope of %s is meant, keep it", In(rise), In(run), degreesText(a))
			}
			return calc.Angle(a), nil
		}),
		{
			Name: "bevel_in_twelfths", Summary: "a bevel as a framing square reads it: so many inches in twelve",
			Params:  []*Param{angle("angle").degrees(-85, 85)},
			Result:  "length, in 12 in",
			Formula: "12 in · tan(angle)",
			Limits:  "from −85° to 85°",
			Source:  "common practice",
			Checks:  []Check{{Call: "bevel_in_twelfths(14.5°)", Want: "3.10341 in"}},
			Eval: func(c *Call) (calc.Value, error) {
				return calc.Length(12 * Inch * math.Tan(c.Number(0))), nil
			},
		},
		fromLengths(Function{
			Name: "bevel_width", Summary: "how far a bevel runs back across an edge of the given thickness",
			Params:  []*Param{length("thickness").positive(), angle("angle").degrees(-75, 75)},
			Result:  "length",
			Formula: "thickness · tan(angle)",
			Limits:  "from −75° to 75°, counted from square",
			Checks:  []Check{{Call: "bevel_width(7/8 in, 17°)", Want: "0.267514 in"}},
		}, func(c *Call) (calc.Value, error) {
			return calc.Length(c.Number(0) * math.Tan(c.Number(1))), nil
		}),
		fromLengths(Function{
			Name: "beveled_face_width", Summary: "the width of the bevelled face of an edge",
			Params:  []*Param{length("thickness").positive(), angle("angle").degrees(-75, 75)},
			Result:  "length",
			Formula: "thickness / cos(angle)",
			Limits:  "from −75° to 75°, counted from square",
			Checks:  []Check{{Call: "beveled_face_width(7/8 in, 17°)", Want: "0.91498 in"}},
		}, func(c *Call) (calc.Value, error) {
			return calc.Length(c.Number(0) / math.Cos(c.Number(1))), nil
		}),
		{
			Name: "saw_tilt_from_bevel", Summary: "how far to tilt the saw for a bevel that was read as the full angle between face and edge",
			Params:  []*Param{angle("bevel_angle").degrees(0, 180)},
			Result:  "angle",
			Formula: "|90° − bevel|, the face that the bevel was read from lying on the table",
			Limits:  "a saw tilts to 45°, so 45° to 135°",
			Source:  "common practice",
			Checks:  []Check{{Call: "saw_tilt_from_bevel(104.5°)", Want: "14.5°"}},
			Eval: func(c *Call) (calc.Value, error) {
				bevel := c.Number(0)
				tilt := math.Abs(math.Pi/2 - bevel)
				if tilt > math.Pi/4+1e-12 {
					return calc.Value{}, calc.Errorf(calc.CodeDomain, "%s needs a tilt of %s, beyond the saw's 45°", degreesText(bevel), degreesText(tilt)).
						WithHint("plane it, or stand the piece up and saw from the other face at %s", degreesText(math.Pi/2-tilt))
				}
				if tilt > 1e-9 {
					c.Warn("%s is read from the face on the table; turned over, the same tilt cuts %s", degreesText(bevel), degreesText(math.Pi-bevel))
				}
				return calc.Angle(tilt), nil
			},
		},
		{
			Name: "diagonal_square_check", Summary: "how far one corner of a four-sided frame is off square, from its two diagonals",
			Params: []*Param{
				length("diagonal_1").positive(), length("diagonal_2").positive(),
				length("length").positive(), length("width").positive(),
			},
			Result:  "length along the long side, plus when diagonal 1 is the longer",
			Formula: "(diagonal_1² − diagonal_2²) / (4 · length)",
			Limits:  "opposite sides equal; a remark when the diagonals do not fit length and width",
			Source:  "geometry (parallelogram)",
			Checks:  []Check{{Call: "diagonal_square_check(121 1/4 in, 120 3/4 in, 116 in, 34 in)", Want: "0.260776 in"}},
			Eval: func(c *Call) (calc.Value, error) {
				d1, d2, l, w := c.Number(0), c.Number(1), c.Number(2), c.Number(3)
				// the squares of a parallelogram's diagonals come to those of its sides
				mean, sides := math.Sqrt((d1*d1+d2*d2)/2), math.Hypot(l, w)
				if math.Abs(mean-sides) > 0.01*sides {
					c.Warn("sides of %s and %s have diagonals near %s, not %s and %s: check the tape", In(l), In(w), In(sides), In(d1), In(d2))
				}
				return calc.Length((d1*d1 - d2*d2) / (4 * l)), nil
			},
		},
	}
}
