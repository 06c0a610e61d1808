package draw

import (
	"math"

	"scarph/calc"
)

// Stem is the side of a stem with the three lines of its rabbet, cut for a square
// plank end: rabbet line, middle line and bearding line.
type Stem struct {
	Rabbet []Point   // aft and up, from the heel to the head
	Angles []float64 // between plank and the stem's side, at each point
	Plank  float64
}

// triplet is the rabbet at one point of the stem.
type triplet struct {
	rabbet, middle, bearding Point
	angle                    float64
	width, inner, depth      float64 // to the bearding line, to the middle line, into the wood
}

// triplets lays the widths off square to the rabbet line, on its after side.
// Source: geometry; as the function stem_rabbet.
func (d *Stem) triplets() []triplet {
	var out []triplet
	for i, p := range d.Rabbet {
		a := at(d.Angles, i)
		if !finite(p) || !(a > 0.01) || !(a < math.Pi-0.01) {
			continue
		}
		n := d.aft(i)
		t := triplet{rabbet: p, angle: a, width: d.Plank / math.Sin(a), inner: d.Plank * math.Sin(a), depth: d.Plank * math.Cos(a)}
		t.middle = Point{X: p.X + n.X*t.inner, Y: p.Y + n.Y*t.inner}
		t.bearding = Point{X: p.X + n.X*t.width, Y: p.Y + n.Y*t.width}
		out = append(out, t)
	}
	return out
}

// aft returns the direction square to the rabbet line at point i, on the after side:
// of the line through the points before and after it.
func (d *Stem) aft(i int) Point {
	a, b := d.Rabbet[max(0, i-1)], d.Rabbet[min(len(d.Rabbet)-1, i+1)]
	v := b.Sub(a)
	l := math.Hypot(v.X, v.Y)
	if !(l > 0) || math.IsInf(l, 0) {
		return Point{X: 1}
	}
	n := Point{X: v.Y / l, Y: -v.X / l}
	if n.X < 0 {
		n = Point{X: -n.X, Y: -n.Y}
	}
	return n
}

func (d *Stem) scene() Scene {
	var c Scene
	ts := d.triplets()
	var rabbet, middle, bearding []Point
	for _, t := range ts {
		rabbet, middle, bearding = append(rabbet, t.rabbet), append(middle, t.middle), append(bearding, t.bearding)
		c.Line(Fine, t.rabbet, t.bearding)
	}
	c.Line(Heavy, Bend(rabbet)...)
	c.Line(Dashed, Bend(middle)...)
	c.Line(Plain, Bend(bearding)...)
	return c
}

// Sheet implements Kind.
func (d *Stem) Sheet(s calc.Style) Sheet {
	c := d.scene()
	ts := d.triplets()
	table := [][]string{{"up", "angle", "width", "middle", "depth"}}
	for i, t := range ts {
		c.Label(Label{At: t.rabbet, Text: length(s, t.rabbet.Y), Side: Left, Held: true, Rank: rankOf(i, len(ts))})
		table = append(table, []string{length(s, t.rabbet.Y), angle(s, t.angle), length(s, t.width), length(s, t.inner), length(s, t.depth)})
	}
	sheet := Sheet{Title: "Stem and rabbet", Panels: []Panel{{Scene: c}},
		Keys:  []Key{{Line: true, Pen: Heavy, Text: "rabbet line"}, {Line: true, Pen: Dashed, Text: "middle line"}, {Line: true, Pen: Plain, Text: "bearding line"}},
		Notes: []string{"Width and middle are laid off on the stem's side from the rabbet line, depth square into the wood at the middle line. Leave the rabbet strong and fair it with a batten."}}
	if len(ts) > 0 && len(ts) <= 40 {
		sheet.Table = table
	}
	return sheet
}

// Outline implements Flat.
func (d *Stem) Outline(s calc.Style) Scene {
	c := d.scene()
	for _, t := range d.triplets() {
		c.Label(Label{At: t.rabbet, Text: exact(s, t.rabbet.Y) + " up", Side: Left, Bold: true})
		c.Label(Label{At: t.bearding, Text: angle(s, t.angle) + ", depth " + exact(s, t.depth), Side: Right, Rank: 1})
	}
	return c
}

// SVG implements calc.Drawing.
func (d *Stem) SVG(s calc.Style) string { return svgOf(d, s) }

// Describe implements calc.Drawing.
func (d *Stem) Describe(s calc.Style) string {
	ts := d.triplets()
	if len(ts) == 0 {
		return "Stem without a rabbet."
	}
	wide, narrow := ts[0], ts[0]
	for _, t := range ts {
		if t.width > wide.width {
			wide = t
		}
		if t.width < narrow.width {
			narrow = t
		}
	}
	return sentence("stem with the rabbet for a plank of " + length(s, d.Plank) + " at " + count(len(ts), "height", "heights") +
		": from " + length(s, narrow.width) + " wide where the plank meets the side at " + angle(s, narrow.angle) +
		" to " + length(s, wide.width) + " at " + angle(s, wide.angle))
}
