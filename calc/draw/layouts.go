package draw

import (
	"scarph/calc"
)

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
