package live

import (
	"strings"

	"scarph/calc"
	"scarph/kernel"
)

// tried is a number as it was typed on a card, as the language takes it: an offset as a
// table of offsets writes it, and a bare number in the unit of the row or column that
// the name stands in.
func (s *visit) tried(name, text string) string {
	text = strings.TrimSpace(text)
	if unit := s.unitOf(name); unit != "" && isBareNumber(text) {
		return withUnit(text, unit)
	}
	return asExpression(text)
}

// unitOf is the unit of bare numbers where the readings of a name stand in a table, ""
// for none.
func (s *visit) unitOf(name string) string {
	h, ok := s.book.Session.History(name, kernel.Now)
	if !ok {
		return ""
	}
	for i := range h.Readings {
		if e, ok := s.book.Entry(h.Readings[i].Ref.Entry); ok {
			if unit := e.Unit(h.Readings[i].Ref.Index); unit != "" {
				return unit
			}
		}
	}
	return ""
}

// withUnit gives a bare number its unit, and its ± as well: 734 ± 2 is 734 mm ± 2 mm.
func withUnit(text, unit string) string {
	text = strings.ReplaceAll(text, "+/-", "±")
	n, plus, ok := strings.Cut(text, "±")
	out := strings.TrimSpace(n) + " " + unit
	if ok {
		out += " ± " + strings.TrimSpace(plus) + " " + unit
	}
	return out
}

// asInCell writes a number as its cell does, without the unit that its row or column
// gives.
func asInCell(value, unit string) string {
	if unit == "" {
		return value
	}
	bare := strings.TrimSpace(strings.ReplaceAll(value+" ", " "+unit+" ", " "))
	if isBareNumber(bare) && !isBareNumber(value) && withUnit(bare, unit) == strings.TrimSpace(value) {
		return bare
	}
	return value
}

// typed is a value as it can be typed: its ± with a unit of its own.
func typed(v calc.Value, style calc.Style) string {
	text := strings.TrimSuffix(strings.TrimSuffix(style.Text(calc.Of(v.V, v.D)), " strong"), " shy")
	if u := v.Likely(); u > 0 && v.IsQuantity() {
		text += " ± " + calc.Style{System: style.System}.Text(calc.Of(u, v.D))
	}
	return text
}

// plusGone says that a reading has a ± which the number tried for it has not.
func plusGone(was, now calc.Value, style calc.Style) string {
	if !was.IsQuantity() || !now.IsQuantity() || was.D != now.D || was.Likely() == 0 || now.Likely() > 0 {
		return ""
	}
	plus := calc.Style{System: style.System}.Text(calc.Of(was.Likely(), was.D))
	return "its ± " + plus + " is gone: write " + typed(now, style) + " ± " + plus + " to keep it"
}
