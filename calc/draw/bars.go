package draw

import (
	"math"

	"scarph/calc"
)

// bars are small differences of lengths along the boat, drawn up and down from a
// level line and written out.
type bars struct {
	names  []string
	at     []float64
	values []float64 // NaN for none
	spread []float64 // ±, or nil
	bold   int       // the one that is picked out, −1 for none
	hollow func(i int) bool
	// cut is how far hollow ones are drawn: past it their length would hide the others; 0 draws all.
	cut    float64
	saying func(i int) string
	x      Range
}

// reach is the range of the differences, at least a tenth of a millimetre.
func (b *bars) reach() Range {
	var ends []float64
	for i, v := range b.values {
		if b.isCut(i) {
			v = math.Copysign(b.cut, v)
		}
		u := 0.0
		if i < len(b.spread) && b.spread[i] <= farthest {
			u = b.spread[i]
		}
		ends = append(ends, v-u, v+u)
	}
	r := Range{}
	for _, v := range ends {
		if math.Abs(v) <= farthest {
			r.Low, r.High = math.Min(r.Low, v), math.Max(r.High, v)
		}
	}
	if r.High-r.Low < 1e-4 { // all nought: fair to the last digit
		return Range{r.Low - 0.5e-4, r.High + 0.5e-4}
	}
	return r
}

// isCut reports whether a bar is not drawn to its end.
func (b *bars) isCut(i int) bool {
	return b.cut > 0 && b.hollow != nil && b.hollow(i) && math.Abs(b.values[i]) > b.cut
}

func (b *bars) scene(s calc.Style) Scene {
	var c Scene
	r := b.reach()
	c.Line(Plain, Point{X: b.x.Low}, Point{X: b.x.High})
	n := len(b.values)
	for i, v := range b.values {
		x := at(b.at, i)
		c.Label(Label{At: Point{X: x, Y: r.Low}, Text: nameAt(b.names, i), Side: Below, Held: true, Gap: 26, Rank: rankOf(i, n)})
		if math.IsNaN(v) {
			continue
		}
		if b.isCut(i) {
			b.broken(&c, s, i)
			continue
		}
		p := Point{X: x, Y: v}
		mark := Mark{At: p, Shape: Dot, Bold: i == b.bold, Saying: nameAt(b.names, i)}
		if b.hollow != nil && b.hollow(i) {
			mark.Shape = Ring
		}
		if b.saying != nil {
			mark.Saying += ": " + b.saying(i)
		}
		if i < len(b.spread) {
			mark.SpanY = b.spread[i]
		}
		pen := Plain
		rank := 1 + rankOf(i, n)
		if mark.Bold {
			pen, rank = Heavy, 0
		}
		c.Line(pen, Point{X: x}, p)
		c.Mark(mark)
		label := Label{At: Point{X: x, Y: v + mark.SpanY}, Text: small(s, v), Side: Above, Bold: mark.Bold, Clean: !mark.Bold, Rank: rank}
		if v < 0 {
			label.At.Y, label.Side = v-mark.SpanY, Below
		}
		c.Label(label)
	}
	return c
}

// broken draws a bar that is cut, dotted, with an arrow before its figure.
func (b *bars) broken(c *Scene, s calc.Style, i int) {
	v := b.values[i]
	end := Point{X: at(b.at, i), Y: math.Copysign(b.cut, v)}
	c.Line(Dotted, Point{X: end.X}, end)
	l := Label{At: end, Text: "↑ " + small(s, v), Side: Above, Rank: 1 + rankOf(i, len(b.values))}
	if v < 0 {
		l.Text, l.Side = "↓ "+small(s, v), Below
	}
	c.Label(l)
}
