package calc

import (
	"math"
	"strings"
	"testing"
)

// FuzzLiteral reads anything as a quantity: what is read lies inside of the text and is
// a number, what is refused says why and where.
func FuzzLiteral(f *testing.F) {
	for _, s := range []string{`4' 7 1/2"`, `2'6-3/8"`, `14'-7 ⅜”`, `12 mm ± 1 mm`, `35 lb/ft^3`, `1/4" per ft`, `42.50 USD`, `5° 30'`, `1:12`, `15 % ± 1 %`, `68 °F ± 2 °F`, `-3/8"`, `.5 in`, `1e9 m`, `½″`, `9999999999999999999999'`, `1/0"`, `3 +/- `, "1\u00a0in"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		if BeginsLiteral(s) {
			l, err := ScanLiteral(s)
			checkLiteral(t, s, l, err)
			if err == nil && (l.Len < 1 || l.Len > len(s)) {
				t.Errorf("%q: %d bytes were read", s, l.Len)
			}
		}
		l, err := ParseLiteral(s)
		checkLiteral(t, s, l, err)
	})
}

func checkLiteral(t *testing.T, s string, l Literal, err *Error) {
	t.Helper()
	if err != nil {
		if err.Message == "" || err.Code == "" || err.Span.Start < 0 || err.Span.End < err.Span.Start || err.Span.End > len(s) {
			t.Errorf("%q is refused by %+v", s, err)
		}
		return
	}
	if x := l.Value; !x.IsQuantity() || math.IsNaN(x.V) || math.IsNaN(l.Plus) || l.Plus < 0 {
		t.Errorf("%q is %+v", s, l)
	}
}

// FuzzOffset reads anything as an offset. What is one comes back the same after it has
// been written: both are whole sixteenths.
func FuzzOffset(f *testing.F) {
	for _, s := range []string{"1-10-5", "0-0-0-", "-2-3-5+", "−2-3-5−", "1-12-3", "1-1-8", "999-11-7+", "1--1", "+1-2-3", "1-2-3-4", "٣-1-2"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		v, err := ParseOffset(s)
		if err != nil {
			checkLiteral(t, s, Literal{}, err)
			return
		}
		if !LooksLikeOffset(s) {
			t.Errorf("%q is an offset and does not look like one", s)
		}
		text := FormatOffset(v.V)
		back, err := ParseOffset(text)
		if err != nil || math.Abs(back.V-v.V) > 1e-9 {
			t.Errorf("%q is written %q, which is %v, %v", s, text, back, err)
		}
		if strings.TrimSpace(text) != text {
			t.Errorf("%q", text)
		}
	})
}
