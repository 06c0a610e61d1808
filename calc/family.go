package calc

import (
	"math"
	"sync"
)

// families lists, for each dimension, the units a value is shown in when nothing
// else is asked, in feet and inches and metric: the first whose size the value reaches,
// else the last.
var families = [...]struct {
	d     Dimension
	units [2][]string
}{
	{DimArea, [2][]string{{"ft²", "in²"}, {"m²", "cm²"}}},
	{DimVolume, [2][]string{{"ft³", "in³"}, {"m³", "L", "cm³"}}},
	{DimMass, [2][]string{{"lb", "oz"}, {"kg", "g"}}},
	{DimForce, [2][]string{{"lbf"}, {"N"}}},
	{DimPressure, [2][]string{{"psi"}, {"MPa", "kPa"}}},
	{DimDensity, [2][]string{{"lb/ft³"}, {"kg/m³"}}},
	{DimSpeed, [2][]string{{"kn"}, {"kn"}}},
	{DimTemperature, [2][]string{{"°F"}, {"°C"}}},
	{DimWarmth, [2][]string{{"F°"}, {"C°"}}},
	{DimTime, [2][]string{{"h", "min", "s"}, {"h", "min", "s"}}},
	{DimMoment, [2][]string{{"lb·ft", "lb·in"}, {"kg·m"}}},
	{DimMassPerLen, [2][]string{{"lb/in"}, {"kg/cm"}}},
	{DimMassPerArea, [2][]string{{"lb/ft²"}, {"kg/m²"}}},
	{DimPower, [2][]string{{"hp"}, {"kW", "W"}}},
	{DimAccel, [2][]string{{"ft/s²"}, {"m/s²"}}},
	{DimLength4, [2][]string{{"in⁴"}, {"cm⁴"}}},
}

type shownUnit struct {
	Symbol       string
	Factor, Zero float64
}

// familyIndex resolves the symbols of families when a value is first shown.
var familyIndex = sync.OnceValue(func() map[Dimension][2][]shownUnit {
	m := make(map[Dimension][2][]shownUnit, len(families))
	for _, f := range families {
		var z [2][]shownUnit
		for i, names := range f.units {
			for _, n := range names {
				w := InUnit(n)
				z[i] = append(z[i], shownUnit{n, w.Factor, w.Zero})
			}
		}
		m[f.d] = z
	}
	return m
})

// Trade is the wish to be shown in the unit of a literal, when that is one of those in
// which the trade counts and no family shows: 5 bd ft, 3 qt. Nil for others.
func (l *Literal) Trade() *Display {
	u := l.Unit
	if u == nil || u.D != DimVolume {
		return nil
	}
	for _, list := range familyIndex()[DimVolume] {
		for _, f := range list {
			if f.Symbol == u.Symbol {
				return nil
			}
		}
	}
	return &Display{Unit: u.Symbol, Factor: u.Factor, D: u.D, System: u.System}
}

func (s Style) family(d Dimension, v float64) *shownUnit {
	pair, ok := familyIndex()[d]
	if !ok {
		return nil
	}
	list := pair[0]
	if s.System == Metric {
		list = pair[1]
	}
	for i := range list {
		if math.Abs(v) >= 0.5*list[i].Factor || v == 0 {
			return &list[i]
		}
	}
	return &list[len(list)-1]
}

// product writes the unit of a dimension that has no name of its own.
func (s Style) product(d Dimension) (string, float64) {
	type base struct {
		half   int8
		symbol string
		factor float64
	}
	e := d.Exponents()
	length, mass := base{e.Length, "ft", foot}, base{e.Mass, "lb", pound}
	if s.System == Metric {
		length, mass = base{e.Length, "m", 1}, base{e.Mass, "kg", 1}
	}
	if e.Money != 0 && s.System != Metric && e.Length == -6 && e.Mass == 0 {
		length = base{-2, "bd ft", 144 * inch * inch * inch}
	}
	bases := []base{{e.Money, d.CurrencyCode(), 1}, mass, length, {e.Time, "h", 3600}, {e.Temperature, "C°", 1}, {e.Angle, "rad", 1}}
	if e.Money == 0 {
		bases[3] = base{e.Time, "s", 1}
	}
	above, below := "", ""
	factor := 1.0
	for _, b := range bases {
		if b.half == 0 {
			continue
		}
		p := float64(b.half) / 2
		factor *= math.Pow(b.factor, p)
		part := b.symbol
		if a := math.Abs(p); a != 1 {
			if a == math.Trunc(a) {
				part += superscript(int(a))
			} else {
				part += "^" + formatNumber(a, 3)
			}
		}
		if p > 0 {
			if above != "" {
				above += "·"
			}
			above += part
		} else {
			below += "/" + part
		}
	}
	if above == "" {
		above = "1"
	}
	return above + below, factor
}
