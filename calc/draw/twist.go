package draw

import (
	"math"

	"scarph/calc"
)

// Twist shows one station from aft: the line through its port and starboard heights
// against level.
type Twist struct {
	Port, Starboard             float64 // heights, metres
	PortSpread, StarboardSpread float64
	Breadth                     float64
}

// Angle returns the twist, plus when port stands higher, and its ±.
func (d *Twist) Angle() (angle, spread float64) {
	rise := d.Port - d.Starboard
	angle = math.Atan2(rise, d.Breadth)
	c := math.Cos(angle)
	return angle, math.Hypot(d.PortSpread, d.StarboardSpread) / d.Breadth * c * c
}

func (d *Twist) good() bool {
	a, u := d.Angle()
	return d.Breadth > 0 && d.Breadth <= farthest && finite(Point{X: a, Y: u})
}

// Sheet implements Kind.
func (d *Twist) Sheet(s calc.Style) Sheet {
	out := Sheet{Title: "Twist"}
	if !d.good() {
		return out
	}
	var c Scene
	half := d.Breadth / 2
	mid := (d.Port + d.Starboard) / 2
	p, q := Point{X: -half, Y: d.Port - mid}, Point{X: half, Y: d.Starboard - mid}
	c.Line(Chain, Point{X: -half}, Point{X: half})
	c.Line(Heavy, p, q)
	c.Mark(Mark{At: p, Shape: Square, Bold: true, SpanY: d.PortSpread, Saying: "port " + spreadText(s, d.Port, d.PortSpread)})
	c.Mark(Mark{At: q, Shape: Triangle, Bold: true, SpanY: d.StarboardSpread, Saying: "starboard " + spreadText(s, d.Starboard, d.StarboardSpread)})
	reach := math.Max(math.Max(math.Abs(p.Y)+d.PortSpread, math.Abs(q.Y)+d.StarboardSpread), 1e-4)
	c.Size(Size{From: Point{X: -half, Y: -reach}, To: Point{X: half, Y: -reach}, Off: -14, Text: length(s, d.Breadth)})
	out.Panels = []Panel{{Head: "Seen from aft, magnified", Scene: c, Tall: 90, Y: Range{-reach, reach}}}
	out.Keys = []Key{{Shape: Square, Text: "port " + spreadText(s, d.Port, d.PortSpread)}, {Shape: Triangle, Text: "starboard " + spreadText(s, d.Starboard, d.StarboardSpread)}}
	out.Notes = []string{sentence(d.verdict(s))}
	return out
}

func (d *Twist) verdict(s calc.Style) string {
	a, u := d.Angle()
	t := "level, no twist"
	switch rise := d.Port - d.Starboard; {
	case rise > 0:
		t = "port higher by " + small(s, rise) + ", a twist of " + s.Text(calc.WithSpread(calc.Angle(a), u, 1))
	case rise < 0:
		t = "starboard higher by " + small(s, -rise) + ", a twist of " + s.Text(calc.WithSpread(calc.Angle(-a), u, 1))
	}
	if u > 0 {
		t += ", " + number(round(math.Abs(a)/u, 2)) + " times its ±"
	}
	return t
}

// SVG implements calc.Drawing.
func (d *Twist) SVG(s calc.Style) string { return svgOf(d, s) }

// Describe implements calc.Drawing.
func (d *Twist) Describe(s calc.Style) string {
	if !d.good() {
		return "Twist without a breadth."
	}
	return sentence(d.verdict(s))
}
