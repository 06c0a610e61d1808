package draw

import (
	"math"

	"scarph/calc"
)

// steps returns the marks of an axis from low to high, about n of them, at ones,
// twos or fives of some power of ten times unit.
func steps(low, high, unit float64, n int) []float64 {
	if !(high > low) || !(unit > 0) || n < 1 || high-low > farthest {
		return nil
	}
	raw := (high - low) / unit / float64(n)
	power := math.Pow(10, math.Floor(math.Log10(raw)))
	step := 10 * power
	for _, k := range [...]float64{1, 2, 5} {
		if k*power >= raw*(1-1e-9) {
			step = k * power
			break
		}
	}
	step *= unit
	first := math.Ceil(low/step - 1e-9)
	var out []float64
	for i := 0; i <= 4*n; i++ {
		v := (first + float64(i)) * step
		if v > high+1e-9*step {
			break
		}
		out = append(out, v)
	}
	return out
}

// lengthSteps returns the marks of an axis of lengths and how each is written: in
// the rule's fractions of an inch, in inches, or in millimetres. Small differences
// are written with their unit once, by the axis's head.
func lengthSteps(s calc.Style, low, high float64, n int) ([]float64, func(float64) string) {
	if s.System == calc.Metric {
		return steps(low, high, 1e-3, n), func(v float64) string { return number(round(v*1e3, 6)) }
	}
	return steps(low, high, 0.0254, n), func(v float64) string { return number(round(v/0.0254, 6)) }
}

// unitWord is the unit that lengthSteps writes in.
func unitWord(s calc.Style) string {
	if s.System == calc.Metric {
		return "millimetres"
	}
	return "inches"
}

// round cuts off what is left of a sum of floats after so many significant figures.
func round(v float64, figures int) float64 {
	if v == 0 || math.IsNaN(v) || math.IsInf(v, 0) {
		return v
	}
	p := math.Pow(10, float64(figures)-math.Ceil(math.Log10(math.Abs(v))))
	return math.Round(v*p) / p
}

// axis draws level pencil lines across a panel with their figures on the left.
func (s *Scene) axis(at []float64, text func(float64) string, left, right float64) {
	for _, v := range at {
		pen := Fine
		if v == 0 {
			pen = Plain
		}
		s.Line(pen, Point{X: left, Y: v}, Point{X: right, Y: v})
		s.Label(Label{At: Point{X: left, Y: v}, Text: text(v), Side: Left, Held: true, Rank: 1})
	}
}

// rankOf orders the labels of a row so that, where there is no room for all, every
// second, fourth, … is left: the ends first.
func rankOf(i, n int) int {
	if i == 0 || i == n-1 {
		return 1
	}
	r := 2
	for k := 1 << 20; k > 1 && i%k != 0; k >>= 1 {
		r++
	}
	return r
}
