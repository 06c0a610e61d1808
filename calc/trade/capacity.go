package trade

import (
	"math"

	"scarph/calc"
	"scarph/calc/tables"
)

// The sums of load, people, power and flotation follow the parts of 33 CFR 183 that were
// read, for monohulls under 20 ft; the rule for inboard boats was not read and is not here.

const (
	underTwenty = "monohulls under 20 ft, not sailboats, canoes, kayaks or inflatables; not for inboard power; check the current text"
	tooLong     = 20 * Foot
)

// cfr names a section of the United States rules of boat safety.
func cfr(section string) string { return "33 CFR " + section + " (check the current text)" }

// ruled returns a figure of the capacity rules.
func ruled(item, quantity string) (float64, error) {
	r, err := tables.Lookup("capacity", item, quantity)
	return r.Value.V, err
}

// shortBoat refuses a length at which the rules of small monohulls end.
func shortBoat(length float64) error {
	if length < tooLong {
		return nil
	}
	return calc.Errorf(calc.CodeDomain, "a boat of %s is not under 20 ft, where this rule ends", In(length)).
		WithHint("read the rule that holds for her")
}

func plates() []Function {
	return []Function{
		{
			Name: "persons_by_size", Summary: "a first guess of how many people a small boat holds, from her length and beam",
			Params:  []*Param{length("length").positive(), length("beam").positive()},
			Result:  "number",
			Formula: "⌊length · beam / 15 ft²⌋",
			Limits:  "monohulls under 20 ft; a first guess, not a plate; in rough water fewer",
			Caution: 'F', Source: "boating-safety guidance, widely printed",
			Stepped: true,
			Checks: []Check{
				{Call: "persons_by_size(14.5 ft, 4.75 ft)", Want: "4"},
				{Call: "persons_by_size(15 ft, 4 ft)", Want: "4", Source: "60 / 15, just whole"},
			},
			Eval: func(c *Call) (calc.Value, error) {
				l, b := c.Number(0), c.Number(1)
				if err := shortBoat(l); err != nil {
					return calc.Value{}, err
				}
				if b > l {
					c.Warn("the beam, %s, is more than the length, %s: are they swapped?", In(b), In(l))
				}
				return calc.Number(whole(l * b / (15 * Foot * Foot))), nil
			},
		},
		{
			Name: "persons_plate", Summary: "the persons capacity of a small boat that is rowed or has a motor of 2 hp or less, by the form of the rule",
			Params: []*Param{
				mass("maximum_weight_capacity").positive().says("from the float test of the rule"),
				choice("by_what_means", "manual", "motor of 2 hp or less"),
			},
			Result:  "record: persons_weight (mass), persons_before_rounding (number), persons (number)",
			Formula: "persons_weight = 0.90 · maximum_weight_capacity, less 25 lb with a motor; persons = (persons_weight + 32 lb) / 141 lb, a half going up",
			Limits:  underTwenty,
			Caution: 'F', Source: cfr("183.43"),
			Stepped: true,
			Checks: []Check{
				{Call: `persons_plate(520 lb, "manual").persons_before_rounding`, Want: "3.5461"},
				{Call: `persons_plate(520 lb, "manual").persons`, Want: "4", Source: "3.5461, a half going up"},
				{Call: `persons_plate(520 lb, "motor of 2 hp or less").persons_weight`, Want: "443 lb", Source: "468 − 25"},
			},
			Eval: personsPlate,
		},
		{
			Name: "horsepower_plate", Summary: "the horsepower that the table of the rule gives a small outboard boat",
			Params: []*Param{
				length("boat_length").positive(), length("transom_width").positive(),
				{Name: "flat_bottom_hard_chine", Kind: Any, Doc: "yes or no"},
			},
			Result:  "record: factor (number), horsepower (power)",
			Formula: "factor = length · transom width, in feet, to the nearest whole number: 0 to 35, 3 hp; 36 to 39, 5; 40 to 42, 7.5; 43 to 45, 10; 46 to 52, 15; one step down for a flat bottom with hard chines",
			Limits:  underTwenty + "; a factor over 52 is not worked out here; a factor midway between two rows takes the lower",
			Caution: 'F', Source: cfr("183.53"),
			Stepped: true,
			Checks: []Check{
				{Call: "horsepower_plate(15 ft, 2.95 ft, yes).factor", Want: "44.25"},
				{Call: "horsepower_plate(15 ft, 2.95 ft, yes).horsepower", Want: "7.5 hp"},
				{Call: "horsepower_plate(15 ft, 2.95 ft, no).horsepower", Want: "10 hp"},
				{Call: "horsepower_plate(12 ft, 46 in, no).horsepower", Want: "15 hp", Source: "factor 46, by the table"},
				{Call: "horsepower_plate(12 ft, 46 in, yes).horsepower", Want: "10 hp", Source: "factor 46, one step down"},
			},
			Eval: horsepowerPlate,
		},
		{
			Name: "weight_capacity_by_displacement", Summary: "the weight a boat may carry as a share of what the swamped hull displaces over her own weight",
			Params: []*Param{
				mass("swamped_displacement").positive().says("the most she displaces before water comes in, by the test of your rule"),
				mass("boat_weight").positive(), number("fraction").within(1e-6, 1).says("of your own rule: name the rule that you use"),
			},
			Result:  "mass",
			Formula: "fraction · (swamped_displacement − boat_weight)",
			Limits:  "the fraction is never taken for granted: your rule gives it; " + underTwenty,
			Caution: 'F', Source: "the form of " + cfr("183.35 and 183.37") + "; ISO 14946 for the metric plate",
			Checks: []Check{
				{Call: "weight_capacity_by_displacement(2900 lb, 210 lb, 0.2)", Want: "538 lb"},
				{Call: "weight_capacity_by_displacement(1400 lb, 150 lb, 0.3)", Want: "375 lb", Source: "0.3 · 1250"},
			},
			Eval: func(c *Call) (calc.Value, error) {
				most, boat := c.Number(0), c.Number(1)
				if boat >= most {
					return calc.Value{}, calc.Errorf(calc.CodeDomain, "the boat, %s, weighs more than the hull displaces, %s: she carries nothing", text(c.Value(1)), text(c.Value(0))).
						WithHint("are the two swapped?")
				}
				return calc.Mass(c.Number(2) * (most - boat)), nil
			},
		},
	}
}

func personsPlate(c *Call) (calc.Value, error) {
	item := "persons manual"
	if c.Text(1) != "manual" {
		item = "persons up to 2 hp"
	}
	var figures [3]float64
	for i, q := range [3][2]string{{item, "share of weight capacity"}, {"persons", "added"}, {"persons", "divisor"}} {
		v, err := ruled(q[0], q[1])
		if err != nil {
			return calc.Value{}, err
		}
		figures[i] = v
	}
	weight := figures[0] * c.Number(0)
	if c.Text(1) != "manual" {
		weight -= 25 * Pound
	}
	if weight <= 0 {
		return calc.Value{}, calc.Errorf(calc.CodeDomain, "a capacity of %s leaves nothing for people", text(c.Value(0)))
	}
	n := (weight + figures[1]) / figures[2]
	return calc.Fields(
		calc.Field{Name: "persons_weight", Value: calc.Mass(weight)},
		calc.Field{Name: "persons_before_rounding", Value: calc.Number(n)},
		calc.Field{Name: "persons", Value: calc.Number(whole(n + 0.5))},
	), nil
}

// powerSteps are the rows of the table of 33 CFR 183.53 up to a factor of 52.
var powerSteps = []struct {
	upTo float64
	item string
}{
	{35, "power factor 0 to 35"}, {39, "power factor 36 to 39"}, {42, "power factor 40 to 42"},
	{45, "power factor 43 to 45"}, {52, "power factor 46 to 52"},
}

func horsepowerPlate(c *Call) (calc.Value, error) {
	flat, err := yesOrNo(c, 2)
	if err != nil {
		return calc.Value{}, err
	}
	if err := shortBoat(c.Number(0)); err != nil {
		return calc.Value{}, err
	}
	if c.Number(1) > c.Number(0) {
		c.Warn("the transom, %s, is wider than the boat is long: are they swapped?", In(c.Number(1)))
	}
	factor := c.Number(0) * c.Number(1) / (Foot * Foot)
	nearest := math.Ceil(factor - 0.5 - 1e-9) // midway, the lower row
	step := 0
	for step < len(powerSteps) && nearest > powerSteps[step].upTo {
		step++
	}
	if step == len(powerSteps) {
		return calc.Value{}, calc.Errorf(calc.CodeDomain, "a factor of %s is over 52, where steering and transom count too", trim(math.Round(factor*100)/100)).
			WithHint("read 33 CFR 183.53 for her; it is not worked out here")
	}
	if flat {
		step--
	}
	if step < 0 {
		return calc.Value{}, calc.Errorf(calc.CodeDomain, "a flat bottom with hard chines goes one step down, and the table has none under 3 hp").
			WithHint("read 33 CFR 183.53 for her")
	}
	power, err := ruled(powerSteps[step].item, "power")
	if err != nil {
		return calc.Value{}, err
	}
	return calc.Fields(
		calc.Field{Name: "factor", Value: calc.Number(factor)},
		calc.Field{Name: "horsepower", Value: calc.Of(power, calc.DimPower).Shown(calc.InUnit("hp"))},
	), nil
}

// yesOrNo reads argument i, a truth or the text of one.
func yesOrNo(c *Call, i int) (bool, error) {
	v := c.Value(i)
	switch {
	case v.Kind() == calc.Truth:
		return v.True(), nil
	case v.Text() == "yes" || v.Text() == "no":
		return v.Text() == "yes", nil
	}
	return false, calc.Errorf(calc.CodeKind, "%s wants yes or no for %s; it was given %s", c.fn.Name, c.fn.Params[i].Name, v.What())
}

func afloatWhenSwamped() []Function {
	const archimedes = "Archimedes"
	return []Function{
		{
			Name: "flotation_volume", Summary: "the volume of foam (or of an air chest) that keeps a weight afloat",
			Params: []*Param{
				mass("weight_to_float").positive().says("under water: what it weighs less the water it drives aside"), water(),
				scalar("foam_density", calc.DimDensity).notNegative().says("2 lb/ft^3 is a common foam; 0 lb/ft^3 is air"),
			},
			Result:  "volume",
			Formula: "weight_to_float / (water − foam_density)",
			Limits:  "the foam is lighter than the water; wood that floats takes its own lift from the weight, volume · (water − wood)",
			Caution: 'F', Source: archimedes,
			Checks: []Check{
				{Call: `flotation_volume(160 lb, "fresh", 2 lb/ft^3)`, Want: "2.64901 ft^3"},
			},
			Eval: func(c *Call) (calc.Value, error) {
				w, f := c.Number(1), c.Number(2)
				if f >= w {
					return calc.Value{}, calc.Errorf(calc.CodeDomain, "foam of %s sinks in water of %s", text(c.Value(2)), text(c.Value(1))).
						WithHint("a common foam has 2 lb/ft^3")
				}
				return calc.Of(c.Number(0)/(w-f), calc.DimVolume), nil
			},
		},
		{
			Name: "swamped_margin", Summary: "what a swamped wooden boat still floats beyond herself and her metal",
			Params: []*Param{
				listOf("wood_volume", calc.DimVolume).says("one a wood"),
				{Name: "densities", Kind: Any, Doc: "a list of densities or names of woods, one for each volume"},
				mass("hardware_weight").notNegative().says("of metal, weighed in air"),
				number("hardware_in_water").within(0.1, 1).optional(calc.Number(0.87)).says("the share of its weight that it keeps under water: iron 0.87, bronze 0.89, fibreglass 0.33"),
				water().optional(calc.Str("fresh")),
			},
			Result:  "mass",
			Formula: "Σ volume · (water − density) − 0.87 · hardware_weight",
			Limits:  "below zero, she sinks (a remark); wood soaks and grows heavier by the year; engine, ballast and gear count as hardware",
			Caution: 'F', Source: archimedes,
			Checks: []Check{
				{Call: "swamped_margin([1.67 ft^3, 0.9 ft^3], [21 lb/ft^3, 45 lb/ft^3], 30 lb)", Want: "58.698 lb"},
				{Call: `swamped_margin([2 ft^3], [30 lb/ft^3], 0 lb, 1, "salt")`, Want: "68 lb", Source: "2 · 34"},
			},
			Eval: swampedMargin,
		},
		{
			Name: "speed_by_length", Summary: "the speed at which a boat that does not plane meets the wave of her own length",
			Params:  []*Param{length("waterline_length").positive()},
			Result:  "speed, in knots",
			Formula: "1.34 kn · √(length in ft); of a deep-water wave √(g · length / 2π)",
			Limits:  "boats that part the water and do not ride on it", Source: "deep-water wave speed, rounded by common practice",
			Checks: []Check{
				{Call: "speed_by_length(13.1 ft)", Want: "4.84999 kn"},
				{Call: "speed_by_length(16 ft)", Want: "5.36 kn", Source: "1.34 · 4"},
			},
			Eval: func(c *Call) (calc.Value, error) {
				return calc.Of(1.34*1852/3600*math.Sqrt(c.Number(0)/Foot), calc.DimSpeed), nil
			},
		},
	}
}

func swampedMargin(c *Call) (calc.Value, error) {
	volumes, densities := c.Numbers(0), c.Value(1)
	if densities.Kind() != calc.List || len(densities.Items()) != len(volumes) {
		return calc.Value{}, calc.Errorf(calc.CodeShape, "swamped_margin wants a list of as many densities as volumes, %d", len(volumes)).
			WithHint(`write [21 lb/ft^3, 45 lb/ft^3], or [21 lb/ft^3, "white oak"]`)
	}
	density := tabled("density", calc.DimDensity, "wood", tables.Density)
	margin := -c.Number(3) * c.Number(2)
	for i, d := range densities.Items() {
		where := calc.Words(labelAt(densities.Labels(), i))
		if d.Kind() == calc.Text {
			name := d.Text()
			found, err := density.Find(name)
			if err != nil {
				return calc.Value{}, err
			}
			if r := density.Remark(name); r != "" {
				c.Warn("%s", r)
			}
			d = found
		}
		if !d.IsQuantity() || d.D != calc.DimDensity || d.V <= 0 {
			return calc.Value{}, calc.Errorf(calc.CodeDimension, "%s: a density is wanted; this is %s", where, d.What()).WithHint("write 21 lb/ft^3 or 340 kg/m^3")
		}
		margin += volumes[i] * (c.Number(4) - d.V)
	}
	if margin < 0 {
		c.Warn("the swamped boat sinks: %s of lift is missing", text(calc.Mass(-margin)))
	}
	return calc.Mass(margin), nil
}
