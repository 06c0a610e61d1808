package calc

import (
	"sort"
	"strconv"
	"strings"
	"sync"
	"unicode"
	"unicode/utf8"
)

// System is the family a unit belongs to.
type System uint8

// The two families of the shop, and the units of both.
const (
	Both System = iota
	FeetInches
	Metric
)

// Unit is a row of the unit table.
type Unit struct {
	// Symbol is how the unit is printed; Names are all spellings that are read.
	Symbol string
	Names  []string
	D      Dimension
	// Factor is the size of the unit in SI base units; Zero is added after it,
	// for temperatures on a scale.
	Factor, Zero float64
	System       System
	// Exact says that the factor is exact by definition; Source where it stands.
	Exact  bool
	Source string
}

// unitIndex finds units by every spelling; it is filled when a unit is first looked for.
var unitIndex = sync.OnceValue(indexUnits)

func indexUnits() map[string]*Unit {
	m := make(map[string]*Unit, 4*len(units))
	for i := range units {
		for _, n := range units[i].Names {
			m[n] = &units[i]
		}
	}
	return m
}

// FindUnit finds a unit by one of its spellings.
func FindUnit(name string) (*Unit, bool) {
	if u, ok := unitIndex()[name]; ok {
		return u, true
	}
	if i := currencyIndex(name); i != 0 {
		return &currencyUnits()[i], true
	}
	return nil, false
}

// Units lists the unit table, without the currencies.
func Units() []Unit { return units[:] }

// UnitWords lists every spelling of every unit but the currencies, sorted.
func UnitWords() []string {
	var words []string
	for i := range units {
		words = append(words, units[i].Names...)
	}
	sort.Strings(words)
	return words
}

// isUnitRune reports whether r can stand inside a unit's name.
func isUnitRune(r rune) bool {
	return r == '°' || r == 'µ' || r == '%' || r == '‰' || unicode.IsLetter(r) || r == '_'
}

// unitWord returns the longest run of unit runes at the start of s. A degree sign
// may end or begin a word (C°, °C); percent stands alone.
func unitWord(s string) string {
	if strings.HasPrefix(s, "%") {
		return "%"
	}
	n := 0
	for n < len(s) {
		r, w := utf8.DecodeRuneInString(s[n:])
		if r == '%' || !isUnitRune(r) && !(n > 0 && r >= '0' && r <= '9') {
			break
		}
		n += w
	}
	return s[:n]
}

// compound is a product of units as it is written: lb/ft^3, mm², USD per bd ft.
type compound struct {
	factor, zero float64
	d            Dimension
	symbol       string
	system       System
	single       *Unit // the unit when there is only one, to the first power
}

// scanUnit reads a unit expression at the start of s: a unit word (one or two
// words), an exponent, and tight /unit, ·unit, *unit or " per unit" after it. It returns the
// number of bytes it took, 0 when s does not begin with a unit. A word before an opening
// bracket is a function, not a unit.
func scanUnit(s string) (compound, int, *Error) {
	u, n := scanUnitWord(s)
	if n == 0 {
		return compound{}, 0, nil
	}
	c := compound{factor: u.Factor, zero: u.Zero, d: u.D, symbol: u.Symbol, system: u.System, single: u}
	p, pn := scanExponent(s[n:])
	if pn > 0 {
		if err := c.raise(p); err != nil {
			return c, 0, err
		}
		n += pn
	}
	for {
		rest := s[n:]
		sign, skip := 0, 0
		switch {
		case strings.HasPrefix(rest, "/"):
			sign, skip = -1, 1
		case strings.HasPrefix(rest, "·"):
			sign, skip = 1, len("·")
		case strings.HasPrefix(rest, "*"):
			sign, skip = 1, 1
		case strings.HasPrefix(rest, " per "):
			sign, skip = -1, len(" per ")
		default:
			return c, n, nil
		}
		v, vn := scanUnitWord(rest[skip:])
		if vn == 0 {
			return c, n, nil
		}
		e := compound{factor: v.Factor, zero: v.Zero, d: v.D, symbol: v.Symbol, system: v.System, single: v}
		if p, pn := scanExponent(rest[skip+vn:]); pn > 0 {
			if err := e.raise(p); err != nil {
				return c, 0, err
			}
			vn += pn
		}
		if err := c.times(e, sign); err != nil {
			return c, 0, err
		}
		n += skip + vn
	}
}

func (c *compound) raise(p int) *Error {
	d, ok := c.d.Power(2 * p)
	if !ok || c.zero != 0 {
		return Errorf(CodeUnknownUnit, "%s cannot be raised to %d", c.symbol, p)
	}
	f := 1.0
	for i := 0; i < abs(p); i++ {
		f *= c.factor
	}
	if p < 0 {
		f = 1 / f
	}
	c.factor, c.d, c.single = f, d, nil
	c.symbol += superscript(p)
	return nil
}

func (c *compound) times(e compound, sign int) *Error {
	if c.zero != 0 || e.zero != 0 {
		return Errorf(CodeTemperature, "a temperature on the scale cannot be part of %s and %s", c.symbol, e.symbol).
			WithHint("write a difference as K, C° or F°")
	}
	d, err := c.d.combine(e.d, int8(sign))
	if err != nil {
		return err
	}
	c.d, c.single = d, nil
	if sign > 0 {
		c.factor *= e.factor
		c.symbol += "·" + e.symbol
	} else {
		c.factor /= e.factor
		c.symbol += "/" + e.symbol
	}
	if c.system == Both {
		c.system = e.system
	}
	return nil
}

// scanUnitWord reads one unit name, of two words where the table has such.
func scanUnitWord(s string) (*Unit, int) {
	w := unitWord(s)
	if w == "" {
		return nil, 0
	}
	if rest := s[len(w):]; strings.HasPrefix(rest, " ") {
		if w2 := unitWord(rest[1:]); w2 != "" {
			if u, ok := FindUnit(w + " " + w2); ok {
				return u, len(w) + 1 + len(w2)
			}
		}
	}
	u, ok := FindUnit(w)
	if !ok {
		// 3ft6in and 45°30', written tight
		if i := strings.IndexAny(w, "0123456789"); i > 0 && len(w) > i {
			if u, ok := FindUnit(w[:i]); ok && smaller(u.Symbol) != "" && !isPower(w[i:]) {
				return u, i
			}
		}
		// ft3 and mm2 as people type them
		if base := strings.TrimRight(w, "0123456789"); base != w {
			if u, ok := FindUnit(base); ok && u.D == DimLength {
				return u, len(base)
			}
		}
		return nil, 0
	}
	if strings.HasPrefix(s[len(w):], "(") {
		return nil, 0
	}
	return u, len(w)
}

// isPower reports whether what stands tight behind a unit is its power, as in ft3.
func isPower(s string) bool { return len(s) == 1 && s[0] >= '2' && s[0] <= '4' }

// superDigit is the power that a raised digit gives; 0 for none.
func superDigit(r rune) int {
	switch r {
	case '¹':
		return 1
	case '²':
		return 2
	case '³':
		return 3
	case '⁴':
		return 4
	case '⁵':
		return 5
	case '⁶':
		return 6
	}
	return 0
}

func scanExponent(s string) (power, n int) {
	if strings.HasPrefix(s, "^") {
		i := 1
		if strings.HasPrefix(s[1:], "-") {
			i = 2
		}
		j := i
		for j < len(s) && j < i+2 && s[j] >= '0' && s[j] <= '9' {
			j++
		}
		if j > i {
			p, _ := strconv.Atoi(s[1:j])
			return p, j
		}
		return 0, 0
	}
	r, w := utf8.DecodeRuneInString(s)
	if p := superDigit(r); p > 0 {
		return p, w
	}
	if len(s) == 0 || !isPower(s[:1]) || len(s) > 1 && isDigit(s[1]) {
		return 0, 0
	}
	_, mark := lengthMark(s[1:])
	if mark > 0 || unitWord(s[1:]) != "" { // 5lb3oz, 3ft3"
		return 0, 0
	}
	return int(s[0] - '0'), 1
}

func superscript(p int) string {
	digits := []rune("⁰¹²³⁴⁵⁶⁷⁸⁹")
	s := strconv.Itoa(p)
	var b strings.Builder
	for _, r := range s {
		if r == '-' {
			b.WriteRune('⁻')
		} else {
			b.WriteRune(digits[r-'0'])
		}
	}
	return b.String()
}

func abs(n int) int {
	if n < 0 {
		return -n
	}
	return n
}

// exampleUnits names a unit or two of a dimension, for hints.
func exampleUnits(d Dimension) string {
	var names []string
	for i := range units {
		if units[i].D == d && len(names) < 2 {
			names = append(names, units[i].Symbol)
		}
	}
	return strings.Join(names, " or ")
}
