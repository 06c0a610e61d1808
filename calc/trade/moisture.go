package trade

import (
	"math"

	"scarph/calc"
	"scarph/calc/tables"
)

// moisture are the sums of wood that takes up and gives off water. Moisture is a
// share of the oven-dry weight; the formulas of the Wood Handbook speak of it in
// percent.
func moisture() []Function {
	return []Function{moistureContent(), equilibriumMoisture()}
}

// saturated is the moisture at which wood stops shrinking, in percent, for most woods.
const saturated = 30

func moistureContent() Function {
	return Function{
		Name: "moisture_content", Summary: "the moisture of a sample, as a share of its oven-dry weight",
		Params: []*Param{mass("wet_mass").positive(), mass("oven_dry_mass").positive()},
		Result: "share, shown in %", Formula: "(wet_mass − oven_dry_mass) / oven_dry_mass",
		Limits: "the wet sample is no lighter than the dry one; green wood runs from 30 % to more than 200 %",
		Source: "USDA Forest Products Laboratory, Wood Handbook, FPL-GTR-282 (2021), eq. 4-2",
		Checks: []Check{
			{Call: "moisture_content(61.8 g, 54.2 g)", Want: "14.0221 %"},
			{Call: "moisture_content(1150 g, 1000 g)", Want: "15 %", Source: "definition"},
		},
		Eval: func(c *Call) (calc.Value, error) {
			wet, dry := c.Number(0), c.Number(1)
			if wet < dry {
				return calc.Value{}, calc.Errorf(calc.CodeDomain, "moisture_content: the dry sample is heavier than the wet one").WithHint("the wet mass is written first")
			}
			return asPercent((wet - dry) / dry), nil
		},
	}
}

func equilibriumMoisture() Function {
	fahrenheit := func(t float64) float64 { return (t + 459.67) * 5 / 9 }
	return Function{
		Name: "equilibrium_moisture", Summary: "the moisture that wood comes to in air of a temperature and humidity",
		Params:  []*Param{scalar("temperature", calc.DimTemperature).within(fahrenheit(-40), fahrenheit(270)), percent("relative_humidity", 0, 98)},
		Result:  "share, shown in %",
		Formula: "1800/W · [K·h / (1 − K·h) + (K1·K·h + 2·K1·K2·K²·h²) / (1 + K1·K·h + K1·K2·K²·h²)] %, T in °F: W = 330 + 0.452·T + 0.00415·T², K = 0.791 + 0.000463·T − 0.000000844·T², K1 = 6.34 + 0.000775·T − 0.0000935·T², K2 = 1.09 + 0.0284·T − 0.0000904·T²",
		Limits:  "30 to 130 °F, humidity 0 to 98 %; for Sitka spruce between taking up and giving off water: other wood differs by 1 % and more",
		Source:  "USDA Forest Products Laboratory, Wood Handbook, FPL-GTR-282 (2021), eq. 4-5",
		Checks: []Check{
			{Call: "equilibrium_moisture(70 °F, 50 %)", Want: "9.24631 %"},
			{Call: "equilibrium_moisture(55 °F, 80 %)", Want: "16.3116 %"},
			{Call: "equilibrium_moisture(70 °F, 65 %)", Want: "12.0 %", Tol: 0.1 / 12, Source: "Wood Handbook, Table 4-2; the equation comes within 0.1 % moisture of the table"},
			{Call: "equilibrium_moisture(20 °C, 65 %)", Want: "11.996 %", Tol: 0.013 / 11.996, Source: "eq. 4-5 with the coefficients for °C; the two forms differ by up to 0.013 % moisture"},
		},
		Eval: func(c *Call) (calc.Value, error) {
			t, h := c.Number(0)*9/5-459.67, c.Number(1)
			if t < 30-1e-9 || t > 130+1e-9 {
				c.Warn("%s is outside 30 to 130 °F, where the equation was fitted for the shop", calc.Style{}.Text(c.Value(0)))
			}
			if h > 0.95 {
				c.Warn("above 95 %% humidity wood is near fiber saturation and the equation is rough")
			}
			w := 330 + 0.452*t + 0.00415*t*t
			k := 0.791 + 0.000463*t - 0.000000844*t*t
			k1 := 6.34 + 0.000775*t - 0.0000935*t*t
			k2 := 1.09 + 0.0284*t - 0.0000904*t*t
			kh := k * h
			return asPercent(18 / w * (kh/(1-kh) + (k1*kh+2*k1*k2*kh*kh)/(1+k1*kh+k1*k2*kh*kh))), nil
		},
	}
}

// outside remarks on moistures beyond the range of the coefficients.
func (c *Call) outside(percents ...float64) {
	for _, m := range percents {
		if m < 6-1e-9 || m > 14+1e-9 {
			c.Warn("rough: the coefficients hold from 6 to 14 %% moisture, and one of these is %s %%", trim(math.Round(m*100)/100))
			return
		}
	}
}

func movement() []Function {
	return []Function{
		{
			Name: "width_change", Summary: "how much wider (+) or narrower (−) a board gets as its moisture changes",
			Params: []*Param{
				length("width").positive(), byGrain("coefficient", tables.Tangential, tables.Radial).positive().says("change for each 1 % of moisture, or a wood"),
				percent("moisture_now", 0, saturated), percent("moisture_then", 0, saturated),
			},
			Result: "length", Formula: "width · coefficient · (moisture_then − moisture_now), moisture in percent",
			Limits: "rough outside 6 to 14 % moisture; nothing above 30 %, where wood no longer moves; four decimals of a coefficient are enough",
			Source: "USDA Forest Products Laboratory, Wood Handbook, FPL-GTR-190 (2010), ch. 13, eq. 13-2 and Table 13-5",
			Checks: []Check{
				{Call: "width_change(5 3/8 in, 0.00229, 9 %, 16 %)", Want: "0.0861612 in"},
				{Call: `width_change(5 3/8 in, "northern white cedar", 9 %, 16 %)`, Want: "0.0861612 in"},
				{Call: `width_change(6 in, "white oak, flat-sawn", 7 %, 12 %)`, Want: "0.1095 in"},
				{Call: `width_change(140 mm, "quarter-sawn western red cedar", 8 %, 14 %)`, Want: "0.9324 mm"},
			},
			Eval: func(c *Call) (calc.Value, error) {
				now, then := 100*c.Number(2), 100*c.Number(3)
				c.outside(now, then)
				if k := c.Number(1); k < 0.0003 || k > 0.008 {
					c.Warn("a coefficient of %s is unlike any wood's: it is the change for each 1 %% of moisture, from 0.0007 to 0.0046 in the tables", trim(k))
				}
				return calc.Length(c.Number(0) * c.Number(1) * (then - now)), nil
			},
		},
		{
			Name: "width_change_from_shrinkage", Summary: "the change of width reckoned from the total shrinkage, green to oven dry",
			Params: []*Param{
				length("width").positive(), shrinkage("total_shrinkage"),
				percent("moisture_now", 0, saturated), percent("moisture_then", 0, saturated),
			},
			Result: "length", Formula: "width · (moisture_then − moisture_now) / (30 · 100 / total_shrinkage − 30 + moisture_now), all in percent",
			Limits: "both moistures up to 30 %; for woods whose fibers are full at less (22 % in northern white and western red cedar and redwood) it gives too little",
			Source: "USDA Forest Products Laboratory, Wood Handbook, FPL-GTR-190 (2010), ch. 13, eq. 13-1 (from memory; it gives back the coefficients of Table 13-5)",
			Checks: []Check{
				{Call: "width_change_from_shrinkage(5.375 in, 4.9 %, 9 %, 16 %)", Want: "0.0636369 in"},
				{Call: `width_change_from_shrinkage(100 mm, "Sitka spruce", 8 %, 14 %)`, Want: "1.58730 mm"},
			},
			Eval: func(c *Call) (calc.Value, error) {
				s, now, then := 100*c.Number(1), 100*c.Number(2), 100*c.Number(3)
				return calc.Length(c.Number(0) * (then - now) / (saturated*100/s - saturated + now)), nil
			},
		},
		{
			Name: "movement_by_ring_angle", Summary: "the coefficient of a board whose rings meet its face at an angle",
			Params: []*Param{
				tabled("radial", calc.DimNumber, "wood", tables.Radial).positive(), tabled("tangential", calc.DimNumber, "wood", tables.Tangential).positive(),
				angle("ring_angle").degrees(0, 90).says("of the rings to the wide face: 0° flat-sawn, 90° quarter-sawn"),
			},
			Result: "coefficient for each 1 % of moisture", Formula: "tangential · cos²(ring_angle) + radial · sin²(ring_angle)",
			Limits: "0 to 90°; approximate, for the ring angle changes across the board",
			Source: "turning of the strain axes (mechanics); coefficients from Wood Handbook ch. 13, Table 13-5",
			Checks: []Check{
				{Call: "movement_by_ring_angle(0.00101, 0.00229, 45°)", Want: "0.00165"},
				{Call: `movement_by_ring_angle("northern white cedar", "northern white cedar", 0°)`, Want: "0.00229"},
				{Call: `movement_by_ring_angle("northern white cedar", "northern white cedar", 90°)`, Want: "0.00101"},
			},
			Eval: func(c *Call) (calc.Value, error) {
				if c.Number(0) > c.Number(1) {
					c.Warn("the radial coefficient is the larger: in nearly all woods the tangential one is. Are they swapped?")
				}
				sin, cos := math.Sincos(c.Number(2))
				return calc.Number(c.Number(1)*cos*cos + c.Number(0)*sin*sin), nil
			},
		},
		{
			Name: "plank_gap", Summary: "the gap to leave between dry planks that will swell",
			Params: []*Param{
				length("plank_width").positive(), length("movement").notNegative().says("the expected swelling of one plank"),
				number("share").within(0, 1).says("the part of the swelling to leave as gap, your choice"),
			},
			Result: "length", Formula: "movement · share",
			Limits:  "share from 0 to 1; a cross-planked bottom may cup or lift when it is planked tight and dry",
			Caution: 'C', Source: "common practice",
			Checks: []Check{{Call: "plank_gap(5 3/8 in, 0.0862 in, 0.6)", Want: "0.05172 in"}},
			Eval: func(c *Call) (calc.Value, error) {
				width, swelling, share := c.Number(0), c.Number(1), c.Number(2)
				if swelling > 0.1*width {
					c.Warn("no plank of %s swells by %s: check the movement", In(width), In(swelling))
				}
				if share < 0.25 {
					c.Warn("planked nearly tight: a cross-planked bottom may cup or lift as it takes up water")
				}
				return calc.Length(swelling * share), nil
			},
		},
		{
			Name: "green_volume_density", Summary: "the density of wood at a moisture, from its basic specific gravity",
			Params: []*Param{tabled("specific_gravity", calc.DimNumber, "wood", tables.BasicGravity).within(0.05, 1.2).says("oven-dry weight over green volume"), percent("moisture", 0, saturated)},
			Result: "density", Formula: "G = Gb / (1 − 0.265 · Gb · (1 − M/30)); 1000 kg/m³ · G · (1 + M/100), M in percent",
			Limits: "moisture up to 30 %; within 2 to 3 %: where a table prints the density at 12 %, take that",
			Source: "W. T. Simpson, Specific gravity, moisture content, and density relationship for wood, FPL-GTR-76 (1993) (from memory); Wood Handbook, FPL-GTR-190 (2010), ch. 4",
			Checks: []Check{
				{Call: "green_volume_density(0.29, 12 %)", Want: "340.5 kg/m^3"},
				{Call: "green_volume_density(0.60, 14 %)", Want: "747.378 kg/m^3"},
				{Call: `green_volume_density("white oak", 14 %)`, Want: "747.378 kg/m^3"},
				{Call: "green_volume_density(0.37, 12 %)", Want: "440.3 kg/m^3", Tol: 2e-4, Source: "worked out by hand from FPL-GTR-76, printed to a tenth"},
			},
			Eval: func(c *Call) (calc.Value, error) {
				g, m := c.Number(0), 100*c.Number(1)
				gm := g / (1 - 0.265*g*(1-m/saturated))
				return calc.Of(1000*gm*(1+m/100), calc.DimDensity), nil
			},
		},
	}
}

// shrinkage takes a total shrinkage in percent, or a wood; it says where a wood's
// fibers are full at less than the 30 % that the formula takes.
func shrinkage(name string) *Param {
	p := byGrain(name, tables.TangentShrink, tables.RadialShrink).within(0.001, 0.25).says("green to oven dry, in percent, or a wood")
	p.Percent = true
	remark := p.Remark
	p.Remark = func(s string) string {
		text := remark(s)
		wood, _, _ := grained(s)
		r, err := tables.Lookup("wood", wood, "fiber saturation")
		if err != nil {
			return text
		}
		if text != "" {
			text += "; "
		}
		return text + "its fibers are full at about " + calc.Style{}.Text(r.Value) + ", not at 30 %: width_change with the coefficient comes nearer"
	}
	return p
}
