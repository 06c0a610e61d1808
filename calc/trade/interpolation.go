package trade

import (
	"math"

	"scarph/calc"
	"scarph/calc/curve"
)

// interpolations read tables of any dimension, forwards and backwards.
func interpolations() []Function {
	return []Function{
		{
			Name: "interpolate", Summary: "a value between those of a table, in straight lines or by a batten",
			Params:  []*Param{anyList("positions"), anyList("values"), anything("at"), fit("straight")},
			Result:  "quantity of the values' dimension, flagged when it lies between",
			Formula: "y₁ + (y₂ − y₁) · (x − x₁) / (x₂ − x₁), or a natural cubic spline",
			Limits:  "inside the first and last position; positions rise",
			Source:  "arithmetic",
			Checks: []Check{
				{Call: "interpolate([57 in, 78 in], [18°, 21.5°], 66 in)", Want: "19.5°"},
				{Call: `interpolate([0 in, 24 in, 48 in, 72 in], [0 in, 9 in, 14 in, 16 in], 36 in, "batten")`, Want: "12.025 in", Source: "batten_curve"},
			},
			Eval: func(c *Call) (calc.Value, error) {
				f, err := anyTable(c, c.Text(3))
				if err != nil {
					return calc.Value{}, err
				}
				d, x := c.Dim(0), c.Number(2)
				if c.Dim(2) != d {
					return calc.Value{}, wrongPlace(c, 2, d)
				}
				if err := insideOf(f, x, d); err != nil {
					return calc.Value{}, err
				}
				remarkBetween(c, x)
				return calc.Of(f.At(x), c.Dim(1)), nil
			},
		},
		{
			Name: "position_where", Summary: "the place at which a table reaches a value: interpolate, backwards",
			Params:  []*Param{anyList("positions"), anyList("values"), anything("value"), fit("straight")},
			Result:  "quantity of the positions' dimension",
			Formula: "the x at which interpolate(positions, values, x) is the value",
			Limits:  "reached once; where it is reached more often positions_where lists the places",
			Source:  "arithmetic",
			Checks: []Check{
				{Call: "position_where([3 in, 4 in], [300 lb, 520 lb], 478 lb)", Want: "3.80909 in"},
			},
			Eval: func(c *Call) (calc.Value, error) {
				found, err := placesWhere(c)
				if err != nil {
					return calc.Value{}, err
				}
				switch len(found) {
				case 0:
					return calc.Value{}, calc.Errorf(calc.CodeDomain, "the table never reaches %s", calc.Recognised(c.Value(2))).
						WithHint("no guess is made beyond the table")
				case 1:
					return found[0], nil
				}
				return calc.Value{}, calc.Errorf(calc.CodeDomain, "the table reaches %s at %s", calc.Style{}.Text(c.Value(2)), calc.Style{}.Text(calc.Listed(found...))).
					WithHint("give the part of the table that is meant, or take at(positions_where(…), 1)")
			},
		},
		{
			Name: "positions_where", Summary: "all places at which a table reaches a value, in their order",
			Params:  []*Param{anyList("positions"), anyList("values"), anything("value"), fit("straight")},
			Result:  "list of quantities of the positions' dimension",
			Formula: "every x at which interpolate(positions, values, x) is the value",
			Limits:  "empty when the value is never reached",
			Source:  "arithmetic",
			Checks:  []Check{{Call: "positions_where([0 in, 10 in, 20 in], [0 in, 5 in, 0 in], 4 in)", Want: "[8 in, 12 in]", Source: "arithmetic"}},
			Stepped: true,
			Eval: func(c *Call) (calc.Value, error) {
				found, err := placesWhere(c)
				return calc.Listed(found...), err
			},
		},
	}
}

// anyTable lays a line through arguments 0 and 1, lists of any dimension.
func anyTable(c *Call, way string) (fair, error) {
	for i := range 2 {
		if err := c.same(i); err != nil {
			return nil, err
		}
	}
	if _, _, _, err := paired(c, 0, 1); err != nil {
		return nil, err
	}
	if way == "straight" {
		l, err := curve.Broken(c.Numbers(0), c.Numbers(1))
		return l, curveErrorOf(err, c.Dim(0))
	}
	s, err := curve.Natural(c.Numbers(0), c.Numbers(1))
	return s, curveErrorOf(err, c.Dim(0))
}

func wrongPlace(c *Call, i int, want calc.Dimension) error {
	name := c.fn.Params[i].Name
	if c.Dim(i).IsNumber() {
		return calc.Errorf(calc.CodeBareNumber, "%s wants %s", name, want.A()).WithHint("%s", calc.WhatUnit(c.Value(i), want))
	}
	return calc.Errorf(calc.CodeDimension, "%s wants %s, as the table has; it was given %s", name, want.A(), c.Dim(i).A())
}

// remarkBetween flags a place that is none of the positions of argument 0.
func remarkBetween(c *Call, x float64) {
	xs := c.Numbers(0)
	text := func(v float64) string { return calc.Recognised(calc.Of(v, c.Dim(0))) }
	for k, at := range xs {
		if math.Abs(x-at) <= 1e-9*(xs[len(xs)-1]-xs[0]) {
			return
		}
		if x < at && k > 0 {
			c.Warn("between stations: %s lies between %s and %s, and is read off a %s", text(x), text(xs[k-1]), text(at), wayWord(c.Text(3)))
			return
		}
	}
}

// placesWhere inverts the table of arguments 0 and 1 for the value of argument 2.
func placesWhere(c *Call) ([]calc.Value, error) {
	f, err := anyTable(c, c.Text(3))
	if err != nil {
		return nil, err
	}
	if c.Dim(2) != c.Dim(1) {
		return nil, wrongPlace(c, 2, c.Dim(1))
	}
	var found []float64
	if s, ok := f.(*curve.Spline); ok {
		found = s.Crossings(c.Number(2))
	} else if found, err = curve.Inverse(c.Numbers(0), c.Numbers(1), c.Number(2)); err != nil {
		return nil, curveErrorOf(err, c.Dim(0))
	}
	places := make([]calc.Value, len(found))
	for i, x := range found {
		places[i] = calc.Of(x, c.Dim(0))
	}
	return places, nil
}
