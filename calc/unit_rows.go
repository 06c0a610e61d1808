package calc

import "math"

// Sources of the conversion factors.
const (
	sp811  = "NIST SP 811 (2008), Appendix B.8"
	siDef  = "BIPM, The International System of Units, 9th edition (2019)"
	geom   = "geometry"
	common = "common practice"
)

const (
	inch  = 0.0254
	foot  = 0.3048
	pound = 0.45359237
	g0    = 9.80665
)

func row(symbol string, d Dimension, factor float64, system System, exact bool, source string, names ...string) Unit {
	return Unit{Symbol: symbol, Names: append([]string{symbol}, names...), D: d, Factor: factor, System: system, Exact: exact, Source: source}
}

// units is the one list of units: a row a unit. Exact factors are exact by
// definition. Words that builders want as names of values (t, a, l) are left free.
var units = [...]Unit{
	// length
	row("in", DimLength, inch, FeetInches, true, sp811, "inch", "inches"),
	row("ft", DimLength, foot, FeetInches, true, sp811, "foot", "feet"),
	row("yd", DimLength, 0.9144, FeetInches, true, sp811, "yard", "yards"),
	row("thou", DimLength, inch/1000, FeetInches, true, sp811),
	row("fathom", DimLength, 1.8288, FeetInches, true, common, "fathoms"),
	row("mm", DimLength, 0.001, Metric, true, siDef, "millimetre", "millimetres", "millimeter", "millimeters"),
	row("cm", DimLength, 0.01, Metric, true, siDef, "centimetre", "centimetres", "centimeter", "centimeters"),
	row("m", DimLength, 1, Metric, true, siDef, "metre", "metres", "meter", "meters"),
	row("µm", DimLength, 1e-6, Metric, true, siDef, "um", "μm"),
	row("km", DimLength, 1000, Metric, true, siDef),
	row("nmi", DimLength, 1852, Both, true, siDef, "nautical mile", "nautical miles"),
	row("mile", DimLength, 1609.344, FeetInches, true, sp811, "miles"),
	// angle
	row("°", DimAngle, math.Pi/180, Both, true, siDef, "deg", "degree", "degrees"),
	row("arcmin", DimAngle, math.Pi/10800, Both, true, siDef),
	row("arcsec", DimAngle, math.Pi/648000, Both, true, siDef),
	row("rad", DimAngle, 1, Both, true, siDef, "radian", "radians"),
	// area
	row("sq ft", DimArea, foot*foot, FeetInches, true, sp811, "sqft", "square feet"),
	row("sq in", DimArea, inch*inch, FeetInches, true, sp811, "sqin", "square inches"),
	row("ha", DimArea, 1e4, Metric, true, siDef),
	// volume
	row("cu ft", DimVolume, foot*foot*foot, FeetInches, true, sp811, "cuft", "cubic feet"),
	row("cu in", DimVolume, inch*inch*inch, FeetInches, true, sp811, "cuin", "cubic inches"),
	row("bd ft", DimVolume, 144*inch*inch*inch, FeetInches, true, "NIST Handbook 44, Appendix C (board foot: 144 cubic inches)", "bdft", "board foot", "board feet"),
	row("L", DimVolume, 1e-3, Metric, true, siDef, "litre", "litres", "liter", "liters"),
	row("mL", DimVolume, 1e-6, Metric, true, siDef, "ml", "cc"),
	row("gal", DimVolume, 231*inch*inch*inch, FeetInches, true, sp811, "gallon", "gallons"),
	row("qt", DimVolume, 231*inch*inch*inch/4, FeetInches, true, sp811, "quart", "quarts"),
	row("pint", DimVolume, 231*inch*inch*inch/8, FeetInches, true, sp811, "pints"),
	row("fl oz", DimVolume, 231*inch*inch*inch/128, FeetInches, true, sp811),
	// mass
	row("lb", DimMass, pound, FeetInches, true, sp811, "lbs", "pound", "pounds"),
	row("oz", DimMass, pound/16, FeetInches, true, sp811, "ounce", "ounces"),
	row("kg", DimMass, 1, Metric, true, siDef, "kilogram", "kilograms"),
	row("g", DimMass, 1e-3, Metric, true, siDef, "gram", "grams"),
	row("tonne", DimMass, 1000, Metric, true, siDef, "tonnes"),
	row("long ton", DimMass, 2240*pound, FeetInches, true, sp811, "long tons"),
	// force, pressure, power
	row("lbf", DimForce, pound*g0, FeetInches, true, sp811),
	row("N", DimForce, 1, Metric, true, siDef, "newton", "newtons"),
	row("kN", DimForce, 1000, Metric, true, siDef),
	row("kgf", DimForce, g0, Metric, true, sp811),
	row("psi", DimPressure, pound*g0/(inch*inch), FeetInches, true, sp811),
	row("Pa", DimPressure, 1, Metric, true, siDef),
	row("kPa", DimPressure, 1e3, Metric, true, siDef),
	row("MPa", DimPressure, 1e6, Metric, true, siDef),
	row("GPa", DimPressure, 1e9, Metric, true, siDef),
	row("hp", DimPower, 550*foot*pound*g0, FeetInches, true, sp811, "horsepower"),
	row("W", DimPower, 1, Metric, true, siDef),
	row("kW", DimPower, 1000, Metric, true, siDef),
	// time and speed
	row("s", DimTime, 1, Both, true, siDef, "sec", "second", "seconds"),
	row("min", DimTime, 60, Both, true, siDef, "minute", "minutes"),
	row("h", DimTime, 3600, Both, true, siDef, "hr", "hrs", "hour", "hours"),
	row("day", DimTime, 86400, Both, true, siDef, "days"),
	row("week", DimTime, 604800, Both, true, siDef, "weeks"),
	row("kn", DimSpeed, 1852.0/3600, Both, true, siDef, "kt", "knot", "knots"),
	row("mph", DimSpeed, 1609.344/3600, FeetInches, true, sp811),
	row("km/h", DimSpeed, 1/3.6, Metric, true, siDef, "kph"),
	// temperature: readings on the scale, and differences
	{Symbol: "°C", Names: []string{"°C", "degC", "℃"}, D: DimTemperature, Factor: 1, Zero: 273.15, System: Metric, Exact: true, Source: siDef},
	{Symbol: "°F", Names: []string{"°F", "degF", "℉"}, D: DimTemperature, Factor: 5.0 / 9, Zero: 459.67 * 5 / 9, System: FeetInches, Exact: true, Source: sp811},
	row("K", DimWarmth, 1, Metric, true, siDef, "C°"),
	row("F°", DimWarmth, 5.0/9, FeetInches, true, sp811),
	// plain numbers
	row("%", DimNumber, 0.01, Both, true, "ISO 80000-1:2009, 6.5.3", "percent"),
	row("‰", DimNumber, 0.001, Both, true, common),
	row("dozen", DimNumber, 12, Both, true, common),
	row("pcs", DimNumber, 1, Both, true, common),
}
