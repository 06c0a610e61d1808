package draw

import (
	"math"

	"scarph/calc"
	"scarph/calc/curve"
)

// Transom is a flat raked transom in its true shape, half-breadth and distance up
// the face, seen from aft with port on the left.
type Transom struct {
	Half []Point // from the bottom up
	// Bevels are of the edges, from square: one for each piece of the outline, one
	// for each point, or one for all; plus when the forward face is the larger.
	Bevels []float64
}

// Sheet implements Kind.
func (d *Transom) Sheet(s calc.Style) Sheet {
	c := d.scene()
	half := clean(d.Half)
	if len(half) > 1 {
		low, high := curve.Bounds(half)
		top, bottom := half[len(half)-1], half[0]
		c.Size(Size{From: Point{X: -high.X, Y: low.Y}, To: Point{X: -high.X, Y: high.Y}, Off: 18, Text: length(s, high.Y-low.Y)})
		if top.X > 0 {
			c.Size(Size{From: Point{X: -top.X, Y: top.Y}, To: top, Off: 20, Text: length(s, 2*top.X)})
		}
		if bottom.X > 0 {
			c.Size(Size{From: Point{X: -bottom.X, Y: bottom.Y}, To: bottom, Off: -20, Text: length(s, 2*bottom.X)})
		}
	}
	d.bevels(&c, s)
	sheet := Sheet{Title: "Transom, true shape", Panels: []Panel{{Head: "Seen from aft, port on the left", Scene: c}}}
	if len(d.Bevels) > 0 {
		sheet.Notes = []string{"Edge bevels from square: " + d.larger() + "."}
	}
	return sheet
}

func (d *Transom) scene() Scene {
	var c Scene
	half := clean(d.Half)
	if len(half) == 0 {
		return c
	}
	low, high := curve.Bounds(half)
	c.Line(Chain, Point{Y: low.Y}, Point{Y: high.Y})
	c.Ring(Heavy, clean(append(mirrored(half), half...))...)
	return c
}

// bevels writes the bevel of each edge beside it, on both sides of the boat.
func (d *Transom) bevels(c *Scene, s calc.Style) {
	half := clean(d.Half)
	for i := 0; i < len(half); i++ {
		var p Point
		var a float64
		switch {
		case len(d.Bevels) == len(half):
			p, a = half[i], d.Bevels[i]
		case i == 0 || len(d.Bevels) == 0:
			continue
		default:
			p, a = Point{X: (half[i-1].X + half[i].X) / 2, Y: (half[i-1].Y + half[i].Y) / 2}, at(d.Bevels, min(i, len(d.Bevels))-1)
		}
		if math.IsNaN(a) {
			continue
		}
		c.Label(Label{At: p, Text: angle(s, a), Side: Right})
		c.Label(Label{At: Point{X: -p.X, Y: p.Y}, Text: angle(s, a), Side: Left})
	}
}

func (d *Transom) larger() string {
	plus, minus := false, false
	for _, a := range d.Bevels {
		plus, minus = plus || a > 0, minus || a < 0
	}
	switch {
	case plus && minus:
		return "plus where the forward face is the larger, minus where the after face is"
	case minus:
		return "the after face is the larger"
	case plus:
		return "the forward face is the larger"
	}
	return "both faces are alike"
}

// Outline implements Flat.
func (d *Transom) Outline(s calc.Style) Scene {
	c := d.scene()
	d.bevels(&c, s)
	for _, p := range clean(d.Half) {
		c.Label(Label{At: p, Text: exact(s, p.X) + " out, " + exact(s, p.Y) + " up", Side: Left, Rank: 1})
	}
	if low, high, ok := c.Bounds(); ok {
		mid := (low.Y + high.Y) / 2
		c.Label(Label{At: Point{X: low.X / 2, Y: mid}, Text: "port, seen from aft", Side: Over, Bold: true, Rank: 2})
		c.Label(Label{At: Point{X: high.X / 2, Y: mid}, Text: "starboard", Side: Over, Bold: true, Rank: 2})
	}
	return c
}

// SVG implements calc.Drawing.
func (d *Transom) SVG(s calc.Style) string { return svgOf(d, s) }

// Describe implements calc.Drawing.
func (d *Transom) Describe(s calc.Style) string {
	half := clean(d.Half)
	if len(half) == 0 {
		return "Transom without points."
	}
	low, high := curve.Bounds(half)
	t := "transom in its true shape, " + length(s, 2*high.X) + " wide and " + length(s, high.Y-low.Y) + " up the face"
	if len(d.Bevels) > 0 {
		t += "; " + d.larger()
	}
	return sentence(t)
}
