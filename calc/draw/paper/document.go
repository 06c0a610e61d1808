package paper

import (
	"io"
	"time"

	"codeberg.org/go-pdf/fpdf"

	"scarph/calc/draw"
)

// document is a PDF being written, in millimetres with y down.
type document struct {
	*fpdf.Fpdf
}

func newDocument(o Options) *document {
	p := o.page()
	f := fpdf.NewCustom(&fpdf.InitType{UnitStr: "mm", Size: fpdf.SizeType{Wd: p.Width, Ht: max(p.Height, p.Width)}})
	f.SetMargins(0, 0, 0)
	f.SetAutoPageBreak(false, 0)
	f.SetCatalogSort(true)
	day, err := time.Parse(time.DateOnly, o.Date)
	if err != nil { // a date in words is printed, but dates no document
		day = time.Unix(0, 0).UTC()
	}
	f.SetCreationDate(day)
	f.SetModificationDate(day)
	f.SetTitle(o.Title, true)
	letters(f)
	return &document{f}
}

func (d *document) page(width, height float64) {
	d.AddPageFormat("P", fpdf.SizeType{Wd: width, Ht: height})
	d.SetDrawColor(0, 0, 0)
	d.SetTextColor(0, 0, 0)
}

func (d *document) write(w io.Writer) error { return d.Output(w) }

// breadths are the lines of each pen on paper, millimetres: thin enough to cut to.
var breadths = [...]float64{draw.Fine: 0.13, draw.Chain: 0.13, draw.Dotted: 0.3, draw.Dashed: 0.25, draw.Plain: 0.25, draw.Heavy: 0.35}

// pen takes up a pen of the drawings.
func (d *document) pen(p draw.Pen) {
	d.SetLineWidth(breadths[p])
	_, dash := p.Width()
	for i := range dash {
		dash[i] *= unit
	}
	d.SetDashPattern(dash, 0)
	d.SetLineCapStyle("butt")
	if p == draw.Dotted {
		d.SetLineCapStyle("round")
	}
}

// line draws a straight piece.
func (d *document) line(x0, y0, x1, y1 float64) { d.Line(x0, y0, x1, y1) }

// weight is the style of letters.
type weight string

const (
	regular weight = ""
	bold    weight = "B"
)

// say sets a text, made smaller, and in the end cut, to fit the room; at most 0 sets no bound.
func (d *document) say(x, y float64, text string, points float64, w weight, most float64) {
	for points > 6 && most > 0 && d.width(text, points, w) > most {
		points -= 0.5
	}
	for most > 0 && len(text) > 1 && d.width(text, points, w) > most {
		r := []rune(text)
		text = string(r[:len(r)-2]) + "…"
		if len(r) < 3 {
			break
		}
	}
	d.SetFont(face, string(w), points)
	d.Text(x, y, text)
}

func (d *document) width(text string, points float64, w weight) float64 {
	d.SetFont(face, string(w), points)
	return d.GetStringWidth(text)
}

// letter sets a text of a drawing about its point.
func (d *document) letter(l draw.Lettering) {
	w := regular
	if l.Bold {
		w = bold
	}
	size := draw.Type * unit / 25.4 * 72
	back := 0.0
	switch l.Align {
	case draw.Middle:
		back = d.width(l.Text, size, w) / 2
	case draw.End:
		back = d.width(l.Text, size, w)
	}
	d.SetFont(face, string(w), size)
	if l.Turned {
		d.TransformBegin()
		d.TransformRotate(90, l.At.X, l.At.Y)
		d.Text(l.At.X-back, l.At.Y, l.Text)
		d.TransformEnd()
		return
	}
	d.Text(l.At.X-back, l.At.Y, l.Text)
}

// stroke draws a line of a drawing, whose points are in millimetres.
func (d *document) stroke(s draw.Stroke) {
	d.pen(s.Pen)
	style := "D"
	switch s.Fill {
	case draw.Solid:
		d.SetFillColor(0, 0, 0)
		style = "DF"
	case draw.Shade:
		d.SetFillColor(232, 232, 232)
		style = "DF"
	}
	if s.Radius > 0 {
		d.Circle(s.Points[0].X, s.Points[0].Y, s.Radius, style)
		return
	}
	for i, p := range s.Points {
		if i == 0 {
			d.MoveTo(p.X, p.Y)
		} else {
			d.LineTo(p.X, p.Y)
		}
	}
	if s.Closed {
		d.ClosePath()
	}
	d.DrawPath(style)
}
