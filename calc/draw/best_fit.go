package draw

import (
	"math"

	"scarph/calc"
	"scarph/calc/curve"
)

// BestFit shows readings with the best straight line or the best arc through them,
// and under it how far each reading stands off.
type BestFit struct {
	Points []Point // along and up, metres, along rising
	Arc    bool
}

// fit returns the fitted curve as a function of x and the readings less the curve.
func (d *BestFit) fit() (curveAt func(float64) float64, off []float64, radius float64, ok bool) {
	if len(clean(d.Points)) != len(d.Points) || len(d.Points) < 2 {
		return nil, nil, 0, false
	}
	xs, ys := make([]float64, len(d.Points)), make([]float64, len(d.Points))
	for i, p := range d.Points {
		xs[i], ys[i] = p.X, p.Y
	}
	if !d.Arc {
		l, off, err := curve.FitLine(xs, ys)
		return l.At, off, 0, err == nil
	}
	c, _, err := curve.FitCircle(d.Points)
	if err != nil {
		return nil, nil, 0, false
	}
	// the arc on the readings' side of its centre
	side := 1.0
	_, line, _ := curve.FitLine(xs, ys)
	if mean(ys) < c.Centre.Y && line != nil {
		side = -1
	}
	f := func(x float64) float64 {
		dx := x - c.Centre.X
		return c.Centre.Y + side*math.Sqrt(math.Max(0, c.Radius*c.Radius-dx*dx))
	}
	off = make([]float64, len(xs))
	for i, p := range d.Points {
		off[i] = side * (curve.Distance(p, c.Centre) - c.Radius)
	}
	return f, off, c.Radius, true
}

func overUnder(s calc.Style, v float64) string {
	if v < 0 {
		return small(s, -v) + " under"
	}
	return small(s, v) + " over"
}

func mean(list []float64) float64 {
	sum := 0.0
	for _, v := range list {
		sum += v
	}
	return sum / float64(len(list))
}

// Fits reports whether the readings have such a line or arc at all.
func (d *BestFit) Fits() bool {
	_, _, _, ok := d.fit()
	return ok
}

// Sheet implements Kind.
func (d *BestFit) Sheet(s calc.Style) Sheet {
	out := Sheet{Title: d.title()}
	at, off, _, ok := d.fit()
	var c Scene
	o := Offsets{}
	for _, p := range d.Points {
		o.At = append(o.At, p.X)
		c.Mark(Mark{At: p, Shape: Dot, Saying: "at " + exact(s, p.X) + ": " + exact(s, p.Y)})
	}
	first, last := o.along()
	x := Range{first, last}
	if ok {
		const pieces = 80
		var line []Point
		for i := 0; i <= pieces; i++ {
			t := first + (last-first)*float64(i)/pieces
			line = append(line, Point{X: t, Y: at(t)})
		}
		c.Line(Plain, line...)
	}
	out.Panels = []Panel{{Head: "Readings and the best " + d.word() + ", magnified", Scene: c, Tall: 110, X: x}}
	if !ok {
		out.Notes = []string{"These readings have no best " + d.word() + "."}
		return out
	}
	b := bars{at: o.At, values: off, bold: curve.Worst(off), x: x}
	b.saying = func(i int) string { return overUnder(s, off[i]) }
	out.Panels = append(out.Panels, Panel{Head: "Readings less the " + d.word(), Scene: b.scene(s), Tall: 110, X: x, Y: b.reach()})
	out.Notes = []string{sentence(d.verdict(s))}
	return out
}

func (d *BestFit) word() string {
	if d.Arc {
		return "arc"
	}
	return "straight line"
}

func (d *BestFit) title() string { return "Best " + d.word() }

func (d *BestFit) verdict(s calc.Style) string {
	_, off, radius, ok := d.fit()
	if !ok {
		return "best " + d.word() + ": these readings have none"
	}
	t := "best " + d.word()
	if d.Arc {
		t += " of radius " + exact(s, radius)
	}
	w := curve.Worst(off)
	return t + " through " + count(len(off), "reading", "readings") + ": furthest off is reading " + number(float64(w+1)) + ", " + overUnder(s, off[w])
}

// SVG implements calc.Drawing.
func (d *BestFit) SVG(s calc.Style) string { return svgOf(d, s) }

// Describe implements calc.Drawing.
func (d *BestFit) Describe(s calc.Style) string { return sentence(d.verdict(s)) }
