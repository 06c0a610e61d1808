package draw

import (
	"math"

	"scarph/calc"
	"scarph/calc/curve"
)

// Frame is a frame or a mould at one station: the line that the planking lies on,
// from the keel up, with its bevels and the face that stands on the station line.
type Frame struct {
	Name string
	// Section is half-breadth and height of each corner, from the keel up, with the
	// planking already taken off.
	Section []Point
	// Moulded is the breadth of a frame's stock, measured in from the line; 0 draws a
	// mould, which is whole and solid.
	Moulded float64
	// Bevels are one for each corner, or nil; from square.
	Bevels []float64
	// Face is the face on the station line: "forward" or "after", or "" when it is not said.
	Face string
	Bent bool
}

func (d *Frame) outer() []Point {
	if d.Bent {
		return Bend(d.Section)
	}
	return clean(d.Section)
}

func (d *Frame) scene() Scene {
	var c Scene
	outer := d.outer()
	if len(outer) == 0 {
		return c
	}
	low, high := curve.Bounds(outer)
	if d.Moulded > 0 {
		inner := inset(outer, d.Moulded)
		ring := append([]Point(nil), outer...)
		for i := len(inner) - 1; i >= 0; i-- {
			ring = append(ring, inner[i])
		}
		c.Ring(Heavy, ring...)
		return c
	}
	c.Line(Chain, Point{Y: low.Y - 0.04*(high.Y-low.Y)}, Point{Y: high.Y + 0.06*(high.Y-low.Y)})
	c.Ring(Heavy, clean(append(mirrored(outer), outer...))...)
	return c
}

// inset returns the line a distance inside a section that runs from the keel
// upwards and outwards, its corners mitred.
func inset(line []Point, by float64) []Point {
	n := len(line)
	if n < 2 {
		return nil
	}
	normals := make([]Point, n-1)
	for i := range normals {
		d := line[i+1].Sub(line[i])
		l := math.Hypot(d.X, d.Y)
		normals[i] = Point{X: -d.Y / l, Y: d.X / l} // to the left of the way up: inwards
	}
	out := make([]Point, n)
	for i, p := range line {
		a, b := normals[max(0, i-1)], normals[min(n-2, i)]
		m := Point{X: a.X + b.X, Y: a.Y + b.Y}
		k := m.X*a.X + m.Y*a.Y // 1 + the cosine of the corner's turn
		if k < 0.1 {           // a corner sharper than any frame's: no mitre to a far point
			k = 0.1
		}
		out[i] = Point{X: p.X + by*m.X/k, Y: p.Y + by*m.Y/k}
	}
	return out
}

// Sheet implements Kind.
func (d *Frame) Sheet(s calc.Style) Sheet {
	c := d.scene()
	points := clean(d.Section)
	d.corners(&c, s, true)
	if len(points) > 1 {
		low, high := curve.Bounds(points)
		if d.Moulded > 0 {
			c.Size(Size{From: low, To: Point{X: low.X, Y: high.Y}, Off: 18, Text: length(s, high.Y-low.Y)})
		} else {
			c.Size(Size{From: Point{X: -high.X, Y: low.Y}, To: Point{X: high.X, Y: low.Y}, Off: -22, Text: length(s, 2*high.X)})
			c.Size(Size{From: Point{X: -high.X, Y: low.Y}, To: Point{X: -high.X, Y: high.Y}, Off: 14, Text: length(s, high.Y-low.Y)})
		}
	}
	sheet := Sheet{Title: d.title(), Panels: []Panel{{Scene: c}}, Table: d.table(s), Notes: d.notes()}
	if d.Moulded <= 0 {
		sheet.Panels[0].Head = "Seen from aft, port on the left"
	}
	return sheet
}

// corners numbers the corners, or writes their figures out.
func (d *Frame) corners(c *Scene, s calc.Style, numbered bool) {
	for i, p := range d.Section {
		if !finite(p) {
			continue
		}
		c.Mark(Mark{At: p, Shape: Dot})
		text := number(float64(i + 1))
		if !numbered {
			text = exact(s, p.X) + " out, " + exact(s, p.Y) + " up"
			if a := at(d.Bevels, i); !math.IsNaN(a) {
				text += ", bevel " + angle(s, a)
			}
		}
		c.Label(Label{At: p, Text: text, Side: Right, Bold: numbered})
		if numbered && d.Moulded <= 0 && p.X > 0 {
			c.Label(Label{At: Point{X: -p.X, Y: p.Y}, Text: text, Side: Left, Bold: true, Rank: 1})
		}
	}
}

func (d *Frame) table(s calc.Style) [][]string {
	if len(d.Section) == 0 || len(d.Section) > 40 {
		return nil
	}
	rows := [][]string{{"corner", "out", "up"}}
	if len(d.Bevels) > 0 {
		rows[0] = append(rows[0], "bevel", "")
	}
	for i, p := range d.Section {
		row := []string{number(float64(i + 1)), length(s, p.X), length(s, p.Y)}
		if len(d.Bevels) > 0 {
			a := at(d.Bevels, i)
			row = append(row, angle(s, a), inTwelve(s, a))
		}
		rows = append(rows, row)
	}
	return rows
}

func (d *Frame) notes() []string {
	var notes []string
	if d.Face != "" {
		notes = append(notes, "The "+d.Face+" face stands on the station line.")
	}
	if len(d.Bevels) > 0 {
		notes = append(notes, "Bevels are counted from square.")
	}
	return notes
}

// Outline implements Flat.
func (d *Frame) Outline(s calc.Style) Scene {
	c := d.scene()
	d.corners(&c, s, false)
	low, high, ok := c.Bounds()
	if !ok {
		return c
	}
	up := low.Y + 0.75*(high.Y-low.Y)
	if d.Moulded <= 0 {
		c.Label(Label{At: Point{X: low.X / 2, Y: up}, Text: "P", Side: Over, Bold: true})
		c.Label(Label{At: Point{X: high.X / 2, Y: up}, Text: "S", Side: Over, Bold: true})
	}
	if d.Face != "" {
		c.Label(Label{At: Point{X: (low.X + high.X) / 2, Y: low.Y + 0.3*(high.Y-low.Y)}, Text: d.Face + " face on the line", Side: Over, Rank: 2})
	}
	return c
}

func (d *Frame) title() string {
	word := "Mould"
	if d.Moulded > 0 {
		word = "Frame"
	}
	if d.Name != "" {
		return word + ", " + d.Name
	}
	return word
}

// SVG implements calc.Drawing.
func (d *Frame) SVG(s calc.Style) string { return svgOf(d, s) }

// Describe implements calc.Drawing.
func (d *Frame) Describe(s calc.Style) string {
	points := clean(d.Section)
	if len(points) == 0 {
		return d.title() + " without points."
	}
	low, high := curve.Bounds(points)
	t := d.title() + ", " + length(s, high.X) + " to the side and " + length(s, high.Y-low.Y) + " high, " + count(len(points), "corner", "corners")
	if d.Moulded > 0 {
		t += ", stock " + length(s, d.Moulded) + " broad"
	}
	if d.Face != "" {
		t += "; the " + d.Face + " face stands on the station line"
	}
	return sentence(t)
}
