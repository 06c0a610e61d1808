package trade

import (
	"math"

	"scarph/calc"
	"scarph/calc/tables"
)

// The sums of a boat measured as she stands: her keel, her two sides, and the boat against
// the paper. Signs are said in words: a deviation is boat less paper, a difference of sides
// port less starboard.

// stringSide says from where the readings of a keel were taken.
func stringSide() *Param {
	return choice("measured", "down from a string", "up from a base").optional(calc.Str("down from a string")).
		says("readings get less, or more, where the keel is high")
}

// overChord returns how far each reading of a keel stands over the straight line
// through its two ends, plus where the keel is high.
func overChord(c *Call) (xs, over []float64, err error) {
	readings := c.Numbers(0)
	if len(readings) < 3 {
		return nil, nil, tooFew(len(readings), 3)
	}
	if xs, err = placesOf(c, 1, len(readings)); err != nil {
		return nil, nil, err
	}
	if _, _, err = multipliers(xs, trapezoid); err != nil { // the stations rise
		return nil, nil, err
	}
	n := len(xs) - 1
	over = make([]float64, len(xs))
	for i, r := range readings {
		t := (xs[i] - xs[0]) / (xs[n] - xs[0])
		over[i] = readings[0]*(1-t) + readings[n]*t - r
		if c.Text(2) == "up from a base" {
			over[i] = -over[i]
		}
	}
	return xs, over, nil
}

func keelAndTwist() []Function {
	hogParams := []*Param{lengths("keel_readings"), placesParam("positions"), stringSide()}
	return []Function{
		{
			Name: "hog", Summary: "how far a keel is bent: the most it stands off the straight line through its ends",
			Params: hogParams, Result: "length: plus is hog, the middle high; minus is sag",
			Formula: "largest of chord − reading, the chord through the two end readings (reading − chord when measured up from a base)",
			Limits:  "three readings or more; a keel drawn with rocker is compared by deviation_from_drawn instead",
			Source:  "common practice",
			Checks: []Check{
				{Call: "hog([40 mm, 33 mm, 28 mm, 26 mm, 29 mm, 34 mm, 40 mm], 500 mm)", Want: "14 mm"},
				{Call: `hog([0 mm, 14 mm, 0 mm], 1 m, "up from a base")`, Want: "14 mm", Source: "the same keel from below"},
			},
			Eval: func(c *Call) (calc.Value, error) {
				xs, over, err := overChord(c)
				if err != nil {
					return calc.Value{}, err
				}
				worst := 0
				for i, v := range over {
					if math.Abs(v) > math.Abs(over[worst]) {
						worst = i
					}
				}
				c.sayOff(over[worst], "sagged: %s low at "+In(xs[worst]), "hogged: %s high at "+In(xs[worst]))
				return calc.Length(over[worst]), nil
			},
		},
		{
			Name: "hog_at_stations", Summary: "how far the keel stands off the straight line through its ends, reading by reading",
			Params: hogParams, Result: "list of lengths, plus where the keel is high",
			Formula: "as hog", Limits: "three readings or more", Source: "common practice",
			Checks: []Check{
				{Call: "hog_at_stations([40 mm, 33 mm, 27 mm, 25 mm, 26 mm, 32 mm, 41 mm], 500 mm)", Want: "[0 mm, 7.1666667 mm, 13.3333333 mm, 15.5 mm, 14.6666667 mm, 8.8333333 mm, 0 mm]", Source: "straight from 40 to 41"},
			},
			Eval: func(c *Call) (calc.Value, error) {
				_, over, err := overChord(c)
				return lengthList(c.Labels(0), over), err
			},
		},
		{
			Name: "twist", Summary: "how far a boat leans at a station: winding sticks in figures",
			Params:  []*Param{length("port_height"), length("starboard_height"), length("breadth").positive().says("between the two points")},
			Result:  "angle: plus is port high",
			Formula: "atan((port_height − starboard_height) / breadth); twist along the boat is this less the same at the station called level",
			Limits:  "both heights from one level",
			Source:  "common practice (winding sticks)",
			Checks: []Check{
				{Call: "twist(6 mm, 0 mm, 1180 mm)", Want: "0.291332°"},
				{Call: "twist(412 mm, 405 mm, 1010 mm) + twist(405 mm, 412 mm, 1010 mm)", Want: "0°", Source: "one is the other's mirror"},
			},
			Eval: func(c *Call) (calc.Value, error) {
				off := c.Number(0) - c.Number(1)
				c.sayOff(off, "starboard high by %s", "port high by %s")
				return calc.Angle(math.Atan(off / c.Number(2))), nil
			},
		},
		{
			Name: "loop_closure", Summary: "how far a round of measurements misses the point it began at",
			Params:  []*Param{points("legs", 2).says("[[step along, step across], …] back to the first point")},
			Result:  "length",
			Formula: "√((Σ Δx)² + (Σ Δy)²)",
			Limits:  "three legs or more",
			Source:  "surveying, common practice",
			Checks: []Check{
				{Call: "loop_closure([[1200 mm, 35 mm], [-15 mm, 410 mm], [-1190 mm, -33 mm], [9 mm, -409 mm]])", Want: "5 mm"},
			},
			Eval: func(c *Call) (calc.Value, error) {
				legs := c.Points(0)
				if len(legs) < 3 {
					return calc.Value{}, calc.Errorf(calc.CodeShape, "%s make no round", several(len(legs), "leg")).WithHint("three legs or more, back to the first point")
				}
				x, y := 0.0, 0.0
				for _, l := range legs {
					x, y = x+l[0], y+l[1]
				}
				return calc.Length(math.Hypot(x, y)), nil
			},
		},
	}
}

// less makes a function of the difference of two lengths, said in words.
func less(f Function, below, above string) Function {
	f.Result = "length"
	f.Eval = func(c *Call) (calc.Value, error) {
		off := c.Number(0) - c.Number(1)
		c.sayOff(off, below, above)
		return calc.Length(off), nil
	}
	return f
}

func sides() []Function {
	return []Function{
		less(Function{
			Name: "port_starboard_difference", Summary: "how the two sides of a boat differ at one place",
			Params: []*Param{length("port"), length("starboard")}, Formula: "port − starboard, always in that order",
			Limits: "both at one height and station, from one centreline", Source: "common practice",
			Checks: []Check{
				{Call: "port_starboard_difference(523 mm, 531 mm)", Want: "-8 mm"},
				{Call: "port_starboard_difference(531 mm, 523 mm)", Want: "8 mm", Source: "arithmetic"},
			},
		}, "starboard fuller by %s", "port fuller by %s"),
		less(Function{
			Name: "deviation_from_drawn", Summary: "how the boat differs from the drawing",
			Params: []*Param{length("as_found"), length("drawn")}, Formula: "as_found − drawn: boat less paper, always in that order",
			Limits: "both of one thing, from one datum", Source: "common practice",
			Checks: []Check{{Call: "deviation_from_drawn(527 mm, 520 mm)", Want: "7 mm"}},
		}, "the boat is %s less than drawn", "the boat is %s more than drawn"),
		{
			Name: "difference_stands_out", Summary: "whether a difference is more than the tape can have made up",
			Params: []*Param{
				alike("difference").says("of lengths, angles, shares or what else was measured; its ± is taken where no tolerance is given"),
				alike("tolerance_1").notNegative().optional(calc.Value{}).says("of the one reading, as one standard error"),
				alike("tolerance_2").notNegative().optional(calc.Value{}).says("of the other"),
				number("times").within(1, 10).optional(calc.Number(2)).says("how many combined tolerances make it stand out; 2 is usual"),
			},
			Result:  "record: stands_out (yes or no), ratio (number), combined_tolerance (as the difference)",
			Formula: "|difference| / √(tolerance_1² + tolerance_2²) > times",
			Limits:  "independent readings; tolerances as one standard error; times is 1 or more",
			Source:  "JCGM 100:2008, 5.1.2, equation (10), and 6.3.3 for the factor 2",
			Stepped: true,
			Checks: []Check{
				{Call: "difference_stands_out(8 mm, 2 mm, 2 mm).ratio", Want: "2.82843"},
				{Call: "difference_stands_out(8 mm, 2 mm, 2 mm).stands_out", Want: "yes"},
				{Call: "difference_stands_out(-3 mm, 1.5 mm, 1.5 mm).stands_out", Want: "no", Source: "1.41 times"},
				{Call: "difference_stands_out(-7 %, 1 %, 1 %).ratio", Want: "4.94975", Source: "7 / √2"},
				{Call: "difference_stands_out((655 mm ± 2 mm) - (661 mm ± 2 mm)).ratio", Want: "2.12132", Source: "6 / √8"},
			},
			Eval: standsOut,
		},
		{
			Name: "mean_deviation", Summary: "a row of deviations in three figures: their mean, their root mean square, and the largest",
			Params:  []*Param{lengths("deviations")},
			Result:  "record: mean (length), root_mean_square (length), largest (length, with its sign), largest_at (text)",
			Formula: "Σ d / n; √(Σ d² / n); the largest |d|",
			Limits:  "two deviations or more", Source: "common practice",
			Checks: []Check{
				{Call: "mean_deviation([7 mm, 3 mm, -2 mm, 4 mm, 6 mm]).root_mean_square", Want: "4.77493 mm"},
				{Call: "mean_deviation([7 mm, 3 mm, -2 mm, 4 mm, 6 mm]).mean", Want: "3.6 mm", Source: "18 / 5"},
				{Call: "mean_deviation([7 mm, 3 mm, -9 mm, 4 mm, 6 mm]).largest", Want: "-9 mm", Source: "arithmetic"},
			},
			Eval: func(c *Call) (calc.Value, error) {
				ds := c.Numbers(0)
				if len(ds) < 2 {
					return calc.Value{}, calc.Errorf(calc.CodeShape, "%s: two or more are wanted", several(len(ds), "deviation"))
				}
				squares, worst := 0.0, 0
				for i, d := range ds {
					squares += d * d
					if math.Abs(d) > math.Abs(ds[worst]) {
						worst = i
					}
				}
				return calc.Fields(
					calc.Field{Name: "mean", Value: calc.Length(mean(ds))},
					calc.Field{Name: "root_mean_square", Value: calc.Length(math.Sqrt(squares / float64(len(ds))))},
					calc.Field{Name: "largest", Value: calc.Length(ds[worst])},
					calc.Field{Name: "largest_at", Value: calc.Str(calc.Words(labelAt(c.Labels(0), worst)))},
				), nil
			},
		},
	}
}

func standsOut(c *Call) (calc.Value, error) {
	difference := c.Value(0)
	combined := 0.0
	for i := 1; i <= 2; i++ {
		if c.Given(i) {
			combined = math.Hypot(combined, c.Number(i))
		}
	}
	if !c.Given(1) {
		combined = difference.Likely()
	}
	if combined == 0 {
		return calc.Value{}, calc.Errorf(calc.CodePlusMinus, "%s has no tolerance to be measured by", text(difference)).
			WithHint("give the ± of its readings, 523 mm ± 2 mm, or two tolerances")
	}
	if c.Given(1) && !c.Given(2) {
		c.Warn("one tolerance is given: the other reading is taken as exact")
	}
	ratio := math.Abs(difference.V) / combined
	tolerance := calc.Of(combined, difference.D)
	said := text(tolerance)
	if difference.D == calc.DimLength {
		said = bothWays(combined)
	}
	c.Warn("%s against a combined tolerance of %s: %s times", text(calc.Of(math.Abs(difference.V), difference.D)), said, trim(math.Round(ratio*100)/100))
	return calc.Fields(
		calc.Field{Name: "stands_out", Value: calc.Bool(ratio > c.Number(3))},
		calc.Field{Name: "ratio", Value: calc.Number(ratio)},
		calc.Field{Name: "combined_tolerance", Value: tolerance},
	), nil
}

// alike is a quantity of any dimension, the same as that of the others alike.
func alike(name string) *Param { return &Param{Name: name, AnyDim: true, Same: true} }

// losses are wood gone and wood shrunk.
func losses() []Function {
	return []Function{
		{
			Name: "wood_lost", Summary: "how much of a plank's thickness is gone",
			Params:  []*Param{length("original_thickness").positive(), length("measured").notNegative()},
			Result:  "share, shown in %",
			Formula: "(original_thickness − measured) / original_thickness",
			Limits:  "a remark at more than 25 %; measure sound wood, not what the probe goes through",
			Caution: 'B', Source: "common practice",
			Checks: []Check{
				{Call: "wood_lost(9.5 mm, 7.9 mm)", Want: "16.8421 %"},
			},
			Eval: func(c *Call) (calc.Value, error) {
				lost := (c.Number(0) - c.Number(1)) / c.Number(0)
				switch {
				case lost > 0.25+1e-12:
					c.Warn("more than a quarter is gone: have the plank looked at")
				case lost < -1e-12:
					c.Warn("thicker than the original, %s: is the drawn thickness right, or are the two swapped?", In(c.Number(0)))
				}
				return asPercent(lost), nil
			},
		},
		{
			Name: "shrunk_back_width", Summary: "how wide a board that has dried was at its moisture then",
			Params: []*Param{
				length("measured").positive(), percent("moisture_now", 0, saturated), percent("moisture_then", 0, saturated),
				byGrain("coefficient", tables.Tangential, tables.Radial).positive().says("change for each 1 % of moisture, or a wood"),
			},
			Result:  "length",
			Formula: "measured · (1 + coefficient · (moisture_then − moisture_now)), moisture in percent",
			Limits:  "rough outside 6 to 14 % moisture; nothing above 30 %",
			Source:  "USDA Forest Products Laboratory, Wood Handbook, FPL-GTR-190 (2010), ch. 13, eq. 13-2",
			Checks: []Check{
				{Call: "shrunk_back_width(118 mm, 11 %, 16 %, 0.00234)", Want: "119.381 mm"},
			},
			Eval: func(c *Call) (calc.Value, error) {
				now, then := 100*c.Number(1), 100*c.Number(2)
				c.outside(now, then)
				return calc.Length(c.Number(0) * (1 + c.Number(3)*(then-now))), nil
			},
		},
	}
}
