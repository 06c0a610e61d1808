package trade

import (
	"scarph/calc"
)

// water takes the density of the water, or its name.
func water() *Param {
	return tabled("water", calc.DimDensity, "water", "density").within(900, 1300).says(`"fresh", "salt", or a density`)
}

const (
	hullRules = "sections by geometry; integration after C. B. Barrass and D. R. Derrett, Ship Stability for Masters and Mates, chapter on Simpson's rules"
	inTheHull = "the water stands between the keel and the lowest sheer; stations measured, ends between stations not; " + hullLimits
)

// hullFigures are the figures of a hull at a level water line.
func hullFigures() []Function {
	return []Function{
		{
			Name: "hull_volume", Summary: "the volume of a hull below a water line",
			Params: hullParams(waterHeight()), Result: "volume",
			Formula: "∫ section area dx; " + ruleFormula, Limits: inTheHull, Source: hullRules,
			Checks: []Check{
				{Call: "hull_volume(" + boxHull + ", 1 ft)", Want: "40 ft^3", Source: closedForm},
				{Call: "hull_volume(" + wedgeHull + ", 2 ft)", Want: "40 ft^3", Source: closedForm},
			},
			Eval: func(c *Call) (calc.Value, error) {
				h, err := wetHull(c)
				if err != nil {
					return calc.Value{}, err
				}
				return calc.Of(h.displacedTo(level(c.Number(1))).volume, calc.DimVolume), nil
			},
		},
		{
			Name: "waterplane", Summary: "the figure that the water draws on a hull: area, centre, and second moments",
			Params:  hullParams(waterHeight()),
			Result:  "record: area (area), centre (length), transverse_moment (length⁴, about the centreline), longitudinal_moment (length⁴, about the centre), breadth (length), length (length, lowest line to lowest line)",
			Formula: "area = 2∫y dx; centre = 2∫xy dx / area; transverse = ⅔∫y³ dx; longitudinal = 2∫(x − centre)² y dx; " + ruleFormula, Limits: inTheHull, Source: hullRules,
			Checks: []Check{
				{Call: "waterplane(" + boxHull + ", 1 ft).area", Want: "40 ft^2", Source: closedForm},
				{Call: "waterplane(" + boxHull + ", 1 ft).centre", Want: "5 ft", Source: closedForm},
				{Call: "waterplane(" + boxHull + ", 1 ft).transverse_moment", Want: "53.3333333 ft^4", Source: "closed form, L B³ / 12"},
				{Call: "waterplane(" + boxHull + ", 1 ft).longitudinal_moment", Want: "333.333333 ft^4", Source: "closed form, B L³ / 12; Simpson's rule is exact for it"},
			},
			Eval: func(c *Call) (calc.Value, error) {
				h, err := wetHull(c)
				if err != nil {
					return calc.Value{}, err
				}
				p := h.plane(c.Number(1))
				return calc.Fields(
					calc.Field{Name: "area", Value: calc.Of(p.area, calc.DimArea)},
					calc.Field{Name: "centre", Value: calc.Length(p.centre)},
					calc.Field{Name: "transverse_moment", Value: calc.Of(p.across, calc.DimLength4)},
					calc.Field{Name: "longitudinal_moment", Value: calc.Of(p.along, calc.DimLength4)},
					calc.Field{Name: "breadth", Value: calc.Length(p.breadth)},
					calc.Field{Name: "length", Value: calc.Length(p.aft - p.fore)},
				), nil
			},
		},
		{
			Name: "hydrostatics", Summary: "all the figures of a hull that floats level at a water line",
			Params: hullParams(waterHeight(), water()),
			Result: "record: draft, volume, displacement (mass), waterline_length, waterline_breadth, waterplane_area, largest_section (area), centre_of_buoyancy, buoyancy_over_base, centre_of_flotation, metacentric_radius, longitudinal_metacentric_radius, metacentre_over_base, prismatic_coefficient, block_coefficient, waterplane_coefficient, midship_coefficient, sinks_one_inch (mass per length), trims_one_inch (mass: weight · distance for each length of trim)",
			Formula: "KB = ∫ moment dx / V; BM = I / V; KM = KB + BM; Cp = V / (Am·L), Cb = V / (L·B·T), Cw = Aw / (L·B), Cm = Am / (B·T); " +
				"sinks_one_inch = ρ·Aw; trims_one_inch = displacement · BML / L, the height of her weight over her buoyancy left out",
			Limits: inTheHull, Caution: 'E', Source: hullRules,
			Checks: []Check{
				{Call: "hydrostatics(" + boxHull + `, 1 ft, "fresh").displacement`, Want: "2496 lb", Source: closedForm},
				{Call: "hydrostatics(" + boxHull + `, 1 ft, "fresh").metacentric_radius`, Want: "1.3333333 ft", Source: "closed form, B² / 12T"},
				{Call: "hydrostatics(" + boxHull + `, 1 ft, "fresh").sinks_one_inch`, Want: "208 lb/in", Source: closedForm},
				{Call: "hydrostatics(" + boxHull + `, 1 ft, "fresh").block_coefficient`, Want: "1", Source: closedForm},
				{Call: "hydrostatics(" + wedgeHull + `, 2 ft, "salt").buoyancy_over_base`, Want: "1.3333333 ft", Source: "closed form, 2T / 3"},
				{Call: "hydrostatics(" + wedgeHull + `, 2 ft, "salt").metacentre_over_base`, Want: "2.6666667 ft", Source: "closed form, 2T/3 + B² / 6T"},
				{Call: "hydrostatics(" + wedgeHull + `, 2 ft, "salt").midship_coefficient`, Want: "0.5", Source: closedForm},
			},
			Eval: hydrostaticsAt,
		},
		{
			Name: "displacement_table", Summary: "what a hull floats at each of several water lines: a table for draft_for_weight",
			Params: hullParams(lengths("water_heights"), water()),
			Result: "list of [water height, weight]", Formula: "ρ · hull_volume, line by line",
			Limits: inTheHull, Source: hullRules,
			Checks: []Check{
				{Call: "displacement_table(" + boxHull + `, [1 ft, 2 ft], "fresh")`, Want: "[[1 ft, 2496 lb], [2 ft, 4992 lb]]", Source: closedForm},
			},
			Eval: func(c *Call) (calc.Value, error) {
				h, err := hullOf(c)
				if err != nil {
					return calc.Value{}, err
				}
				rows := make([]calc.Value, len(c.Numbers(1)))
				for i, z := range c.Numbers(1) {
					if err := h.wet(z); err != nil {
						return calc.Value{}, err
					}
					rows[i] = calc.Listed(calc.Length(z), calc.Mass(c.Number(2)*h.displacedTo(level(z)).volume))
				}
				return calc.Labelled(c.Labels(1), rows), nil
			},
		},
	}
}

// wetHull reads a hull whose water height is argument 1.
func wetHull(c *Call) (*hull, error) {
	h, err := hullOf(c)
	if err != nil {
		return nil, err
	}
	return h, h.wet(c.Number(1))
}

func hydrostaticsAt(c *Call) (calc.Value, error) {
	h, err := wetHull(c)
	if err != nil {
		return calc.Value{}, err
	}
	z, density := c.Number(1), c.Number(2)
	d, p := h.displacedTo(level(z)), h.plane(z)
	largest := 0.0
	for i := range h.stations {
		largest = max(largest, 2*h.stations[i].below(z).area)
	}
	draft, l := z-h.bottom(), p.aft-p.fore
	weight := density * d.volume
	at := func(name string, v float64, d calc.Dimension) calc.Field {
		return calc.Field{Name: name, Value: calc.Of(v, d)}
	}
	radius, long := p.across/d.volume, p.along/d.volume
	fields := []calc.Field{
		at("draft", draft, calc.DimLength),
		at("volume", d.volume, calc.DimVolume),
		at("displacement", weight, calc.DimMass),
		at("waterline_length", l, calc.DimLength),
		at("waterline_breadth", p.breadth, calc.DimLength),
		at("waterplane_area", p.area, calc.DimArea),
		at("largest_section", largest, calc.DimArea),
		at("centre_of_buoyancy", d.along, calc.DimLength),
		at("buoyancy_over_base", d.height, calc.DimLength),
		at("centre_of_flotation", p.centre, calc.DimLength),
		at("metacentric_radius", radius, calc.DimLength),
		at("longitudinal_metacentric_radius", long, calc.DimLength),
		at("metacentre_over_base", d.height+radius, calc.DimLength),
		at("prismatic_coefficient", d.volume/(largest*l), calc.DimNumber),
		at("block_coefficient", d.volume/(l*p.breadth*draft), calc.DimNumber),
		at("waterplane_coefficient", p.area/(l*p.breadth), calc.DimNumber),
		at("midship_coefficient", largest/(p.breadth*draft), calc.DimNumber),
		at("sinks_one_inch", density*p.area, calc.DimMassPerLen),
		{Name: "trims_one_inch", Value: perTrim(weight * long / l)},
	}
	return calc.Fields(fields...), nil
}

// perTrim is a moment for each length of trim, shown as such: its dimension alone
// would be shown as a weight.
func perTrim(v float64) calc.Value { return calc.Mass(v).Shown(calc.InUnit("lb·in/in")) }
