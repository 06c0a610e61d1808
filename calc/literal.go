package calc

import (
	"math"
	"strconv"
	"strings"
	"unicode/utf8"
)

// Literal is a quantity as it stands in a text.
type Literal struct {
	Value Value   // the quantity, without its ±
	Plus  float64 // the ± in SI units, 0 when none is written
	Len   int     // bytes taken
	// System is the family of the unit that was written, Both when it has none; Zero
	// is where its scale begins in SI, for temperatures.
	System System
	Zero   float64
	// Unit is the unit it was written in, nil when it has none or is made of several.
	Unit *Unit
	// Note says something about the way it was written that is no error, such as a
	// fraction that stands on no rule.
	Note string
}

// ScanLiteral reads the quantity that begins s, which must begin with a digit, a
// point before a digit, or a fraction sign: a plain number, a length in feet and
// inches with any of the marks people type (2' 6 3/8", 2'6-3/8", 14'-7 ⅜”), a number
// with a unit (12 mm, 35 lb/ft^3, 1/4" per ft, 42.50 USD), an angle (5° 30'), a ratio
// (1:12), each perhaps with ± or +/- after it. A number followed by a word that is
// no unit is a plain number; what the word means is the caller's to say.
func ScanLiteral(s string) (Literal, *Error) {
	l, err := scanSigned(s)
	if err != nil {
		return l, err
	}
	n := l.Len + spaces(s[l.Len:])
	mark := plusMark(s[n:])
	if mark == 0 {
		return l, nil
	}
	n += mark
	n += spaces(s[n:])
	if !BeginsLiteral(s[n:]) {
		return l, Errorf(CodePlusMinus, "± wants a number after it").At(Span{l.Len, n}).WithHint(`write 2' 1 3/8" ± 1/16"`)
	}
	u, err := scanSigned(s[n:])
	if err != nil {
		err.Span = err.Span.Shift(n)
		return l, err
	}
	end := n + u.Len
	share := strings.Contains(s[:l.Len], "%")
	switch {
	case share && !strings.HasSuffix(s[n:end], "%"):
		return l, Errorf(CodeBareNumber, "the ± has no unit").At(Span{n, end}).WithHint("write %s ± %s %%", strings.TrimSpace(s[:l.Len]), s[n:end])
	case strings.HasSuffix(s[n:end], "%") && !share:
		l.Plus = math.Abs(l.Value.V) * u.Value.V
	case u.Value.D == l.Value.D:
		l.Plus = u.Value.V - u.Zero // ± 1 °C is a difference
	case l.Value.D == DimAngle && isFeet(s[n:end]): // 5° ± 30', minutes of arc
		l.Plus = u.Value.V / foot * math.Pi / 10800
	case l.Value.D == DimTemperature && u.Value.D == DimWarmth:
		l.Plus = u.Value.V
	case u.Value.D.IsNumber():
		return l, Errorf(CodeBareNumber, "the ± has no unit").At(Span{n, end}).WithHint("%s", WhatUnit(u.Value, l.Value.D))
	default:
		return l, Errorf(CodePlusMinus, "%s cannot be ± %s", l.Value.D.A(), u.Value.D.A()).At(Span{n, end})
	}
	l.Len = end
	return l, nil
}

// isFeet reports whether a literal is a number with a foot mark alone.
func isFeet(s string) bool {
	for i := range s {
		if u, w := lengthMark(s[i:]); w > 0 {
			return u.Symbol == "ft" && i+w == len(s)
		}
	}
	return false
}

// ParseLiteral reads a text that is one literal and nothing else, with an
// optional sign before it.
func ParseLiteral(s string) (Literal, *Error) {
	t := strings.TrimLeft(s, " \t")
	lead := len(s) - len(t)
	neg := strings.HasPrefix(t, "-") || strings.HasPrefix(t, "−")
	if neg {
		_, w := utf8.DecodeRuneInString(t)
		t = t[w:]
		lead += w
	}
	if !BeginsLiteral(t) {
		return Literal{}, Errorf(CodeNumber, "%q is no number", strings.TrimSpace(s)).At(Span{0, len(s)})
	}
	l, err := ScanLiteral(t)
	if err != nil {
		err.Span = err.Span.Shift(lead)
		return l, err
	}
	if rest := strings.TrimSpace(t[l.Len:]); rest != "" {
		return l, UnknownUnit(t, l.Len).shifted(lead)
	}
	if neg {
		l.Value.V = 2*l.Zero - l.Value.V
	}
	l.Len = len(s)
	return l, nil
}

func (e *Error) shifted(n int) *Error {
	e.Span = e.Span.Shift(n)
	return e
}

// UnknownUnit is the error of a word after a number that is no unit; n is where
// the number ends in s.
func UnknownUnit(s string, n int) *Error {
	n += spaces(s[n:])
	w := unitWord(s[n:])
	if w == "" {
		r, size := utf8.DecodeRuneInString(s[n:])
		return Errorf(CodeNumber, "%q cannot stand after a number", string(r)).At(Span{n, n + size})
	}
	at := Span{n, n + len(w)}
	if _, known := FindUnit(w); known {
		return Errorf(CodeSyntax, "the unit %s cannot follow %s", w, strings.TrimSpace(s[:n])).At(at).
			WithHint("a unit follows a plain number: 1.5 %s", w)
	}
	e := Errorf(CodeUnknownUnit, "%s is no unit", w).At(at)
	if scale := "°" + w; w == "F" || w == "C" {
		return e.WithHint("did you mean %s?", scale)
	}
	if code := strings.ToUpper(w); code != w && currencyIndex(code) > 0 {
		return e.WithHint("did you mean %s?", code)
	}
	switch strings.ToLower(w) {
	case "dollar", "dollars", "euro", "euros", "pounds_sterling", "quid", "bucks":
		return e.WithHint("money is written with the letters of its currency: 20 USD, 20 EUR, 20 GBP")
	}
	if near := Nearest(w, UnitWords()); near != "" {
		return e.WithHint("did you mean %s?", near)
	}
	if strings.Contains(w, "_") {
		return e.WithHint("a name begins with a letter; a sum needs a sign, as in 2 * %s", w)
	}
	return e.WithHint("lengths are written 19 in, 19 mm or 1 ft 7 in; a sum needs a sign, as in 2 * %s", w)
}

// BeginsLiteral reports whether s begins with a digit, a decimal point before a
// digit, or a fraction sign.
func BeginsLiteral(s string) bool {
	if s == "" {
		return false
	}
	if isDigit(s[0]) || s[0] == '.' && len(s) > 1 && isDigit(s[1]) {
		return true
	}
	r, _ := utf8.DecodeRuneInString(s)
	_, ok := vulgar(r)
	return ok
}

func plusMark(s string) int {
	switch {
	case strings.HasPrefix(s, "±"):
		return len("±")
	case strings.HasPrefix(s, "+/-"):
		return 3
	case strings.HasPrefix(s, "+-"):
		return 2
	}
	return 0
}

// lengthMark reads ' or " as builders, phones and typographers write them; it
// returns the unit and the bytes taken.
func lengthMark(s string) (*Unit, int) {
	for _, m := range lengthMarks {
		if strings.HasPrefix(s, m.text) {
			u, _ := FindUnit(m.unit)
			return u, len(m.text)
		}
	}
	return nil, 0
}

var lengthMarks = []struct{ text, unit string }{
	{"''", "in"}, {"′′", "in"}, {"’’", "in"},
	{"'", "ft"}, {"′", "ft"}, {"’", "ft"}, {"‘", "ft"},
	{"\"", "in"}, {"″", "in"}, {"”", "in"}, {"“", "in"},
}

// scanSigned reads a number with its unit or units, without ±.
func scanSigned(s string) (Literal, *Error) {
	x, err := scanNumber(s)
	if err != nil {
		return Literal{}, err
	}
	l := Literal{Value: Number(x.v), Len: x.n}
	if x.whole && strings.HasPrefix(s[x.n:], ":") { // 1:12
		if d := digits(s[x.n+1:]); d > 0 {
			den, _ := strconv.ParseFloat(s[x.n+1:x.n+1+d], 64)
			if den == 0 {
				return l, Errorf(CodeZero, "a ratio to zero").At(Span{0, x.n + 1 + d})
			}
			l.Value.V, l.Len = x.v/den, x.n+1+d
			return l, nil
		}
	}
	if u, w := lengthMark(s[x.n:]); w > 0 {
		l.set(x, u, x.n+w)
		if u.Symbol == "ft" {
			err = l.addInches(s)
		}
		if err == nil {
			err = l.perUnit(s)
		}
		return l, err
	}
	k := x.n + spaces(s[x.n:])
	if strings.HasPrefix(s[k:], "-") && k == x.n { // 6-in
		k++
	}
	c, w, err := scanUnit(s[k:])
	if err != nil {
		err.Span = Span{0, k}
		return l, err
	}
	if w == 0 || k > x.n && s[k-1] == '-' && c.single == nil {
		return l, nil
	}
	l.Value = Value{V: x.v*c.factor + c.zero, D: c.d}
	l.Len = k + w
	l.System, l.Zero, l.Unit = c.system, c.zero, c.single
	if c.single != nil {
		l.Len += stop(s[l.Len:])
		if x.whole {
			err = l.addSmaller(s, c.single)
		}
	}
	if c.single != nil && c.single.Symbol == "in" {
		l.Note = ruleNote(x)
	}
	return l, err
}

func (l *Literal) set(x number, u *Unit, n int) {
	l.Value = Value{V: x.v * u.Factor, D: u.D}
	l.Len, l.System = n, u.System
	if u.Symbol == "in" {
		l.Note = ruleNote(x)
	}
}

// ruleNote remarks on a fraction that stands on no rule.
func ruleNote(x number) string {
	switch x.den {
	case 0, 1, 2, 4, 8, 16, 32, 64, 3, 6, 12, 10, 100:
		return ""
	}
	return "a fraction over " + strconv.Itoa(x.den) + " is not on a rule; it is taken as " + formatNumber(x.v, 5) + " in"
}

// addInches reads the inches after a feet mark: 2' 6 3/8", 2'6-3/8", 14'-7".
func (l *Literal) addInches(s string) *Error {
	k := l.Len
	rest := s[k:]
	sp := spaces(rest)
	switch {
	case strings.HasPrefix(rest, "-") && len(rest) > 1 && BeginsLiteral(rest[1:]):
		k++
	case BeginsLiteral(rest[sp:]):
		k += sp
	default:
		return l.strayDash(s)
	}
	y, err := scanNumber(s[k:])
	if err != nil {
		err.Span = err.Span.Shift(k)
		return err
	}
	end := k + y.n
	w := inchMark(s[end:])
	if w == 0 {
		return Errorf(CodeInchMark, "%s has feet, then a number with no inch mark", strings.TrimSpace(s[:end])).
			At(Span{0, end}).WithHint("write %s\"", strings.TrimSpace(s[:end]))
	}
	l.Value.V += y.v * inch
	l.Len = end + w
	if l.Note = ruleNote(y); y.v >= 12 {
		l.Note = strings.TrimSpace(s[:l.Len]) + " has a foot or more of inches; it is taken as " + FormatFeetInches(l.Value.V, inch/64)
	}
	return nil
}

// strayDash refuses 2' -3" and 2 ft-3 in: where the dash of feet and inches is not
// written as the trade writes it, 2'-3", it may be two feet three or two feet less
// three inches.
func (l *Literal) strayDash(s string) *Error {
	w, k := 0, l.Len+spaces(s[l.Len:])
	for _, dash := range [...]string{"-", "−", "–"} {
		if strings.HasPrefix(s[k:], dash) {
			w = len(dash)
		}
	}
	if w == 0 || !BeginsLiteral(s[k+w:]) {
		return nil
	}
	y, err := scanNumber(s[k+w:])
	if err != nil {
		return nil // told of where it is read
	}
	end := k + w + y.n
	m := inchMark(s[end:])
	if m == 0 {
		return nil
	}
	feet, inches := strings.TrimSpace(s[:l.Len]), s[k+w:end+m]
	return Errorf(CodeNumber, "%s is doubtful: feet and inches, or a subtraction?", strings.TrimSpace(s[:end+m])).At(Span{0, end + m}).
		WithHint("write %s %s for feet and inches, or %s - %s with spaces round the minus", feet, inches, feet, inches)
}

// inchMark reads " or in, the latter perhaps after a space; 0 when neither stands there.
func inchMark(s string) int {
	if u, w := lengthMark(s); w > 0 {
		if u.Symbol == "in" {
			return w
		}
		return 0
	}
	sp := spaces(s)
	if c, w, _ := scanUnit(s[sp:]); w > 0 && c.single != nil && c.single.Symbol == "in" {
		return sp + w
	}
	return 0
}

// stop reads the full stop of an abbreviation, as in 7/16 in. and 2 ft. 6 in.
func stop(s string) int {
	if !strings.HasPrefix(s, ".") || len(s) > 1 && (s[1] == '.' || isDigit(s[1]) || unitWord(s[1:]) != "") {
		return 0
	}
	return 1
}

// perUnit reads "per ft" or /ft after a length mark.
func (l *Literal) perUnit(s string) *Error {
	skip := 0
	switch {
	case strings.HasPrefix(s[l.Len:], " per "):
		skip = len(" per ")
	case strings.HasPrefix(s[l.Len:], "/"):
		skip = 1
	default:
		return nil
	}
	c, w, err := scanUnit(s[l.Len+skip:])
	if w == 0 || err != nil {
		return err
	}
	d, err := l.Value.D.combine(c.d, -1)
	if err != nil {
		return err
	}
	l.Value = Value{V: l.Value.V / c.factor, D: d}
	l.Len += skip + w
	return nil
}

// smaller is the unit that may follow another inside one literal; "" for none.
func smaller(symbol string) string {
	switch symbol {
	case "ft":
		return "in"
	case "yd":
		return "ft"
	case "lb":
		return "oz"
	case "h":
		return "min"
	case "min":
		return "s"
	case "°":
		return "'"
	}
	return ""
}

// addSmaller reads the second part of 2 ft 6 in, 5 lb 4 oz, 3 h 20 min, 5° 30'.
func (l *Literal) addSmaller(s string, u *Unit) *Error {
	next := smaller(u.Symbol)
	if next == "" {
		return nil
	}
	k := l.Len + spaces(s[l.Len:])
	if !BeginsLiteral(s[k:]) {
		if u.Symbol == "ft" {
			return l.strayDash(s)
		}
		return nil
	}
	y, err := scanNumber(s[k:])
	if err != nil {
		err.Span = err.Span.Shift(k)
		return err
	}
	end := k + y.n
	if next == "'" {
		if m, w := lengthMark(s[end:]); w > 0 && m.Symbol == "ft" {
			l.Value.V += y.v * math.Pi / 10800
			l.Len = end + w
			k = l.Len + spaces(s[l.Len:])
			if BeginsLiteral(s[k:]) {
				if z, err := scanNumber(s[k:]); err == nil {
					if m, w := lengthMark(s[k+z.n:]); w > 0 && m.Symbol == "in" {
						l.Value.V += z.v * math.Pi / 648000
						l.Len = k + z.n + w
					}
				}
			}
		}
		return nil
	}
	e := end + spaces(s[end:])
	c, w, _ := scanUnit(s[e:])
	if w > 0 && c.single != nil && c.single.Symbol == next {
		l.Value.V += y.v * c.factor
		l.Len = e + w
		l.Len += stop(s[l.Len:])
		return nil
	}
	if m, w := lengthMark(s[end:]); w > 0 && m.Symbol == next {
		l.Value.V += y.v * m.Factor
		l.Len = end + w
		return nil
	}
	if u.Symbol == "ft" {
		return Errorf(CodeInchMark, "%s has feet, then a number with no unit", strings.TrimSpace(s[:end])).
			At(Span{0, end}).WithHint("write %s in", strings.TrimSpace(s[:end]))
	}
	return nil
}
