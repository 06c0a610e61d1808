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

// Piece is a rectangle on a sheet, its lower left corner at X, Y.
type Piece struct {
	Name         string
	Sheet        int // from 0
	X, Y         float64
	Long, Across float64
}

// SheetLayout is how panels come out of sheets, the length along the grain.
type SheetLayout struct {
	Long, Across float64
	Pieces       []Piece
}

func (d *SheetLayout) sheets() int {
	n := 0
	for _, p := range d.Pieces {
		n = max(n, p.Sheet+1)
	}
	return n
}

// mostSheets bounds a picture: further sheets are counted in words.
const mostSheets = 12

// Sheet implements Kind.
func (d *SheetLayout) Sheet(s calc.Style) Sheet {
	out := Sheet{Title: "Sheet layout"}
	n := d.sheets()
	for k := 0; k < min(n, mostSheets); k++ {
		var c Scene
		c.Ring(Plain, box(Point{}, Point{X: d.Long, Y: d.Across})...)
		for _, p := range d.Pieces {
			if p.Sheet != k {
				continue
			}
			c.Bar(Heavy, Point{X: p.X, Y: p.Y}, Point{X: p.X + p.Long, Y: p.Y + p.Across})
			mid := Point{X: p.X + p.Long/2, Y: p.Y + p.Across/2}
			c.Label(Label{At: mid, Text: p.Name, Side: Over, Bold: true})
			c.Label(Label{At: mid, Text: length(s, p.Long) + " by " + length(s, p.Across), Side: Below, Gap: 11, Held: true, Rank: 1})
		}
		if k == 0 {
			c.Size(Size{From: Point{Y: d.Across}, To: Point{X: d.Long, Y: d.Across}, Off: 12, Text: length(s, d.Long)})
			c.Size(Size{From: Point{}, To: Point{Y: d.Across}, Off: 12, Text: length(s, d.Across)})
		}
		out.Panels = append(out.Panels, Panel{Head: "Sheet " + number(float64(k+1)), Scene: c, X: Range{0, d.Long}, Y: Range{0, d.Across}})
	}
	if n > mostSheets {
		out.Notes = []string{number(float64(n-mostSheets)) + " more sheets are not drawn."}
	}
	return out
}

// SVG implements calc.Drawing.
func (d *SheetLayout) SVG(s calc.Style) string { return svgOf(d, s) }

// Describe implements calc.Drawing.
func (d *SheetLayout) Describe(s calc.Style) string {
	return sentence(count(len(d.Pieces), "panel", "panels") + " on " + count(d.sheets(), "sheet", "sheets") + " of " + length(s, d.Long) + " by " + length(s, d.Across))
}

// BoardLayout is how pieces come out of sticks of one length.
type BoardLayout struct {
	Stock, Kerf float64
	Sticks      [][]float64
}

// mostSticks bounds a picture.
const mostSticks = 40

// Sheet implements Kind.
func (d *BoardLayout) Sheet(s calc.Style) Sheet {
	var c Scene
	n := min(len(d.Sticks), mostSticks)
	for k := 0; k < n; k++ {
		y := float64(n - k)
		c.Ring(Plain, box(Point{Y: y}, Point{X: d.Stock, Y: y + 0.7})...)
		c.Label(Label{At: Point{Y: y + 0.35}, Text: number(float64(k + 1)), Side: Left, Held: true})
		x := 0.0
		for _, l := range d.Sticks[k] {
			c.Bar(Heavy, Point{X: x, Y: y}, Point{X: x + l, Y: y + 0.7})
			c.Label(Label{At: Point{X: x + l/2, Y: y + 0.35}, Text: length(s, l), Side: Over})
			x += l + d.Kerf
		}
		if left := d.Stock - x + d.Kerf; left > 0.5e-3 && left < d.Stock { // the last cut may be the end itself
			c.Label(Label{At: Point{X: d.Stock, Y: y + 0.35}, Text: length(s, left) + " left", Side: Right, Held: true})
		}
	}
	out := Sheet{Title: "Board layout", Panels: []Panel{{Scene: c, Tall: 30 * float64(max(n, 1))}}}
	if len(d.Sticks) > n {
		out.Notes = []string{number(float64(len(d.Sticks)-n)) + " more sticks are not drawn."}
	}
	return out
}

// SVG implements calc.Drawing.
func (d *BoardLayout) SVG(s calc.Style) string { return svgOf(d, s) }

// Describe implements calc.Drawing.
func (d *BoardLayout) Describe(s calc.Style) string {
	n := 0
	for _, st := range d.Sticks {
		n += len(st)
	}
	return sentence(count(n, "piece", "pieces") + " from " + count(len(d.Sticks), "stick", "sticks") + " of " + length(s, d.Stock))
}
