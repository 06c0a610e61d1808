package paper

import (
	"math"
	"strconv"

	"scarph/calc"
	"scarph/calc/draw"
)

// keyRows is how many rows of maps a key page holds.
const keyRows = 3

// keyPlace is where a map stands on the key pages.
type keyPlace struct {
	page, row, column int
	across            bool // it takes both columns
}

// keyPlaces puts the maps in rows of two; one with many cells side by side takes a row
// to itself.
func keyPlaces(patterns []*pattern) (places []keyPlace, pages int) {
	row, column := 0, 0
	for _, t := range patterns {
		across := t.grid.columns > 8
		if across && column > 0 {
			row, column = row+1, 0
		}
		places = append(places, keyPlace{row / keyRows, row % keyRows, column, across})
		if column++; across || column == 2 {
			row, column = row+1, 0
		}
	}
	return places, places[len(places)-1].page + 1
}

// keyPaper is the paper of the key pages: the sheet itself, or A4 beside a roll.
func keyPaper(p Page) Page {
	if p.Roll {
		return pages()[0]
	}
	return p
}

// key draws the key pages: a small map of each shape with its cells, and where they are.
func (d *document) key(patterns []*pattern, o Options, of int) {
	p := keyPaper(o.page())
	const gap = 8.0
	full := p.Width - 2*margin - upright
	half := (full - gap) / 2
	tall := (p.Height - 2*margin - footer - 12) / keyRows
	places, pages := keyPlaces(patterns)
	first := pages + 1
	if len(warnings(patterns)) > 0 {
		first++ // the sheet of cautions
	}
	for i, t := range patterns {
		k := places[i]
		if i == 0 || k.page != places[i-1].page {
			d.page(p.Width, p.Height)
			d.say(margin, margin+6, "Key", 16, bold, 0)
			d.say(margin+16, margin+6, "which cell is on which sheet", 10, regular, 0)
			d.foot(p, o, "Key to the patterns", "sheet "+strconv.Itoa(k.page+1)+" of "+strconv.Itoa(of), "The maps are small; the bars are true.")
		}
		wide := half
		if k.across {
			wide = full
		}
		d.keyMap(t, o, margin+float64(k.column)*(half+gap), margin+12+float64(k.row)*tall, wide, tall-8, first)
		first += t.grid.sheets()
	}
}

// keyMap draws one map with its words in a box.
func (d *document) keyMap(t *pattern, o Options, x, y, wide, tall float64, first int) {
	sheets := "sheet " + strconv.Itoa(first)
	if n := t.grid.sheets(); n > 1 {
		sheets = "sheets " + strconv.Itoa(first) + " to " + strconv.Itoa(first+n-1)
	}
	if n := t.grid.perSheet; n > 1 {
		sheets += ", " + strconv.Itoa(n) + " cells on each"
	}
	d.say(x, y+4.5, t.name, 11, bold, wide)
	d.say(x, y+9.5, t.size(o)+", "+sheets, 9, regular, wide)
	y, tall = y+12, tall-14
	scale := math.Min(wide/t.width, tall/t.height)
	for _, s := range t.strokes {
		if s.Pen != draw.Heavy && s.Pen != draw.Plain || s.Radius > 0 {
			continue
		}
		small := s
		small.Fill = draw.Empty
		small.Points = make([]draw.Point, len(s.Points))
		for i, q := range s.Points {
			small.Points[i] = draw.Point{X: x + q.X*scale, Y: y + q.Y*scale}
		}
		d.stroke(small)
	}
	d.pen(draw.Fine)
	for _, c := range t.grid.cells {
		d.Rect(x+c.x0*scale, y+c.y0*scale, (c.x1-c.x0)*scale, (c.y1-c.y0)*scale, "D")
		if len(t.grid.cells) > 1 {
			d.keyName(c.name(), x+(c.x0+c.x1)/2*scale, y+(c.y0+c.y1)/2*scale, (c.x1-c.x0)*scale, (c.y1-c.y0)*scale)
		}
	}
}

// keyName sets the name of a cell in the middle of its place on a map, as large as that
// allows; a place too small for letters goes without.
func (d *document) keyName(name string, x, y, wide, tall float64) {
	const smallest = 4 // points; what cannot be read is no name
	for size := 9.0; size >= smallest; size -= 0.5 {
		high := size * 0.353 * 0.75
		if w := d.width(name, size, regular); w < wide-0.6 && high < tall-0.4 {
			d.say(x-w/2, y+high/2, name, size, regular, 0)
			return
		}
	}
}

// size says how large the shape is over all: its outline, or all its lines when none
// of them is heavy, without the words round it.
func (t *pattern) size(o Options) string {
	outlined := false
	for _, s := range t.strokes {
		outlined = outlined || s.Pen == draw.Heavy
	}
	x0, y0, x1, y1 := math.Inf(1), math.Inf(1), math.Inf(-1), math.Inf(-1)
	for _, s := range t.strokes {
		if s.Radius > 0 || outlined && s.Pen != draw.Heavy {
			continue
		}
		for _, q := range s.Points {
			x0, y0, x1, y1 = math.Min(x0, q.X), math.Min(y0, q.Y), math.Max(x1, q.X), math.Max(y1, q.Y)
		}
	}
	return o.Style.Text(calc.Length((x1-x0)/1000)) + " by " + o.Style.Text(calc.Length((y1-y0)/1000))
}
