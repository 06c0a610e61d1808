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
