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

// units is the one list of units: a row a unit, with its symbol, all its spellings, its
// dimension, its size in SI and what is added after that, its family, whether the factor is
// exact by definition, and where it stands. Words that builders want as names of values
// (t, a, l) are left free.
var units = [...]Unit{
	// length
	{"in", []string{"in", "inch", "inches"}, DimLength, inch, 0, FeetInches, true, sp811},
	{"ft", []string{"ft", "foot", "feet"}, DimLength, foot, 0, FeetInches, true, sp811},
	{"yd", []string{"yd", "yard", "yards"}, DimLength, 0.9144, 0, FeetInches, true, sp811},
	{"thou", []string{"thou"}, DimLength, inch / 1000, 0, FeetInches, true, sp811},
	{"fathom", []string{"fathom", "fathoms"}, DimLength, 1.8288, 0, FeetInches, true, common},
	{"mm", []string{"mm", "millimetre", "millimetres", "millimeter", "millimeters"}, DimLength, 0.001, 0, Metric, true, siDef},
	{"cm", []string{"cm", "centimetre", "centimetres", "centimeter", "centimeters"}, DimLength, 0.01, 0, Metric, true, siDef},
	{"m", []string{"m", "metre", "metres", "meter", "meters"}, DimLength, 1, 0, Metric, true, siDef},
	{"µm", []string{"µm", "um", "μm"}, DimLength, 1e-6, 0, Metric, true, siDef},
	{"km", []string{"km"}, DimLength, 1000, 0, Metric, true, siDef},
	{"nmi", []string{"nmi", "nautical mile", "nautical miles"}, DimLength, 1852, 0, Both, true, siDef},
	{"mile", []string{"mile", "miles"}, DimLength, 1609.344, 0, FeetInches, true, sp811},
	// angle
	{"°", []string{"°", "deg", "degree", "degrees"}, DimAngle, math.Pi / 180, 0, Both, true, siDef},
	{"arcmin", []string{"arcmin"}, DimAngle, math.Pi / 10800, 0, Both, true, siDef},
	{"arcsec", []string{"arcsec"}, DimAngle, math.Pi / 648000, 0, Both, true, siDef},
	{"rad", []string{"rad", "radian", "radians"}, DimAngle, 1, 0, Both, true, siDef},
	// area
	{"sq ft", []string{"sq ft", "sqft", "square feet"}, DimArea, foot * foot, 0, FeetInches, true, sp811},
	{"sq in", []string{"sq in", "sqin", "square inches"}, DimArea, inch * inch, 0, FeetInches, true, sp811},
	{"ha", []string{"ha"}, DimArea, 1e4, 0, Metric, true, siDef},
	// volume
	{"cu ft", []string{"cu ft", "cuft", "cubic feet"}, DimVolume, foot * foot * foot, 0, FeetInches, true, sp811},
	{"cu in", []string{"cu in", "cuin", "cubic inches"}, DimVolume, inch * inch * inch, 0, FeetInches, true, sp811},
	{"bd ft", []string{"bd ft", "bdft", "board foot", "board feet"}, DimVolume, 144 * inch * inch * inch, 0, FeetInches, true, "NIST Handbook 44, Appendix C (board foot: 144 cubic inches)"},
	{"L", []string{"L", "litre", "litres", "liter", "liters"}, DimVolume, 1e-3, 0, Metric, true, siDef},
	{"mL", []string{"mL", "ml", "cc"}, DimVolume, 1e-6, 0, Metric, true, siDef},
	{"gal", []string{"gal", "gallon", "gallons"}, DimVolume, 231 * inch * inch * inch, 0, FeetInches, true, sp811},
	{"qt", []string{"qt", "quart", "quarts"}, DimVolume, 231 * inch * inch * inch / 4, 0, FeetInches, true, sp811},
	{"pint", []string{"pint", "pints"}, DimVolume, 231 * inch * inch * inch / 8, 0, FeetInches, true, sp811},
	{"fl oz", []string{"fl oz"}, DimVolume, 231 * inch * inch * inch / 128, 0, FeetInches, true, sp811},
	// mass
	{"lb", []string{"lb", "lbs", "pound", "pounds"}, DimMass, pound, 0, FeetInches, true, sp811},
	{"oz", []string{"oz", "ounce", "ounces"}, DimMass, pound / 16, 0, FeetInches, true, sp811},
	{"kg", []string{"kg", "kilogram", "kilograms"}, DimMass, 1, 0, Metric, true, siDef},
	{"g", []string{"g", "gram", "grams"}, DimMass, 1e-3, 0, Metric, true, siDef},
	{"tonne", []string{"tonne", "tonnes"}, DimMass, 1000, 0, Metric, true, siDef},
	{"long ton", []string{"long ton", "long tons"}, DimMass, 2240 * pound, 0, FeetInches, true, sp811},
	// force, pressure, power
	{"lbf", []string{"lbf"}, DimForce, pound * g0, 0, FeetInches, true, sp811},
	{"N", []string{"N", "newton", "newtons"}, DimForce, 1, 0, Metric, true, siDef},
	{"kN", []string{"kN"}, DimForce, 1000, 0, Metric, true, siDef},
	{"kgf", []string{"kgf"}, DimForce, g0, 0, Metric, true, sp811},
	{"psi", []string{"psi"}, DimPressure, pound * g0 / (inch * inch), 0, FeetInches, true, sp811},
	{"Pa", []string{"Pa"}, DimPressure, 1, 0, Metric, true, siDef},
	{"kPa", []string{"kPa"}, DimPressure, 1e3, 0, Metric, true, siDef},
	{"MPa", []string{"MPa"}, DimPressure, 1e6, 0, Metric, true, siDef},
	{"GPa", []string{"GPa"}, DimPressure, 1e9, 0, Metric, true, siDef},
	{"hp", []string{"hp", "horsepower"}, DimPower, 550 * foot * pound * g0, 0, FeetInches, true, sp811},
	{"W", []string{"W"}, DimPower, 1, 0, Metric, true, siDef},
	{"kW", []string{"kW"}, DimPower, 1000, 0, Metric, true, siDef},
	// time and speed
	{"s", []string{"s", "sec", "second", "seconds"}, DimTime, 1, 0, Both, true, siDef},
	{"min", []string{"min", "minute", "minutes"}, DimTime, 60, 0, Both, true, siDef},
	{"h", []string{"h", "hr", "hrs", "hour", "hours"}, DimTime, 3600, 0, Both, true, siDef},
	{"day", []string{"day", "days"}, DimTime, 86400, 0, Both, true, siDef},
	{"week", []string{"week", "weeks"}, DimTime, 604800, 0, Both, true, siDef},
	{"kn", []string{"kn", "kt", "knot", "knots"}, DimSpeed, 1852.0 / 3600, 0, Both, true, siDef},
	{"mph", []string{"mph"}, DimSpeed, 1609.344 / 3600, 0, FeetInches, true, sp811},
	{"km/h", []string{"km/h", "kph"}, DimSpeed, 1 / 3.6, 0, Metric, true, siDef},
	// temperature: readings on the scale, and differences
	{"°C", []string{"°C", "degC", "℃"}, DimTemperature, 1, 273.15, Metric, true, siDef},
	{"°F", []string{"°F", "degF", "℉"}, DimTemperature, 5.0 / 9, 459.67 * 5 / 9, FeetInches, true, sp811},
	{"K", []string{"K", "C°"}, DimWarmth, 1, 0, Metric, true, siDef},
	{"F°", []string{"F°"}, DimWarmth, 5.0 / 9, 0, FeetInches, true, sp811},
	// plain numbers
	{"%", []string{"%", "percent"}, DimNumber, 0.01, 0, Both, true, "ISO 80000-1:2009, 6.5.3"},
	{"‰", []string{"‰"}, DimNumber, 0.001, 0, Both, true, common},
	{"dozen", []string{"dozen"}, DimNumber, 12, 0, Both, true, common},
	{"pcs", []string{"pcs"}, DimNumber, 1, 0, Both, true, common},
}
