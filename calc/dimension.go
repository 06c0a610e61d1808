package calc

import (
	"strconv"
	"strings"
)

// Dimension is the physical dimension of a quantity: exponents over the base
// dimensions, doubled so that square roots of lengths exist, and the currency.
// The zero Dimension is that of a plain number. Dimensions compare with ==.
type Dimension struct {
	Length, Mass, Time, Temperature, Angle, Money int8
	// Point is 1 for a reading on a scale with its own zero (20 °C), where
	// differences make sense and sums do not.
	Point int8
	// Currency is an index into the ISO 4217 table, 0 for none.
	Currency uint8
}

// The dimensions that have a name in the shop.
var (
	dimensionless = Dimension{}

	DimLength      = Dimension{Length: 2}
	DimArea        = Dimension{Length: 4}
	DimVolume      = Dimension{Length: 6}
	DimMass        = Dimension{Mass: 2}
	DimTime        = Dimension{Time: 2}
	DimAngle       = Dimension{Angle: 2}
	DimTemperature = Dimension{Temperature: 2, Point: 1}
	DimWarmth      = Dimension{Temperature: 2} // a difference of temperatures
	DimForce       = Dimension{Mass: 2, Length: 2, Time: -4}
	DimPressure    = Dimension{Mass: 2, Length: -2, Time: -4}
	DimDensity     = Dimension{Mass: 2, Length: -6}
	DimSpeed       = Dimension{Length: 2, Time: -2}
	DimMoment      = Dimension{Mass: 2, Length: 2}
	DimMassPerLen  = Dimension{Mass: 2, Length: -2}
	DimMassPerArea = Dimension{Mass: 2, Length: -4}
	DimCoverage    = Dimension{Length: -2} // area per volume, m²/L
	DimAccel       = Dimension{Length: 2, Time: -4}
	DimPower       = Dimension{Mass: 2, Length: 4, Time: -6}
	DimNumber      = Dimension{}
	DimLength4     = Dimension{Length: 8}
	DimLength3Mass = Dimension{Length: 6, Mass: 2}
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
	if d.Money == 2 && d.onlyMoney() {
		return "money:" + d.CurrencyCode()
	}
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
	if d.Money != 0 {
		add("money:"+d.CurrencyCode(), d.Money)
	}
	add("mass", d.Mass)
	add("length", d.Length)
	add("time", d.Time)
	add("temperature", d.Temperature)
	add("angle", d.Angle)
	return strings.Join(parts, "·")
}

// A names the dimension with its article, for sentences: "a length", "an angle".
func (d Dimension) A() string {
	w := d.Word()
	if d.Money == 2 && d.onlyMoney() {
		return "money in " + d.CurrencyCode()
	}
	if strings.ContainsRune("aeiou", rune(w[0])) {
		return "an " + w
	}
	return "a " + w
}

func (d Dimension) onlyMoney() bool {
	d.Money, d.Currency = 0, 0
	return d == Dimension{}
}

// IsNumber reports whether d is that of a plain number.
func (d Dimension) IsNumber() bool { return d == Dimension{} }

// CurrencyCode returns the ISO 4217 code of a dimension that has money in it.
func (d Dimension) CurrencyCode() string {
	if int(d.Currency) < len(currencies) {
		return currencies[d.Currency].code
	}
	return ""
}

// combine adds sign times the exponents of e to those of d: a product or a quotient.
func (d Dimension) combine(e Dimension, sign int8) (Dimension, *Error) {
	if d.Point != 0 || e.Point != 0 {
		return d, Errorf(CodeTemperature, "a temperature on the scale cannot be multiplied or divided").
			WithHint("take a difference of two readings first, or write a difference as 5 K or 9 F°")
	}
	if d.Money != 0 && e.Money != 0 && d.Currency != e.Currency {
		return d, Errorf(CodeCurrency, "%s and %s do not mix: money is never converted", d.CurrencyCode(), e.CurrencyCode())
	}
	z := Dimension{
		Length: d.Length + sign*e.Length, Mass: d.Mass + sign*e.Mass, Time: d.Time + sign*e.Time,
		Temperature: d.Temperature + sign*e.Temperature, Angle: d.Angle + sign*e.Angle, Money: d.Money + sign*e.Money,
	}
	if z.Money != 0 {
		z.Currency = d.Currency | e.Currency
		if d.Money != 0 {
			z.Currency = d.Currency
		}
	}
	if z.tooLarge() {
		return d, Errorf(CodeLimit, "the power of a unit has grown past 30")
	}
	return z, nil
}

func (d Dimension) tooLarge() bool {
	for _, e := range [...]int8{d.Length, d.Mass, d.Time, d.Temperature, d.Angle, d.Money} {
		if e > 60 || e < -60 {
			return true
		}
	}
	return false
}

// Power returns the dimension of x^(n/2) for a quantity x of dimension d.
func (d Dimension) Power(halves int) (Dimension, bool) {
	z := d
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
	return z, d.Point == 0
}
