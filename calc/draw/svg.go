package draw

import (
	"math"
	"strconv"
	"strings"
)

// pens gives each pen its class, breadth and dashes, and whether its ends are round.
var pens = [...]struct {
	class string
	width float64
	dash  string
	round bool
}{
	Fine:   {"fine", 0.8, "", false},
	Chain:  {"chain", 0.9, "14 3 3 3", false},
	Dotted: {"dotted", 1.8, "0 4.5", true},
	Dashed: {"dashed", 1.4, "7 4", false},
	Plain:  {"plain", 1.3, "", true},
	Heavy:  {"heavy", 2.4, "", true},
}

// Width returns the breadth of the pen's line in picture units, and its dashes.
func (p Pen) Width() (width float64, dash []float64) {
	for _, d := range strings.Fields(pens[p].dash) {
		v, _ := strconv.ParseFloat(d, 64)
		dash = append(dash, v)
	}
	return pens[p].width, dash
}

// Word is the pen's name, which serves as the class of its lines and as the layer
// of an exchange file.
func (p Pen) Word() string { return pens[p].class }

// SVG writes the plate as an <svg> element with real text and no style attributes.
// Curves are thinned to what the eye can see.
func (p *Plate) SVG(title, description string) string {
	var b strings.Builder
	w, h := num(p.Width), num(p.Height)
	b.WriteString(`<svg xmlns="http://www.w3.org/2000/svg" class="draw" viewBox="0 0 ` + w + " " + h + `" width="` + w + `" height="` + h + `" role="img">`)
	b.WriteString("<title>" + Escape(title) + "</title><desc>" + Escape(description) + "</desc>\n")
	for pen := Fine; pen <= Heavy; pen++ {
		p.strokesSVG(&b, pen)
	}
	if len(p.Letters) > 0 {
		b.WriteString(`<g font-size="` + num(Type) + `" fill="currentColor">` + "\n")
		for _, l := range p.Letters {
			l.svg(&b)
		}
		b.WriteString("</g>\n")
	}
	b.WriteString("</svg>")
	return b.String()
}

func (p *Plate) strokesSVG(b *strings.Builder, pen Pen) {
	open := false
	for _, s := range p.Strokes {
		if s.Pen != pen {
			continue
		}
		if !open {
			open = true
			b.WriteString(`<g class="` + pens[pen].class + `" fill="none" stroke="currentColor" stroke-width="` + num(pens[pen].width) + `"`)
			if d := pens[pen].dash; d != "" {
				b.WriteString(` stroke-dasharray="` + d + `"`)
			}
			if pens[pen].round {
				b.WriteString(` stroke-linecap="round" stroke-linejoin="round"`)
			}
			b.WriteString(">\n")
		}
		s.svg(b)
	}
	if open {
		b.WriteString("</g>\n")
	}
}

func (s Stroke) svg(b *strings.Builder) {
	tag := "path"
	if s.Radius > 0 {
		tag = "circle"
		c := s.Points[0]
		b.WriteString(`<circle cx="` + num(c.X) + `" cy="` + num(c.Y) + `" r="` + num(s.Radius) + `"`)
	} else {
		b.WriteString(`<path d="`)
		for i, q := range thinned(s.Points, 0.05) {
			if i == 0 {
				b.WriteByte('M')
			} else {
				b.WriteByte('L')
			}
			b.WriteString(num(q.X) + " " + num(q.Y))
		}
		if s.Closed {
			b.WriteByte('Z')
		}
		b.WriteByte('"')
	}
	switch s.Fill {
	case Solid:
		b.WriteString(` fill="currentColor"`)
	case Shade:
		b.WriteString(` fill="currentColor" fill-opacity=".14"`)
	}
	if s.Saying == "" {
		b.WriteString("/>\n")
		return
	}
	b.WriteString("><title>" + Escape(s.Saying) + "</title></" + tag + ">\n")
}

var anchors = [...]string{Start: "", Middle: ` text-anchor="middle"`, End: ` text-anchor="end"`}

func (l Lettering) svg(b *strings.Builder) {
	x, y := num(l.At.X), num(l.At.Y)
	b.WriteString(`<text x="` + x + `" y="` + y + `"` + anchors[l.Align])
	if l.Turned {
		b.WriteString(` transform="rotate(-90 ` + x + " " + y + `)"`)
	}
	if l.Bold {
		b.WriteString(` font-weight="700"`)
	}
	b.WriteString(">" + Escape(l.Text) + "</text>\n")
}

// num writes a coordinate to a hundredth of a picture unit.
func num(v float64) string {
	t := strconv.FormatFloat(math.Round(v*100)/100, 'f', -1, 64)
	if t == "-0" {
		return "0"
	}
	return t
}

var escaper = strings.NewReplacer("&", "&amp;", "<", "&lt;", ">", "&gt;", `"`, "&quot;")

// Escape writes a text for SVG; letters that XML cannot hold are left out.
func Escape(text string) string {
	return escaper.Replace(strings.Map(func(r rune) rune {
		if r < 0x20 && r != '\t' && r != '\n' || r == 0xfffd || r == 0xfffe || r == 0xffff {
			return -1
		}
		return r
	}, text))
}
