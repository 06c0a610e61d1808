package draw

import (
	"math"

	"scarph/calc"
)

// BevelStrip shows a bevel along its run: at each station the angle, counted from
// square, with a wedge of that angle, and the run of the bevel as it is now against
// what was made.
type BevelStrip struct {
	Stations []string
	At       []float64 // metres, rising
	Bevels   []float64 // radians from square
	Made     []float64 // what the saw was set to at each station, or nil
	// Thick is the depth of the bevelled edge; with it and Made the strip says what is
	// still to plane off and what is short, the deep edge left full. 0 for unknown.
	Thick float64
}

// Sheet implements Kind.
func (d *BevelStrip) Sheet(s calc.Style) Sheet {
	x := d.along()
	sheet := Sheet{Title: "Bevel strip", Panels: []Panel{d.wedges(s, x), d.run(s, x)}}
	if len(d.Made) > 0 {
		sheet.Keys = []Key{{Line: true, Pen: Heavy, Text: "wanted now"}, {Line: true, Pen: Dashed, Text: "made"}}
	}
	if p, ok := d.left(s, x); ok {
		sheet.Panels = append(sheet.Panels, p)
	}
	sheet.Notes = []string{"Bevels are counted from square."}
	if d.Thick > 0 && len(d.Made) > 0 {
		sheet.Notes[0] += " What is to plane off or short is across an edge " + length(s, d.Thick) + " deep, its deep corner left full."
	}
	return sheet
}

func (d *BevelStrip) along() Range {
	o := Offsets{At: d.At}
	a, b := o.along()
	return Range{a, b}
}

// wedges draws each angle true, and writes it over the wedge both ways.
func (d *BevelStrip) wedges(s calc.Style, x Range) Panel {
	var c Scene
	n := len(d.Bevels)
	for i, a := range d.Bevels {
		p := Point{X: at(d.At, i), Y: 0}
		c.Wedges = append(c.Wedges, Wedge{At: p, Angle: a, Tall: 26})
		text := angle(s, a)
		if t := inTwelve(s, a); t != "" && s.Angle != calc.RisePerFoot {
			text += " · " + t
		}
		c.Label(Label{At: p, Text: text, Side: Above, Turned: true, Held: true, Gap: 32, Rank: rankOf(i, n)})
	}
	return Panel{Scene: c, Tall: 1, X: x}
}

// run draws the bevel along the boat, degrees up.
func (d *BevelStrip) run(s calc.Style, x Range) Panel {
	var c Scene
	values := append(append([]float64(nil), d.Bevels...), d.Made...)
	r := tight(values, math.Pi/180)
	c.axis(steps(r.Low, r.High, math.Pi/180, 4), func(v float64) string { return angle(s, v) }, x.Low, x.High)
	n := len(d.Stations)
	for i, name := range d.Stations {
		c.Line(Fine, Point{X: at(d.At, i), Y: r.Low}, Point{X: at(d.At, i), Y: r.High})
		c.Label(Label{At: Point{X: at(d.At, i), Y: r.Low}, Text: name, Side: Below, Held: true, Rank: rankOf(i, n)})
	}
	draw := func(pen Pen, list []float64) []Point {
		var points []Point
		for i, a := range list {
			if p := (Point{X: at(d.At, i), Y: a}); finite(p) {
				points = append(points, p)
			}
		}
		c.Line(pen, points...)
		return points
	}
	draw(Dashed, d.Made)
	for i, p := range draw(Heavy, d.Bevels) {
		c.Mark(Mark{At: p, Shape: Dot, Saying: nameAt(d.Stations, i) + ": " + angle(s, p.Y)})
	}
	return Panel{Scene: c, Tall: 110, X: x, Y: r}
}

// left writes under each station what is still to plane off, or short.
func (d *BevelStrip) left(s calc.Style, x Range) (Panel, bool) {
	if !(d.Thick > 0) || len(d.Made) == 0 {
		return Panel{}, false
	}
	var c Scene
	n := len(d.Bevels)
	for i := range d.Bevels {
		gap := d.Gap(i)
		p := Point{X: at(d.At, i), Y: 0}
		text := "right"
		bold := false
		switch {
		case math.IsNaN(gap):
			continue
		case gap > 0.05e-3:
			text = "plane off " + thirtyseconds(s, gap)
		case gap < -0.05e-3:
			text, bold = "short by "+thirtyseconds(s, -gap), true
		}
		c.Label(Label{At: p, Text: text, Bold: bold, Side: Below, Turned: true, Held: true, Gap: 1, Rank: rankOf(i, n)})
	}
	return Panel{Scene: c, Tall: 1, X: x}, true
}

// Gap returns the wood still to plane off at a station (plus), or already cut away
// (minus), reckoned with the deep edge left full; NaN when it is not known.
func (d *BevelStrip) Gap(i int) float64 {
	return d.Thick * (math.Tan(at(d.Bevels, i)) - math.Tan(at(d.Made, i)))
}

// thirtyseconds writes a shaving: to a thirty-second of an inch, or a tenth of a millimetre.
func thirtyseconds(s calc.Style, v float64) string {
	if s.System != calc.Metric {
		if n := math.Round(v / 0.0254 * 32); n >= 1 {
			return calc.FormatFeetInches(n*0.0254/32, 0.0254/32)
		}
	}
	return small(s, v)
}

// stripEnd is the paper past the first and the last station, metres, for what stands there.
const stripEnd = 0.025

// Outline implements Flat: a strip of paper with the stations at their true places. At
// each the upright tick is square to the edge, and the line beside it leans by the
// bevel, to set the gauge to.
func (d *BevelStrip) Outline(s calc.Style) Scene {
	var c Scene
	o := Offsets{At: d.At}
	first, last := o.along()
	n := len(d.Bevels)
	for i, a := range d.Bevels {
		x := at(d.At, i)
		if !finite(Point{X: x, Y: a}) || math.Abs(a) > 80*math.Pi/180 {
			continue
		}
		foot := Point{X: x}
		c.Line(Fine, foot, Point{X: x, Y: stripTall})
		c.Line(Heavy, foot, Point{X: x + stripTall*math.Tan(a), Y: stripTall})
		side := Left // the words keep clear of the leaning line
		if a < 0 {
			side = Right
		}
		rank := rankOf(i, n)
		c.Label(Label{At: Point{X: x, Y: 0.8 * stripTall}, Text: nameAt(d.Stations, i), Side: side, Bold: true, Rank: rank})
		c.Label(Label{At: Point{X: x, Y: 0.5 * stripTall}, Text: angle(s, a), Side: side, Rank: rank})
		if t := inTwelve(s, a); t != "" && s.Angle != calc.RisePerFoot {
			c.Label(Label{At: Point{X: x, Y: 0.2 * stripTall}, Text: t, Side: side, Rank: rank + 1})
		}
	}
	if len(c.Paths) == 0 {
		return c
	}
	c.Ring(Plain, box(Point{X: first - stripEnd}, Point{X: last + stripEnd, Y: stripTall})...)
	return c
}

// tight is the range of the numbers with some air, zero not forced into it, and at
// least one unit long.
func tight(values []float64, unit float64) Range {
	low, high := math.Inf(1), math.Inf(-1)
	for _, v := range values {
		if math.Abs(v) <= farthest {
			low, high = math.Min(low, v), math.Max(high, v)
		}
	}
	if low > high {
		return Range{0, unit}
	}
	air := math.Max(0.08*(high-low), unit/2)
	return Range{low - air, high + air}
}

func nameAt(names []string, i int) string {
	if i >= 0 && i < len(names) {
		return names[i]
	}
	return number(float64(i + 1))
}

// SVG implements calc.Drawing.
func (d *BevelStrip) SVG(s calc.Style) string { return svgOf(d, s) }

// Describe implements calc.Drawing.
func (d *BevelStrip) Describe(s calc.Style) string {
	least, most := -1, -1
	for i, a := range d.Bevels {
		if math.IsNaN(a) {
			continue
		}
		if least < 0 || a < d.Bevels[least] {
			least = i
		}
		if most < 0 || a > d.Bevels[most] {
			most = i
		}
	}
	if least < 0 {
		return "Bevel strip without bevels."
	}
	t := "bevel strip of " + count(len(d.Bevels), "station", "stations") + ": from " + angle(s, d.Bevels[least]) + " at " + nameAt(d.Stations, least) +
		" to " + angle(s, d.Bevels[most]) + " at " + nameAt(d.Stations, most) + ", from square"
	var short []string
	for i := range d.Bevels {
		if d.Gap(i) < -0.05e-3 {
			short = append(short, nameAt(d.Stations, i))
		}
	}
	if len(short) > 0 {
		t += "; cut short at " + and(short)
	}
	return sentence(t)
}
