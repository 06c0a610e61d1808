package trade

import (
	"math"

	"scarph/calc"
)

// floating are the functions of a hull under its weights.
func floating() []Function {
	const ends = "her weight is less than she floats with the water at the lowest sheer"
	return []Function{
		{
			Name: "draft_for", Summary: "how deep a hull floats level under a weight",
			Params:  hullParams(mass("weight").positive(), water()),
			Result:  "record: draft (length, from the lowest point), water_height (length over the base line), centre_of_buoyancy (length), freeboard (length, the least)",
			Formula: "the water height at which ρ · hull_volume is the weight",
			Limits:  ends + "; level: trim_for shows how she trims; " + hullLimits, Caution: 'E', Source: hullRules,
			Checks: []Check{
				{Call: "draft_for(" + boxHull + `, 2496 lb, "fresh").draft`, Want: "1 ft", Source: closedForm},
				{Call: "draft_for(" + wedgeHull + `, 2560 lb, "salt").water_height`, Want: "2 ft", Source: closedForm},
				{Call: "draft_for(" + wedgeHull + `, 2560 lb, "salt").freeboard`, Want: "1 ft", Source: closedForm},
			},
			Eval: func(c *Call) (calc.Value, error) {
				h, z, err := levelUnder(c)
				if err != nil {
					return calc.Value{}, err
				}
				top, _ := h.sheer()
				return calc.Fields(
					calc.Field{Name: "draft", Value: calc.Length(z - h.bottom())},
					calc.Field{Name: "water_height", Value: calc.Length(z)},
					calc.Field{Name: "centre_of_buoyancy", Value: calc.Length(h.displacedTo(level(z)).along)},
					calc.Field{Name: "freeboard", Value: calc.Length(top - z)},
				), nil
			},
		},
		{
			Name: "trim_for", Summary: "how a hull floats under weights in their places: draft and trim together, the water line tilted",
			Params: hullParams(
				listOf("weights", calc.DimMass), lengths("places").says("of the weights along the boat, counted as the stations are"), water(),
				&Param{Name: "heights", Kind: Any, Optional: true, Doc: `of the weights over the base line: a list, or one for all; left out, or "as the buoyancy", the weight is taken as high as the buoyancy`},
			),
			Result:  "record: weight (mass), centre_of_weight (length), trim (length, last station less first: plus by the stern), angle, water_height (length, at middle length), water_height_forward, water_height_aft (length, at the end stations), centre_of_buoyancy (length), least_freeboard (length), least_freeboard_at (text)",
			Formula: "ρ · volume under the tilted water = Σ weight, and the line from the centre of buoyancy to that of weight square to the water",
			Limits:  ends + "; trim up to 1 in 3; " + hullLimits, Caution: 'E', Source: "statics; " + hullRules,
			Checks: []Check{
				{Call: "trim_for(" + boxHull + `, [2496 lb], [5 ft], "fresh").trim`, Want: "0 ft", Source: closedForm},
				{Call: "trim_for(" + boxHull + `, [2000 lb, 496 lb], [5 ft, 5.8333333333 ft], "fresh").centre_of_weight`, Want: "5.16559829 ft", Source: "arithmetic"},
				// a box trims by slope s: the buoyancy moves s·L²/12T, its height s²·L²/24T
				{Call: "trim_for(" + boxHull + `, [2496 lb], [5.8333333333 ft], "fresh", 0.5 ft + 0.1^2 * 100 ft / 24).trim`, Want: "1 ft", Source: "closed form"},
			},
			Eval: trimFor,
		},
		{
			Name: "initial_stability", Summary: "the metacentric height of a hull that floats level under a weight of a given height",
			Params:  hullParams(mass("weight").positive(), water(), length("centre_height").says("of the whole weight over the base line, crew and gear with it")),
			Result:  "record: metacentric_height (length), buoyancy_over_base (length), metacentric_radius (length), metacentre_over_base (length), draft (length), righting_moment_a_degree (weight · length)",
			Formula: "GM = KB + BM − KG; righting moment = weight · GM · sin 1°",
			Limits:  ends + "; heel up to some 10°, before the edge of deck or bilge; loose water and moving crew take from it; " + hullLimits, Caution: 'E', Source: hullRules,
			Checks: []Check{
				{Call: "initial_stability(" + boxHull + `, 2496 lb, "fresh", 1.5 ft).metacentric_height`, Want: "0.33333333 ft", Source: "closed form, T/2 + B²/12T − KG"},
				{Call: "initial_stability(" + boxHull + `, 2496 lb, "fresh", 1.5 ft).righting_moment_a_degree`, Want: "14.5204 lb·ft", Source: "832 sin 1°"},
			},
			Eval: func(c *Call) (calc.Value, error) {
				h, z, err := levelUnder(c)
				if err != nil {
					return calc.Value{}, err
				}
				d, p := h.displacedTo(level(z)), h.plane(z)
				radius := p.across / d.volume
				gm := d.height + radius - c.Number(3)
				c.sayUpright(gm)
				return calc.Fields(
					calc.Field{Name: "metacentric_height", Value: calc.Length(gm)},
					calc.Field{Name: "buoyancy_over_base", Value: calc.Length(d.height)},
					calc.Field{Name: "metacentric_radius", Value: calc.Length(radius)},
					calc.Field{Name: "metacentre_over_base", Value: calc.Length(d.height + radius)},
					calc.Field{Name: "draft", Value: calc.Length(z - h.bottom())},
					calc.Field{Name: "righting_moment_a_degree", Value: calc.Of(c.Number(1)*gm*math.Sin(math.Pi/180), calc.DimMoment)},
				), nil
			},
		},
	}
}

// sayUpright remarks on a metacentric height below zero.
func (c *Call) sayUpright(gm float64) {
	if gm <= 0 {
		c.Warn("she would not stay upright: the weight is as high as the metacentre, or higher")
	}
}

// levelUnder reads a hull and finds the water height under the weight of argument 1
// in the water of argument 2.
func levelUnder(c *Call) (*hull, float64, error) {
	h, err := hullOf(c)
	if err != nil {
		return nil, 0, err
	}
	z, err := h.waterFor(c.Number(1)/c.Number(2), c.Number(2))
	return h, z, err
}

func trimFor(c *Call) (calc.Value, error) {
	h, err := hullOf(c)
	if err != nil {
		return calc.Value{}, err
	}
	weights, places, density := c.Numbers(1), c.Numbers(2), c.Number(3)
	if len(weights) != len(places) {
		return calc.Value{}, calc.Errorf(calc.CodeShape, "%s but %s", several(len(weights), "weight"), several(len(places), "place"))
	}
	total, moment := 0.0, 0.0
	for i, w := range weights {
		total += w
		moment += w * places[i]
	}
	if total <= 0 {
		return calc.Value{}, calc.Errorf(calc.CodeZero, "the weights come to nothing")
	}
	lift := func(float64) float64 { return 0 }
	if c.Given(4) && c.Value(4).Text() != "as the buoyancy" {
		high, err := centreHeight(c.Value(4), weights, total)
		if err != nil {
			return calc.Value{}, err
		}
		lift = func(buoyancy float64) float64 { return high - buoyancy }
	}
	a, err := h.balance(total/density, density, moment/total, lift)
	if err != nil {
		return calc.Value{}, err
	}
	half := (h.xs[len(h.xs)-1] - h.xs[0]) / 2
	free, where := math.Inf(1), ""
	for i := range h.stations {
		_, top := h.stations[i].bounds()
		if f := top - a.middle - a.slope*(h.xs[i]-h.xs[0]-half); f < free {
			free, where = f, h.stations[i].name
		}
	}
	trim := 2 * half * a.slope
	c.sayOff(trim, "by the bow: %s between the end stations", "by the stern: %s between the end stations")
	return calc.Fields(
		calc.Field{Name: "weight", Value: calc.Mass(total)},
		calc.Field{Name: "centre_of_weight", Value: calc.Length(moment / total)},
		calc.Field{Name: "trim", Value: calc.Length(trim)},
		calc.Field{Name: "angle", Value: calc.Angle(math.Atan(a.slope))},
		calc.Field{Name: "water_height", Value: calc.Length(a.middle)},
		calc.Field{Name: "water_height_forward", Value: calc.Length(a.middle - half*a.slope)},
		calc.Field{Name: "water_height_aft", Value: calc.Length(a.middle + half*a.slope)},
		calc.Field{Name: "centre_of_buoyancy", Value: calc.Length(a.along)},
		calc.Field{Name: "least_freeboard", Value: calc.Length(free)},
		calc.Field{Name: "least_freeboard_at", Value: calc.Str(where)},
	), nil
}

// centreHeight returns the height of the centre of the weights, whose own heights
// are a list, or one for all.
func centreHeight(heights calc.Value, weights []float64, total float64) (float64, error) {
	if heights.Kind() != calc.List {
		return heights.V, isLength("the height of the weights", heights)
	}
	items := heights.Items()
	if len(items) != len(weights) {
		return 0, calc.Errorf(calc.CodeShape, "%s but %s", several(len(weights), "weight"), several(len(items), "height"))
	}
	moment := 0.0
	for i, z := range items {
		if err := isLength("the height of "+calc.Words(labelAt(heights.Labels(), i)), z); err != nil {
			return 0, err
		}
		moment += weights[i] * z.V
	}
	return moment / total, nil
}
