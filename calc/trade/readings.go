package trade

import (
	"math"

	"scarph/calc"
)

// readings are the functions of measurements taken more than once, of scale, and of
// the two families of units.
func readings() []Function {
	return []Function{
		{
			Name: "burned_start", Summary: "the true length when the tape was held at a mark other than its hook (an inch burned)",
			Params:  []*Param{length("reading"), length("start_mark")},
			Result:  "length",
			Formula: "reading − start mark",
			Limits:  "the reading is past the start mark",
			Source:  "common practice",
			Checks:  []Check{{Call: "burned_start(49 3/16 in, 1 in)", Want: "48.1875 in"}},
			Eval: func(c *Call) (calc.Value, error) {
				if c.Number(0) <= c.Number(1) {
					return calc.Value{}, calc.Errorf(calc.CodeDomain, "the reading, %s, is not past the start mark, %s", In(c.Number(0)), In(c.Number(1))).
						WithHint("the reading is what the tape shows at the far end; is it swapped with the start?")
				}
				return calc.Length(c.Number(0) - c.Number(1)), nil
			},
		},
		{
			Name: "mean_reading", Summary: "the mean of repeated readings of one thing",
			Params:  []*Param{anyList("readings")},
			Result:  "quantity of the readings' dimension",
			Formula: "Σ reading / n",
			Limits:  "one reading or more, all of one dimension; units may be mixed",
			Source:  "common practice",
			Checks:  []Check{{Call: "mean_reading([1203 mm, 1205 mm, 1204 mm, 1206 mm])", Want: "1204.5 mm"}},
			Eval: func(c *Call) (calc.Value, error) {
				if err := measured(c, 0); err != nil {
					return calc.Value{}, err
				}
				return calc.Of(mean(c.Numbers(0)), c.Dim(0)), nil
			},
		},
		{
			Name: "reading_scatter", Summary: "how far repeated readings of one thing scatter: their standard deviation",
			Params:  []*Param{anyList("readings")},
			Result:  "quantity of the readings' dimension",
			Formula: "√(Σ(reading − mean)² / (n − 1))",
			Limits:  "two readings or more: one reading has no scatter",
			Source:  "JCGM 100:2008, 4.2.2, equation (4)",
			Checks:  []Check{{Call: "reading_scatter([1203 mm, 1205 mm, 1204 mm, 1206 mm])", Want: "1.29099 mm"}},
			Eval: func(c *Call) (calc.Value, error) {
				if err := measured(c, 0); err != nil {
					return calc.Value{}, err
				}
				xs := c.Numbers(0)
				if len(xs) < 2 {
					return calc.Value{}, calc.Errorf(calc.CodeShape, "one reading has no scatter").WithHint("read it again, and give both")
				}
				m, sum := mean(xs), 0.0
				for _, x := range xs {
					sum += (x - m) * (x - m)
				}
				return calc.Of(math.Sqrt(sum/float64(len(xs)-1)), c.Dim(0)), nil
			},
		},
		tolerances("combined_tolerance", "the likely ± of several independent ± together; worst_tolerance gives all of them at once",
			"√(Σ tolerance²)", "JCGM 100:2008, 5.1.2, equation (10)",
			Check{Call: "combined_tolerance([1.5 mm, 1.5 mm, 2 mm])", Want: "2.91548 mm"},
			func(sum, t float64) float64 { return math.Hypot(sum, t) }),
		tolerances("worst_tolerance", "the ± of several ± when all stand at their ends and pull one way",
			"Σ tolerance", "common practice",
			Check{Call: "worst_tolerance([1.5 mm, 1.5 mm, 2 mm])", Want: "5 mm"},
			func(sum, t float64) float64 { return sum + t }),
		{
			Name: "scale_length", Summary: "a length of a boat drawn to another size; areas go by the square, volumes and weights by the cube",
			Params:  []*Param{anything("length"), number("factor").positive()},
			Result:  "quantity of the same dimension",
			Formula: "length · k, area · k², volume · k³, weight · k³; angles stay",
			Limits:  "k from 0.25 to 4 (a remark outside); plank and frame thicknesses do not follow k alone",
			Caution: 'A',
			Source:  "geometric similarity",
			Checks: []Check{
				{Call: "scale_length(620 lb, 15/16.5)", Want: "465.815 lb"},
				{Call: "scale_length(21 in, 15/14)", Want: "22.5 in", Source: "arithmetic"},
				{Call: "scale_length(100 ft^2, 1.1)", Want: "121 ft^2", Source: "arithmetic"},
			},
			Eval: func(c *Call) (calc.Value, error) {
				k, d := c.Number(1), c.Dim(0)
				power, ok := map[calc.Dimension]float64{calc.DimAngle: 0, calc.DimLength: 1, calc.DimArea: 2, calc.DimVolume: 3, calc.DimMass: 3}[d]
				switch {
				case ok:
				case d.IsNumber():
					return calc.Value{}, calc.Errorf(calc.CodeBareNumber, "scale_length wants a length, an area, a volume or a weight").
						WithHint("%s", calc.WhatUnit(c.Value(0), calc.DimLength))
				default:
					return calc.Value{}, calc.Errorf(calc.CodeDimension, "scale_length wants a length, an area, a volume or a weight; it was given %s", d.A())
				}
				if k <= 0.25 || k >= 4 {
					c.Warn("a boat %s times as long is another boat: scaled shapes are trusted from a quarter to four times", trim(k))
				}
				return calc.Of(c.Number(0)*math.Pow(k, power), d), nil
			},
		},
		{
			Name: "unit_pair", Summary: "a length in both families: millimetres, and feet, inches and sixteenths",
			Params:  []*Param{length("length")},
			Result:  "record: text (text), inches (length), millimetres (length)",
			Formula: "1 in = 25.4 mm",
			Source:  "NIST SP 811 (2008), B.8: the inch is 25.4 mm exactly",
			Stepped: true,
			Checks: []Check{
				{Call: "unit_pair(451 mm).inches", Want: "17.7559 in"},
				{Call: "unit_pair(1 ft 5 3/4 in).millimetres", Want: "450.85 mm", Source: "arithmetic"},
			},
			Eval: func(c *Call) (calc.Value, error) {
				v := calc.Length(c.Number(0))
				return calc.Fields(
					calc.Field{Name: "text", Value: calc.Str(calc.Style{System: calc.Metric}.Text(v) + " · " + In(v.V))},
					calc.Field{Name: "inches", Value: v.Shown(calc.InUnit("in"))},
					calc.Field{Name: "millimetres", Value: v.Shown(calc.InUnit("mm"))},
				), nil
			},
		},
	}
}

func tolerances(name, summary, formula, source string, check Check, add func(sum, t float64) float64) Function {
	return Function{
		Name: name, Summary: summary, Params: []*Param{anyList("tolerances")},
		Result: "quantity of the tolerances' dimension", Formula: formula,
		Limits: "one ± or more, none below zero, all of one dimension", Source: source, Checks: []Check{check},
		Eval: func(c *Call) (calc.Value, error) {
			if err := measured(c, 0); err != nil {
				return calc.Value{}, err
			}
			sum := 0.0
			for i, t := range c.Numbers(0) {
				if t < 0 {
					return calc.Value{}, calc.Errorf(calc.CodeDomain, "%s is below zero", calc.Words(labelAt(c.Labels(0), i))).
						WithHint("a tolerance is a size: ± 2 mm is written 2 mm")
				}
				sum = add(sum, t)
			}
			return calc.Of(sum, c.Dim(0)), nil
		},
	}
}

// measured refuses lists that are empty or of mixed dimension, and bare numbers,
// which no tape ever read.
func measured(c *Call, i int) error {
	if err := c.same(i); err != nil {
		return err
	}
	if c.Dim(i).IsNumber() {
		return calc.Errorf(calc.CodeBareNumber, "the readings have no unit").
			WithHint("%s", calc.WhatUnit(c.Value(i).Items()[0], calc.DimLength))
	}
	return nil
}

func mean(xs []float64) float64 {
	sum := 0.0
	for _, x := range xs {
		sum += x
	}
	return sum / float64(len(xs))
}
