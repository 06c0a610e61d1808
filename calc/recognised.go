package calc

import "math"

// Recognised writes a quantity for an error or a remark, in the family in which it was
// likely written: 60 mm stands on no mark of an inch rule, 3/8" on none of a metric one.
// What stands on neither was worked out, and is written in both: 1677.2 mm (5' 6" strong).
func Recognised(x Value) string {
	inches, metric := Style{}.Text(x), Style{System: Metric}.Text(x)
	if !x.IsQuantity() || x.V == 0 {
		return inches
	}
	switch in, mm := marks(x); {
	case in || inches == metric:
		return inches
	case mm:
		return metric
	case x.D == DimLength || x.D == DimMass:
		return metric + " (" + inches + ")"
	}
	return inches
}

// marks reports whether a length or a mass is a round number of inch or pound units, and
// of metric ones.
func marks(x Value) (in, mm bool) {
	round := func(unit float64) bool {
		n := math.Abs(x.V) / unit
		return math.Abs(n-math.Round(n)) <= 1e-9*math.Max(1, n)
	}
	switch x.D {
	case DimLength:
		return round(inch / 64), round(1e-4)
	case DimMass:
		return round(pound / 100), round(1e-3)
	}
	return false, false
}
