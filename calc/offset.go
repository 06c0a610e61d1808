package calc

import (
	"math"
	"strconv"
	"strings"
)

// ParseOffset reads a length in the notation of a table of offsets: feet, inches
// and eighths with hyphens, 1-10-5; a + after it is a sixteenth more, a - a
// sixteenth less. A leading minus turns the whole group.
// Source: common practice of printed tables of offsets.
func ParseOffset(s string) (Value, *Error) {
	t := strings.TrimSpace(s)
	bad := func(format string, args ...any) (Value, *Error) {
		return Value{}, Errorf(CodeOffset, format, args...).At(Span{0, len(s)})
	}
	body, sign := t, 1.0
	if r, ok := cutMinus(body); ok {
		body, sign = r, -1
	}
	extra := 0.0
	switch {
	case strings.HasSuffix(body, "+"):
		body, extra = body[:len(body)-1], 1.0/16
	case strings.HasSuffix(body, "-"):
		body, extra = body[:len(body)-1], -1.0/16
	case strings.HasSuffix(body, "−"):
		body, extra = strings.TrimSuffix(body, "−"), -1.0/16
	}
	parts := strings.Split(body, "-")
	if len(parts) != 3 {
		v, err := bad("%q is no offset", t)
		return v, err.WithHint("feet-inches-eighths, as in 1-10-5, with + or - for a sixteenth more or less")
	}
	var n [3]int
	for i, p := range parts {
		v, err := strconv.Atoi(p)
		if err != nil || len(p) > 3 || p[0] == '+' {
			e := Errorf(CodeOffset, "%q is no offset", t).At(Span{0, len(s)})
			return Value{}, e.WithHint("feet-inches-eighths are three whole numbers, as in 1-10-5")
		}
		n[i] = v
	}
	if n[1] > 11 {
		v, err := bad("%s: %d inches is a foot or more", t, n[1])
		return v, err.WithHint("is this %d-%d-%d?", n[0]+n[1]/12, n[1]%12, n[2])
	}
	if n[2] > 7 {
		v, err := bad("%s: %d eighths is an inch or more", t, n[2])
		return v, err.WithHint("did you mean %d-%d-%d?", n[0]+(n[1]+n[2]/8)/12, (n[1]+n[2]/8)%12, n[2]%8)
	}
	in := float64(12*n[0]+n[1]) + float64(n[2])/8 + extra
	return Inches(sign * in), nil
}

func cutMinus(s string) (string, bool) {
	if r, ok := strings.CutPrefix(s, "-"); ok {
		return r, true
	}
	return strings.CutPrefix(s, "−")
}

// LooksLikeOffset reports whether s has the shape of an offset, right or wrong.
func LooksLikeOffset(s string) bool {
	s = strings.TrimSpace(s)
	s, _ = cutMinus(s)
	s = strings.TrimRight(s, "+-−")
	parts := strings.Split(s, "-")
	if len(parts) != 3 {
		return false
	}
	for _, p := range parts {
		if p == "" || len(p) > 3 || digits(p) != len(p) {
			return false
		}
	}
	return true
}

// FormatOffset writes a length as feet-inches-eighths to the nearest sixteenth,
// carrying eighths to inches and inches to feet; a leading minus turns the whole.
func FormatOffset(metres float64) string {
	sixteenths := nearest(math.Abs(metres) / inch * 16)
	sign := ""
	if metres < 0 && sixteenths != 0 {
		sign = "-"
	}
	eighths := int64(sixteenths) / 2
	tail := ""
	if int64(sixteenths)%2 == 1 {
		tail = "+"
	}
	text := func(n int64) string { return strconv.FormatInt(n, 10) }
	return sign + text(eighths/96) + "-" + text(eighths/8%12) + "-" + text(eighths%8) + tail
}
