package draw

import (
	"math"

	"scarph/calc"
)

// Profile is the boat seen from the side, bow to the left: the heights of the lines.
type Profile struct{ Offsets }

// Sheet implements Kind.
func (d *Profile) Sheet(s calc.Style) Sheet {
	var c Scene
	low, high := math.Min(0, d.lowest()), d.highest()
	if math.IsNaN(low) {
		low, high = 0, 0
	}
	d.stationLines(&c, low, high)
	first, last := d.along()
	c.Line(Chain, Point{X: first, Y: 0}, Point{X: last, Y: 0})
	for _, l := range d.Lines {
		d.line(&c, l.Name, l.Height)
	}
	d.ends(&c)
	if z, ok := d.water(); ok {
		c.Line(Dashed, Point{X: first, Y: z}, Point{X: last, Y: z})
		c.Label(Label{At: Point{X: last, Y: z}, Text: "water", Side: Right, Sliding: true, Gap: nameGap, Rank: 1})
	}
	d.found(&c, s, func(r Reading) (float64, float64) { return r.Height, r.HeightSpread })
	for _, p := range d.Centres {
		z := p.Height
		if math.IsNaN(z) {
			if z, _ = d.water(); math.IsNaN(z) || d.Draft <= 0 {
				z = 0
			}
		}
		c.Mark(Mark{At: Point{X: p.X, Y: z}, Shape: Diamond, Saying: p.Name + " " + exact(s, p.X)})
		c.Label(Label{At: Point{X: p.X, Y: z}, Text: p.Name, Side: Above, Gap: 9, Rank: centreRank})
	}
	d.length(&c, s, low)
	if top := d.heightAt(0); top > 0 {
		c.Size(Size{From: Point{X: first, Y: 0}, To: Point{X: first, Y: top}, Off: 16, Text: length(s, top)})
	}
	return Sheet{Title: "Profile", Keys: handKeys(d.Found), Notes: d.centresNote(s), Panels: []Panel{{Head: "Profile, bow to the left", Scene: c}}}
}

// line draws one line of the boat with its name at the after end.
func (o *Offsets) line(c *Scene, name string, ys []float64) {
	var points []Point
	for i, y := range ys {
		points = append(points, Point{X: at(o.At, i), Y: y})
	}
	points = Bend(points)
	if len(points) == 0 {
		return
	}
	if len(points) == 1 {
		c.Mark(Mark{At: points[0], Shape: Ring})
	}
	c.Line(Plain, points...)
	c.Label(Label{At: points[len(points)-1], Text: name, Side: Right, Sliding: true, Gap: nameGap})
}

// ends draws stem and stern: upright lines between the lowest and the highest line.
func (d *Profile) ends(c *Scene) {
	for _, i := range [2]int{0, len(d.Stations) - 1} {
		low, high := d.reach(i)
		if low < high {
			c.Line(Plain, Point{X: at(d.At, i), Y: low}, Point{X: at(d.At, i), Y: high})
		}
	}
}

// reach returns the lowest and highest line at a station, NaN when there is none.
func (d *Profile) reach(station int) (low, high float64) {
	low, high = math.NaN(), math.NaN()
	for _, l := range d.Lines {
		z := at(l.Height, station)
		if math.IsNaN(z) {
			continue
		}
		if !(z >= low) {
			low = z
		}
		if !(z <= high) {
			high = z
		}
	}
	return low, high
}

func (d *Profile) heightAt(station int) float64 {
	_, high := d.reach(station)
	return high
}

func (d *Profile) highest() float64 {
	high := math.NaN()
	for i := range d.Stations {
		if z := d.heightAt(i); !(z <= high) && !math.IsNaN(z) {
			high = z
		}
	}
	return high
}

// SVG implements calc.Drawing.
func (d *Profile) SVG(s calc.Style) string { return svgOf(d, s) }

// Describe implements calc.Drawing.
func (d *Profile) Describe(s calc.Style) string {
	a, b := d.along()
	t := "profile of " + d.stationsText() + ", " + length(s, b-a) + " long: " + d.lineNames()
	if z, ok := d.water(); ok {
		t += "; water " + length(s, z) + " over the base line"
	}
	return sentence(t + d.foundText(s) + d.centresText(s))
}

func (o *Offsets) centresText(s calc.Style) string {
	t := ""
	for _, c := range o.Centres {
		t += "; " + c.Name + " at " + exact(s, c.X)
	}
	return t
}

// foundText says how many readings are marked.
func (o *Offsets) foundText(calc.Style) string {
	if len(o.Found) == 0 {
		return ""
	}
	return "; " + count(len(o.Found), "found reading", "found readings") + " marked"
}
