package draw

import (
	"math"

	"scarph/calc"
)

// Part is a sketch of one part with its sizes: the face, and under it the edge.
type Part struct {
	Name                 string
	Thick, Width, Length float64 // the length along the lower edge of the face
	// Ends are the cuts of the left and the right end, from square; plus leans out
	// over the end at the upper edge.
	Ends [2]float64
}

// broader is the share of its length under which a part is drawn broader than it is.
const broader = 0.1

func (d *Part) good() bool {
	for _, v := range [3]float64{d.Thick, d.Width, d.Length} {
		if !(v > 0) || v > farthest {
			return false
		}
	}
	return math.Abs(d.Ends[0]) < 1.4 && math.Abs(d.Ends[1]) < 1.4
}

func (d *Part) face() []Point {
	return []Point{{}, {X: d.Length}, {X: d.Length + d.Width*math.Tan(d.Ends[1]), Y: d.Width}, {X: -d.Width * math.Tan(d.Ends[0]), Y: d.Width}}
}

// Sheet implements Kind.
func (d *Part) Sheet(s calc.Style) Sheet {
	sheet := Sheet{Title: d.title()}
	if !d.good() {
		return sheet
	}
	var face, side Scene
	face.Ring(Heavy, d.face()...)
	face.Size(Size{From: Point{}, To: Point{X: d.Length}, Off: -16, Text: length(s, d.Length)})
	left := math.Min(0, -d.Width*math.Tan(d.Ends[0]))
	face.Size(Size{From: Point{X: left}, To: Point{X: left, Y: d.Width}, Off: 14, Text: length(s, d.Width)})
	for i, a := range d.Ends {
		if a != 0 {
			p, q := d.face()[i], d.face()[3-i]
			l := Label{At: Point{X: (p.X + q.X) / 2, Y: d.Width / 2}, Text: angle(s, math.Abs(a)), Side: [2]Side{Right, Left}[i]}
			face.Label(l)
		}
	}
	side.Ring(Heavy, box(Point{}, Point{X: d.Length, Y: d.Thick})...)
	side.Size(Size{From: Point{}, To: Point{Y: d.Thick}, Off: 14, Text: length(s, d.Thick)})
	x := Range{left, math.Max(d.Length, d.face()[2].X)}
	f, e := Panel{Head: "Face", Scene: face, X: x}, Panel{Head: "Edge", Scene: side, X: x}
	if d.Width < broader*d.Length {
		f.Tall = 44
		sheet.Notes = append(sheet.Notes, "Drawn broader than it is: the sizes count.")
	}
	if f.Tall > 0 || d.Thick < broader*d.Length {
		e.Tall = 16
	}
	sheet.Panels = []Panel{f, e}
	if d.Ends != [2]float64{} {
		sheet.Notes = append(sheet.Notes, "End cuts are counted from square.")
	}
	return sheet
}

// Outline implements Flat: the face.
func (d *Part) Outline(s calc.Style) Scene {
	var c Scene
	if !d.good() {
		return c
	}
	c.Ring(Heavy, d.face()...)
	text := length(s, d.Length) + " by " + length(s, d.Width) + " by " + length(s, d.Thick)
	if d.Name != "" {
		text = d.Name + ", " + text
	}
	c.Label(Label{At: Point{X: d.Length / 2, Y: d.Width / 2}, Text: text, Side: Over, Bold: true})
	return c
}

func (d *Part) title() string {
	if d.Name == "" {
		return "Part"
	}
	return capital(d.Name)
}

// SVG implements calc.Drawing.
func (d *Part) SVG(s calc.Style) string { return svgOf(d, s) }

// Describe implements calc.Drawing.
func (d *Part) Describe(s calc.Style) string {
	t := d.title() + ", " + exact(s, d.Thick) + " by " + exact(s, d.Width) + " by " + exact(s, d.Length)
	if d.Ends != [2]float64{} {
		t += ", ends cut at " + angle(s, d.Ends[0]) + " and " + angle(s, d.Ends[1]) + " from square"
	}
	return sentence(t)
}
