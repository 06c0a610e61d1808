package notebook

import (
	"math"
	"strings"

	"scarph/calc"
)

// givesAway reports whether a value says another again, or one of its elements does: the
// same quantity, with its sign turned, its number with another unit or with none, or in a
// text. Zero gives away only a quantity that is zero, not a list with a zero in it. What
// is sharper, a sum that can be undone, it does not see; nobody can.
func givesAway(x, secret calc.Value) bool {
	for _, s := range leaves(secret, nil) {
		if s.V == 0 && s.IsQuantity() && !secret.IsQuantity() {
			continue
		}
		for _, v := range leaves(x, nil) {
			if saidBy(v, s) {
				return true
			}
		}
	}
	return false
}

// leaves are the values in lists and records, and the value itself when it is neither.
func leaves(x calc.Value, list []calc.Value) []calc.Value {
	items := x.Items()
	if items == nil {
		return append(list, x)
	}
	for _, it := range items {
		list = leaves(it, list)
	}
	return list
}

// saidBy reports whether a single value says a single secret.
func saidBy(v, secret calc.Value) bool {
	switch {
	case v.Kind() == calc.Text:
		return textSays(v.Text(), secret)
	case v.Kind() == calc.Truth && secret.Kind() == calc.Truth:
		return true // yes and no: one tells the other
	case !v.IsQuantity() || !secret.IsQuantity():
		return false
	case v.D == secret.D:
		return near(v.V, secret.V) || near(v.V, secret.Likely()) && v.V != 0 || shownAlike(v, secret)
	case v.V == 0 || secret.V == 0:
		return false
	}
	for _, n := range numbers(v) {
		for _, m := range numbers(secret) {
			if near(n, m) {
				return true
			}
		}
	}
	return false
}

// near reports whether two numbers are one but for their signs and the rounding of sums.
func near(a, b float64) bool {
	a, b = math.Abs(a), math.Abs(b)
	return math.Abs(a-b) <= 1e-9*math.Max(a, b)
}

// shownAlike reports whether two quantities are written alike.
func shownAlike(a, b calc.Value) bool {
	st := calc.Style{System: calc.Metric}
	return st.Text(calc.Of(a.V, a.D)) == st.Text(calc.Of(b.V, b.D))
}

// numbers are those of a quantity in the units that it can be told in.
func numbers(q calc.Value) []float64 {
	list := []float64{q.V}
	for _, u := range calc.Units() {
		if u.D == q.D && !u.D.IsNumber() {
			list = append(list, (q.V-u.Zero)/u.Factor)
		}
	}
	return list
}

// textSays reports whether a text has a secret in it, as it is shown in one family of
// units or the other, or as an offset.
func textSays(text string, secret calc.Value) bool {
	if secret.Kind() == calc.Text {
		return secret.Text() != "" && strings.Contains(text, secret.Text())
	}
	if !secret.IsQuantity() {
		return false
	}
	if o, err := calc.ParseOffset(text); err == nil && secret.D == calc.DimLength && math.Abs(math.Abs(o.V)-math.Abs(secret.V)) <= 0.0254/32 {
		return true
	}
	if l, err := calc.ParseLiteral(text); err == nil && l.Value.D == secret.D && near(l.Value.V, secret.V) {
		return true
	}
	for _, system := range []calc.System{calc.Metric, calc.FeetInches} {
		if shown := (calc.Style{System: system}).Text(calc.Of(secret.V, secret.D)); holdsWord(text, shown) {
			return true
		}
	}
	return false
}

// holdsWord reports whether a text holds another that is no part of a longer number.
func holdsWord(text, word string) bool {
	digit := func(s string, i int) bool { return i >= 0 && i < len(s) && (s[i] >= '0' && s[i] <= '9' || s[i] == '.') }
	for at := 0; ; {
		i := strings.Index(text[at:], word)
		if i < 0 {
			return false
		}
		i += at
		if !digit(text, i-1) && !digit(text, i+len(word)) {
			return true
		}
		at = i + 1
	}
}
