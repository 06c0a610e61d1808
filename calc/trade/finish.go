package trade

import (
	"math"

	"scarph/calc"
)

func gluing() []Function {
	return []Function{
		{
			Name: "glue_needed", Summary: "the glue that joints of an area take",
			Params: []*Param{area("joint_area").positive(), scalar("spread_rate", calc.DimMassPerArea).positive().says("from the maker's sheet: 250 g/m^2")},
			Result: "mass", Formula: "joint_area · spread_rate",
			Limits:  "the rate says whether it is for one face or for both",
			Caution: 'D', Source: "common practice; the rate from the maker's sheet",
			Checks: []Check{{Call: "glue_needed(1.4 m^2, 250 g/m^2)", Want: "350 g"}},
			Eval: func(c *Call) (calc.Value, error) {
				return calc.Mass(c.Number(0) * c.Number(1)), nil
			},
		},
		{
			Name: "mix_parts", Summary: "how a total divides into resin and hardener",
			Params: []*Param{anything("total").positive().says("a mass or a volume"), number("parts_resin").positive(), number("parts_hardener").positive()},
			Result: "record: resin, hardener, of the total's dimension", Formula: "total · part / (parts_resin + parts_hardener)",
			Limits:  "parts by weight and parts by volume differ: use the ratio for the way you measure; never change the hardener's share to hurry a cure",
			Caution: 'D', Source: "the maker's sheet",
			Checks: []Check{
				{Call: "mix_parts(350 g, 5, 1).resin", Want: "291.667 g"},
				{Call: "mix_parts(600 mL, 5, 1).hardener", Want: "100 mL"},
				{Call: "mix_parts(720 g, 100, 44).hardener", Want: "220 g"},
			},
			Eval: mixParts,
		},
		{
			Name: "fillet_volume", Summary: "the filler in a round fillet along a corner",
			Params: []*Param{
				length("radius").positive(), length("length").positive(),
				angle("corner").degrees(1, 179).optional(calc.Degrees(90)).says("between the two panels, 90° unless given"),
			},
			Result: "volume", Formula: "½ · radius² · (2 / tan(corner/2) − (π − corner)) · length; in a square corner (1 − π/4) · radius² · length",
			Limits: "a corner between 1 and 179°; an arc that touches both panels", Source: "geometry",
			Checks: []Check{
				{Call: "fillet_volume(12 mm, 4.6 m)", Want: "142.152 mL"},
				{Call: "fillet_volume(12 mm, 4860 mm)", Want: "150.19 mL", Tol: 1e-4, Source: "(1 − π/4) · 144 · 4860 mm³ by hand"},
			},
			Eval: func(c *Call) (calc.Value, error) {
				r, l, corner := c.Number(0), c.Number(1), c.Number(2)
				return calc.Of(r*r/2*(2/math.Tan(corner/2)-(math.Pi-corner))*l, calc.DimVolume), nil
			},
		},
	}
}

func mixParts(c *Call) (calc.Value, error) {
	d := c.Dim(0)
	if d != calc.DimMass && d != calc.DimVolume {
		e := calc.Errorf(calc.CodeDimension, "mix_parts wants a mass or a volume for the total; it was given %s", d.A())
		if d.IsNumber() {
			e.Code = calc.CodeBareNumber
			return calc.Value{}, e.WithHint("write 350 g or 600 mL")
		}
		return calc.Value{}, e
	}
	whole, resin, hardener := c.Number(0), c.Number(1), c.Number(2)
	if hardener > resin {
		c.Warn("more hardener than resin: are the parts swapped?")
	}
	return calc.Fields(
		calc.Field{Name: "resin", Value: calc.Of(whole*resin/(resin+hardener), d)},
		calc.Field{Name: "hardener", Value: calc.Of(whole*hardener/(resin+hardener), d)},
	), nil
}

func painting() []Function {
	return []Function{
		{
			Name: "paint_needed", Summary: "the paint for so many coats, with what is lost in brush and tray",
			Params: []*Param{area("area").positive(), scalar("coverage", calc.DimCoverage).positive().called("a coverage").says("from the maker's sheet, 11 m^2/L or 400 ft^2/gal"), count("coats").atLeast(1), percent("loss", 0, 100)},
			Result: "volume", Formula: "area · coats / coverage · (1 + loss)",
			Limits: "coverage on smooth wood that does not drink; bare wood takes more in the first coat; the loss is added to the net",
			Source: "the maker's sheet",
			Checks: []Check{
				{Call: "paint_needed(8.6 m^2, 11 m^2/L, 3, 10 %)", Want: "2.58 L"},
				{Call: "paint_needed(18 m^2, 11.25 m^2/L, 3, 12 %)", Want: "5.376 L", Source: "arithmetic: 4.8 L and 12 % more"},
			},
			Eval: func(c *Call) (calc.Value, error) {
				return calc.Of(c.Number(0)*c.Number(2)/c.Number(1)*(1+c.Number(3)), calc.DimVolume), nil
			},
		},
		{
			Name: "hull_girth_area", Summary: "the area of both sides of a hull from the girths of one side",
			Params: []*Param{lengths("girths"), length("spacing").positive()},
			Result: "area", Formula: "twice Simpson's first rule over an odd number of girths; twice the trapezoid rule over an even number",
			Limits: "two girths or more, a space apart, each from the keel or chine to the sheer; the slope of the hull fore and aft is not in it",
			Source: "geometry; Simpson's rules as in Barrass and Derrett, Ship Stability for Masters and Mates, Appendix I",
			Checks: []Check{
				{Call: "hull_girth_area([36 in, 39 in, 41 in, 40 in, 37 in], 36 in)", Want: "78.5 ft^2"},
				{Call: "hull_girth_area([30 in, 30 in], 36 in)", Want: "15 ft^2", Source: "two rectangles"},
			},
			Eval: girthArea,
		},
		{
			Name: "seam_compound_volume", Summary: "the compound that a seam takes",
			Params: []*Param{length("seam_length").positive(), length("width").positive(), length("depth").positive(), choice("section", "V", "square").optional(calc.Str("V"))},
			Result: "volume", Formula: "½ · width · depth · seam_length for a V, width · depth · seam_length for a square seam",
			Limits: "width at the face; cotton takes its part of the depth; a V unless given", Source: "geometry",
			Checks: []Check{
				{Call: "seam_compound_volume(148.8 ft, 1/8 in, 1/4 in)", Want: "27.9 cu in"},
				{Call: "seam_compound_volume(100 ft, 1/8 in, 9/16 in)", Want: "42.1875 cu in", Source: "½ · 1/8 · 9/16 · 1200 by hand"},
				{Call: `seam_compound_volume(148.8 ft, 1/8 in, 1/4 in, "square")`, Want: "55.8 cu in", Source: "twice the V"},
			},
			Eval: func(c *Call) (calc.Value, error) {
				v := c.Number(0) * c.Number(1) * c.Number(2)
				if c.Text(3) == "V" {
					v /= 2
				}
				return calc.Of(v, calc.DimVolume), nil
			},
		},
	}
}

func girthArea(c *Call) (calc.Value, error) {
	y, h := c.Numbers(0), c.Number(1)
	n := len(y)
	if n < 2 {
		return calc.Value{}, calc.Errorf(calc.CodeShape, "hull_girth_area wants two girths or more; it was given %d", n)
	}
	for i, g := range y {
		if g < 0 {
			return calc.Value{}, Refuse("hull_girth_area: the girth at %s is below zero", calc.Words(labelAt(c.Labels(0), i)))
		}
	}
	sum := y[0] + y[n-1]
	if n%2 == 0 {
		for _, g := range y[1 : n-1] {
			sum += 2 * g
		}
		if n > 2 {
			c.Warn("%d girths make %d spaces, an odd number: the trapezoid rule is used, which cuts the corners of a round side", n, n-1)
		}
		return calc.Of(2*h/2*sum, calc.DimArea), nil
	}
	for i, g := range y[1 : n-1] {
		sum += float64(4-2*(i%2)) * g
	}
	return calc.Of(2*h/3*sum, calc.DimArea), nil
}

// Constants of the Magnus formula over water, −45 to 60 °C.
const (
	magnusA = 17.62
	magnusB = 243.12 // °C
	iceZero = 273.15
)

// dewPoint returns the dew point of air, in °C.
func dewPoint(celsius, humidity float64) float64 {
	g := math.Log(humidity) + magnusA*celsius/(magnusB+celsius)
	return magnusB * g / (magnusA - g)
}

func weather() []Function {
	air := func(name string) *Param {
		return scalar(name, calc.DimTemperature).within(iceZero-45, iceZero+60)
	}
	const magnus = "Magnus formula with the constants of WMO-No. 8, Guide to Instruments and Methods of Observation (from memory)"
	return []Function{
		{
			Name: "cure_time_at", Summary: "how long a cure takes when it is warmer or colder than the sheet supposes",
			Params: []*Param{hours("cure_time").positive(), scalar("temperature", calc.DimTemperature), scalar("reference", calc.DimTemperature)},
			Result: "time", Formula: "cure_time · 2^((reference − temperature) / 10 °C)",
			Limits: "never below the maker's lowest temperature; a rule of thumb within about 20 °C of the reference",
			Source: "common practice",
			Checks: []Check{{Call: "cure_time_at(8 h, 12 °C, 20 °C)", Want: "13.9288 h"}, {Call: "cure_time_at(8 h, 68 °F, 20 °C)", Want: "8 h", Source: "68 °F is 20 °C"}},
			Eval: func(c *Call) (calc.Value, error) {
				colder := c.Number(2) - c.Number(1)
				if math.Abs(colder) > 20 {
					c.Warn("more than 20 °C from the reference the rule means little: ask the maker's sheet")
				}
				if c.Number(1) < iceZero+5 {
					c.Warn("below 5 °C many glues and paints do not cure at all")
				}
				return calc.Of(c.Number(0)*math.Exp2(colder/10), calc.DimTime), nil
			},
		},
		{
			Name: "dew_point", Summary: "the temperature at which the air begins to sweat on what it meets",
			Params: []*Param{air("air_temperature"), percent("humidity", 1, 100)},
			Result: "temperature", Formula: "γ = ln(humidity) + 17.62·T / (243.12 + T); 243.12·γ / (17.62 − γ), T in °C",
			Limits: "−45 to 60 °C, 1 to 100 %", Source: magnus,
			Checks: []Check{{Call: "dew_point(14 °C, 80 %)", Want: "10.6018 °C"}, {Call: "dew_point(14 °C, 100 %)", Want: "14 °C", Source: "definition"}},
			Eval: func(c *Call) (calc.Value, error) {
				return calc.Of(iceZero+dewPoint(c.Number(0)-iceZero, c.Number(1)), calc.DimTemperature), nil
			},
		},
		{
			Name: "dew_margin", Summary: "how much warmer than the dew point a surface is",
			Params: []*Param{air("air_temperature"), percent("humidity", 1, 100), air("surface_temperature")},
			Result: "temperature difference", Formula: "surface_temperature − dew_point(air_temperature, humidity)",
			Limits: "−45 to 60 °C, 1 to 100 %; paint makers ask for 3 °C or more", Source: magnus,
			Checks: []Check{
				{Call: "dew_margin(14 °C, 80 %, 10.6018 °C) < 0.001 K", Want: "1 == 1"},
				{Call: "dew_margin(14 °C, 80 %, 0 °C)", Want: "-10.6018 K"},
			},
			Eval: func(c *Call) (calc.Value, error) {
				margin := c.Number(2) - iceZero - dewPoint(c.Number(0)-iceZero, c.Number(1))
				switch {
				case margin <= 0:
					c.Warn("the surface is at or under the dew point: it is wet")
				case margin < 3:
					c.Warn("less than 3 °C over the dew point: too near for paint or glue")
				}
				return calc.Of(margin, calc.DimWarmth), nil
			},
		},
	}
}
