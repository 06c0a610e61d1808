package draw

import (
	"scarph/calc"
	"scarph/calc/curve"
)

// ExpandedPanel is a panel laid flat: its two edges station by station, the first
// edge's ends on the datum.
type ExpandedPanel struct {
	Name         string
	Stations     []string
	Edge1, Edge2 []Point
}

// ring returns the outline, both edges bent with a batten.
func (d *ExpandedPanel) ring() []Point {
	ring := Bend(d.Edge1)
	back := Bend(d.Edge2)
	for i := len(back) - 1; i >= 0; i-- {
		ring = append(ring, back[i])
	}
	return ring
}

func (d *ExpandedPanel) scene() Scene {
	var c Scene
	if len(d.Edge1) == 0 || len(d.Edge2) == 0 {
		return c
	}
	c.Line(Chain, d.Edge1[0], d.Edge1[len(d.Edge1)-1])
	for i := range d.Edge1 {
		if i < len(d.Edge2) {
			c.Line(Fine, d.Edge1[i], d.Edge2[i])
		}
	}
	c.Ring(Heavy, d.ring()...)
	return c
}

// overAll returns the corners of the smallest upright rectangle round the panel.
func (d *ExpandedPanel) overAll() (low, high Point) { return curve.Bounds(clean(d.ring())) }

// Sheet implements Kind.
func (d *ExpandedPanel) Sheet(s calc.Style) Sheet {
	c := d.scene()
	low, high := d.overAll()
	n := len(d.Edge1)
	for i, p := range d.Edge1 {
		c.Label(Label{At: p, Text: nameAt(d.Stations, i), Side: Below, Held: true, Rank: rankOf(i, n)})
	}
	if n > 0 {
		c.Size(Size{From: low, To: Point{X: high.X, Y: low.Y}, Off: -44, Clear: 26, Text: length(s, high.X-low.X)})
		c.Size(Size{From: low, To: Point{X: low.X, Y: high.Y}, Off: 14, Text: length(s, high.Y-low.Y)})
	}
	table := [][]string{{"", "edge 1", "up", "edge 2", "up"}}
	for i, p := range d.Edge1 {
		row := []string{nameAt(d.Stations, i), length(s, p.X), length(s, p.Y)}
		if i < len(d.Edge2) {
			row = append(row, length(s, d.Edge2[i].X), length(s, d.Edge2[i].Y))
		}
		table = append(table, row)
	}
	sheet := Sheet{Title: d.title(), Panels: []Panel{{Scene: c}}}
	if n > 0 && n <= 40 {
		sheet.Table = table
	}
	sheet.Notes = []string{"Along and up from the datum, which joins the ends of edge 1. Thin lines are rulings: the panel is straight along them."}
	return sheet
}

// Outline implements Flat.
func (d *ExpandedPanel) Outline(s calc.Style) Scene {
	c := d.scene()
	for i, p := range d.Edge1 {
		c.Label(Label{At: p, Text: nameAt(d.Stations, i), Side: Below, Bold: true})
		c.Label(Label{At: p, Text: exact(s, p.X) + ", " + exact(s, p.Y), Side: Above, Rank: 1})
		if i < len(d.Edge2) {
			q := d.Edge2[i]
			c.Label(Label{At: q, Text: exact(s, q.X) + ", " + exact(s, q.Y), Side: Below, Rank: 1})
		}
	}
	return c
}

func (d *ExpandedPanel) title() string {
	if d.Name == "" {
		return "Panel, laid flat"
	}
	return capital(d.Name) + ", laid flat"
}

// SVG implements calc.Drawing.
func (d *ExpandedPanel) SVG(s calc.Style) string { return svgOf(d, s) }

// Describe implements calc.Drawing.
func (d *ExpandedPanel) Describe(s calc.Style) string {
	if len(d.Edge1) == 0 {
		return "Panel without points."
	}
	low, high := d.overAll()
	return sentence(d.title() + ": " + length(s, high.X-low.X) + " by " + length(s, high.Y-low.Y) + " over all, " +
		count(len(d.Edge1), "ruling", "rulings"))
}
