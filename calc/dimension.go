package calc

import (
	"strconv"
	"strings"
)

// Dimension is the physical dimension of a quantity: exponents over the base
// dimensions and the currency, a byte each, packed into one word so that a Value
// travels in registers and dimensions are compared and multiplied in a step. The
// zero Dimension is that of a plain number. Dimensions compare with ==.
type Dimension uint64

// Exponents are a Dimension spelled out. They are doubled, so that square roots of
// lengths exist.
type Exponents struct {
	Length, Mass, Time, Temperature, Angle, Money int8
	// Point is 1 for a reading on a scale with its own zero (20 °C), where
	// differences make sense and sums do not.
	Point int8
	// Currency is an index into the ISO 4217 table, 0 for none.
	Currency uint8
}

// Dimension packs the exponents.
func (e Exponents) Dimension() Dimension {
	var d Dimension
	for i, x := range [...]uint8{uint8(e.Length), uint8(e.Mass), uint8(e.Time), uint8(e.Temperature), uint8(e.Angle), uint8(e.Money), uint8(e.Point), e.Currency} {
		d |= Dimension(x) << (8 * i)
	}
	return d
}

// Exponents spells the dimension out.
func (d Dimension) Exponents() Exponents {
	return Exponents{
		Length: int8(d), Mass: int8(d >> 8), Time: int8(d >> 16), Temperature: int8(d >> 24),
		Angle: int8(d >> 32), Money: int8(d >> 40), Point: int8(d >> 48), Currency: uint8(d >> 56),
	}
}

// OnScale reports whether d is of readings on a scale with its own zero: 20 °C.
func (d Dimension) OnScale() bool { return d&(0xff<<48) != 0 }

// HasMoney reports whether there is money in d.
func (d Dimension) HasMoney() bool { return d&(0xff<<40) != 0 }

// Difference is the dimension of what two readings of d differ by.
func (d Dimension) Difference() Dimension { return d &^ (0xff << 48) }

// The dimensions that have a name in the shop.
var (
	dimensionless Dimension

	DimLength      = Exponents{Length: 2}.Dimension()
	DimArea        = Exponents{Length: 4}.Dimension()
	DimVolume      = Exponents{Length: 6}.Dimension()
	DimMass        = Exponents{Mass: 2}.Dimension()
	DimTime        = Exponents{Time: 2}.Dimension()
	DimAngle       = Exponents{Angle: 2}.Dimension()
	DimTemperature = Exponents{Temperature: 2, Point: 1}.Dimension()
	DimWarmth      = Exponents{Temperature: 2}.Dimension() // a difference of temperatures
	DimForce       = Exponents{Mass: 2, Length: 2, Time: -4}.Dimension()
	DimPressure    = Exponents{Mass: 2, Length: -2, Time: -4}.Dimension()
	DimDensity     = Exponents{Mass: 2, Length: -6}.Dimension()
	DimSpeed       = Exponents{Length: 2, Time: -2}.Dimension()
	DimMoment      = Exponents{Mass: 2, Length: 2}.Dimension()
	DimMassPerLen  = Exponents{Mass: 2, Length: -2}.Dimension()
	DimMassPerArea = Exponents{Mass: 2, Length: -4}.Dimension()
	DimCoverage    = Exponents{Length: -2}.Dimension() // area per volume, m²/L
	DimAccel       = Exponents{Length: 2, Time: -4}.Dimension()
	DimPower       = Exponents{Mass: 2, Length: 4, Time: -6}.Dimension()
	DimNumber      = dimensionless
	DimLength4     = Exponents{Length: 8}.Dimension()
	DimLength3Mass = Exponents{Length: 6, Mass: 2}.Dimension()
)

// dimensionWords is the one list of named dimensions; money is apart.
var dimensionWords = []struct {
	d    Dimension
	word string
}{
	{dimensionless, "number"}, {DimLength, "length"}, {DimArea, "area"}, {DimVolume, "volume"},
	{DimMass, "mass"}, {DimTime, "time"}, {DimAngle, "angle"}, {DimTemperature, "temperature"},
	{DimWarmth, "temperature difference"}, {DimForce, "force"}, {DimPressure, "pressure"},
	{DimDensity, "density"}, {DimSpeed, "speed"}, {DimMoment, "moment"},
	{DimMassPerLen, "mass per length"}, {DimMassPerArea, "mass per area"}, {DimAccel, "acceleration"},
	{DimPower, "power"},
}

// Word names the dimension as a word: length, angle, money:USD; a dimension
// without a name is written as a product, mass·length^2.
func (d Dimension) Word() string {
	for _, w := range dimensionWords {
		if w.d == d {
			return w.word
		}
	}
	if d.IsMoney() {
		return "money:" + d.CurrencyCode()
	}
	e := d.Exponents()
	var parts []string
	add := func(word string, half int8) {
		switch {
		case half == 0:
		case half == 2:
			parts = append(parts, word)
		case half%2 == 0:
			parts = append(parts, word+"^"+strconv.Itoa(int(half/2)))
		default:
			parts = append(parts, word+"^("+strconv.Itoa(int(half))+"/2)")
		}
	}
	if e.Money != 0 {
		add("money:"+d.CurrencyCode(), e.Money)
	}
	add("mass", e.Mass)
	add("length", e.Length)
	add("time", e.Time)
	add("temperature", e.Temperature)
	add("angle", e.Angle)
	return strings.Join(parts, "·")
}

// A names the dimension with its article, for sentences: "a length", "an angle".
func (d Dimension) A() string {
	w := d.Word()
	if d.IsMoney() {
		return "money in " + d.CurrencyCode()
	}
	if strings.ContainsRune("aeiou", rune(w[0])) {
		return "an " + w
	}
	return "a " + w
}

// IsMoney reports whether d is that of an amount of money.
func (d Dimension) IsMoney() bool { return d&^(0xff<<56) == 2<<40 }

// IsNumber reports whether d is that of a plain number.
func (d Dimension) IsNumber() bool { return d == 0 }

// CurrencyCode returns the ISO 4217 code of a dimension that has money in it.
func (d Dimension) CurrencyCode() string {
	if i := int(d >> 56); i < len(currencies) {
		return currencies[i].code
	}
	return ""
}

// Five exponents side by side, of the dimensions without money and scale.
const (
	physical = 0xff_ffff_ffff
	signs    = 0x80_8080_8080
	ones     = 0x01_0101_0101
	sixteens = 0x10_1010_1010
	small    = 0x1f_1f1f_1f1f
)

// isSmall reports whether all that d has are exponents from −16 to 15, so that those of
// two such dimensions can be added without a look at the limit.
func (d Dimension) isSmall() bool { return addLanes(d, sixteens)&^small == 0 }

// addLanes adds byte by byte, without a carry from one into the next.
func addLanes(d, e Dimension) Dimension {
	return (d&^signs + e&^signs) ^ (d^e)&signs
}

// Times returns the dimension of a product, and whether it could be had the short
// way: both are small, and of neither money nor a scale.
func (d Dimension) Times(e Dimension) (Dimension, bool) {
	return addLanes(d, e), d.isSmall() && e.isSmall()
}

// Over returns the dimension of a quotient, likewise.
func (d Dimension) Over(e Dimension) (Dimension, bool) {
	// −e, lane by lane: each exponent below is smaller than its sign bit
	return addLanes(d, addLanes(^e&physical, ones)), d.isSmall() && e.isSmall()
}

// combine adds sign times the exponents of e to those of d: a product or a quotient.
func (d Dimension) combine(e Dimension, sign int8) (Dimension, *Error) {
	if d.OnScale() || e.OnScale() {
		return d, Errorf(CodeTemperature, "a temperature on the scale cannot be multiplied or divided").
			WithHint("take a difference of two readings first, or write a difference as 5 K or 9 F°")
	}
	a, b := d.Exponents(), e.Exponents()
	if a.Money != 0 && b.Money != 0 && a.Currency != b.Currency {
		return d, Errorf(CodeCurrency, "%s and %s do not mix: money is never converted", d.CurrencyCode(), e.CurrencyCode())
	}
	z := Exponents{
		Length: a.Length + sign*b.Length, Mass: a.Mass + sign*b.Mass, Time: a.Time + sign*b.Time,
		Temperature: a.Temperature + sign*b.Temperature, Angle: a.Angle + sign*b.Angle, Money: a.Money + sign*b.Money,
	}
	if z.Money != 0 {
		z.Currency = a.Currency | b.Currency
		if a.Money != 0 {
			z.Currency = a.Currency
		}
	}
	if z.tooLarge() {
		return d, Errorf(CodeLimit, "the power of a unit has grown past 30")
	}
	return z.Dimension(), nil
}

func (e Exponents) tooLarge() bool {
	for _, p := range [...]int8{e.Length, e.Mass, e.Time, e.Temperature, e.Angle, e.Money} {
		if p > 60 || p < -60 {
			return true
		}
	}
	return false
}

// Power returns the dimension of x^(n/2) for a quantity x of dimension d.
func (d Dimension) Power(halves int) (Dimension, bool) {
	z := d.Exponents()
	for _, e := range [...]*int8{&z.Length, &z.Mass, &z.Time, &z.Temperature, &z.Angle, &z.Money} {
		p := int(*e) * halves
		if p%2 != 0 || p/2 > 60 || p/2 < -60 {
			return d, false
		}
		*e = int8(p / 2)
	}
	if z.Money == 0 {
		z.Currency = 0
	}
	return z.Dimension(), !d.OnScale()
}
