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
			Params: []*Param{
				daysParam("readings"), listOf("readings", calc.DimNumber).says("moisture, %"),
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
			Params:  []*Param{daysParam("hours"), listOf("hours", calc.DimTime)},
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
			Name: "hours_and_money", Summary: "the hours and the money of the journal as running sums over its days",
			Params: []*Param{
				{Name: "hours", Kind: Any, Doc: `what worked() gives, or any list of hours named by days; "none" for none`},
				{Name: "money", Kind: Any, Optional: true, Doc: `what spent() gives, or any list of amounts named by days; "none" for none`},
			},
			Formula: "the sum up to each day; each currency has its own",
			Limits:  "elements named by dates stand at their dates, others one after another", Source: "arithmetic",
			Checks: []Check{{Call: `hours_and_money([3 h, 5.5 h], [1019.77 EUR, 272.25 EUR])`,
				Want: `"Hours and money, running sums: 8.5 h from element 1 to element 2 and 1292.02 EUR from element 1 to element 2."`, Source: "3 + 5.5; 1019.77 + 272.25"}},
			Eval: hoursAndMoney,
		},
		{
			Name: "spread_drawing", Summary: "which readings the ± of a value comes from, the largest part first",
			Params: []*Param{
				{Name: "parts", Kind: Any, Doc: "what why(name) gives"}, nameParam(),
			},
			Formula: "likely: √(sum of the squares); at worst: the sum; and what is left without the largest",
			Limits:  "parts of one kind", Source: "JCGM 100:2008, 5.1.2",
			Checks: []Check{{Call: `spread_drawing([3 mm, 4 mm], "thwart length")`, Want: `"The ± of thwart length comes from 2 readings, most of it from element 2, ± 0.16″."`, Source: "4 mm is 0.157 in"}},
			Eval:   spreadDrawing,
		},
		{
			Name: "before_and_after", Summary: "values before and after a revision, and by what share each moved",
			Params: []*Param{
				{Name: "before", Kind: Any, Doc: "a quantity, a list, a data table: chine_bevels as of 2027-02-14"},
				{Name: "after", Kind: Any, Doc: "the same, as it stands now"},
				{Name: "names", Kind: Any, Optional: true, Doc: "texts, one for each; left out, the names in the lists"},
			},
			Formula: "(after − before) / before, drawn from a line in the middle",
			Limits:  "as many before as after; of more than 12, those that did not move are counted in words", Source: "arithmetic",
			Checks: []Check{{Call: `before_and_after([13°, 22 in], [10°, 22 in], ["chine bevel", "bottom frame"])`,
				Want: `"Of 2 values, one has moved: chine bevel from 13° to 10°."`, Source: "the values given"}},
			Eval: beforeAndAfter,
		},
		{
			Name: "weight_drawing", Summary: "guessed weights against the scale, part by part",
			Params: []*Param{
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

func daysParam(of string) *Param {
	return &Param{Name: "days", Kind: Any, Doc: "days since any day, [0 days, 7 days, 2 weeks]; or \"dates\" where the " + of + " are named by dates, as in a data table with a column a day"}
}

// datedOf pairs the days of argument i with the figures of argument j.
func datedOf(c *Call, i, j int) ([]draw.Dated, error) {
	values, u := c.Numbers(j), spreads(c.Value(j))
	if v := c.Value(i); v.Kind() == calc.Text {
		return datesOf(c, v.Text(), j, values, u)
	}
	days, err := lengthsOf(c.Value(i), "days", calc.DimTime)
	if err != nil {
		return nil, err
	}
	if err := sameLength(c, i, j); err != nil {
		return nil, err
	}
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
