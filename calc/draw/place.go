package draw

import (
	"math"
	"sort"
)

const (
	radius = 3.6 // of a mark
	// boldRadius is that of a mark that is picked out.
	boldRadius = 1.4 * radius
	tick       = 4.0  // half the end tick of a dimension line
	nextLine   = 15.0 // from one line of text to the next
)

// placer puts a scene on a plate and remembers what is taken.
type placer struct {
	plate Plate
	taken []frame // by texts and marks
	m     mapping
}

// put lays the scene out: lines, wedges, dimension lines and marks first, then each
// label where there is room for it.
func (s *Scene) put(m mapping) Plate {
	p := &placer{m: m}
	for _, path := range s.Paths {
		p.path(path)
	}
	for _, w := range s.Wedges {
		p.wedge(w)
	}
	for _, k := range s.Marks {
		p.mark(k)
	}
	for _, z := range s.Sizes {
		p.size(z)
	}
	for _, side := range [...]Side{Right, Left} {
		p.column(s.Labels, side)
	}
	var order []int
	for i, l := range s.Labels {
		if !l.Sliding {
			order = append(order, i)
		}
	}
	sort.SliceStable(order, func(a, b int) bool { return s.Labels[order[a]].Rank < s.Labels[order[b]].Rank })
	for _, i := range order {
		p.label(s.Labels[i])
	}
	return p.plate
}

func (p *placer) stroke(s Stroke) { p.plate.Strokes = append(p.plate.Strokes, s) }

func (p *placer) path(path Path) {
	var points []Point
	for _, q := range path.Points {
		if finite(q) {
			points = append(points, p.m.at(q))
		}
	}
	if len(points) < 2 {
		return
	}
	s := Stroke{Points: points, Closed: path.Closed, Pen: path.Pen}
	if path.Shaded {
		s.Fill = Shade
	}
	p.stroke(s)
}

func (p *placer) wedge(w Wedge) {
	if !finite(w.At) || !(math.Abs(w.Angle) < math.Pi/2) {
		return
	}
	a := p.m.at(w.At)
	lean := w.Tall * math.Tan(w.Angle)
	if most := 3 * w.Tall; math.Abs(lean) > most { // too flat to draw whole
		lean = math.Copysign(most, lean)
	}
	top := Point{X: a.X, Y: a.Y - w.Tall}
	p.stroke(Stroke{Points: []Point{a, top, {X: a.X + lean, Y: top.Y}}, Closed: true, Pen: Plain, Fill: Shade})
}

func (p *placer) mark(k Mark) {
	if !finite(k.At) {
		return
	}
	c := p.m.at(k.At)
	p.span(k, c)
	r := radius
	pen := Plain
	if k.Bold {
		r, pen = boldRadius, Heavy
	}
	s := Stroke{Pen: pen, Closed: true, Saying: k.Saying}
	at := func(dx, dy float64) Point { return Point{X: c.X + dx*r, Y: c.Y + dy*r} }
	switch k.Shape {
	case Dot, Ring:
		s.Points, s.Radius = []Point{c}, r
		if k.Shape == Dot {
			s.Fill = Solid
		}
	case Square:
		s.Points = []Point{at(-1, -1), at(1, -1), at(1, 1), at(-1, 1)}
	case Triangle:
		s.Points, s.Fill = []Point{at(0, -1.3), at(1.2, 0.9), at(-1.2, 0.9)}, Solid
	case Diamond:
		s.Points = []Point{at(0, -1.4), at(1.4, 0), at(0, 1.4), at(-1.4, 0)}
	case Cross:
		p.stroke(Stroke{Points: []Point{at(-1, -1), at(1, 1)}, Pen: pen, Saying: k.Saying})
		s.Points, s.Closed = []Point{at(-1, 1), at(1, -1)}, false
	}
	p.stroke(s)
	p.taken = append(p.taken, frame{c.X, c.Y, c.X, c.Y}.grown(r))
}

// span draws the ± of a mark as a bar with end ticks.
func (p *placer) span(k Mark, c Point) {
	for _, d := range [2]Point{{X: math.Abs(k.SpanX * p.m.sx)}, {Y: math.Abs(k.SpanY * p.m.sy)}} {
		l := math.Hypot(d.X, d.Y)
		if !(l > 0.5) || l > 3*Wide { // a ± beyond any picture says nothing
			continue
		}
		t := Point{X: d.Y / l * 3, Y: d.X / l * 3}
		a, b := Point{X: c.X - d.X, Y: c.Y - d.Y}, Point{X: c.X + d.X, Y: c.Y + d.Y}
		p.stroke(Stroke{Points: []Point{a, b}, Pen: Plain})
		for _, e := range [2]Point{a, b} {
			p.stroke(Stroke{Points: []Point{{X: e.X - t.X, Y: e.Y - t.Y}, {X: e.X + t.X, Y: e.Y + t.Y}}, Pen: Plain})
		}
	}
}

// size draws a dimension line between two witness lines, with slanting end ticks,
// and its figure where there is room.
func (p *placer) size(z Size) {
	if !finite(z.From) || !finite(z.To) {
		return
	}
	a, b, n, ok := dimensionLine(z, p.m.at(z.From), p.m.at(z.To))
	if !ok {
		return
	}
	if z.Off != 0 {
		sign, clear := math.Copysign(1, z.Off), math.Max(3, z.Clear)
		for _, e := range [2][2]Point{{p.m.at(z.From), a}, {p.m.at(z.To), b}} {
			p.stroke(Stroke{Pen: Fine, Points: []Point{
				{X: e[0].X + clear*sign*n.X, Y: e[0].Y + clear*sign*n.Y}, {X: e[1].X + 4*sign*n.X, Y: e[1].Y + 4*sign*n.Y},
			}})
		}
	}
	p.stroke(Stroke{Points: []Point{a, b}, Pen: Fine})
	for _, e := range [2]Point{a, b} {
		p.stroke(Stroke{Points: []Point{{X: e.X - tick, Y: e.Y + tick}, {X: e.X + tick, Y: e.Y - tick}}, Pen: Plain})
	}
	text := sizeText(z, p.m.at(z.From), p.m.at(z.To))
	mid := Point{X: (a.X + b.X) / 2, Y: (a.Y + b.Y) / 2}
	if text.Turned {
		p.try(Label{Text: z.Text, Rank: z.Rank}, []Lettering{text,
			{At: Point{X: mid.X + ascent + 4, Y: mid.Y}, Text: z.Text, Align: Middle, Turned: true},
			lettering(Label{Text: z.Text}, Point{X: a.X, Y: math.Min(a.Y, b.Y)}, Above, 4),
			lettering(Label{Text: z.Text}, Point{X: a.X, Y: math.Max(a.Y, b.Y)}, Below, 4),
		})
		return
	}
	right := a
	left := b
	if b.X > a.X {
		right, left = b, a
	}
	p.try(Label{Text: z.Text, Rank: z.Rank}, []Lettering{text,
		lettering(Label{Text: z.Text}, mid, Below, 3),
		lettering(Label{Text: z.Text}, right, Right, 8),
		lettering(Label{Text: z.Text}, left, Left, 8),
	})
}

// dimensionLine returns the ends of the dimension line and its normal, on the plate.
func dimensionLine(z Size, from, to Point) (a, b, n Point, ok bool) {
	d := to.Sub(from)
	l := math.Hypot(d.X, d.Y)
	if !(l > 1e-9) {
		return a, b, n, false
	}
	n = Point{X: d.Y / l, Y: -d.X / l} // to the left of the way, for y runs down
	shift := func(p Point) Point { return Point{X: p.X + z.Off*n.X, Y: p.Y + z.Off*n.Y} }
	return shift(from), shift(to), n, true
}

// sizeText places the figure of a dimension line over its middle; along an upright
// line it reads upwards.
func sizeText(z Size, from, to Point) Lettering {
	a, b, _, ok := dimensionLine(z, from, to)
	if !ok {
		a, b = from, to
	}
	mid := Point{X: (a.X + b.X) / 2, Y: (a.Y + b.Y) / 2}
	if math.Abs(b.Y-a.Y) > 2*math.Abs(b.X-a.X) {
		return Lettering{At: Point{X: mid.X - 4 - descent, Y: mid.Y}, Text: z.Text, Align: Middle, Turned: true}
	}
	return lettering(Label{Text: z.Text}, mid, Above, 3)
}
