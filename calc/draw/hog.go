package draw

import (
	"math"

	"scarph/calc"
)

// Hog shows a keel by its distances from a string stretched from end to end:
// against the straight line through its ends it is hogged where it stands higher.
type Hog struct {
	At       []float64 // metres, rising
	Readings []float64 // string to keel, metres
	Spread   []float64 // ±, or nil
}

// worst returns the greatest rise over the chord of the ends (plus is hog), and where.
func (d *Hog) worst() (rise float64, where int) {
	where = -1
	for i := range d.Readings {
		if r := d.rise(i); !math.IsNaN(r) && (where < 0 || math.Abs(r) > math.Abs(rise)) {
			rise, where = r, i
		}
	}
	return rise, where
}

// rise returns how far the keel stands over the chord of its ends at a reading.
func (d *Hog) rise(i int) float64 { return d.chord(i) - at(d.Readings, i) }

func (d *Hog) chord(i int) float64 {
	n := len(d.Readings)
	if n < 2 || len(d.At) != n || !(d.At[n-1] > d.At[0]) {
		return math.NaN()
	}
	t := (d.At[i] - d.At[0]) / (d.At[n-1] - d.At[0])
	return d.Readings[0] + t*(d.Readings[n-1]-d.Readings[0])
}

// Sheet implements Kind.
func (d *Hog) Sheet(s calc.Style) Sheet {
	var c Scene
	o := Offsets{At: d.At}
	first, last := o.along()
	n := len(d.Readings)
	c.Line(Chain, Point{X: first}, Point{X: last})
	var points []Point
	for i, r := range d.Readings {
		p := Point{X: at(d.At, i), Y: -r}
		points = append(points, p)
		m := Mark{At: p, Shape: Dot, SpanY: math.Max(0, at(d.Spread, i)), Saying: "at " + exact(s, p.X) + ": " + exact(s, r) + " under the string"}
		if math.IsNaN(m.SpanY) {
			m.SpanY = 0
		}
		c.Mark(m)
		c.Label(Label{At: Point{X: p.X, Y: 0}, Text: small(s, r), Side: Above, Held: true, Rank: rankOf(i, n)})
		c.Line(Fine, Point{X: p.X}, p)
		c.Label(Label{At: Point{X: p.X, Y: d.floor()}, Text: length(s, p.X), Side: Below, Held: true, Turned: n > 6, Gap: 28, Rank: rankOf(i, n)})
	}
	c.Line(Plain, points...)
	out := Sheet{Title: "Hog", Panels: []Panel{{Head: "Keel under a string, magnified", Scene: c, Tall: 130}}}
	rise, where := d.worst()
	if where < 0 {
		return out
	}
	c.Line(Dashed, points[0], points[n-1])
	if math.Abs(rise) > 1e-9 {
		x := points[where].X
		c.Line(Heavy, Point{X: x, Y: -d.chord(where)}, points[where])
		c.Label(Label{At: Point{X: x, Y: -d.chord(where)}, Text: hogWord(rise) + " " + small(s, math.Abs(rise)), Side: Below, Bold: true})
	}
	out.Panels[0].Scene = c
	out.Keys = []Key{{Line: true, Pen: Chain, Text: "string"}, {Line: true, Pen: Dashed, Text: "straight between the ends"}, {Line: true, Pen: Plain, Text: "keel, as found"}}
	return out
}

// floor is the lowest keel point of the picture.
func (d *Hog) floor() float64 {
	low := 0.0
	for _, r := range d.Readings {
		if -r < low && r <= farthest {
			low = -r
		}
	}
	return low
}

func hogWord(rise float64) string {
	if rise < 0 {
		return "sag"
	}
	return "hog"
}

// SVG implements calc.Drawing.
func (d *Hog) SVG(s calc.Style) string { return svgOf(d, s) }

// Describe implements calc.Drawing.
func (d *Hog) Describe(s calc.Style) string {
	rise, where := d.worst()
	switch {
	case where < 0:
		return "Hog: too few readings."
	case math.Abs(rise) < 1e-9:
		return "The keel is straight between its ends."
	}
	return sentence("keel from " + count(len(d.Readings), "reading", "readings") + ": " + hogWord(rise) + " of " + small(s, math.Abs(rise)) + " at " + exact(s, d.At[where]))
}
