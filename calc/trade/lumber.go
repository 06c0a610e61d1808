package trade

import (
	"math"

	"scarph/calc"
	"scarph/calc/tables"
)

// whole rounds down to a whole number; a hair under one counts as one.
func whole(n float64) float64 { return math.Floor(n + 1e-9) }

func boardFeet(v float64) calc.Value {
	return calc.Of(v, calc.DimVolume).Shown(calc.InUnit("bd ft"))
}

func boards() []Function {
	return []Function{
		{
			Name: "board_feet", Summary: "the board feet of so many boards alike",
			Params:  []*Param{length("thickness").positive().says("rough, as the yard names it: 5/4 in"), length("width").positive(), length("length").positive(), count("count").atLeast(1)},
			Result:  "volume",
			Formula: "thickness · width · length · count; one board foot is 144 in³",
			Limits:  "sizes more than zero; rough thickness, not dressed",
			Source:  "NIST Handbook 44, Appendix C (board foot); NIST PS 20",
			Checks: []Check{
				{Call: "board_feet(5/4 in, 8 in, 14 ft, 6)", Want: "70 bd ft"},
				{Call: "board_feet(2 in, 6 in, 16 ft, 1)", Want: "16 bd ft"},
				{Call: "board_feet(4/4 in, 7.5 in, 10 ft, 1)", Want: "6.25 bd ft"},
				{Call: "board_feet(1 in, 12 in, 12 in, 1)", Want: "2359.737216 mL", Source: "16.387064 cm³ to the cubic inch, exact"},
			},
			Eval: func(c *Call) (calc.Value, error) {
				t, v := c.Number(0), c.Number(1)*c.Number(2)*c.Number(3)
				if t < Inch {
					c.Warn("stock under an inch counts as a full inch at many yards: that would be %s", calc.Style{}.Text(boardFeet(Inch*v)))
				}
				return boardFeet(t * v), nil
			},
		},
		{
			Name: "rough_from_finished", Summary: "the rough thickness to buy, in quarters of an inch, for a finished one",
			Params:  []*Param{length("thickness").positive(), length("planing_allowance").orZero().notNegative()},
			Result:  "length",
			Formula: "⌈4 · (thickness + planing_allowance)⌉ / 4, in inches",
			Limits:  "thickness more than zero; rough stock is named in quarters: 4/4, 5/4, 6/4, 8/4",
			Source:  "common practice",
			Stepped: true,
			Checks:  []Check{{Call: "rough_from_finished(7/8 in, 3/16 in)", Want: "1.25 in"}, {Call: "rough_from_finished(3/4 in, 1/4 in)", Want: "1 in", Source: "a full quarter does not go up"}},
			Eval: func(c *Call) (calc.Value, error) {
				return calc.Length(wholeUp((c.Number(0)+c.Number(1))/(Inch/4)) * Inch / 4), nil
			},
		},
		{
			Name: "planks_from_thickness", Summary: "how many planks a thick board gives when it is resawn",
			Params: []*Param{length("rough_thickness").positive(), length("kerf").orZero().notNegative(), length("finished_thickness").positive(), length("planing").orZero().notNegative()},
			Result: "count", Formula: "⌊(rough_thickness + kerf) / (finished_thickness + planing + kerf)⌋",
			Limits: "one kerf fewer than planks", Source: "common practice", Stepped: true,
			Checks: []Check{{Call: "planks_from_thickness(1 3/4 in, 1/8 in, 5/8 in, 3/16 in)", Want: "2"}},
			Eval: func(c *Call) (calc.Value, error) {
				n := whole((c.Number(0) + c.Number(1)) / (c.Number(2) + c.Number(3) + c.Number(1)))
				if n == 0 {
					c.Warn("the board is too thin for one such plank")
				}
				return calc.Number(n), nil
			},
		},
		{
			Name: "battens_from_board", Summary: "how many strips of one width a board gives",
			Params: []*Param{length("board_width").positive(), length("batten_width").positive(), length("kerf").orZero().notNegative()},
			Result: "count", Formula: "⌊(board_width + kerf) / (batten_width + kerf)⌋",
			Limits: "one kerf fewer than strips", Source: "geometry", Stepped: true,
			Checks: []Check{{Call: "battens_from_board(7 1/4 in, 3/4 in, 1/8 in)", Want: "8"}},
			Eval: func(c *Call) (calc.Value, error) {
				n := whole((c.Number(0) + c.Number(2)) / (c.Number(1) + c.Number(2)))
				if n == 0 {
					c.Warn("the board is narrower than one strip")
				}
				return calc.Number(n), nil
			},
		},
	}
}

func stock() []Function {
	return []Function{
		{
			Name: "scarf_length", Summary: "the length of a scarf across a thickness",
			Params: []*Param{length("thickness").positive(), number("ratio").positive().says("8 means 8 to 1")},
			Result: "length", Formula: "ratio · thickness",
			Limits:  "a ratio from 6 to 12; 8 is common in planks, 12 in spars",
			Caution: 'B', Source: "common practice",
			Checks: []Check{
				{Call: "scarf_length(5/8 in, 8)", Want: "5 in"},
				{Call: "scarf_length(9.5 mm, 6)", Want: "57 mm", Source: "boatbuilders' rule of thumb: plank scarf 6 to 1"},
			},
			Eval: func(c *Call) (calc.Value, error) {
				r := c.Number(1)
				switch {
				case r < 1:
					return calc.Value{}, calc.Errorf(calc.CodeDomain, "scarf_length: a ratio of %s is shorter than the wood is thick", trim(r)).WithHint("write 8 for 8 to 1")
				case r < 6:
					c.Warn("%s to 1 is short for a glued scarf: 6 to 1 is the least in use, 8 to 1 the common one", trim(r))
				case r > 12:
					c.Warn("%s to 1 is longer than any in common use: 12 to 1 serves for spars", trim(r))
				}
				return calc.Length(r * c.Number(0)), nil
			},
		},
		{
			Name: "scarfed_stock", Summary: "the stock that a length scarfed from several pieces takes",
			Params: []*Param{length("finished_length").positive(), count("piece_count").atLeast(1), length("scarf_length").orZero().notNegative()},
			Result: "length", Formula: "finished_length + (piece_count − 1) · scarf_length",
			Limits: "one scarf fewer than pieces", Source: "geometry",
			Checks: []Check{{Call: "scarfed_stock(16 ft 6 in, 2, 5 in)", Want: "203 in"}},
			Eval: func(c *Call) (calc.Value, error) {
				return calc.Length(c.Number(0) + (c.Number(1)-1)*c.Number(2)), nil
			},
		},
		{
			Name: "panel_weight", Summary: "the weight of a sheet or a panel",
			Params: []*Param{area("area").positive(), length("thickness").positive(), density("density")},
			Result: "mass", Formula: "area · thickness · density",
			Limits: "all more than zero; wood is weighed at 12 % moisture", Source: "definition",
			Checks: []Check{
				{Call: "panel_weight(2.98 m^2, 6 mm, 500 kg/m^3)", Want: "8.94 kg"},
				{Call: `panel_weight(2.9768 m^2, 6 mm, "okoume plywood")`, Want: "8.03736 kg", Source: "maker's table of okoume plywood: 2.7 kg/m² at 6 mm"},
			},
			Eval: func(c *Call) (calc.Value, error) {
				return calc.Mass(c.Number(0) * c.Number(1) * c.Number(2)), nil
			},
		},
		{
			Name: "grain_runout", Summary: "the slope of the grain, as 1 in so many",
			Params: []*Param{length("rise").positive(), length("run").positive()},
			Result: "number n, of a slope 1 in n", Formula: "run / rise",
			Limits:  "steeper than 1 in 12 is poor stock for spars, oars and steamed ribs",
			Caution: 'B', Source: "common practice",
			Checks: []Check{{Call: "grain_runout(1/2 in, 9 in)", Want: "18"}},
			Eval: func(c *Call) (calc.Value, error) {
				n := c.Number(1) / c.Number(0)
				if n < 12 {
					c.Warn("the grain runs out at 1 in %s, steeper than 1 in 12: not for a spar, an oar or a steamed rib", trim(math.Round(n*10)/10))
				}
				return calc.Number(n), nil
			},
		},
	}
}

// density takes a density, or the name of a plywood or a wood.
func density(name string) *Param {
	find := func(s string) (tables.Row, error) {
		if r, err := tables.Lookup("plywood", s, "density"); err == nil {
			return r, nil
		}
		return tables.Lookup("wood", s, "density")
	}
	p := rowed(name, calc.DimDensity, "wood", []string{"density"}, find).positive()
	woods := p.Names
	p.Names = func() []string { return append([]string{"okoume plywood"}, woods()...) }
	return p
}

func buying() []Function {
	return []Function{
		{
			Name: "lumber_to_buy", Summary: "what to buy so that the net amount is left when a share of it is lost",
			Params: []*Param{anything("net").positive(), percent("waste_percent", 0, 89.999)},
			Result: "amount, of the net's dimension", Formula: "net / (1 − waste_percent)",
			Limits: "waste from 0 to under 90 %, as a share of what is bought",
			Source: "common practice",
			Checks: []Check{
				{Call: "lumber_to_buy(118 bd ft, 35 %)", Want: "181.538 bd ft"},
				{Call: "lumber_to_buy(100 bd ft, 30 %)", Want: "142.857 bd ft", Source: "100 / 0.7"},
			},
			Eval: func(c *Call) (calc.Value, error) {
				net, w := c.Number(0), c.Number(1)
				bought := sameKind(c, net/(1-w))
				if w > 0 {
					c.Warn("waste is taken as a share of what is bought; added to the net instead it would be %s", calc.Style{}.Text(sameKind(c, net*(1+w))))
				}
				return bought, nil
			},
		},
		{
			Name: "lumber_cost", Summary: "the price of a net amount with its waste",
			Params: []*Param{anything("amount").positive(), anything("price").says("money for a unit of the amount: 9.50 USD/bd ft"), percent("waste", 0, 89.999)},
			Result: "money", Formula: "amount / (1 − waste) · price",
			Limits: "waste as a share of what is bought; money is never converted", Source: "common practice",
			Checks: []Check{{Call: "lumber_cost(118 bd ft, 9.50 USD/bd ft, 35 %)", Want: "1724.62 USD"}},
			Eval:   lumberCost,
		},
		cutListEntry(),
		sheetsEntry(),
	}
}

// sameKind returns v in the dimension of the first argument; lumber is shown in
// board feet.
func sameKind(c *Call, v float64) calc.Value {
	if c.Dim(0) == calc.DimVolume {
		return boardFeet(v)
	}
	return calc.Of(v, c.Dim(0))
}

func lumberCost(c *Call) (calc.Value, error) {
	price := c.Value(1)
	if price.V < 0 {
		return calc.Value{}, Refuse("lumber_cost: the price is below zero")
	}
	cost, err := calc.Mul(calc.Of(c.Number(0)/(1-c.Number(2)), c.Dim(0)), calc.Of(price.V, price.D))
	if err != nil {
		return calc.Value{}, err
	}
	if !cost.D.IsMoney() {
		return calc.Value{}, calc.Errorf(calc.CodeDimension, "lumber_cost: %s at %s makes %s, not money", c.Dim(0).A(), price.D.A(), cost.D.A()).
			WithHint("a price is money for a unit of the amount: 9.50 USD/bd ft, 2 EUR/m, 48 EUR/m^2")
	}
	return cost, nil
}
