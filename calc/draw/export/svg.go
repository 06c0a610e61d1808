package export

import (
	"bufio"
	"io"

	"scarph/calc/draw"
)

// SVG writes a flat shape as an SVG file whose width and height are in the unit, so
// that it opens at true size; one user unit is one unit. Each pen is a group.
//
// Errors: *calc.Error for a shape that is empty or without bounds; what w returns.
// Source: W3C, Scalable Vector Graphics (SVG) 1.1, 7.10 Units.
func SVG(w io.Writer, s draw.Scene, u Unit, title string) error {
	p, e, err := plate(s, u)
	if err != nil {
		return err
	}
	letter := letterMM * 0.001 / u.Size
	x0, y0, x1, y1 := e.x0-letter, e.y0-letter, e.x1+letter, e.y1+letter
	b := bufio.NewWriter(w)
	b.WriteString(`<?xml version="1.0" encoding="UTF-8"?>` + "\n")
	b.WriteString(`<svg xmlns="http://www.w3.org/2000/svg" width="` + format(x1-x0) + u.Name + `" height="` + format(y1-y0) + u.Name +
		`" viewBox="` + format(x0) + " " + format(y0) + " " + format(x1-x0) + " " + format(y1-y0) + `">` + "\n")
	b.WriteString("<title>" + draw.Escape(title) + ", true size, in " + u.Word + "</title>\n")
	hairline := format(0.0001 / u.Size)
	for pen := draw.Fine; pen <= draw.Heavy; pen++ {
		open := false
		for _, s := range p.Strokes {
			if s.Pen != pen {
				continue
			}
			if !open {
				open = true
				b.WriteString(`<g id="` + pen.Word() + `" fill="none" stroke="black" stroke-width="` + hairline + `">` + "\n")
			}
			stroke(b, s)
		}
		if open {
			b.WriteString("</g>\n")
		}
	}
	b.WriteString(`<g id="letters" fill="black" font-family="sans-serif" font-size="` + format(letter) + `">` + "\n")
	for _, l := range p.Letters {
		text(b, l)
	}
	b.WriteString("</g>\n</svg>\n")
	return b.Flush()
}

func stroke(b *bufio.Writer, s draw.Stroke) {
	if s.Radius > 0 {
		b.WriteString(`<circle cx="` + format(s.Points[0].X) + `" cy="` + format(s.Points[0].Y) + `" r="` + format(s.Radius) + `"/>` + "\n")
		return
	}
	tag := "polyline"
	if s.Closed {
		tag = "polygon"
	}
	b.WriteString("<" + tag + ` points="`)
	for i, q := range s.Points {
		if i > 0 {
			b.WriteByte(' ')
		}
		b.WriteString(format(q.X) + "," + format(q.Y))
	}
	b.WriteString(`"/>` + "\n")
}

func text(b *bufio.Writer, l draw.Lettering) {
	x, y := format(l.At.X), format(l.At.Y)
	b.WriteString(`<text x="` + x + `" y="` + y + `"`)
	switch l.Align {
	case draw.Middle:
		b.WriteString(` text-anchor="middle"`)
	case draw.End:
		b.WriteString(` text-anchor="end"`)
	}
	if l.Turned {
		b.WriteString(` transform="rotate(-90 ` + x + " " + y + `)"`)
	}
	b.WriteString(">" + draw.Escape(l.Text) + "</text>\n")
}
