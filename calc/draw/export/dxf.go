package export

import (
	"bufio"
	"io"
	"strconv"
	"strings"

	"scarph/calc/draw"
)

// DXF writes a flat shape as an exchange file of release 12, in ASCII: polylines and
// texts, each pen on a layer of its own (heavy is the line to cut).
//
// Errors: *calc.Error for a shape that is empty or without bounds; what w returns.
// Source: DXF Reference, release 12: group codes of HEADER, TABLES, POLYLINE, VERTEX,
// SEQEND, CIRCLE and TEXT (from memory; read back by another reader and by the tests).
func DXF(w io.Writer, s draw.Scene, u Unit) error {
	p, _, err := plate(s, u)
	if err != nil {
		return err
	}
	d := &dxf{w: bufio.NewWriter(w)}
	d.pair(999, "true size, in "+u.Word)
	d.head(p)
	d.tables()
	d.pair(0, "SECTION")
	d.pair(2, "ENTITIES")
	for _, s := range p.Strokes {
		d.stroke(s)
	}
	for _, l := range p.Letters {
		d.letter(l, letterMM*0.001/u.Size)
	}
	d.pair(0, "ENDSEC")
	d.pair(0, "EOF")
	return d.w.Flush() // which remembers the first error
}

type dxf struct{ w *bufio.Writer }

// pair writes a group: its code and its value, each on a line.
func (d *dxf) pair(code int, value string) {
	d.w.WriteString(strconv.Itoa(code) + "\r\n" + value + "\r\n")
}

func (d *dxf) point(code int, x, y float64) {
	d.pair(code, format(x))
	d.pair(code+10, format(y))
	d.pair(code+20, "0")
}

func (d *dxf) head(p draw.Plate) {
	d.pair(0, "SECTION")
	d.pair(2, "HEADER")
	d.pair(9, "$ACADVER")
	d.pair(1, "AC1009")
	x0, y0, x1, y1 := 0.0, 0.0, 0.0, 0.0
	for i, s := range p.Strokes {
		for k, q := range s.Points {
			if i == 0 && k == 0 {
				x0, y0, x1, y1 = q.X, -q.Y, q.X, -q.Y
			}
			x0, y0, x1, y1 = min(x0, q.X), min(y0, -q.Y), max(x1, q.X), max(y1, -q.Y)
		}
	}
	d.pair(9, "$EXTMIN")
	d.point(10, x0, y0)
	d.pair(9, "$EXTMAX")
	d.point(10, x1, y1)
	d.pair(0, "ENDSEC")
}

const lettersLayer = "LETTERS"

func layer(p draw.Pen) string { return strings.ToUpper(p.Word()) }

// tables declares the one line type and the layers.
func (d *dxf) tables() {
	d.pair(0, "SECTION")
	d.pair(2, "TABLES")
	d.pair(0, "TABLE")
	d.pair(2, "LTYPE")
	d.pair(70, "1")
	d.pair(0, "LTYPE")
	d.pair(2, "CONTINUOUS")
	d.pair(70, "0")
	d.pair(3, "Solid line")
	d.pair(72, "65")
	d.pair(73, "0")
	d.pair(40, "0")
	d.pair(0, "ENDTAB")
	layers := []string{"0"}
	for p := draw.Fine; p <= draw.Heavy; p++ {
		layers = append(layers, layer(p))
	}
	layers = append(layers, lettersLayer)
	d.pair(0, "TABLE")
	d.pair(2, "LAYER")
	d.pair(70, strconv.Itoa(len(layers)))
	for _, name := range layers {
		d.pair(0, "LAYER")
		d.pair(2, name)
		d.pair(70, "0")
		d.pair(62, "7") // white on black, black on white
		d.pair(6, "CONTINUOUS")
	}
	d.pair(0, "ENDTAB")
	d.pair(0, "ENDSEC")
}

func (d *dxf) stroke(s draw.Stroke) {
	if s.Radius > 0 {
		d.pair(0, "CIRCLE")
		d.pair(8, layer(s.Pen))
		d.point(10, s.Points[0].X, -s.Points[0].Y)
		d.pair(40, format(s.Radius))
		return
	}
	d.pair(0, "POLYLINE")
	d.pair(8, layer(s.Pen))
	d.pair(66, "1") // vertices follow
	d.point(10, 0, 0)
	closed := "0"
	if s.Closed {
		closed = "1"
	}
	d.pair(70, closed)
	for _, q := range s.Points {
		d.pair(0, "VERTEX")
		d.pair(8, layer(s.Pen))
		d.point(10, q.X, -q.Y)
	}
	d.pair(0, "SEQEND")
	d.pair(8, layer(s.Pen))
}

func (d *dxf) letter(l draw.Lettering, height float64) {
	d.pair(0, "TEXT")
	d.pair(8, lettersLayer)
	d.point(10, l.At.X, -l.At.Y)
	d.pair(40, format(height))
	d.pair(1, plain(l.Text))
	if l.Turned {
		d.pair(50, "90")
	}
	if l.Align != draw.Start { // then the second point is the one that counts
		d.pair(72, map[draw.Align]string{draw.Middle: "1", draw.End: "2"}[l.Align])
		d.point(11, l.At.X, -l.At.Y)
	}
}

// plain writes a text in the letters that every reader of the format has: signs of the
// trade by its own codes, others by a question mark.
func plain(text string) string {
	var b strings.Builder
	for _, r := range text {
		switch {
		case r == '°':
			b.WriteString("%%d")
		case r == '±':
			b.WriteString("%%p")
		case r == '−', r == '–', r == '—':
			b.WriteByte('-')
		case r == '·':
			b.WriteByte(',')
		case r == '’', r == '′':
			b.WriteByte('\'')
		case r == '″':
			b.WriteByte('"')
		case r >= 0x20 && r < 0x7f:
			b.WriteRune(r)
		default:
			b.WriteByte('?')
		}
	}
	return b.String()
}
