package calc

import (
	"math"
	"testing"
)

func TestParseLiteral(t *testing.T) {
	deg := math.Pi / 180
	for _, c := range []struct {
		text string
		si   float64
		dim  string
	}{
		{`2'`, 24 * inch, "length"}, {`2' 6"`, 30 * inch, "length"}, {`2' 6 3/8"`, 30.375 * inch, "length"},
		{`6 3/8"`, 6.375 * inch, "length"}, {`2'6-3/8"`, 30.375 * inch, "length"}, {`14'-7 3/8"`, 175.375 * inch, "length"},
		{`3/8"`, 0.375 * inch, "length"}, {`2′ 6 3⁄8″`, 30.375 * inch, "length"}, {`7/16 in.`, 0.4375 * inch, "length"}, {`2 ft. 6 in.`, 30 * inch, "length"}, {`6 lbs.`, 6 * pound, "mass"},
		{`2 ft-3 in`, 0, "error"}, {`12 ft-3/8"`, 0, "error"}, {`7/16 in.5`, 0, "error"}, {`2′ 6⅜″`, 30.375 * inch, "length"},
		{`2’ 6 ½”`, 30.5 * inch, "length"}, {`½"`, 0.5 * inch, "length"}, {`6''`, 6 * inch, "length"},
		{`12 mm`, .012, "length"}, {`12mm`, .012, "length"}, {`3 ft`, 36 * inch, "length"}, {`3 ft 2 in`, 38 * inch, "length"},
		{`3 ft 2 3/8 in`, 38.375 * inch, "length"}, {`17 7/9 in`, 160.0 / 9 * inch, "length"},
		{`35 lb/ft^3`, 35 * pound / (foot * foot * foot), "density"}, {`1000 kg/m³`, 1000, "density"},
		{`1/4" per ft`, 1.0 / 48, "number"}, {`1:12`, 1.0 / 12, "number"}, {`15 %`, .15, "number"}, {`15%`, .15, "number"},
		{`5°`, 5 * deg, "angle"}, {`5° 30'`, 5.5 * deg, "angle"}, {`5 deg`, 5 * deg, "angle"}, {`0.1 rad`, .1, "angle"},
		{`5° 30' 30"`, 5*deg + 30*deg/60 + 30*deg/3600, "angle"},
		{`42.50 USD`, 42.5, "money:USD"}, {`9.50 USD per bd ft`, 9.5 / (144 * inch * inch * inch), "money:USD·length^-3"},
		{`3.5 h`, 12600, "time"}, {`3 h 20 min`, 12000, "time"}, {`20 °C`, 293.15, "temperature"}, {`68 °F`, 293.15, "temperature"},
		{`9 F°`, 5, "temperature difference"}, {`2 dozen`, 24, "number"}, {`100 bd ft`, 100 * 144 * inch * inch * inch, "volume"},
		{`4 ft2`, 4 * foot * foot, "area"}, {`4 ft^2`, 4 * foot * foot, "area"}, {`12 lb·in`, 12 * pound * inch, "moment"},
		{`2 1/2`, 2.5, "number"}, {`1e3 mm`, 1, "length"}, {`-3 mm`, -.003, "length"}, {`1/2 m`, .5, "length"},
		{`5 lb 4 oz`, 5.25 * pound, "mass"}, {`9.0 GPa`, 9e9, "pressure"}, {`62.4 lb/cu ft`, 62.4 * pound / (foot * foot * foot), "density"},
	} {
		l, err := ParseLiteral(c.text)
		if c.dim == "error" {
			if err == nil {
				t.Errorf("%s: read as %v, want an error", c.text, l.Value)
			}
			continue
		}
		if err != nil {
			t.Errorf("%s: %v", c.text, err)
			continue
		}
		if math.Abs(l.Value.V-c.si) > 1e-12*math.Max(1, math.Abs(c.si)) || l.Value.D.Word() != c.dim {
			t.Errorf("%s: %v %s, want %v %s", c.text, l.Value.V, l.Value.D.Word(), c.si, c.dim)
		}
	}
}

func TestLiteralRefusals(t *testing.T) {
	for _, c := range []struct {
		text string
		code Code
	}{
		{`2' 6`, CodeInchMark}, {`1,5 mm`, CodeDecimalComma}, {`1,500 mm`, CodeDecimalComma}, {`1-10-5`, CodeOffsetDash},
		{`12 mn`, CodeUnknownUnit}, {`12 furlong`, CodeUnknownUnit}, {`2 9/8"`, CodeNumber}, {`3/0"`, CodeZero},
		{`2' ± 3`, CodeBareNumber}, {`2' ±`, CodePlusMinus}, {`2' ± 3 lb`, CodePlusMinus}, {`1e999 mm`, CodeNumber},
		{`20 °C/m`, CodeTemperature},
	} {
		_, err := ParseLiteral(c.text)
		if err == nil || err.Code != c.code {
			t.Errorf("%s: %v, want code %s", c.text, err, c.code)
		} else if err.Span.End == 0 {
			t.Errorf("%s: the error has no place", c.text)
		}
	}
}

func TestPlusMinus(t *testing.T) {
	for text, u := range map[string]float64{`2' 1 3/8" ± 1/16"`: inch / 16, `96 mm +/- 2 mm`: .002, `100 mm ± 2 %`: .002, `20 °C ± 1 K`: 1} {
		l, err := ParseLiteral(text)
		if err != nil || math.Abs(l.Plus-u) > 1e-12 {
			t.Errorf("%s: ± %v %v, want %v", text, l.Plus, err, u)
		}
	}
}

func TestText(t *testing.T) {
	feet, metric := Style{}, Style{System: Metric}
	for _, c := range []struct {
		x    Value
		s    Style
		want string
	}{
		{Inches(14.3182), feet, `1' 2 5/16"`}, {Inches(7.4219), feet, `7 7/16" shy`}, {Inches(7.455), feet, `7 7/16" strong`},
		{Inches(24), feet, `2'`}, {Inches(0), feet, `0"`}, {Inches(-30.5), feet, `−2' 6 1/2"`}, {Inches(23.99), feet, `2'`},
		{Inches(0.01), feet, `0.01"`}, {Inches(0.0004), feet, `0"`}, {Inches(48.5), feet, `4' 0 1/2"`}, {Inches(48), feet, `4'`}, {Inches(0.02), feet, `0.02"`}, {Inches(.75), feet, `3/4"`},
		{Length(.451), metric, "451 mm"}, {Length(.45123), metric, "451.2 mm"}, {Length(2.3899), metric, "2389.9 mm"},
		{Degrees(15.893), feet, "15.9°"}, {Degrees(9.987), feet, "9.99°"}, {Degrees(.397), feet, "0.397°"},
		{Degrees(5.5), Style{Angle: DegreesMinutes}, "5° 30'"}, {Degrees(14.0362), Style{Angle: RisePerFoot}, `3" in 12"`},
		{Number(1.2299562), feet, "1.23"}, {Number(12), feet, "12"}, {Number(-3), feet, "−3"},
		{Of(140.658*144*inch*inch*inch, DimVolume).Shown(InUnit("bd ft")), feet, "140.66 bd ft"},
		{Mass(255.53 * pound), feet, "255.5 lb"}, {Mass(12.624), metric, "12.62 kg"},
		{WithSpread(Inches(25.375), inch/16, 1), feet, `2' 1 3/8" ± 1/16"`},
		{WithSpread(Length(.137), .003, 1), metric, "137 ± 3 mm"},
		{Degrees(15.893).Shown(mustDisplay(t, "1/4°")), feet, "16°"}, {Degrees(15.7).Shown(mustDisplay(t, "1/4°")), feet, "15 3/4°"},
		{Inches(0.5735).Shown(mustDisplay(t, "0.01 in")), feet, "0.57 in"}, {Inches(-0.0654).Shown(mustDisplay(t, "0.001 in")), feet, "−0.065 in"},
		{Inches(22.984).Shown(mustDisplay(t, "0.001 in")), metric, "22.984 in"}, {Inches(14.3182).Shown(mustDisplay(t, `1/32"`)), feet, `1' 2 5/16"`},
		{Degrees(15.74).Shown(mustDisplay(t, "0.1°")), feet, "15.7°"}, {Degrees(16.04).Shown(mustDisplay(t, "1/2°")), feet, "16°"},
		{Inches(49.5).Shown(mustDisplay(t, "mm")), feet, "1257.3 mm"}, {Inches(49.51).Shown(mustDisplay(t, `1/8"`)), feet, `4' 1 1/2"`},
		{Inches(49.53).Shown(mustDisplay(t, "0.5 mm")), feet, "1258 mm"}, {Number(.140221).Shown(mustDisplay(t, "%")), feet, "14.022%"},
		{Inches(22.625).Shown(mustDisplay(t, "offsets")), feet, "1-10-5"},
	} {
		if got := c.s.Text(c.x); got != c.want {
			t.Errorf("%v %s: %q, want %q", c.x.V, c.x.D.Word(), got, c.want)
		}
	}
}

func mustDisplay(t *testing.T, s string) *Display {
	t.Helper()
	d, err := ScanDisplay(s)
	if err != nil {
		t.Fatal(err)
	}
	return d
}

func TestOffsets(t *testing.T) {
	for text, in := range map[string]float64{"1-10-5": 22.625, "2-3-5+": 27.6875, "2-3-5-": 27.5625, "0-0-0": 0, "-0-1-4": -1.5, " 0-11-7 ": 11.875} {
		v, err := ParseOffset(text)
		if err != nil || math.Abs(v.V/inch-in) > 1e-9 {
			t.Errorf("%s: %v %v, want %v", text, v.V/inch, err, in)
		}
	}
	for _, text := range []string{"1-12-3", "0-3-8", "1-2", "a-b-c", "1--2", ""} {
		if _, err := ParseOffset(text); err == nil || err.Code != CodeOffset {
			t.Errorf("%s: %v, want an offset error", text, err)
		}
	}
	for in, want := range map[float64]string{35.94: "2-11-7+", 36: "3-0-0", 22.625: "1-10-5", 11.99: "1-0-0", -1.5: "-0-1-4"} {
		if got := FormatOffset(in * inch); got != want {
			t.Errorf("%v: %s, want %s", in, got, want)
		}
	}
}

func TestUnitsAreDistinct(t *testing.T) {
	seen := map[string]string{}
	for _, u := range Units() {
		for _, n := range u.Names {
			if was, ok := seen[n]; ok && was != u.Symbol {
				t.Errorf("%s is both %s and %s", n, was, u.Symbol)
			}
			seen[n] = u.Symbol
		}
		if u.Source == "" || u.Factor <= 0 {
			t.Errorf("%s has no source or no size", u.Symbol)
		}
	}
	for _, c := range CurrencyCodes() {
		if was, ok := seen[c]; ok {
			t.Errorf("the currency %s is also %s", c, was)
		}
	}
}

func TestSharedReadingsCancel(t *testing.T) {
	x := WithSpread(Inches(10), inch/16, 7)
	z, err := Sub(x, x)
	if err != nil || z.V != 0 || z.Likely() != 0 {
		t.Errorf("x − x is %v ± %v, want 0 ± 0 (%v)", z.V, z.Likely(), err)
	}
	y := WithSpread(Inches(4), inch/8, 9)
	p, _ := Mul(x, y)
	want := math.Hypot(4*inch*inch/16, 10*inch*inch/8)
	if math.Abs(p.Likely()-want) > 1e-15 {
		t.Errorf("± of a product is %v, want %v", p.Likely(), want)
	}
	if w := p.Worst(); math.Abs(w-(4*inch*inch/16+10*inch*inch/8)) > 1e-15 {
		t.Errorf("worst of a product is %v", w)
	}
}
