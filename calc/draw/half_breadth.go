package draw

import "scarph/calc"

// HalfBreadth is one half of the boat seen from above, bow to the left.
type HalfBreadth struct{ Offsets }

// Sheet implements Kind.
func (d *HalfBreadth) Sheet(s calc.Style) Sheet {
	var c Scene
	most, widest := d.widest()
	d.stationLines(&c, 0, most)
	first, last := d.along()
	c.Line(Chain, Point{X: first}, Point{X: last})
	for _, l := range d.Lines {
		d.line(&c, l.Name, l.Half)
	}
	if w := d.waterline(); len(w) > 1 {
		c.Line(Dashed, w...)
		c.Label(Label{At: w[len(w)-1], Text: "water", Side: Right, Sliding: true, Gap: nameGap, Rank: 1})
	}
	d.found(&c, s, func(r Reading) (float64, float64) { return r.Half, r.HalfSpread })
	for _, p := range d.Centres {
		c.Mark(Mark{At: Point{X: p.X}, Shape: Diamond, Saying: p.Name + " " + exact(s, p.X)})
		c.Label(Label{At: Point{X: p.X}, Text: p.Name, Side: Above, Gap: 9, Rank: centreRank})
	}
	if len(d.Stations) > 0 {
		d.length(&c, s, 0)
	}
	if widest >= 0 {
		c.Line(Fine, Point{X: first, Y: most}, Point{X: at(d.At, widest), Y: most})
		c.Size(Size{From: Point{X: first}, To: Point{X: first, Y: most}, Off: 16, Text: length(s, most)})
	}
	return Sheet{Title: "Half-breadth plan", Keys: handKeys(d.Found), Notes: d.centresNote(s), Panels: []Panel{{Head: "Half-breadth, bow to the left", Scene: c}}}
}

// SVG implements calc.Drawing.
func (d *HalfBreadth) SVG(s calc.Style) string { return svgOf(d, s) }

// Describe implements calc.Drawing.
func (d *HalfBreadth) Describe(s calc.Style) string {
	t := "half-breadth plan of " + d.stationsText() + ": " + d.lineNames()
	if most, i := d.widest(); i >= 0 {
		t += "; greatest half-breadth " + length(s, most) + " at " + d.Stations[i]
	}
	if w := d.waterline(); len(w) > 1 {
		t += "; waterline at a draft of " + length(s, d.Draft)
	}
	return sentence(t + d.foundText(s) + d.centresText(s))
}
