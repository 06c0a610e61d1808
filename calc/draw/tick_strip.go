package draw

import (
	"math"

	"scarph/calc"
)

// stripTall is the breadth of a paper strip, metres.
const stripTall = 0.045

// TickStrip is a strip of marks from one zero, as they are pricked off on a batten:
// over the marks the distance from the zero, under them the distance back from the
// last mark.
type TickStrip struct {
	Names []string // one a mark, or nil
	Marks []float64
}

func (d *TickStrip) reach() (first, last float64, n int) {
	first, last = math.Inf(1), math.Inf(-1)
	for _, x := range d.Marks {
		if math.Abs(x) <= farthest {
			first, last, n = math.Min(first, x), math.Max(last, x), n+1
		}
	}
	if n == 0 {
		return 0, 0, 0
	}
	return math.Min(first, 0), last, n
}

func (d *TickStrip) name(i int) string {
	if i < len(d.Names) {
		return d.Names[i]
	}
	return number(float64(i + 1))
}

// Sheet implements Kind.
func (d *TickStrip) Sheet(s calc.Style) Sheet {
	var c Scene
	first, last, n := d.reach()
	if n > 0 {
		c.Bar(Plain, Point{X: first, Y: 0}, Point{X: last, Y: 1})
	}
	for i, x := range d.Marks {
		if !(math.Abs(x) <= farthest) {
			continue
		}
		rank := rankOf(i, len(d.Marks))
		c.Line(Plain, Point{X: x, Y: 0}, Point{X: x, Y: 0.3})
		c.Line(Plain, Point{X: x, Y: 0.7}, Point{X: x, Y: 1})
		c.Label(Label{At: Point{X: x, Y: 1}, Text: length(s, x), Side: Above, Turned: true, Held: true, Rank: rank})
		c.Label(Label{At: Point{X: x, Y: 0}, Text: length(s, last-x), Side: Below, Turned: true, Held: true, Rank: rank})
		c.Label(Label{At: Point{X: x, Y: 0.5}, Text: d.name(i), Side: Over, Rank: rank})
	}
	var notes []string
	if n > 0 {
		notes = []string{"Over the strip: from the zero. Under it: back from the last mark. Lay all marks off in one stretch of the tape."}
	}
	return Sheet{Title: "Tick strip", Panels: []Panel{{Scene: c, Tall: 36}}, Notes: notes}
}

// Outline implements Flat: the strip with its ticks at their true places.
func (d *TickStrip) Outline(s calc.Style) Scene {
	var c Scene
	first, last, n := d.reach()
	if n == 0 {
		return c
	}
	c.Ring(Fine, box(Point{X: first, Y: 0}, Point{X: last, Y: stripTall})...)
	for i, x := range d.Marks {
		if !(math.Abs(x) <= farthest) {
			continue
		}
		c.Line(Plain, Point{X: x, Y: 0}, Point{X: x, Y: 0.012})
		c.Line(Plain, Point{X: x, Y: stripTall}, Point{X: x, Y: stripTall - 0.012})
		rank := rankOf(i, len(d.Marks))
		c.Label(Label{At: Point{X: x, Y: stripTall - 0.012}, Text: exact(s, x), Side: Below, Rank: rank})
		c.Label(Label{At: Point{X: x, Y: 0.012}, Text: "back " + exact(s, last-x), Side: Above, Rank: rank + 1})
		c.Label(Label{At: Point{X: x, Y: stripTall / 2}, Text: d.name(i), Side: Over, Bold: true, Rank: rank})
	}
	return c
}

// SVG implements calc.Drawing.
func (d *TickStrip) SVG(s calc.Style) string { return svgOf(d, s) }

// Describe implements calc.Drawing.
func (d *TickStrip) Describe(s calc.Style) string {
	_, last, n := d.reach()
	if n == 0 {
		return "Tick strip without marks."
	}
	return sentence("tick strip of " + count(n, "mark", "marks") + " from one zero, the last at " + exact(s, last))
}
