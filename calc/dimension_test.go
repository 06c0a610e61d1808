package calc

import (
	"math/rand/v2"
	"testing"
)

// The packed product and quotient are those that are worked out exponent by exponent.
func TestDimensionsPacked(t *testing.T) {
	rnd := rand.New(rand.NewPCG(1, 2))
	short := 0
	draw := func(most int) Exponents {
		x := func() int8 { return int8(rnd.IntN(2*most+1) - most) }
		e := Exponents{Length: x(), Mass: x(), Time: x(), Temperature: x(), Angle: x()}
		switch rnd.IntN(8) {
		case 0:
			e.Money, e.Currency = x(), uint8(1+rnd.IntN(2))
		case 1:
			e.Point = 1
		}
		return e
	}
	for i := range 200_000 {
		most := []int{1, 4, 15, 18, 60}[i%5]
		a, b := draw(most), draw(most)
		d, e := a.Dimension(), b.Dimension()
		if d.Exponents() != a || d.OnScale() != (a.Point != 0) || d.HasMoney() != (a.Money != 0) {
			t.Fatalf("%+v is unpacked as %+v", a, d.Exponents())
		}
		for sign, op := range map[int8]func(Dimension) (Dimension, bool){1: d.Times, -1: d.Over} {
			got, ok := op(e)
			if !ok {
				continue
			}
			short++
			if want, err := d.combine(e, sign); err != nil || got != want {
				t.Fatalf("%+v with %+v, %d: the short way gives %+v, the long way %+v, %v", a, b, sign, got.Exponents(), want.Exponents(), err)
			}
		}
	}
	if short < 100_000 {
		t.Fatalf("only %d went the short way", short)
	}
	if d, ok := DimArea.Times(DimLength); !ok || d != DimVolume {
		t.Errorf("an area by a length is %s, %v", d.Word(), ok)
	}
	if _, ok := (Exponents{Length: 16}).Dimension().Times(DimLength); ok {
		t.Error("an exponent of 16 went the short way")
	}
}

// TestDimensionConstants holds the packed constants to their exponents.
func TestDimensionConstants(t *testing.T) {
	for _, x := range []struct {
		d Dimension
		e Exponents
	}{
		{DimLength, Exponents{Length: 2}}, {DimArea, Exponents{Length: 4}}, {DimVolume, Exponents{Length: 6}}, {DimMass, Exponents{Mass: 2}},
		{DimTime, Exponents{Time: 2}}, {DimAngle, Exponents{Angle: 2}}, {DimTemperature, Exponents{Temperature: 2, Point: 1}}, {DimWarmth, Exponents{Temperature: 2}},
		{DimForce, Exponents{Mass: 2, Length: 2, Time: -4}}, {DimPressure, Exponents{Mass: 2, Length: -2, Time: -4}}, {DimDensity, Exponents{Mass: 2, Length: -6}},
		{DimSpeed, Exponents{Length: 2, Time: -2}}, {DimMoment, Exponents{Mass: 2, Length: 2}}, {DimMassPerLen, Exponents{Mass: 2, Length: -2}},
		{DimMassPerArea, Exponents{Mass: 2, Length: -4}}, {DimCoverage, Exponents{Length: -2}}, {DimAccel, Exponents{Length: 2, Time: -4}},
		{DimPower, Exponents{Mass: 2, Length: 4, Time: -6}}, {DimNumber, Exponents{}}, {DimLength4, Exponents{Length: 8}}, {DimLength3Mass, Exponents{Length: 6, Mass: 2}},
	} {
		if x.d != x.e.Dimension() || x.d.Exponents() != x.e {
			t.Errorf("%#x is %+v, want %#x of %+v", uint64(x.d), x.d.Exponents(), uint64(x.e.Dimension()), x.e)
		}
	}
}

// TestCurrenciesAreFound finds each code, which hangs on their order.
func TestCurrenciesAreFound(t *testing.T) {
	for i := 1; i < len(currencies); i++ {
		c := currencies[i].code
		if u, ok := FindUnit(c); int(currencyIndex(c)) != i || !ok || u.D.CurrencyCode() != c || !u.D.IsMoney() {
			t.Errorf("%s is not found", c)
		}
	}
	for _, c := range []string{"", "AAA", "ZZZ", "usd", "US", "USDX"} {
		if i := currencyIndex(c); i != 0 {
			t.Errorf("%q is found at %d", c, i)
		}
	}
}
