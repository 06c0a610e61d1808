package trade

import "scarph/calc"

// placesParam takes the places of ordinates: a list, or the one spacing between all.
func placesParam(name string) *Param {
	return &Param{Name: name, Kind: Any, Doc: "a list of positions, or the one spacing of all"}
}

// placesOf reads argument i as the places of n ordinates.
func placesOf(c *Call, i, n int) ([]float64, error) {
	v := c.Value(i)
	if v.IsQuantity() {
		if err := isLength(c.fn.Params[i].Name, v); err != nil {
			return nil, err
		}
		if v.V <= 0 {
			return nil, calc.Errorf(calc.CodeZero, "the spacing is %s", text(v)).WithHint("stations stand some way apart")
		}
		return evenly(n, v.V), nil
	}
	if v.Kind() != calc.List {
		return nil, calc.Errorf(calc.CodeKind, "%s wants a list of positions or one spacing; it was given %s", c.fn.Params[i].Name, v.What())
	}
	items := v.Items()
	if len(items) != n {
		return nil, unequalLists(len(items), n)
	}
	xs := make([]float64, n)
	for k, it := range items {
		if err := isLength(calc.Words(labelAt(v.Labels(), k)), it); err != nil {
			return nil, err
		}
		xs[k] = it.V
	}
	return xs, nil
}

// isLength refuses what is no length.
func isLength(what string, v calc.Value) error {
	switch {
	case v.Kind() == calc.Missing:
		return calc.Errorf(calc.CodeMissing, "%s is empty", what)
	case !v.IsQuantity():
		return calc.Errorf(calc.CodeKind, "%s: a length is wanted; this is %s", what, v.What())
	case v.D.IsNumber():
		return calc.Errorf(calc.CodeBareNumber, "%s: a length is wanted", what).WithHint("%s", calc.WhatUnit(v, calc.DimLength))
	case v.D != calc.DimLength:
		return calc.Errorf(calc.CodeDimension, "%s: a length is wanted; this is %s", what, v.D.A())
	}
	return nil
}

// ordinates returns argument i, a list of lengths or areas (or what else is
// measured along a boat), and the dimension of its integral over a length.
func ordinates(c *Call, i int) ([]float64, calc.Dimension, error) {
	if err := c.same(i); err != nil {
		return nil, 0, err
	}
	d := c.Dim(i)
	if d.IsNumber() {
		return nil, d, calc.Errorf(calc.CodeBareNumber, "the ordinates have no unit").
			WithHint("%s", calc.WhatUnit(c.Value(i).Items()[0], calc.DimLength))
	}
	if d.OnScale() {
		return nil, d, calc.Errorf(calc.CodeTemperature, "readings of a thermometer have no area under them")
	}
	return c.Numbers(i), times(d, 1), nil
}

// times returns the dimension of a quantity of dimension d times n lengths.
func times(d calc.Dimension, n int8) calc.Dimension {
	e := d.Exponents()
	e.Length += 2 * n
	return e.Dimension()
}

// bySpacing makes a function of ordinates at one spacing and one fixed rule.
func bySpacing(f Function, rule string) Function {
	f.Params = []*Param{anyList("ordinates").says("lengths, or areas"), length("spacing").positive()}
	f.Result = "area of lengths, volume of areas"
	f.Eval = func(c *Call) (calc.Value, error) {
		ys, d, err := ordinates(c, 0)
		if err != nil {
			return calc.Value{}, err
		}
		w, _, err := multipliers(evenly(len(ys), c.Number(1)), rule)
		if err != nil {
			return calc.Value{}, err
		}
		return calc.Of(sum(w, ys), d), nil
	}
	return f
}

// integrations are the rules by themselves.
func integrations() []Function {
	const derrett = "C. B. Barrass and D. R. Derrett, Ship Stability for Masters and Mates, chapter on Simpson's rules"
	return []Function{
		bySpacing(Function{
			Name: "simpson_first", Summary: "the area (or volume) under ordinates at an even spacing, by Simpson's first rule",
			Formula: "spacing / 3 · (1 4 2 4 … 2 4 1)", Limits: "an odd number of ordinates, 3 or more: an even number of spaces; exact for cubics",
			Source: derrett,
			Checks: []Check{
				{Call: "simpson_first([0 in, 6.1 in, 9.4 in, 10.2 in, 8.8 in], 24 in)", Want: "742.4 in^2"},
				{Call: "simpson_first([0 ft^2, 1 ft^2, 0 ft^2], 3 ft)", Want: "4 ft^3", Source: "1/3 · 3 · 4"},
			},
		}, simpsonFirst),
		bySpacing(Function{
			Name: "simpson_second", Summary: "the area (or volume) under ordinates at an even spacing, by Simpson's second rule",
			Formula: "3 · spacing / 8 · (1 3 3 2 … 3 3 1)", Limits: "spaces in threes: 4, 7, 10 … ordinates; exact for cubics",
			Source: derrett,
			Checks: []Check{
				{Call: "simpson_second([14.4 m, 12 m, 9.3 m, 6 m], 3 m)", Want: "94.8375 m^2", Source: "Dubey, exercises in ship stability, ex. 2 question 8, the lower part of a bulkhead"},
			},
		}, simpsonSecond),
		{
			Name: "five_eight_area", Summary: "the area between the first two of three ordinates at an even spacing",
			Params: []*Param{
				{Name: "first", AnyDim: true, Same: true, Doc: "an ordinate of the wanted area"}, {Name: "second", AnyDim: true, Same: true, Doc: "the other ordinate of the wanted area"},
				{Name: "third", AnyDim: true, Same: true, Doc: "the ordinate beyond"}, length("spacing").positive(),
			},
			Result: "area of lengths, volume of areas", Formula: "spacing / 12 · (5 · first + 8 · second − third)",
			Limits: "exact for parabolas; not for moments", Source: derrett,
			Checks: []Check{{Call: "five_eight_area(1 m, 2.9 m, 4.2 m, 2 m)", Want: "4 m^2", Source: "a worked exercise, half area 4.000 m²"}},
			Eval: func(c *Call) (calc.Value, error) {
				d := c.Dim(0)
				if d.IsNumber() || d.OnScale() {
					return calc.Value{}, calc.Errorf(calc.CodeBareNumber, "the ordinates are no lengths or areas").WithHint("%s", calc.WhatUnit(c.Value(0), calc.DimLength))
				}
				return calc.Of(c.Number(3)/12*(5*c.Number(0)+8*c.Number(1)-c.Number(2)), times(d, 1)), nil
			},
		},
		alongPlaces(Function{
			Name: "trapezoid_area", Summary: "the area (or volume) under ordinates joined by straight lines, at any spacing",
			Params:  []*Param{anyList("ordinates").says("lengths, or areas"), placesParam("positions")},
			Result:  "area of lengths, volume of areas",
			Formula: "Σ ½ · (y₁ + y₂) · (x₂ − x₁)", Limits: "two ordinates or more, positions rising; it falls short of a rounded shape",
			Source: "naval architecture, common practice",
			Checks: []Check{
				{Call: "trapezoid_area([0 in, 6.1 in, 9.4 in, 10.2 in, 8.8 in], [0 in, 24 in, 48 in, 72 in, 96 in])", Want: "722.4 in^2"},
				{Call: "trapezoid_area([0 in, 6.1 in, 9.4 in, 10.2 in, 8.8 in], 24 in)", Want: "722.4 in^2"},
			},
		}, func(w, _, ys []float64, d calc.Dimension) calc.Value { return calc.Of(sum(w, ys), d) }),
		alongPlaces(Function{
			Name: "area_under", Summary: "the area (or volume) under ordinates along a boat, by the rule that fits or the one named",
			Params:  []*Param{anyList("ordinates").says("lengths, or areas"), placesParam("positions"), ruleParam()},
			Result:  "area of lengths, volume of areas",
			Formula: ruleFormula, Limits: "two ordinates or more, positions rising; a named rule refuses spaces that do not suit it",
			Source: derrett,
			Checks: []Check{
				{Call: "area_under([19.2 m, 18 m, 17.1 m, 16.2 m, 14.4 m, 12 m, 9.3 m, 6 m], 3 m)", Want: "299.4375 m^2", Source: "Dubey, exercises in ship stability, ex. 2 question 8: 204.6 + 94.838"},
				{Call: "area_under([0 m, 3.05 m, 7.1 m, 9.4 m, 10.2 m, 10.36 m, 10.3 m, 10 m, 8.84 m, 5.75 m, 0 m], [0 m, 5 m, 10 m, 20 m, 30 m, 40 m, 50 m, 60 m, 70 m, 75 m, 80 m])", Want: "671.83333 m^2", Source: "Barrass and Derrett, exercise 10, question 8 (inputs); half-spaced ends, worked out anew"},
				{Call: `area_under([0 m, 1 m, 9 m], [0 m, 1 m, 3 m], "parabolas")`, Want: "9 m^2", Source: "x² from 0 to 3"},
			},
		}, func(w, _, ys []float64, d calc.Dimension) calc.Value { return calc.Of(sum(w, ys), d) }),
		alongPlaces(Function{
			Name: "centre_under", Summary: "where along the boat the area (or volume) under ordinates has its centre",
			Params:  []*Param{anyList("ordinates").says("lengths, or areas"), placesParam("positions"), ruleParam()},
			Result:  "length, counted as the positions are",
			Formula: "Σ multiplier · y · x / Σ multiplier · y", Limits: "as area_under; the area is not nothing",
			Source: derrett,
			Checks: []Check{
				{Call: "centre_under([1.2 m, 9.6 m, 13.2 m, 15 m, 15.3 m, 15.6 m, 15.6 m, 14.7 m, 12.9 m, 9 m, 0 m], 12 m)", Want: "59.37864 m", Source: "Dubey, exercises in ship stability, ex. 2 question 2 (breadths); the centre is worked out anew"},
			},
		}, func(w, xs, ys []float64, _ calc.Dimension) calc.Value {
			_, at := centroid(w, xs, ys)
			return calc.Length(at)
		}),
	}
}

// alongPlaces makes a function of ordinates and their places, with a rule if the
// entry has a third parameter and trapezoids if not.
func alongPlaces(f Function, give func(w, xs, ys []float64, d calc.Dimension) calc.Value) Function {
	f.Eval = func(c *Call) (calc.Value, error) {
		ys, d, err := ordinates(c, 0)
		if err != nil {
			return calc.Value{}, err
		}
		xs, err := placesOf(c, 1, len(ys))
		if err != nil {
			return calc.Value{}, err
		}
		rule := trapezoid
		if len(f.Params) > 2 {
			rule = c.Text(2)
		}
		w, used, err := multipliers(xs, rule)
		if err != nil {
			return calc.Value{}, err
		}
		c.sayRule(rule, used, len(xs))
		return give(w, xs, ys, d), nil
	}
	return f
}
