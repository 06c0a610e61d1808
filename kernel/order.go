package kernel

import (
	"strconv"

	"scarph/calc"
	"scarph/calc/lang"
)

// OrderOf finds the entry as of which to show the journal: "" is now, a date the end
// of that day, a number the entry with that number, from 1.
func (s *Session) OrderOf(text string) (int, *calc.Error) {
	if text == "" {
		return Now, nil
	}
	whole := calc.Span{Start: 0, End: len(text)}
	if len(text) == len("2027-02-21") && lang.IsDate(text) {
		if at := s.OrderOn(text); at >= 0 {
			return at, nil
		}
		return 0, calc.Errorf(calc.CodeDate, "the journal has no entry on or before %s", text).At(whole)
	}
	n := len(s.Entries())
	if number, err := strconv.Atoi(text); err == nil && number >= 1 && number <= n {
		return number - 1, nil
	}
	return 0, calc.Errorf(calc.CodeDate, "%s is no date", text).At(whole).
		WithHint("write a date, 2027-02-21, or the number of an entry (1 to %d)", n)
}
