package trade

import (
	"math"

	"scarph/calc"
)

// marks turn lengths into what a rule shows, and back.
func marks() []Function {
	return []Function{
		{
			Name: "feet_inches_eighths", Summary: "the length that a table of offsets gives as feet, inches and eighths",
			Params: []*Param{
				count("feet").within(0, 1000), count("inches"), count("eighths"),
				choice("sixteenth", "none", "+", "-").optional(calc.Str("none")).says(`"+" for a sixteenth more, "-" for a sixteenth less`),
			},
			Result:  "length",
			Formula: "12 in · feet + 1 in · inches + 1/8 in · eighths, + or − 1/16 in",
			Limits:  "inches 0 to 11, eighths 0 to 7, whole numbers",
			Source:  "common practice",
			Checks: []Check{
				{Call: "feet_inches_eighths(2, 3, 5)", Want: "27.625 in"},
				{Call: `feet_inches_eighths(2, 3, 5, "+")`, Want: "27.6875 in"},
			},
			Eval: func(c *Call) (calc.Value, error) {
				feet, inches, eighths := c.Int(0), c.Int(1), c.Int(2)
				if inches < 0 || eighths < 0 {
					return calc.Value{}, calc.Errorf(calc.CodeOffset, "an offset counts up from nothing: inches and eighths are not below zero")
				}
				if inches > 11 {
					return calc.Value{}, calc.Errorf(calc.CodeOffset, "%d inches is a foot or more", inches).
						WithHint("is this %d-%d-%d?", feet+inches/12, inches%12, eighths)
				}
				if eighths > 7 {
					in := inches + eighths/8
					return calc.Value{}, calc.Errorf(calc.CodeOffset, "%d eighths is an inch or more", eighths).
						WithHint("did you mean one more inch, %d-%d-%d?", feet+in/12, in%12, eighths%8)
				}
				in := float64(12*feet+inches) + float64(eighths)/8
				switch c.Text(3) {
				case "+":
					in += 1.0 / 16
				case "-":
					in -= 1.0 / 16
				}
				return calc.Inches(in), nil
			},
		},
		{
			Name: "offset_text", Summary: "a length as a table of offsets writes it, feet-inches-eighths",
			Params: []*Param{
				length("length"),
				choice("to", "eighths", "sixteenths").optional(calc.Str("eighths")).says(`"sixteenths" adds + or - where a sixteenth comes nearer`),
			},
			Result:  "text",
			Formula: "nearest 1/8 in, eighths carried to inches and inches to feet; + a sixteenth more, - a sixteenth less",
			Limits:  "a length below zero carries one minus before the whole group",
			Source:  "common practice",
			Stepped: true,
			Checks: []Check{
				{Call: "offset_text(35.94 in)", Want: `"3-0-0"`},
				{Call: `offset_text(27.6875 in, "sixteenths")`, Want: `"2-3-5+"`},
				{Call: `offset_text(35.94 in, "sixteenths")`, Want: `"3-0-0-"`},
			},
			Eval: func(c *Call) (calc.Value, error) {
				return calc.Str(offsetText(c.Number(0), c.Text(1) == "sixteenths")), nil
			},
		},
		toFraction("round_to_fraction", "a length moved to the nearest mark of a rule; halves go away from zero",
			"round(length · denominator) / denominator", math.Round,
			Check{Call: "round_to_fraction(7.4219 in, 16)", Want: "7.4375 in"}),
		toFraction("round_up_to_fraction", "a length moved up to a mark of a rule, as for stock or wood to be left strong",
			"⌈length · denominator⌉ / denominator, in inches", math.Ceil,
			Check{Call: "round_up_to_fraction(7.38 in, 8)", Want: "7.5 in"}),
		{
			Name: "rounding_residue", Summary: "what a length leaves over when it is rounded to a mark: plus when the length is more than the mark",
			Params:  []*Param{length("length"), count("denominator")},
			Result:  "length",
			Formula: "length − round_to_fraction(length, denominator)",
			Limits:  "denominator 2, 4, 8, 16, 32 or 64",
			Source:  "common practice",
			Stepped: true,
			Checks:  []Check{{Call: "rounding_residue(7.4219 in, 16)", Want: "-0.0156 in"}},
			Eval: func(c *Call) (calc.Value, error) {
				mark, err := ruleMark(c, 1)
				if err != nil {
					return calc.Value{}, err
				}
				return calc.Length(c.Number(0) - mark*math.Round(wholeMarks(c.Number(0), mark))), nil
			},
		},
		{
			Name: "mark_positions", Summary: "marks at an even interval, each laid off from one zero",
			Params: []*Param{
				length("start").orZero(), length("interval").positive(),
				count("count").within(1, 10000),
			},
			Result:  "list of lengths",
			Formula: "start + i · interval, i = 0 … count − 1; nothing is rounded on the way",
			Limits:  "one mark or more, at most 10,000",
			Source:  "common practice",
			Checks: []Check{
				{Call: "at(mark_positions(0, 19.8125 in, 9), 9)", Want: "158.5 in"},
				{Call: "mark_positions(1 in, 2 in, 3)", Want: "[1 in, 3 in, 5 in]", Source: "arithmetic"},
			},
			Eval: func(c *Call) (calc.Value, error) {
				list := make([]calc.Value, c.Int(2))
				for i := range list {
					list[i] = calc.Length(c.Number(0) + float64(i)*c.Number(1))
				}
				return calc.Listed(list...), nil
			},
		},
		{
			Name: "stepped_error", Summary: "how far the last mark ends off when a rounded interval is stepped along instead of marked from one zero",
			Params:  []*Param{length("interval").positive(), count("count").atLeast(1), count("denominator")},
			Result:  "length, minus when the last mark falls short",
			Formula: "count · (round_to_fraction(interval, denominator) − interval)",
			Limits:  "one step or more; denominator 2, 4, 8, 16, 32 or 64",
			Source:  "common practice",
			Stepped: true,
			Checks:  []Check{{Call: "stepped_error(17 7/9 in, 9, 16)", Want: "-0.25 in"}},
			Eval: func(c *Call) (calc.Value, error) {
				mark, err := ruleMark(c, 2)
				if err != nil {
					return calc.Value{}, err
				}
				once := mark*math.Round(wholeMarks(c.Number(0), mark)) - c.Number(0)
				off := c.Number(1) * once
				switch {
				case off < -1e-9:
					c.Warn("the last mark ends %s short", small(-off))
				case off > 1e-9:
					c.Warn("the last mark ends %s past", small(off))
				}
				return calc.Length(off), nil
			},
		},
	}
}

// offsetText writes a length in feet-inches-eighths. To sixteenths, the sign says on
// which side of the nearest eighth the length lies; a length just between two
// eighths takes the lower one and +, as calc.FormatOffset does.
func offsetText(v float64, sixteenths bool) string {
	if sixteenths {
		eighths := math.Abs(v) / Inch * 8
		nearest := math.Ceil(eighths - 0.5 - 1e-9)
		tail := ""
		switch left := eighths - nearest; {
		case left > 0.25:
			tail = "+"
		case left < -0.25:
			tail = "-"
		}
		text := calc.FormatOffset(math.Copysign(nearest/8*Inch, v))
		if v < 0 && nearest == 0 && tail != "" {
			text = "-" + text
		}
		return text + tail
	}
	return calc.FormatOffset(math.Round(v/Inch*8) / 8 * Inch)
}

// toFraction makes a function that moves a length to a mark of an inch rule and
// keeps its ±: rounding does not make a measurement better.
func toFraction(name, summary, formula string, to func(float64) float64, check Check) Function {
	return Function{
		Name: name, Summary: summary, Params: []*Param{length("length"), count("denominator")},
		Result: "length", Formula: formula, Limits: "denominator 2, 4, 8, 16, 32 or 64",
		Source: "common practice", Stepped: true, Checks: []Check{check},
		Eval: func(c *Call) (calc.Value, error) {
			mark, err := ruleMark(c, 1)
			if err != nil {
				return calc.Value{}, err
			}
			v := calc.Length(mark * to(wholeMarks(c.Number(0), mark)))
			return calc.WithTerms(v, append([]calc.Term(nil), c.Value(0).Terms()...)), nil
		},
	}
}

// ruleMark returns the mark, in metres, whose denominator is argument i.
func ruleMark(c *Call, i int) (float64, error) {
	switch d := c.Int(i); d {
	case 2, 4, 8, 16, 32, 64:
		return Inch / float64(d), nil
	default:
		return 0, calc.Errorf(calc.CodeDomain, "no rule is divided into %d parts of an inch", d).
			WithHint("the denominator is 2, 4, 8, 16, 32 or 64")
	}
}

// wholeMarks returns v in marks; what is whole but for the last digits of the
// arithmetic is made whole, so that 7.4375000001 in does not go up a step.
func wholeMarks(v, mark float64) float64 {
	n := v / mark
	if r := math.Round(n); math.Abs(n-r) < 1e-7 {
		return r
	}
	return n
}
