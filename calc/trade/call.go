package trade

import (
	"math"

	"scarph/calc"
)

// Call is one evaluation of a function: its checked arguments, and the remarks
// that it made on the way.
type Call struct {
	fn   *Function
	args []calc.Value
	// Warnings are remarks about a result that is still given.
	Warnings []string
}

// Number returns argument i, a quantity, in SI units.
func (c *Call) Number(i int) float64 { return c.args[i].V }

// Int returns argument i, a whole number.
func (c *Call) Int(i int) int { return int(math.Round(c.args[i].V)) }

// Dim returns the dimension of argument i; of a list, that of its first element.
func (c *Call) Dim(i int) calc.Dimension {
	x := c.args[i]
	for x.Kind() == calc.List && len(x.Items()) > 0 {
		x = x.Items()[0]
	}
	return x.D
}

// Numbers returns argument i, a list of quantities, in SI units.
func (c *Call) Numbers(i int) []float64 {
	items := c.args[i].Items()
	z := make([]float64, len(items))
	for j, x := range items {
		z[j] = x.V
	}
	return z
}

// Labels returns the names of the elements of argument i, nil when they have none.
func (c *Call) Labels(i int) []string { return c.args[i].Labels() }

// Points returns argument i, a list of points, in SI units.
func (c *Call) Points(i int) [][]float64 {
	items := c.args[i].Items()
	z := make([][]float64, len(items))
	for j, p := range items {
		q := p.Items()
		z[j] = make([]float64, len(q))
		for k, x := range q {
			z[j][k] = x.V
		}
	}
	return z
}

// Text returns argument i, a text.
func (c *Call) Text(i int) string { return c.args[i].Text() }

// Value returns argument i as it was given.
func (c *Call) Value(i int) calc.Value { return c.args[i] }

// Given reports whether argument i was written in the call, not left to its default.
func (c *Call) Given(i int) bool { return i < len(c.args) && c.args[i].Kind() != calc.Missing }

// Warn remarks on a result that is still given: outside the rule's honest range.
func (c *Call) Warn(format string, args ...any) {
	c.Warnings = append(c.Warnings, calc.Sentence(format, args...))
}

// Refuse is the error of an argument that cannot be: what was got, what was wanted,
// the likely slip.
func Refuse(format string, args ...any) error {
	return calc.Errorf(calc.CodeDomain, format, args...)
}

// Inch is an inch in metres, for formulas that stand in inches.
const Inch = 0.0254

// Foot is a foot in metres, Pound a pound in kilograms.
const (
	Foot  = 0.3048
	Pound = 0.45359237
)

// In writes a length of v metres for a sentence, in the family it was likely given in.
func In(v float64) string { return calc.Recognised(calc.Length(v)) }

// small writes a small length for a sentence: 1/16", 2 mm; in both families with their
// decimals where the marks of a rule would swallow it: 0.28 mm (0.0108 in).
func small(v float64) string {
	for _, mark := range [...]float64{Inch / 64, 0.5e-3} {
		if n := v / mark; math.Abs(n-math.Round(n)) <= 1e-6 {
			return In(v)
		}
	}
	return bothWays(v)
}

// bothWays writes a small length in both families, each with its decimals.
func bothWays(v float64) string {
	return trim(math.Round(v*1e5)/100) + " mm (" + trim(math.Round(v/Inch*1e4)/1e4) + " in)"
}

// degreesText writes an angle for a sentence.
func degreesText(v float64) string { return calc.Style{}.Text(calc.Angle(v)) }

// trim writes a plain number for a sentence.
func trim(v float64) string { return calc.Style{}.Text(calc.Number(v)) }
