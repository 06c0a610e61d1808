package paper

import (
	"math"
	"strconv"

	"scarph/calc"
	"scarph/calc/draw"
)

// keysPerPage is how many maps a key page holds.
const keysPerPage = 6

func keyPages(patterns int) int { return (patterns + keysPerPage - 1) / keysPerPage }

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
	wide := (p.Width - 2*margin - upright - 8) / 2
	tall := (p.Height - 2*margin - footer - 12) / (keysPerPage / 2)
	first := keyPages(len(patterns)) + 1
	for i, t := range patterns {
		k := i % keysPerPage
		if k == 0 {
			d.page(p.Width, p.Height)
			number := i/keysPerPage + 1
			d.say(margin, margin+6, "Key", 16, bold, 0)
			d.say(margin+16, margin+6, "which cell is on which sheet", 10, regular, 0)
			d.foot(p, o, "Key to the patterns", "sheet "+strconv.Itoa(number)+" of "+strconv.Itoa(of))
		}
		x, y := margin+float64(k%2)*(wide+8), margin+12+float64(k/2)*tall
		d.keyMap(t, o, x, y, wide, tall-8, first)
		first += t.grid.sheets()
	}
}

// keyMap draws one map with its words in a box.
func (d *document) keyMap(t *pattern, o Options, x, y, wide, tall float64, first int) {
	sheets := "sheet " + strconv.Itoa(first)
	if n := t.grid.sheets(); n > 1 {
		sheets = "sheets " + strconv.Itoa(first) + " to " + strconv.Itoa(first+n-1)
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
	for i, c := range t.grid.cells {
		d.Rect(x+c.x0*scale, y+c.y0*scale, (c.x1-c.x0)*scale, (c.y1-c.y0)*scale, "D")
		if len(t.grid.cells) == 1 {
			break
		}
		label := c.name()
		if t.grid.perSheet > 1 {
			label += ", " + strconv.Itoa(first+i/t.grid.perSheet)
		}
		size := 9.0
		room := (c.x1-c.x0)*scale - 1
		cx, cy := x+(c.x0+c.x1)/2*scale, y+(c.y0+c.y1)/2*scale
		w := math.Min(room, d.width(label, size, regular))
		d.say(cx-w/2, cy+1.2, label, size, regular, room)
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
