package draw

import (
	"math"
)

func (l Label) gap() float64 {
	if l.Gap != 0 {
		return l.Gap
	}
	if l.Bold { // it stands by a bold mark
		return boldRadius + 3
	}
	return radius + 3
}

// lettering sets a label on a side of a point of the plate.
func lettering(l Label, c Point, side Side, gap float64) Lettering {
	t := Lettering{At: c, Text: l.Text, Bold: l.Bold, Turned: l.Turned, Align: Middle}
	if l.Turned {
		t.At.X += (ascent - descent) / 2
		switch side {
		case Above:
			t.Align, t.At.Y = Start, c.Y-gap
		case Below:
			t.Align, t.At.Y = End, c.Y+gap
		case Right:
			t.At.X = c.X + gap + ascent
		case Left:
			t.At.X = c.X - gap - descent
		}
		return t
	}
	switch side {
	case Above:
		t.At.Y = c.Y - gap - descent/2
	case Below:
		t.At.Y = c.Y + gap + ascent
	case Right:
		t.Align, t.At = Start, Point{X: c.X + gap, Y: c.Y + (ascent-descent)/2}
	case Left:
		t.Align, t.At = End, Point{X: c.X - gap, Y: c.Y + (ascent-descent)/2}
	case Over:
		t.At.Y = c.Y + (ascent-descent)/2
	}
	return t
}

// elsewhere are the sides to try after the one that a label asks for.
var elsewhere = [...][]Side{
	Above: {Above, Below, Right, Left}, Below: {Below, Above, Right, Left},
	Right: {Right, Left, Above, Below}, Left: {Left, Right, Above, Below}, Over: {Over},
}

func (p *placer) label(l Label) {
	if !finite(l.At) || l.Text == "" {
		return
	}
	c := p.m.at(l.At)
	sides := elsewhere[l.Side]
	if l.Held {
		sides = sides[:1]
	}
	var ways []Lettering
	for _, side := range sides {
		ways = append(ways, lettering(l, c, side, l.gap()))
	}
	if !l.Held {
		ways = append(ways, p.further(l, c, sides)...)
	}
	p.try(l, ways)
}

// further are the places to try when all four sides are taken: beside the point but a
// little up or down, and one line further out.
func (p *placer) further(l Label, c Point, sides []Side) []Lettering {
	var ways []Lettering
	for _, side := range sides {
		if side == Right || side == Left {
			for _, dy := range [2]float64{-0.95 * Type, 0.95 * Type} {
				ways = append(ways, lettering(l, Point{X: c.X, Y: c.Y + dy}, side, l.gap()/2))
			}
		}
	}
	for _, side := range sides {
		if side != Over {
			ways = append(ways, lettering(l, c, side, l.gap()+nextLine))
		}
	}
	return ways
}

// try sets the first of the letterings that lies on no other text or mark and
// crosses the fewest lines; none when all are taken.
func (p *placer) try(l Label, ways []Lettering) {
	best, least := -1, math.Inf(1)
	if l.Clean {
		least = 2 // what lies over a line costs as much
	}
	for i, w := range ways {
		b := w.box().grown(1)
		if p.isTaken(b) {
			continue
		}
		cost := 0.45 * float64(i)
		if !l.Held {
			cost += p.crossings(b)
		}
		if cost < least {
			best, least = i, cost
		}
	}
	if best < 0 {
		return
	}
	p.plate.Letters = append(p.plate.Letters, ways[best])
	p.taken = append(p.taken, ways[best].box().grown(1))
}

func (p *placer) isTaken(b frame) bool {
	for _, t := range p.taken {
		if b.meets(t) {
			return true
		}
	}
	return false
}

// crossings weighs the lines that run through a box: pencil lines little, others much.
func (p *placer) crossings(b frame) float64 {
	cost := 0.0
	for _, s := range p.plate.Strokes {
		if s.Radius > 0 || !strokeCrosses(s, b) {
			continue
		}
		if s.Pen == Fine {
			cost += 0.4
		} else {
			cost += 2
		}
	}
	return cost
}

func strokeCrosses(s Stroke, b frame) bool {
	for i := 1; i < len(s.Points); i++ {
		if b.crossed(s.Points[i-1], s.Points[i]) {
			return true
		}
	}
	return s.Closed && len(s.Points) > 2 && b.crossed(s.Points[len(s.Points)-1], s.Points[0])
}
