package draw

import "math"

// keys writes what marks and lines mean, in rows under the picture, and returns
// where the next thing begins.
func (p *Plate) keys(keys []Key, y float64) float64 {
	if len(keys) == 0 {
		return y
	}
	x := edge
	base := y + ascent
	for _, k := range keys {
		w := 28 + textWidth(k.Text, false)
		if x > edge && x+w > p.Width-edge {
			x, base = edge, base+nextLine+2
		}
		p.sample(k, Point{X: x + 10, Y: base - (ascent-descent)/2})
		p.Letters = append(p.Letters, Lettering{At: Point{X: x + 24, Y: base}, Text: k.Text})
		x += w + 12
	}
	return base + descent + between/2
}

// sample draws the mark or line of a key about a point.
func (p *Plate) sample(k Key, c Point) {
	if k.Line {
		p.Strokes = append(p.Strokes, Stroke{Points: []Point{{X: c.X - 10, Y: c.Y}, {X: c.X + 9, Y: c.Y}}, Pen: k.Pen})
		return
	}
	s := Scene{Marks: []Mark{{Shape: k.Shape, Bold: k.Pen == Heavy}}}
	p.add(s.put(mapping{to: c, sx: 1, sy: 1}))
}

// table writes rows of figures, each column as broad as its widest cell; the first
// column stands to the left, the others to the right.
func (p *Plate) table(rows [][]string, y float64) float64 {
	if len(rows) == 0 {
		return y
	}
	columns := 0
	for _, r := range rows {
		columns = max(columns, len(r))
	}
	widths := make([]float64, columns)
	total := 0.0
	for c := range widths {
		for i, r := range rows {
			if c < len(r) {
				widths[c] = math.Max(widths[c], textWidth(r[c], i == 0))
			}
		}
		total += widths[c]
	}
	gap := 14.0
	if columns > 1 { // spread over the width, but not so far that the eye loses the row
		gap = math.Max(gap, math.Min(40, (p.Width-2*edge-total)/float64(columns-1)))
	}
	for i, r := range rows {
		x := edge
		base := y + ascent
		for c, cell := range r {
			l := Lettering{At: Point{X: x, Y: base}, Text: cell, Bold: i == 0}
			if c > 0 {
				l.At.X, l.Align = x+widths[c], End
			}
			p.Letters = append(p.Letters, l)
			x += widths[c] + gap
		}
		y += nextLine + 4
		rule := base + descent + 2
		p.Strokes = append(p.Strokes, Stroke{Points: []Point{{X: edge, Y: rule}, {X: x - gap, Y: rule}}, Pen: Fine})
	}
	return y + between/2
}

// notes writes remarks, broken to the width.
func (p *Plate) notes(notes []string, y float64) float64 {
	for _, n := range notes {
		for _, line := range wrapped(n, p.Width-2*edge) {
			p.Letters = append(p.Letters, Lettering{At: Point{X: edge, Y: y + ascent}, Text: line})
			y += nextLine + 2
		}
		y += 3
	}
	return y
}
