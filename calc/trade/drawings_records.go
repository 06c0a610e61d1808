package trade

import (
	"math"

	"scarph/calc"
	"scarph/calc/draw"
)

func recordDrawings() []Function {
	return []Function{
		{
			Name: "moisture_drawing", Summary: "meter readings over time against the band that is wanted",
			Params: []Param{
				listOf("days", calc.DimTime).says("since any day: [0 days, 7 days, 2 weeks]"), listOf("readings", calc.DimNumber).says("moisture, %"),
				percent("low", 0, 60), percent("high", 0, 60),
			},
			Formula: "readings joined in their order; a band from low to high",
			Limits:  "as many readings as days; days rise; low under high", Source: "common practice",
			Checks: []Check{{Call: "moisture_drawing([0 days, 7 days, 21 days], [16 %, 13.5 %, 11.2 %], 9 %, 11 %)",
				Want: `"Moisture, 3 readings: the last, day 21, is 11.2 %, over the 9 % to 11 % that is wanted."`, Source: "the readings given"}},
			Eval: moistureDrawing,
		},
		{
			Name: "hours_drawing", Summary: "hours worked as a running sum over the days",
			Params:  []Param{listOf("days", calc.DimTime).says("since any day"), listOf("hours", calc.DimTime)},
			Formula: "the sum of the hours up to each day",
			Limits:  "as many hours as days; days rise", Source: "arithmetic",
			Checks: []Check{{Call: "hours_drawing([0 days, 7 days], [3 h, 5.5 h])", Want: `"Hours and money, running sums: 8.5 h from day 0 to day 7."`, Source: "3 + 5.5"}},
			Eval: func(c *Call) (calc.Value, error) {
				list, err := datedOf(c, 0, 1)
				if err != nil {
					return calc.Value{}, err
				}
				for i := range list {
					list[i].Value /= 3600
				}
				return drawn(&draw.Running{Hours: list})
			},
		},
		{
			Name: "weight_drawing", Summary: "guessed weights against the scale, part by part",
			Params: []Param{
				{Name: "guessed", Kind: Any, Doc: "a list of weights, named like a row of a data table"},
				{Name: "weighed", Kind: Any, Doc: "a list of weights; empty cells are not weighed yet"},
			},
			Formula: "weighed − guessed", Limits: "lists of one length", Source: "common practice",
			Checks: []Check{{Call: "weight_drawing([48.5 lb, 56.82 lb], [50 lb, 55 lb])",
				Want: `"Guess against scale of 2 parts; of 2 parts weighed, guessed 105.3 lb, found 105 lb, lighter by 5.12 oz."`, Source: "arithmetic: 0.32 lb"}},
			Eval: weightDrawing,
		},
	}
}

// datedOf pairs the days of argument i with the figures of argument j.
func datedOf(c *Call, i, j int) ([]draw.Dated, error) {
	if err := sameLength(c, i, j); err != nil {
		return nil, err
	}
	days, values, u := c.Numbers(i), c.Numbers(j), spreads(c.Value(j))
	if len(days) == 0 {
		return nil, calc.Errorf(calc.CodeShape, "%s: no day is given", c.fn.Name)
	}
	out := make([]draw.Dated, len(days))
	for k := range days {
		if k > 0 && days[k] < days[k-1] {
			return nil, calc.Errorf(calc.CodeDomain, "%s: days must not go back: day %s comes after day %s", c.fn.Name, trim(days[k]/86400), trim(days[k-1]/86400))
		}
		out[k] = draw.Dated{Day: days[k] / 86400, Label: "day " + trim(days[k]/86400), Value: values[k], Spread: u[k]}
	}
	return out, nil
}

func moistureDrawing(c *Call) (calc.Value, error) {
	list, err := datedOf(c, 0, 1)
	if err != nil {
		return calc.Value{}, err
	}
	low, high := c.Number(2), c.Number(3)
	if low >= high {
		return calc.Value{}, Refuse("the band runs from %s to %s: the low end comes first", calc.Style{}.Text(asPercent(low)), calc.Style{}.Text(asPercent(high)))
	}
	return drawn(&draw.Moisture{Readings: list, Low: low, High: high})
}

func weightDrawing(c *Call) (calc.Value, error) {
	var both [2][]float64
	for i := range both {
		var err error
		if both[i], err = lengthsOf(c.Value(i), c.fn.Params[i].Name, calc.DimMass); err != nil {
			return calc.Value{}, err
		}
	}
	if err := sameLength(c, 0, 1); err != nil {
		return calc.Value{}, err
	}
	labels := c.Labels(0)
	if labels == nil {
		labels = c.Labels(1)
	}
	names := stationNames(labels, len(both[0]))
	d := &draw.Weights{}
	for k := range names {
		if math.IsNaN(both[0][k]) && math.IsNaN(both[1][k]) {
			continue
		}
		d.Items = append(d.Items, draw.Weighed{Name: names[k], Guess: both[0][k], Weighed: both[1][k]})
	}
	if len(d.Items) == 0 {
		return calc.Value{}, calc.Errorf(calc.CodeShape, "weight_drawing: no part is given")
	}
	return drawn(d)
}
