package lang

import (
	"math"
	"strconv"
	"strings"

	"scarph/calc"
)

// EmptyCell reports whether the text of a data cell says that there is no reading.
func EmptyCell(text string) bool {
	switch strings.TrimSpace(text) {
	case "", "-", "–", "—":
		return true
	}
	return false
}

// ParseCell reads a cell of a data table as a reading of its name: an offset
// (1-10-5), a literal, a bare number in the unit of its row or column, a text between
// quotes, or nothing.
func ParseCell(kind Kind, name, text, unit string) (*Stmt, *calc.Error) {
	if EmptyCell(text) {
		return ReadingOf(kind, name, "", nil), nil
	}
	lit, err := CellLiteral(text, unit)
	if err != nil {
		if q := strings.Trim(text, "\"“”"); len(q) < len(text) && strings.HasPrefix(text, "\"") {
			return ReadingOf(kind, name, text, Constant(text, calc.Literal{Value: calc.Str(q)})), nil
		}
		return nil, err
	}
	s := ReadingOf(kind, name, text, Constant(text, lit))
	s.showShare(text + unit)
	return s, nil
}

// ParseSlotCell reads a cell that is a slot as a reading of its name.
func (p *Parser) ParseSlotCell(kind Kind, name, text string) (*Stmt, *calc.Error) {
	slot, err := p.ParseSlot(text)
	if err != nil {
		return slot, err
	}
	s := *slot
	s.Kind, s.Name = kind, name
	return &s, nil
}

// twoReadings finds two whole numbers with a stroke between them that are on no rule: 461/462.
func twoReadings(text string) (a, b float64, ok bool) {
	x, y, ok := strings.Cut(strings.TrimSpace(text), "/")
	if !ok || len(y) < 3 {
		return 0, 0, false
	}
	a, err1 := strconv.ParseFloat(x, 64)
	b, err2 := strconv.ParseFloat(y, 64)
	return a, b, err1 == nil && err2 == nil && b != 128
}

// CellLiteral reads the literal of a cell; a bare number takes the unit, when there
// is one.
func CellLiteral(text, unit string) (calc.Literal, *calc.Error) {
	body, plus := text, ""
	for _, mark := range [...]string{"±", "+/-"} {
		if i := strings.Index(text, mark); i > 0 {
			body, plus = text[:i], text[i+len(mark):]
		}
	}
	if calc.LooksLikeOffset(body) {
		v, err := calc.ParseOffset(body)
		if err != nil {
			return calc.Literal{}, err
		}
		lit := calc.Literal{Value: v, System: calc.FeetInches}
		if plus != "" {
			p, err := calc.ParseLiteral(plus)
			if err != nil || p.Value.D != calc.DimLength {
				return lit, calc.Errorf(calc.CodePlusMinus, "the ± of an offset is a length").At(calc.Span{Start: 0, End: len(text)}).WithHint(`write %s ± 1/16"`, strings.TrimSpace(body))
			}
			lit.Plus = p.Value.V
		}
		return lit, nil
	}
	if a, b, ok := twoReadings(body); ok {
		return calc.Literal{}, calc.Errorf(calc.CodeNumber, "%s is doubtful: a fraction, or two readings?", strings.TrimSpace(body)).At(calc.Span{Start: 0, End: len(text)}).
			WithHint("of two readings write one, or their mean and half of what they differ by: %s ± %s", calc.Style{}.Text(calc.Number((a+b)/2)), calc.Style{}.Text(calc.Number(math.Abs(a-b)/2)))
	}
	lit, err := calc.ParseLiteral(text)
	if err != nil {
		if err.Code == calc.CodeNumber && err.Hint == "" {
			err.WithHint(`a cell holds a number, an offset such as 1-10-5, a slot {beam}, or a text between quotes`)
		}
		return lit, err
	}
	if unit == "" || !lit.Value.D.IsNumber() || strings.ContainsAny(text, "%:") {
		return lit, nil
	}
	one, err := calc.ParseLiteral("1 " + unit)
	if err != nil {
		return lit, calc.Errorf(calc.CodeUnknownUnit, "%s is no unit, in the label of this cell", unit).At(calc.Span{Start: 0, End: len(text)})
	}
	if one.Value.D == calc.DimTemperature {
		two, _ := calc.ParseLiteral("2 " + unit)
		step := two.Value.V - one.Value.V
		lit.Value = calc.Of(one.Value.V+(lit.Value.V-1)*step, one.Value.D)
		lit.Plus *= step
		return lit, nil
	}
	lit.Value = calc.Of(lit.Value.V*one.Value.V, one.Value.D)
	lit.Plus *= one.Value.V
	lit.System = one.System
	return lit, nil
}
