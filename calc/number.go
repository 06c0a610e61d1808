package calc

import (
	"math"
	"strconv"
	"strings"
	"unicode/utf8"
)

// vulgars are the fractions that have a letter of their own.
var vulgars = [...]struct {
	letter rune
	over   [2]int
}{
	{'½', [2]int{1, 2}}, {'⅓', [2]int{1, 3}}, {'⅔', [2]int{2, 3}}, {'¼', [2]int{1, 4}}, {'¾', [2]int{3, 4}}, {'⅕', [2]int{1, 5}}, {'⅖', [2]int{2, 5}}, {'⅗', [2]int{3, 5}},
	{'⅘', [2]int{4, 5}}, {'⅙', [2]int{1, 6}}, {'⅚', [2]int{5, 6}}, {'⅛', [2]int{1, 8}}, {'⅜', [2]int{3, 8}}, {'⅝', [2]int{5, 8}}, {'⅞', [2]int{7, 8}},
}

func vulgar(r rune) ([2]int, bool) {
	if r < utf8.RuneSelf {
		return [2]int{}, false
	}
	for _, f := range vulgars {
		if f.letter == r {
			return f.over, true
		}
	}
	return [2]int{}, false
}

// number is a number as it is written before its unit.
type number struct {
	v     float64
	n     int
	whole bool // an integer with neither point nor fraction
	den   int  // the denominator of its fraction, 0 when none
}

func isDigit(c byte) bool { return c >= '0' && c <= '9' }

func digits(s string) int {
	n := 0
	for n < len(s) && isDigit(s[n]) {
		n++
	}
	return n
}

func spaces(s string) int {
	n := 0
	for n < len(s) && (s[n] == ' ' || s[n] == '\t') {
		n++
	}
	return n
}

// scanNumber reads 12, 1.5, .5, 3/8, 2 3/8, 2-3/8 (when tight and a proper fraction),
// ½, 2½ and 2 ½. A slash joins a fraction only when it is tight.
func scanNumber(s string) (number, *Error) {
	if r, w := utf8.DecodeRuneInString(s); r >= utf8.RuneSelf {
		f, _ := vulgar(r)
		return number{v: float64(f[0]) / float64(f[1]), n: w, den: f[1]}, nil
	}
	n := digits(s)
	z := number{n: n, whole: true}
	// a decimal point, but not the dots of a range
	if strings.HasPrefix(s[n:], ".") && !strings.HasPrefix(s[n:], "..") && n+1 < len(s) && isDigit(s[n+1]) {
		n += 1 + digits(s[n+1:])
		z.whole = false
	}
	if n < len(s) && (s[n] == 'e' || s[n] == 'E') {
		k := n + 1
		if k < len(s) && (s[k] == '-' || s[k] == '+') {
			k++
		}
		if d := digits(s[k:]); d > 0 && unitWord(s[k+d:]) == "" {
			n, z.whole = k+d, false
		}
	}
	v, err := strconv.ParseFloat(s[:n], 64)
	if err != nil || math.IsInf(v, 0) {
		return z, Errorf(CodeNumber, "%s is too large a number", clip(s[:n])).At(Span{0, n})
	}
	z.v, z.n = v, n
	if e := commaError(s, n); e != nil {
		return z, e
	}
	if !z.whole {
		return z, nil
	}
	if e := offsetDashError(s, n); e != nil {
		return z, e
	}
	if r, w := utf8.DecodeRuneInString(s[n:]); r >= utf8.RuneSelf {
		if f, ok := vulgar(r); ok { // 2½
			return number{v: v + float64(f[0])/float64(f[1]), n: n + w, den: f[1]}, nil
		}
	}
	if w := slash(s[n:]); w > 0 { // 3/8
		if d := digits(s[n+w:]); d > 0 && fractionEnds(s[n+w+d:]) {
			den, _ := strconv.Atoi(s[n+w : n+w+d])
			if den == 0 {
				return z, Errorf(CodeZero, "a fraction over zero").At(Span{0, n + w + d})
			}
			return number{v: v / float64(den), n: n + w + d, den: den}, nil
		}
		return z, nil
	}
	// 2 3/8 and 2-3/8 and 2 ½
	k := n + spaces(s[n:])
	if strings.HasPrefix(s[n:], "-") {
		k = n + 1
	}
	if k == n {
		return z, nil
	}
	if r, w := utf8.DecodeRuneInString(s[k:]); r >= utf8.RuneSelf {
		if f, ok := vulgar(r); ok {
			return number{v: v + float64(f[0])/float64(f[1]), n: k + w, den: f[1]}, nil
		}
		return z, nil
	}
	a := digits(s[k:])
	w := slash(s[k+a:])
	if a == 0 || w == 0 {
		return z, nil
	}
	b := digits(s[k+a+w:])
	if b == 0 || !fractionEnds(s[k+a+w+b:]) {
		return z, nil
	}
	num, _ := strconv.Atoi(s[k : k+a])
	den, _ := strconv.Atoi(s[k+a+w : k+a+w+b])
	end := k + a + w + b
	if den == 0 || num >= den {
		if s[n] == '-' {
			return z, nil // a subtraction
		}
		return z, Errorf(CodeNumber, "%s is no mixed number", s[:end]).At(Span{0, end}).
			WithHint("the fraction after a whole number is smaller than one, as in 2 3/8")
	}
	return number{v: v + float64(num)/float64(den), n: end, den: den}, nil
}

// slash reads the stroke of a fraction, as it is typed and as phones set it.
func slash(s string) int {
	for _, stroke := range [...]string{"/", "⁄"} {
		if strings.HasPrefix(s, stroke) {
			return len(stroke)
		}
	}
	return 0
}

// fractionEnds keeps 3/8.5 and 1/2e3 from being cut in two.
func fractionEnds(rest string) bool {
	return !(strings.HasPrefix(rest, ".") && len(rest) > 1 && isDigit(rest[1]))
}

func clip(s string) string {
	if len(s) > 24 {
		return s[:20] + "…"
	}
	return s
}

// commaError refuses 1,5 and 1,500: which of the two a comma means differs from
// country to country, and wood is cut to the answer.
func commaError(s string, n int) *Error {
	if !strings.HasPrefix(s[n:], ",") || n+1 >= len(s) || !isDigit(s[n+1]) {
		return nil
	}
	d := digits(s[n+1:])
	end := n + 1 + d
	if strings.Contains(s[:n], ".") { // 1.000,5
		return Errorf(CodeDecimalComma, "%s has a point and a comma", s[:end]).At(Span{0, end}).
			WithHint("write %s.%s: one point, for the decimals", strings.ReplaceAll(s[:n], ".", ""), s[n+1:end])
	}
	return Errorf(CodeDecimalComma, "%s is doubtful: is the comma a decimal point or a list?", s[:end]).At(Span{0, end}).
		WithHint("write %s.%s for a decimal, %s%s without a comma for thousands, or %s, %s with a space for a list", s[:n], s[n+1:end], s[:n], s[n+1:end], s[:n], s[n+1:end])
}

// offsetDashError catches 1-10-5: in a sum it would be one minus ten minus five.
func offsetDashError(s string, n int) *Error {
	if n > 2 || !strings.HasPrefix(s[n:], "-") {
		return nil
	}
	a := digits(s[n+1:])
	if a == 0 || a > 2 || !strings.HasPrefix(s[n+1+a:], "-") {
		return nil
	}
	b := digits(s[n+2+a:])
	end := n + 2 + a + b
	if b != 1 || end < len(s) && (s[end] == '/' || s[end] == '.' || s[end] == '\'' || s[end] == '"') {
		return nil
	}
	return Errorf(CodeOffsetDash, "%s looks like feet-inches-eighths, but here it is a subtraction", s[:end]).At(Span{0, end}).
		WithHint(`write offset("%s"), or put spaces round the minus signs`, s[:end])
}
