package draw

import "math"

// Plate is a laid-out picture, in picture units, x to the right and y down.
type Plate struct {
	Width, Height float64
	Strokes       []Stroke
	Letters       []Lettering
}

// Stroke is a line on the plate: a broken line, or a circle when Radius is more
// than zero and Points holds its centre.
type Stroke struct {
	Points []Point
	Closed bool
	Pen    Pen
	Fill   Fill
	Radius float64
	Saying string
}

// Fill is what is inside a closed stroke.
type Fill uint8

// The fills.
const (
	Empty Fill = iota
	Shade      // a light tone
	Solid      // ink
)

// Align says which part of a text stands at its point.
type Align uint8

// The alignments.
const (
	Start Align = iota
	Middle
	End
)

// Lettering is a text on the plate; At is on its base line. Turned text reads upwards.
type Lettering struct {
	At     Point
	Text   string
	Align  Align
	Turned bool
	Bold   bool
}

// frame is an upright rectangle on the plate.
type frame struct{ x0, y0, x1, y1 float64 }

func (f frame) meets(g frame) bool {
	return f.x0 < g.x1 && g.x0 < f.x1 && f.y0 < g.y1 && g.y0 < f.y1
}

func (f frame) grown(d float64) frame { return frame{f.x0 - d, f.y0 - d, f.x1 + d, f.y1 + d} }

func (f frame) join(g frame) frame {
	return frame{math.Min(f.x0, g.x0), math.Min(f.y0, g.y0), math.Max(f.x1, g.x1), math.Max(f.y1, g.y1)}
}

// crossed reports whether the straight piece from p to q passes through the frame.
func (f frame) crossed(p, q Point) bool {
	t0, t1 := 0.0, 1.0
	for _, side := range [4][2]float64{
		{-(q.X - p.X), p.X - f.x0}, {q.X - p.X, f.x1 - p.X},
		{-(q.Y - p.Y), p.Y - f.y0}, {q.Y - p.Y, f.y1 - p.Y},
	} {
		d, room := side[0], side[1]
		switch {
		case d == 0 && room < 0:
			return false
		case d < 0:
			t0 = math.Max(t0, room/d)
		case d > 0:
			t1 = math.Min(t1, room/d)
		}
		if t0 > t1 {
			return false
		}
	}
	return true
}

const (
	ascent  = 0.78 * Type // of capitals and digits over the base line
	descent = 0.22 * Type
)

// box returns the room that a text takes.
func (l Lettering) box() frame {
	w := textWidth(l.Text, l.Bold)
	from := 0.0
	switch l.Align {
	case Middle:
		from = -w / 2
	case End:
		from = -w
	}
	if l.Turned { // x runs up the plate
		return frame{l.At.X - ascent, l.At.Y - from - w, l.At.X + descent, l.At.Y - from}
	}
	return frame{l.At.X + from, l.At.Y - ascent, l.At.X + from + w, l.At.Y + descent}
}

// move shifts everything on the plate.
func (p *Plate) move(dx, dy float64) {
	for i := range p.Strokes {
		for k := range p.Strokes[i].Points {
			p.Strokes[i].Points[k].X += dx
			p.Strokes[i].Points[k].Y += dy
		}
	}
	for i := range p.Letters {
		p.Letters[i].At.X += dx
		p.Letters[i].At.Y += dy
	}
}

// bounds returns the frame that holds everything on the plate.
func (p *Plate) bounds() (f frame, ok bool) {
	add := func(g frame) {
		if !ok {
			f, ok = g, true
			return
		}
		f = f.join(g)
	}
	for _, s := range p.Strokes {
		for _, q := range s.Points {
			add(frame{q.X, q.Y, q.X, q.Y}.grown(s.Radius))
		}
	}
	for _, l := range p.Letters {
		add(l.box())
	}
	return f, ok
}

// add puts the content of another plate on this one.
func (p *Plate) add(q Plate) {
	p.Strokes = append(p.Strokes, q.Strokes...)
	p.Letters = append(p.Letters, q.Letters...)
}

// Bounds returns the corners of the room that the text takes.
func (l Lettering) Bounds() (x0, y0, x1, y1 float64) {
	f := l.box()
	return f.x0, f.y0, f.x1, f.y1
}

// Meets reports whether any of the stroke lies within a rectangle; a filled stroke
// that holds the whole rectangle inside it does not count.
func (s Stroke) Meets(x0, y0, x1, y1 float64) bool {
	f := frame{x0, y0, x1, y1}
	if s.Radius > 0 {
		c := s.Points[0]
		return f.meets(frame{c.X, c.Y, c.X, c.Y}.grown(s.Radius))
	}
	return strokeCrosses(s, f)
}
