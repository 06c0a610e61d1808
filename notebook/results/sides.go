package results

import "scarph/kernel"

// sides writes both sides of a check with the sign that is so between them: of a check
// that does not hold, not the one that was asked for.
func (r *Writer) sides(c *kernel.Check) string {
	return r.Style.Text(c.Left.Value) + " " + signSo(c) + " " + r.Style.Text(c.Right.Value)
}

// signSo is the sign that is so between the two sides of a check.
func signSo(c *kernel.Check) string {
	if c.Holds {
		return signWord(c.Sign)
	}
	by := c.Left.Value.V - c.Right.Value.V
	switch c.Sign {
	case "==":
		return "≠"
	case "<", "<=":
		if by > 0 {
			return ">"
		}
	case ">", ">=":
		if by < 0 {
			return "<"
		}
	}
	return "=" // or so near that they count as even
}

// signWord is the sign of a comparison as it is printed.
func signWord(s string) string {
	switch s {
	case "<=":
		return "≤"
	case ">=":
		return "≥"
	case "!=":
		return "≠"
	case "==":
		return "="
	}
	return s
}
