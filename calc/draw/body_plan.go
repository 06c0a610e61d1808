package draw

import (
	"math"
	"strings"

	"scarph/calc"
)

// BodyPlan is the boat's sections seen from the end: those forward of the widest
// station, and that station, on the right; those aft of it on the left.
type BodyPlan struct{ Offsets }

// Sheet implements Kind.
func (d *BodyPlan) Sheet(s calc.Style) Sheet {
	var c Scene
	most, widest := d.widest()
	low, high := d.lowest(), math.Inf(-1)
	names := shortNames(d.Stations)
	for i := range d.Stations {
		section := d.section(i)
		if len(section) == 0 {
			continue
		}
		side := d.side(i, widest)
		top := section[len(section)-1]
		high = math.Max(high, top.Y)
		d.drawSection(&c, section, side)
		label := Label{At: Point{X: side * top.X, Y: top.Y}, Text: names[i], Side: Right, Rank: 1 + i - min(i, widest)}
		if side < 0 {
			label.Side = Left
		} else if i <= widest { // the outermost first: it has the free side
			label.Rank = 1 + widest - i
		}
		c.Label(label)
	}
	if math.IsNaN(low) || math.IsInf(high, 0) {
		low, high = 0, 0
	}
	d.foundSections(&c, s, widest)
	base := math.Min(0, low)
	c.Line(Chain, Point{Y: base}, Point{Y: high + 0.06*(high-base)})
	c.Line(Chain, Point{X: -most}, Point{X: most})
	if z, ok := d.water(); ok {
		c.Line(Dashed, Point{X: -most, Y: z}, Point{X: most, Y: z})
		c.Label(Label{At: Point{X: most, Y: z}, Text: "water", Side: Right, Sliding: true, Rank: 1})
	}
	if widest >= 0 {
		c.Size(Size{From: Point{X: -most, Y: base}, To: Point{X: most, Y: base}, Off: -18, Text: length(s, 2*most)})
	}
	return Sheet{Title: "Body plan", Keys: handKeys(d.Found), Panels: []Panel{{Head: "Body plan, fore half on the right", Scene: c}}}
}

// shortNames leaves out a first word that all the names have, st 1, st 2, st 3: in a
// body plan many names stand close together.
func shortNames(names []string) []string {
	short := make([]string, len(names))
	for i, n := range names {
		word, rest, ok := strings.Cut(n, " ")
		first, _, _ := strings.Cut(names[0], " ")
		if !ok || rest == "" || word != first {
			return names
		}
		short[i] = rest
	}
	return short
}

// side is +1 for the fore half, drawn on the right, and −1 for the after half.
func (d *BodyPlan) side(station, widest int) float64 {
	if station > widest && widest >= 0 {
		return -1
	}
	return 1
}

func (d *BodyPlan) drawSection(c *Scene, section []Point, side float64) {
	points := section
	if d.flatBottomed() {
		points = append([]Point{{Y: section[0].Y}}, points...)
	}
	if d.Bent {
		points = Bend(points)
	}
	turned := make([]Point, len(points))
	for i, p := range points {
		turned[i] = Point{X: side * p.X, Y: p.Y}
	}
	c.Line(Plain, turned...)
	if len(turned) == 1 {
		c.Mark(Mark{At: turned[0], Shape: Ring})
	}
}

// flatBottomed reports whether the lowest line is a chine or an edge of the bottom,
// so that the section runs level from it to the centreline.
func (d *BodyPlan) flatBottomed() bool {
	order := d.upwards()
	if len(order) == 0 || d.Bent {
		return false
	}
	name := strings.ToLower(d.Lines[order[0]].Name)
	return strings.Contains(name, "chine") || strings.Contains(name, "bottom")
}

// foundSections marks the readings on their sections: a half-breadth at the drawn
// height, a height at the drawn half-breadth.
func (d *BodyPlan) foundSections(c *Scene, s calc.Style, widest int) {
	for _, r := range d.Found {
		if r.Line < 0 || r.Line >= len(d.Lines) || r.Station < 0 || r.Station >= len(d.Stations) {
			continue
		}
		l := d.Lines[r.Line]
		p := Point{X: r.Half, Y: r.Height}
		say := l.Name + ", " + d.Stations[r.Station] + ", " + hands[r.Hand].word
		if math.IsNaN(p.X) {
			p.X = at(l.Half, r.Station)
		} else {
			say += " " + spreadText(s, r.Half, r.HalfSpread)
		}
		if math.IsNaN(p.Y) {
			p.Y = at(l.Height, r.Station)
		} else {
			say += ", height " + spreadText(s, r.Height, r.HeightSpread)
		}
		p.X *= d.side(r.Station, widest)
		c.Mark(Mark{At: p, Shape: hands[r.Hand].shape, SpanX: r.HalfSpread, SpanY: r.HeightSpread, Saying: say})
	}
}

// SVG implements calc.Drawing.
func (d *BodyPlan) SVG(s calc.Style) string { return svgOf(d, s) }

// Describe implements calc.Drawing.
func (d *BodyPlan) Describe(s calc.Style) string {
	t := "body plan of " + d.stationsText()
	if most, i := d.widest(); i >= 0 {
		t += "; greatest beam " + length(s, 2*most) + " at " + d.Stations[i]
		if i < len(d.Stations)-1 {
			t += ", the stations aft of it on the left half"
		}
	}
	if z, ok := d.water(); ok {
		t += "; water " + length(s, z) + " over the base line"
	}
	return sentence(t + d.foundText(s))
}
