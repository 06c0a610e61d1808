package trade

import (
	"math"

	"scarph/calc"
	"scarph/calc/curve"
	"scarph/calc/tables"
)

// battens read heights, slopes, lengths and bends off a batten sprung through points.
func battens() []Function {
	const limits = "three points or more, positions strictly rising; inside the first and last point"
	onBatten := func(f Function, read func(c *Call, s *curve.Spline, x float64) calc.Value) Function {
		f.Params = []*Param{points("points", 2).says("[[position, offset], …]"), length("position").orZero()}
		f.Limits = limits
		f.Eval = func(c *Call) (calc.Value, error) {
			s, err := batten(c.Points(0))
			if err != nil {
				return calc.Value{}, err
			}
			x := c.Number(1)
			if err := inside(s, x); err != nil {
				return calc.Value{}, err
			}
			return read(c, s, x), nil
		}
		return f
	}
	return []Function{
		onBatten(Function{
			Name: "batten_curve", Summary: "the height of a batten sprung through points",
			Result:  "length",
			Formula: "natural cubic spline: free ends without bending, the shape of a thin batten at small slope",
			Source:  "beam theory",
			Checks: []Check{
				{Call: "batten_curve([[0 in, 0 in], [24 in, 9 in], [48 in, 14 in], [72 in, 16 in]], 36 in)", Want: "12.025 in"},
			},
		}, func(_ *Call, s *curve.Spline, x float64) calc.Value { return calc.Length(s.At(x)) }),
		onBatten(Function{
			Name: "batten_slope", Summary: "the slope of a batten sprung through points",
			Result: "angle", Formula: "atan of the first derivative of the natural cubic spline",
			Source: "beam theory",
			Checks: []Check{{Call: "batten_slope([[0 in, 0 in], [24 in, 9 in], [48 in, 14 in], [72 in, 16 in]], 24 in)", Want: "16.8451°"}},
		}, func(_ *Call, s *curve.Spline, x float64) calc.Value { return calc.Angle(math.Atan(s.Slope(x))) }),
		{
			Name: "batten_length", Summary: "the length along a batten sprung through points, from the first to the last",
			Params: []*Param{points("points", 2).says("[[position, offset], …]")},
			Result: "length", Formula: "∫√(1 + y'²) dx of the natural cubic spline",
			Limits: "three points or more, positions strictly rising", Source: "geometry",
			Checks: []Check{{Call: "batten_length([[0 in, 0 in], [24 in, 9 in], [48 in, 14 in], [72 in, 16 in]])", Want: "74.2743 in"}},
			Eval: func(c *Call) (calc.Value, error) {
				s, err := batten(c.Points(0))
				if err != nil {
					return calc.Value{}, err
				}
				return calc.Length(s.Length()), nil
			},
		},
		onBatten(Function{
			Name: "bend_radius_at", Summary: "the radius to which a batten sprung through points bends at a place",
			Result:  `length, or the text "straight here"`,
			Formula: "(1 + y'²)^1.5 / |y''| of the natural cubic spline",
			Source:  "geometry",
			Checks: []Check{
				{Call: "bend_radius_at([[0 in, 0 in], [24 in, 9 in], [48 in, 14 in], [72 in, 16 in]], 24 in)", Want: "126.345 in"},
				{Call: "bend_radius_at([[0 in, 0 in], [24 in, 9 in], [48 in, 14 in], [72 in, 16 in]], 0)", Want: `"straight here"`, Source: "a free end does not bend"},
			},
		}, func(_ *Call, s *curve.Spline, x float64) calc.Value {
			first, last := s.Ends()
			r := s.Radius(x)
			if r > 1e9*(last-first) {
				return calc.Str("straight here")
			}
			return calc.Length(r)
		}),
	}
}

// gravity is the standard acceleration of free fall in m/s², to the two decimals
// that bench sums use (9.80665 by the 3rd General Conference on Weights and
// Measures, 1901).
const gravity = 9.81

// bending are the sag of a batten and the strain of a bent plank.
func bending() []Function {
	return []Function{
		{
			Name: "batten_sag", Summary: "how far a batten laid on two supports sags in the middle under its own weight",
			Params: []*Param{
				tabled("stiffness_E", calc.DimPressure, "wood", "stiffness").positive().says("modulus of elasticity along the grain, or a wood"),
				length("width").positive(), length("depth").positive(), length("span").positive(),
				tabled("density", calc.DimDensity, "wood", tables.Density).positive().says("at the batten's moisture, or a wood"),
			},
			Result:  "length",
			Formula: "5 · w · span⁴ / (384 · E · I), I = width · depth³ / 12, w = density · 9.81 m/s² · width · depth",
			Limits:  "all more than zero; depth is the upright size; small sag",
			Source:  "beam theory (simple supports, even load)",
			Checks: []Check{
				{Call: "batten_sag(9.0 GPa, 20 mm, 20 mm, 1.2 m, 500 kg/m^3)", Want: "0.44145 mm"},
				{Call: `batten_sag("Sitka spruce", 20 mm, 20 mm, 1.2 m, 500 kg/m^3) * from_table("wood", "Sitka spruce", "stiffness") / 9 GPa`, Want: "0.44145 mm", Source: "the same batten: sag goes as 1 / E"},
			},
			Eval: func(c *Call) (calc.Value, error) {
				e, b, d, span, density := c.Number(0), c.Number(1), c.Number(2), c.Number(3), c.Number(4)
				sag := 5 * density * gravity * b * d * math.Pow(span, 4) / (384 * e * b * d * d * d / 12)
				if sag > span/10 {
					c.Warn("a sag of %s is no small one on a span of %s: the true sag is less", In(sag), In(span))
				}
				return calc.Length(sag), nil
			},
		},
		{
			Name: "bending_strain", Summary: "how much the outer face of a plank stretches when it is bent to a radius",
			Params:  []*Param{length("thickness").positive(), length("radius").positive().says("to the inner face")},
			Result:  "percent",
			Formula: "thickness / (2 · radius + thickness), of the outer face over the neutral line",
			Limits:  "a remark over 1 %: cold dry bends are kept well under it, steamed ones on a strap go far beyond",
			Caution: 'B',
			Source:  "beam theory; the limit is common practice",
			Checks:  []Check{{Call: "bending_strain(5/8 in, 60 in)", Want: "0.518135 %"}},
			Eval: func(c *Call) (calc.Value, error) {
				strain := c.Number(0) / (2*c.Number(1) + c.Number(0))
				if strain > 0.01 {
					c.Warn("over 1 %%: cold and dry this is likely to break; laminate it, or steam it on a strap")
				}
				return calc.Number(strain).Shown(calc.InUnit("%")), nil
			},
		},
	}
}
