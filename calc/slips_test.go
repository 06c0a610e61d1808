package calc

import (
	"math"
	"strings"
	"testing"
)

// TestTightUnits reads what people write without spaces.
func TestTightUnits(t *testing.T) {
	deg := math.Pi / 180
	for text, want := range map[string]float64{
		`3ft6in`: 42 * inch, `3ft6 1/2in`: 42.5 * inch, `3ft 6in`: 42 * inch, `3ft3"`: 39 * inch, `45°30'`: 45.5 * deg, `45°30'15"`: 45.5*deg + 15*deg/3600,
		`1h30min`: 5400, `5lb3oz`: (5 + 3.0/16) * pound, `4 ft2`: 4 * foot * foot, `3 ft3`: 3 * foot * foot * foot,
	} {
		l, err := ParseLiteral(text)
		if err != nil || math.Abs(l.Value.V-want) > 1e-12*math.Max(1, want) {
			t.Errorf("%s: %v, %v; want %v", text, l.Value.V, err, want)
		}
	}
	l, err := ParseLiteral(`5 mm +- 1 mm`)
	if err != nil || math.Abs(l.Plus-.001) > 1e-12 {
		t.Errorf("5 mm +- 1 mm: ± %v, %v", l.Plus, err)
	}
}

// TestDoubtfulLiterals are refused with a hint that says what to write instead.
func TestDoubtfulLiterals(t *testing.T) {
	for _, c := range []struct {
		text string
		code Code
		hint string
	}{
		{`2' -3"`, CodeNumber, `write 2' 3" for feet and inches, or 2' - 3"`},
		{`2' −3 1/2"`, CodeNumber, `2' 3 1/2"`},
		{`10%±1`, CodeBareNumber, `10% ± 1 %`},
		{`3ft6`, CodeInchMark, `3ft6 in`},
		{`1:30 h`, CodeSyntax, `1.5 h`},
		{`1.000,5 mm`, CodeDecimalComma, `1000.5`},
		{`5 usd`, CodeUnknownUnit, `did you mean USD?`},
		{`70 F`, CodeUnknownUnit, `did you mean °F?`},
		{`20 C`, CodeUnknownUnit, `did you mean °C?`},
		{`1 atm`, CodeUnknownUnit, `lengths are written`},
	} {
		_, err := ParseLiteral(c.text)
		if err == nil || err.Code != c.code || !strings.Contains(err.Hint, c.hint) {
			t.Errorf("%s: %v (hint %q), want %s and %q", c.text, err, hintOf(err), c.code, c.hint)
		}
	}
}

func hintOf(e *Error) string {
	if e == nil {
		return ""
	}
	return e.Hint
}

// TestMarksToShow: a mark that no rule has is refused, a decimal mark shows decimals.
func TestMarksToShow(t *testing.T) {
	for _, text := range []string{`1/7"`, `1/3"`, `1/3 in`} {
		if d, err := ScanDisplay(text); err == nil {
			t.Errorf("to %s is taken: %+v", text, d)
		}
	}
	d, err := ScanDisplay(`0.1"`)
	if err != nil {
		t.Fatal(err)
	}
	if got := (Style{}).Text(Length(5.03 * inch).Shown(d)); got != "5 in" {
		t.Errorf(`5.03 in to 0.1" is %q`, got)
	}
}

// TestTemperatures: a ± and a mark on a scale are differences; 32 °F is 0 °C.
func TestTemperatures(t *testing.T) {
	for text, plus := range map[string]float64{`20 °C ± 1 °C`: 1, `20 °C ± 1 K`: 1, `68 °F ± 9 °F`: 5, `20 °C ± 9 F°`: 5} {
		l, err := ParseLiteral(text)
		if err != nil || math.Abs(l.Plus-plus) > 1e-9 {
			t.Errorf("%s: ± %v, %v", text, l.Plus, err)
		}
	}
	for _, c := range []struct{ text, to, want string }{
		{`32 °F`, `°C`, `0 °C`}, {`20.123 °C`, `0.1 °C`, `20.1 °C`}, {`20.123 °C`, `1 °F`, `68 °F`}, {`-40 °C`, `°F`, `−40 °F`},
	} {
		l, err := ParseLiteral(c.text)
		if err != nil {
			t.Fatal(err)
		}
		d, err := ScanDisplay(c.to)
		if err != nil {
			t.Fatal(err)
		}
		if got := (Style{}).Text(l.Value.Shown(d)); got != c.want {
			t.Errorf("%s to %s is %s, want %s", c.text, c.to, got, c.want)
		}
	}
}

// TestSpreadsOfAnglesAndMoney: minutes of arc after an angle, and no ± lost on the way
// to the reader.
func TestSpreadsOfAnglesAndMoney(t *testing.T) {
	for _, text := range []string{"5° ± 30'", "5° 30' ± 30′", "5 deg +/- 30'"} {
		l, err := ParseLiteral(text)
		if err != nil || math.Abs(l.Plus-math.Pi/360) > 1e-12 {
			t.Errorf("%s: ± %v, %v", text, l.Plus, err)
		}
	}
	if _, err := ParseLiteral(`5° ± 30"`); err == nil {
		t.Error("an angle ± an inch is taken")
	}
	m, _ := Money(5, "EUR")
	if got := (Style{}).Text(WithSpread(m, 1.5, 1)); got != "5.00 ± 1.50 EUR" {
		t.Error(got)
	}
}
