package cargo

import (
	"math"
	"strconv"

	"scarph/calc"
)

// value writes a value to the last bit: a quantity with its dimension and ±, or what
// quantities are gathered in. Of a drawing only its place is kept.
func (w *writer) value(x calc.Value) {
	w.object(func() {
		w.text("is", x.Kind().String())
		switch x.Kind() {
		case calc.Quantity, calc.Truth:
			if math.IsNaN(x.V) || math.IsInf(x.V, 0) {
				w.text("odd", strconv.FormatFloat(x.V, 'g', -1, 64))
			} else {
				w.number("v", x.V)
			}
			if d := x.D.Exponents(); !x.D.IsNumber() {
				w.numbers("d", float64(d.Length), float64(d.Mass), float64(d.Time), float64(d.Temperature), float64(d.Angle), float64(d.Money), float64(d.Point), float64(d.Currency))
			}
			var terms []float64
			for _, t := range x.Terms() {
				terms = append(terms, float64(t.Source), t.S)
			}
			if terms != nil {
				w.numbers("terms", terms...)
			}
		case calc.Text:
			w.text("text", x.Text())
		case calc.List, calc.Record:
			if x.Labels() != nil {
				w.texts("labels", x.Labels())
			}
			w.member("items", func() {
				w.array(len(x.Items()), func(i int) { w.value(x.Items()[i]) })
			})
		}
	})
}

func valueOf(x any) calc.Value {
	m, _ := x.(map[string]any)
	switch text(m["is"]) {
	case calc.Text.String():
		return calc.Str(text(m["text"]))
	case calc.Truth.String():
		return calc.Bool(number(m["v"]) != 0)
	case calc.Missing.String():
		return calc.NoValue()
	case calc.List.String(), calc.Record.String():
		list, _ := m["items"].([]any)
		items := make([]calc.Value, len(list))
		for i, it := range list {
			items[i] = valueOf(it)
		}
		labels := texts(m["labels"])
		if text(m["is"]) == calc.List.String() {
			return calc.Labelled(labels, items)
		}
		fields := make([]calc.Field, min(len(items), len(labels)))
		for i := range fields {
			fields[i] = calc.Field{Name: labels[i], Value: items[i]}
		}
		return calc.Fields(fields...)
	case calc.Picture.String():
		return calc.Drawn(nil)
	}
	v := number(m["v"])
	if odd := text(m["odd"]); odd != "" {
		v, _ = strconv.ParseFloat(odd, 64)
	}
	z := calc.Of(v, 0)
	if d, _ := m["d"].([]any); len(d) == 8 {
		at := func(i int) int8 { return int8(number(d[i])) }
		z.D = calc.Exponents{Length: at(0), Mass: at(1), Time: at(2), Temperature: at(3), Angle: at(4), Money: at(5), Point: at(6), Currency: uint8(number(d[7]))}.Dimension()
	}
	terms, _ := m["terms"].([]any)
	var list []calc.Term
	for i := 0; i+1 < len(terms); i += 2 {
		list = append(list, calc.Term{Source: int32(number(terms[i])), S: number(terms[i+1])})
	}
	if list != nil {
		z = calc.WithTerms(z, list)
	}
	return z
}
