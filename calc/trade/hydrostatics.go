package trade

import (
	"math"

	"scarph/calc"
)

// The sums of displacement, trim and stability start from figures at hand; the group of
// hulls works the figures out of a table of offsets.

const navalPractice = "naval architecture, common practice"

// volumes are the sums of area, volume and weight.
func volumes() []Function {
	return []Function{
		{
			Name: "section_area", Summary: "the area of a section below the water, both sides",
			Params:  []*Param{points("points", 2).says("of the section, [[half_breadth, height], …] from the keel up"), length("draft").says("the height of the water on the scale of the section's heights")},
			Result:  "area; 0, with a remark, when the station is dry",
			Formula: "2 · ∫ y dz along the section's straight pieces, closed level to the centreline",
			Limits:  "points in order from the keel up; the water does not stand over the last",
			Source:  "geometry",
			Checks: []Check{
				{Call: "section_area([[18 in, 0 in], [18 in + 20 in * tan(20°), 20 in]], 4 in)", Want: "149.824 in^2"},
				{Call: "section_area([[0 in, 0 in], [10 in, 5 in], [10 in, 12 in]], 5 in)", Want: "50 in^2", Source: "a triangle"},
			},
			Eval: func(c *Call) (calc.Value, error) {
				pts := planePoints(c, 0)
				if len(pts) < 2 {
					return calc.Value{}, tooFew(len(pts), 2)
				}
				s := station{name: "the section", trace: straight(pts)}
				water := c.Number(1)
				if err := s.overSheer(water); err != nil {
					return calc.Value{}, err
				}
				if low, _ := s.bounds(); water <= low {
					c.Warn("this station is dry: its lowest point, %s, is above the water", In(low))
				}
				return calc.Of(2*s.below(water).area, calc.DimArea), nil
			},
		},
		alongStations(Function{
			Name: "displaced_volume", Summary: "the volume below the water, from the areas of the sections",
			Params: []*Param{listOf("section_areas", calc.DimArea).says("both sides, 0 at a dry station"), length("spacing").positive(), ruleParam()},
			Result: "volume", Formula: "Simpson's first rule over the areas; where it does not fit, what is used is said",
			Limits: "two sections or more, none below zero", Source: navalPractice,
			Checks: []Check{
				{Call: "displaced_volume([0 in^2, 88 in^2, 146 in^2, 163 in^2, 138 in^2], 36 in)", Want: "9.95833 ft^3"},
				{Call: `displaced_volume([0 in^2, 88 in^2, 146 in^2, 163 in^2, 138 in^2], 36 in, "trapezoid")`, Want: "16776 in^3", Source: "36 · (88 + 146 + 163 + 69)"},
			},
		}, func(c *Call, w, _, areas []float64) (calc.Value, error) {
			return calc.Of(sum(w, areas), calc.DimVolume), nil
		}),
		{
			Name: "displacement", Summary: "the weight that a volume of water floats",
			Params: []*Param{volume("volume").notNegative(), water()},
			Result: "mass", Formula: "volume · density",
			Limits: "fresh is 62.4 lb/ft³, salt 64.0 lb/ft³; a density may be given", Source: "definition; 33 CFR 183.105(a)(3) for fresh water, common practice for salt",
			Checks: []Check{
				{Call: `displacement(8.1 ft^3, "fresh")`, Want: "505.44 lb"},
				{Call: `displacement(8.1 ft^3, "salt")`, Want: "518.4 lb", Source: "arithmetic"},
				{Call: "displacement(2639.3333333 m^3, 1.025 tonne/m^3)", Want: "2705.31667 tonne", Source: "Barrass and Derrett, Ship Stability for Masters and Mates, p. 79"},
			},
			Eval: func(c *Call) (calc.Value, error) {
				return calc.Mass(c.Number(0) * c.Number(1)), nil
			},
		},
		{
			Name: "draft_for_weight", Summary: "the draft for a weight, from a table of drafts and weights",
			Params:  []*Param{mass("weight").positive(), mixedPoints("draft_table", calc.DimLength, calc.DimMass).says("[[draft, weight], …], the least first")},
			Result:  "length",
			Formula: "straight between two rows of the table",
			Limits:  "within the table; drafts and weights both rise", Source: "common practice",
			Checks: []Check{
				{Call: "draft_for_weight(478 lb, [[3 in, 300 lb], [4 in, 520 lb]])", Want: "3.80909 in"},
			},
			Eval: draftForWeight,
		},
		{
			Name: "prismatic_coefficient", Summary: "how full the ends are: the volume over that of a prism of the largest section",
			Params:  []*Param{volume("volume").positive(), area("section_area").positive().says("of the largest section, both sides"), length("length").positive().says("of the waterline")},
			Result:  "number",
			Formula: "volume / (section_area · length)",
			Limits:  "from 0 to 1", Source: "definition",
			Checks: []Check{
				{Call: "prismatic_coefficient(8.1 ft^3, 1.132 ft^2, 13.1 ft)", Want: "0.54622"},
			},
			Eval: func(c *Call) (calc.Value, error) {
				cp := c.Number(0) / (c.Number(1) * c.Number(2))
				if cp > 1+1e-9 {
					return calc.Value{}, calc.Errorf(calc.CodeDomain, "the volume, %s, is more than a prism of the section, %s", text(c.Value(0)), text(calc.Of(c.Number(1)*c.Number(2), calc.DimVolume))).
						WithHint("is the section half only, or not the largest?")
				}
				return calc.Number(cp), nil
			},
		},
		{
			Name: "weight_to_sink_one_inch", Summary: "the weight that sinks a boat by one inch (or any other unit of length)",
			Params:  []*Param{area("waterplane_area").positive(), water()},
			Result:  "mass per length",
			Formula: "waterplane_area · density",
			Limits:  "small changes of draft, the sides near plumb at the water", Source: "common practice; C. B. Barrass and D. R. Derrett, Ship Stability for Masters and Mates (TPC)",
			Checks: []Check{
				{Call: `weight_to_sink_one_inch(39.6 ft^2, "fresh")`, Want: "205.92 lb/in"},
				{Call: `weight_to_sink_one_inch(45 ft^2, "salt")`, Want: "240 lb/in", Source: "arithmetic"},
			},
			Eval: func(c *Call) (calc.Value, error) {
				return calc.Of(c.Number(0)*c.Number(1), calc.DimMassPerLen), nil
			},
		},
	}
}

// alongStations makes a function of values at one spacing, arguments 0 and 1, by the
// rule of its last argument.
func alongStations(f Function, give func(c *Call, w, xs, values []float64) (calc.Value, error)) Function {
	f.Eval = func(c *Call) (calc.Value, error) {
		values := c.Numbers(0)
		for k, v := range values {
			if v < 0 {
				return calc.Value{}, calc.Errorf(calc.CodeDomain, "%s is below zero", calc.Words(labelAt(c.Labels(0), k))).
					WithHint("a dry station is 0")
			}
		}
		xs := evenly(len(values), c.Number(1))
		rule := c.Text(len(f.Params) - 1)
		w, used, err := multipliers(xs, rule)
		if err != nil {
			return calc.Value{}, err
		}
		c.sayRule(rule, used, len(xs))
		return give(c, w, xs, values)
	}
	return f
}

func draftForWeight(c *Call) (calc.Value, error) {
	rows, want := c.Points(1), c.Number(0)
	if len(rows) < 2 {
		return calc.Value{}, tooFew(len(rows), 2)
	}
	for i := 1; i < len(rows); i++ {
		if rows[i][0] <= rows[i-1][0] || rows[i][1] <= rows[i-1][1] {
			return calc.Value{}, calc.Errorf(calc.CodeDomain, "drafts and weights both rise: %s, %s comes after %s, %s", In(rows[i][0]), text(calc.Mass(rows[i][1])), In(rows[i-1][0]), text(calc.Mass(rows[i-1][1])))
		}
	}
	last := rows[len(rows)-1]
	switch {
	case want > last[1]*(1+1e-12):
		return calc.Value{}, calc.Errorf(calc.CodeDomain, "%s is heavier than the boat floats at the top of the table, %s at %s", text(c.Value(0)), text(calc.Mass(last[1])), In(last[0])).
			WithHint("no guess is made beyond the table")
	case want < rows[0][1]*(1-1e-12):
		return calc.Value{}, calc.Errorf(calc.CodeDomain, "%s is lighter than the table's first row, %s at %s", text(c.Value(0)), text(calc.Mass(rows[0][1])), In(rows[0][0])).
			WithHint("no guess is made beyond the table")
	}
	i := 1
	for i < len(rows)-1 && rows[i][1] < want {
		i++
	}
	a, b := rows[i-1], rows[i]
	return calc.Length(a[0] + (b[0]-a[0])*(want-a[1])/(b[1]-a[1])), nil
}

// buoyancy are the centres and radii.
func buoyancy() []Function {
	return []Function{
		alongStations(Function{
			Name: "centre_of_flotation", Summary: "the centre of the waterplane, about which a boat trims",
			Params: []*Param{lengths("half_breadths").says("at the water, 0 at a dry end"), length("spacing").positive(), ruleParam()},
			Result: "length aft of the first half-breadth", Formula: "Σ multiplier · y · x / Σ multiplier · y",
			Limits: "half-breadths not all nothing", Source: navalPractice,
			Checks: []Check{
				{Call: "centre_of_flotation([0 in, 6.1 in, 9.4 in, 10.2 in, 8.8 in], 24 in)", Want: "56.7931 in"},
			},
		}, func(_ *Call, w, xs, ys []float64) (calc.Value, error) {
			area, at := centroid(w, xs, ys)
			if area == 0 {
				return calc.Value{}, calc.Errorf(calc.CodeZero, "the waterplane has no area: the boat is dry")
			}
			return calc.Length(at), nil
		}),
		{
			Name: "centre_of_buoyancy_height", Summary: "an estimate of how high the centre of buoyancy lies over the keel",
			Params:  []*Param{length("draft").positive(), volume("volume").positive(), area("waterplane_area").positive()},
			Result:  "length over the bottom of the keel",
			Formula: "draft − (draft / 2 + volume / waterplane_area) / 3",
			Limits:  "exact for a box and for a wedge; within some 4 % of the draft for ordinary forms, poor with a deep keel; hydrostatics takes it from the sections",
			Source:  "Morrish's rule, as in C. B. Barrass and D. R. Derrett, Ship Stability for Masters and Mates",
			Checks: []Check{
				{Call: "centre_of_buoyancy_height(0.333 ft, 8.1 ft^3, 39.6 ft^2)", Want: "0.209318 ft"},
				{Call: "centre_of_buoyancy_height(1 ft, 40 ft^3, 40 ft^2)", Want: "0.5 ft", Source: "a box, exact"},
				{Call: "centre_of_buoyancy_height(1.5 ft, 30 ft^3, 40 ft^2)", Want: "1 ft", Source: "a wedge, exact"},
			},
			Eval: func(c *Call) (calc.Value, error) {
				t, mean := c.Number(0), c.Number(1)/c.Number(2)
				if mean > t {
					c.Warn("volume over waterplane, %s, is more than the draft: she would be wider below than at the water", In(mean))
				}
				return calc.Length(t - (t/2+mean)/3), nil
			},
		},
		alongStations(Function{
			Name: "metacentric_radius", Summary: "the height of the metacentre over the centre of buoyancy",
			Params: []*Param{lengths("half_breadths").says("at the water, 0 at a dry end"), length("spacing").positive(), volume("volume").positive(), ruleParam()},
			Result: "length", Formula: "⅔ · ∫ y³ dx / volume",
			Limits: "small heel; volume more than zero", Source: "C. B. Barrass and D. R. Derrett, Ship Stability for Masters and Mates (BM = I / V)",
			Checks: []Check{
				{Call: "metacentric_radius([0 ft, 1.4 ft, 1.9 ft, 1.85 ft, 1.6 ft], 3.275 ft, 8.1 ft^3)", Want: "4.86232 ft"},
				{Call: "metacentric_radius([5 m, 5 m, 5 m], 10 m, 700 m^3)", Want: "2.38095 m", Source: "Barrass and Derrett, p. 111: a box of 10 m beam at 3.5 m draft"},
			},
		}, func(c *Call, w, _, ys []float64) (calc.Value, error) {
			cubes := make([]float64, len(ys))
			for i, y := range ys {
				cubes[i] = math.Pow(y, 3)
			}
			return calc.Length(2.0 / 3 * sum(w, cubes) / c.Number(2)), nil
		}),
	}
}
