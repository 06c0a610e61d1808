package paper

import (
	"io"
	"strconv"

	"scarph/calc"
	"scarph/calc/draw"
)

// Tile writes flat shapes at true size as a PDF: a key page, then the sheets of each
// shape. Shapes larger than the paper are cut into cells that overlap by 12 mm and
// carry the same crossing marks; a narrow strip is cut into lengths that lie under
// one another on a sheet.
//
// Errors: *calc.Error when there is nothing to print, when a shape is empty, or when
// it would take more than 400 sheets; what w returns.
func Tile(w io.Writer, flats []Named, o Options) error {
	if len(flats) == 0 {
		return calc.Errorf(calc.CodeShape, "there is nothing flat to print").WithHint("panel_drawing, mould_drawing, tick_strip and their like can be printed")
	}
	var patterns []*pattern
	total := 0
	for _, n := range flats {
		p, err := newPattern(n, o)
		if err != nil {
			return err
		}
		patterns = append(patterns, p)
		total += p.grid.sheets()
	}
	if total > mostSheets {
		return calc.Errorf(calc.CodeLimit, "this would take %d sheets; %d at most are printed at a time", total, mostSheets).WithHint("name the parts to print, or take a roll")
	}
	d := newDocument(o)
	_, keys := keyPlaces(patterns)
	warned := warnings(patterns)
	if len(warned) > 0 {
		total++
	}
	d.key(patterns, o, keys+total)
	sheet := keys
	if len(warned) > 0 {
		sheet++
		d.warn(warned, o, sheet, keys+total)
	}
	for _, p := range patterns {
		for i := 0; i < len(p.grid.cells); i += p.grid.perSheet {
			sheet++
			d.sheet(p, p.grid.cells[i:min(i+p.grid.perSheet, len(p.grid.cells))], o, sheet, keys+total)
		}
	}
	return d.write(w)
}

// sheet draws one sheet of a pattern.
func (d *document) sheet(p *pattern, cells []cell, o Options, number, of int) {
	g := p.grid
	d.page(g.page.Width, g.page.Height)
	y := margin
	names := ""
	for _, c := range cells {
		d.cell(p, c, margin, y)
		y += c.y1 - c.y0 + air
		names += " " + c.name()
	}
	how := "True size. Lay sheet on sheet until the crosses meet."
	if len(g.cells) == 1 {
		names, how = " whole", "True size, in one piece."
	}
	if len(p.cautions) > 0 {
		how += " Read the cautions first."
	}
	d.foot(g.page, o, p.name, "sheet "+strconv.Itoa(number)+" of "+strconv.Itoa(of)+":"+names, how)
}

// cell draws the part of a pattern that lies in a cell, with the cell's corner at x, y.
func (d *document) cell(p *pattern, c cell, x, y float64) {
	if len(p.grid.cells) > 1 {
		d.cellName(c.name(), x+(c.x1-c.x0)/2, y+(c.y1-c.y0)/2, c.y1-c.y0)
	}
	d.ClipRect(x, y, c.x1-c.x0, c.y1-c.y0, false)
	shift := func(q draw.Point) draw.Point { return draw.Point{X: q.X - c.x0 + x, Y: q.Y - c.y0 + y} }
	for _, s := range p.strokes {
		if !s.Meets(c.x0, c.y0, c.x1, c.y1) {
			continue
		}
		moved := s
		moved.Points = make([]draw.Point, len(s.Points))
		for i, q := range s.Points {
			moved.Points[i] = shift(q)
		}
		d.stroke(moved)
	}
	for _, l := range p.letters {
		l.At = shift(l.At)
		d.letter(l)
	}
	for _, j := range p.grid.joins(c) {
		d.crossing(j.x-c.x0+x, j.y-c.y0+y, j.cells, x+c.x1-c.x0)
	}
	d.ClipEnd()
	d.pen(draw.Fine)
	d.SetDashPattern([]float64{1, 1.5}, 0)
	d.Rect(x, y, c.x1-c.x0, c.y1-c.y0, "D")
}

// cellName sets the name of a cell large and pale in its middle, under the lines, so
// that it hides none.
func (d *document) cellName(name string, x, y, tall float64) {
	size := min(60, tall*1.6)
	d.SetTextColor(205, 205, 205)
	d.say(x-d.width(name, size, bold)/2, y+size*0.353*0.36, name, size, bold, 0)
	d.SetTextColor(0, 0, 0)
}

// crossing draws a crossing mark: two sheets are in place when both of theirs meet. Its
// words stand at its left where the right edge of the cell would cut them.
func (d *document) crossing(x, y float64, cells string, edge float64) {
	d.pen(draw.Fine)
	d.line(x-4, y, x+4, y)
	d.line(x, y-4, x, y+4)
	d.Circle(x, y, 2, "D")
	at := x + 0.8
	if w := d.width(cells, 6, regular); at+w > edge-0.5 {
		at = x - 0.8 - w
	}
	d.say(at, y-2.6, cells, 6, regular, 0)
}

// foot draws what every sheet carries: the bars, the warning, what it is, which issue,
// and how to use it.
func (d *document) foot(p Page, o Options, name, sheet, how string) {
	y := p.Height - margin - footer
	d.say(margin, y+7, "Measure this before you cut.", 11, bold, 0)
	d.bar(margin, y+15, 100, "100 mm")
	d.bar(margin, y+25, 101.6, "4 in")
	d.uprightBar(p.Width-margin-upright+6, p.Height-margin-footer-2, 100, "100 mm")
	x := margin + 101.6 + 6
	room := p.Width - margin - x
	d.say(x, y+7, name, 12, bold, room)
	d.say(x, y+13.5, sheet, 10, regular, room)
	d.say(x, y+19.5, o.issue(), 10, regular, room)
	d.say(x, y+25.5, how, 9, regular, room)
}

// bar draws a level test bar of a true length.
func (d *document) bar(x, y, length float64, text string) {
	d.pen(draw.Plain)
	d.line(x, y, x+length, y)
	for i := 0; i <= 10; i++ {
		if text == "4 in" && i > 4 {
			break
		}
		at, h := x+length*float64(i)/10, 1.5
		if text == "4 in" {
			at = x + length*float64(i)/4
		}
		if i == 0 || at > x+length-0.01 {
			h = 3
		}
		d.line(at, y-h, at, y)
	}
	d.say(x+length/2-d.width(text, 9, bold)/2, y+3.8, text, 9, bold, 0)
}

// uprightBar draws a test bar from its foot at x, y upwards.
func (d *document) uprightBar(x, y, length float64, text string) {
	d.pen(draw.Plain)
	d.line(x, y, x, y-length)
	for i := 0; i <= 10; i++ {
		h := 1.5
		if i%10 == 0 {
			h = 3
		}
		d.line(x-h, y-length*float64(i)/10, x, y-length*float64(i)/10)
	}
	d.TransformBegin()
	d.TransformRotate(90, x+2.6, y-length/2)
	d.say(x+2.6-d.width(text, 8, bold)/2, y-length/2, text, 8, bold, 0)
	d.TransformEnd()
}
