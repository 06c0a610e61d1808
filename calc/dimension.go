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

// The bytes of a Dimension.
const (
	atLength = 8 * iota
	atMass
	atTime
	atTemperature
	atAngle
	atMoney
	atPoint
	atCurrency
)

// Dimension packs the exponents.
func (e Exponents) Dimension() Dimension {
	return Dimension(uint8(e.Length))<<atLength | Dimension(uint8(e.Mass))<<atMass | Dimension(uint8(e.Time))<<atTime |
		Dimension(uint8(e.Temperature))<<atTemperature | Dimension(uint8(e.Angle))<<atAngle | Dimension(uint8(e.Money))<<atMoney |
		Dimension(uint8(e.Point))<<atPoint | Dimension(e.Currency)<<atCurrency
}

// Exponents spells the dimension out.
func (d Dimension) Exponents() Exponents {
	return Exponents{
		Length: int8(d >> atLength), Mass: int8(d >> atMass), Time: int8(d >> atTime), Temperature: int8(d >> atTemperature),
		Angle: int8(d >> atAngle), Money: int8(d >> atMoney), Point: int8(d >> atPoint), Currency: uint8(d >> atCurrency),
	}
}

// OnScale reports whether d is of readings on a scale with its own zero: 20 °C.
func (d Dimension) OnScale() bool { return d&(0xff<<atPoint) != 0 }

// HasMoney reports whether there is money in d.
func (d Dimension) HasMoney() bool { return d&(0xff<<atMoney) != 0 }

// Difference is the dimension of what two readings of d differ by.
func (d Dimension) Difference() Dimension { return d &^ (0xff << atPoint) }

// The dimensions that have a name in the shop: exponents, doubled, at their bytes. They are
// constants so that nothing has to be worked out before main.
const (
	dimensionless Dimension = 0

	DimLength      Dimension = 2 << atLength
	DimArea        Dimension = 4 << atLength
	DimVolume      Dimension = 6 << atLength
	DimMass        Dimension = 2 << atMass
	DimTime        Dimension = 2 << atTime
	DimAngle       Dimension = 2 << atAngle
	DimTemperature Dimension = 2<<atTemperature | 1<<atPoint
	DimWarmth      Dimension = 2 << atTemperature // a difference of temperatures
	DimForce       Dimension = 2<<atMass | 2<<atLength | less4<<atTime
	DimPressure    Dimension = 2<<atMass | less2<<atLength | less4<<atTime
	DimDensity     Dimension = 2<<atMass | less6<<atLength
	DimSpeed       Dimension = 2<<atLength | less2<<atTime
	DimMoment      Dimension = 2<<atMass | 2<<atLength
	DimMassPerLen  Dimension = 2<<atMass | less2<<atLength
	DimMassPerArea Dimension = 2<<atMass | less4<<atLength
	DimCoverage    Dimension = less2 << atLength // area per volume, m²/L
	DimAccel       Dimension = 2<<atLength | less4<<atTime
	DimPower       Dimension = 2<<atMass | 4<<atLength | less6<<atTime
	DimNumber      Dimension = dimensionless
	DimLength4     Dimension = 8 << atLength
	DimLength3Mass Dimension = 6<<atLength | 2<<atMass
)

// Exponents below zero, as a byte.
const less2, less4, less6 = 0xfe, 0xfc, 0xfa

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
	if i := int(d >> atCurrency); i < len(currencies) {
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
