package calc

import "math"

// Recognised writes a quantity for an error or a remark, in the family in which it was
// likely written: 60 mm stands on no mark of an inch rule, 3/8" on none of a metric one.
// What stands on neither is written in feet and inches, or pounds.
func Recognised(x Value) string {
	if x.IsQuantity() && metricMark(x) {
		return Style{System: Metric}.Text(x)
	}
	return Style{}.Text(x)
}

// metricMark reports whether a length or a mass is a round number of metric units and
// none of the others.
func metricMark(x Value) bool {
	round := func(unit float64) bool {
		n := math.Abs(x.V) / unit
		return math.Abs(n-math.Round(n)) <= 1e-9*math.Max(1, n)
	}
	switch x.D {
	case DimLength:
		return !round(inch/64) && round(1e-4)
	case DimMass:
		return !round(pound/100) && round(1e-3)
	}
	return false
}
