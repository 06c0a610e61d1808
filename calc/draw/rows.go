package draw

import (
	"math"
	"sort"

	"scarph/calc"
)

// Rows of a list stand under one another: the name over the row, its picture, and
// its figures at the right, so that a phone has the whole width for each.

// rowTall is the height of one row in picture units.
const rowTall = 42

// row sets the name and the figures of row i of n; its line lies at the height returned.
func (c *Scene) row(i, n int, name, figures string, x Range) float64 {
	y := float64(n - i)
	c.Label(Label{At: Point{X: x.Low, Y: y + 0.42}, Text: name, Side: Right, Gap: 1, Held: true})
	c.Label(Label{At: Point{X: x.High, Y: y + 0.42}, Text: figures, Side: Left, Gap: 1, Held: true, Bold: true, Rank: 1})
	c.Line(Fine, Point{X: x.Low, Y: y}, Point{X: x.High, Y: y})
	return y
}

// Weighed is a part with the weight that was guessed and what the scale said, kg.
// NaN is not guessed, or not weighed yet.
type Weighed struct {
	Name           string
	Guess, Weighed float64
}

// Weights shows guesses against the scale.
type Weights struct{ Items []Weighed }

// Sheet implements Kind.
func (d *Weights) Sheet(s calc.Style) Sheet {
	var c Scene
	most := 0.0
	for _, w := range d.Items {
		for _, v := range [2]float64{w.Guess, w.Weighed} {
			if v > most && v <= farthest {
				most = v
			}
		}
	}
	x := Range{0, math.Max(most, 1e-9)}
	n := len(d.Items)
	for i, w := range d.Items {
		y := c.row(i, n, w.Name, weightFigures(s, w), x)
		a, b := Point{X: w.Guess, Y: y}, Point{X: w.Weighed, Y: y}
		if finite(a) && finite(b) {
			c.Line(Heavy, a, b)
		}
		c.Mark(Mark{At: a, Shape: Ring, Bold: true, Saying: w.Name + ", guess " + weight(s, w.Guess)})
		c.Mark(Mark{At: b, Shape: Dot, Bold: true, Saying: w.Name + ", weighed " + weight(s, w.Weighed)})
	}
	out := Sheet{Title: "Guess against scale", Keys: []Key{{Shape: Ring, Pen: Heavy, Text: "guess"}, {Shape: Dot, Pen: Heavy, Text: "weighed"}}}
	if n > 0 {
		out.Panels = []Panel{{Scene: c, Tall: rowTall * float64(n), X: x, Y: Range{0.5, float64(n) + 0.5}}}
	}
	return out
}

func weight(s calc.Style, kg float64) string {
	if !written(kg) {
		return "—"
	}
	return s.Text(calc.Mass(kg))
}

func weightFigures(s calc.Style, w Weighed) string {
	switch off := w.Weighed - w.Guess; {
	case math.IsNaN(w.Weighed):
		return "guess " + weight(s, w.Guess)
	case math.IsNaN(w.Guess):
		return weight(s, w.Weighed)
	case off > 0:
		return weight(s, w.Weighed) + ", heavier by " + weight(s, off)
	case off < 0:
		return weight(s, w.Weighed) + ", lighter by " + weight(s, -off)
	}
	return weight(s, w.Weighed) + ", as guessed"
}

// SVG implements calc.Drawing.
func (d *Weights) SVG(s calc.Style) string { return svgOf(d, s) }

// Describe implements calc.Drawing.
func (d *Weights) Describe(s calc.Style) string {
	both := Weighed{}
	n := 0
	for _, w := range d.Items {
		if finite(Point{X: w.Guess, Y: w.Weighed}) {
			both.Guess, both.Weighed, n = both.Guess+w.Guess, both.Weighed+w.Weighed, n+1
		}
	}
	t := "guess against scale of " + count(len(d.Items), "part", "parts")
	if n > 0 {
		t += "; of " + count(n, "part", "parts") + " weighed, guessed " + weight(s, both.Guess) + ", found " + weightFigures(s, both)
	}
	return sentence(t)
}

// Influence is what one reading adds to the ± of a value; Size is in any unit, the
// same for all, and Text says it in the value's own.
type Influence struct {
	Name, Text string
	Size       float64
}

// Sensitivity shows which readings the ± of a value comes from, the most first.
type Sensitivity struct {
	Of    string // the value
	Items []Influence
}

func (d *Sensitivity) ordered() []Influence {
	var list []Influence
	for _, it := range d.Items {
		if math.Abs(it.Size) <= farthest {
			list = append(list, it)
		}
	}
	sort.SliceStable(list, func(a, b int) bool { return math.Abs(list[a].Size) > math.Abs(list[b].Size) })
	return list
}

// Sheet implements Kind.
func (d *Sensitivity) Sheet(calc.Style) Sheet {
	var c Scene
	list := d.ordered()
	n := len(list)
	out := Sheet{Title: "Where the ± of " + d.Of + " comes from"}
	if n == 0 {
		out.Notes = []string{"No reading with a ± bears on it."}
		return out
	}
	x := Range{0, math.Max(math.Abs(list[0].Size), 1e-12)}
	for i, it := range list {
		y := c.row(i, n, it.Name, it.Text, x)
		c.Bar(Plain, Point{Y: y - 0.14}, Point{X: math.Abs(it.Size), Y: y + 0.14})
	}
	out.Panels = []Panel{{Scene: c, Tall: rowTall * float64(n), X: x, Y: Range{0.5, float64(n) + 0.5}}}
	return out
}

// SVG implements calc.Drawing.
func (d *Sensitivity) SVG(s calc.Style) string { return svgOf(d, s) }

// Describe implements calc.Drawing.
func (d *Sensitivity) Describe(calc.Style) string {
	list := d.ordered()
	if len(list) == 0 {
		return sentence("no reading with a ± bears on " + d.Of)
	}
	return sentence("the ± of " + d.Of + " comes from " + count(len(list), "reading", "readings") + ", most of it from " + list[0].Name + ", " + list[0].Text)
}

// Moved is a value before and after a reading was revised. Before and After are as
// the page writes them; Change is the share by which it grew, 0.05 for 5 % more, and
// NaN when that means nothing.
type Moved struct {
	Name, Before, After string
	Change              float64
}

// Ripple shows what a revision moved, and by what share.
type Ripple struct{ Items []Moved }

// Sheet implements Kind.
func (d *Ripple) Sheet(calc.Style) Sheet {
	var c Scene
	n := len(d.Items)
	out := Sheet{Title: "Before and after"}
	if n == 0 {
		out.Notes = []string{"Nothing moved."}
		return out
	}
	most := 0.0
	for _, m := range d.Items {
		if v := math.Abs(m.Change); v > most && v <= farthest {
			most = v
		}
	}
	most = math.Max(most, 1e-9)
	x := Range{-most, most}
	c.Line(Plain, Point{Y: 0.5}, Point{Y: float64(n) + 0.2})
	for i, m := range d.Items {
		figures := m.Before + " → " + m.After
		if m.Before == m.After {
			figures = m.After + ", unchanged"
		}
		y := c.row(i, n, m.Name, figures, x)
		p := Point{X: m.Change, Y: y}
		if finite(p) {
			c.Line(Heavy, Point{Y: y}, p)
			c.Mark(Mark{At: Point{Y: y}, Shape: Ring})
			c.Mark(Mark{At: p, Shape: Dot, Bold: m.Change != 0, Saying: m.Name + ": " + figures})
		}
	}
	c.Label(Label{At: Point{X: -most, Y: 0.5}, Text: "less by " + percent(round(most, 3)), Side: Right, Gap: 1, Held: true})
	c.Label(Label{At: Point{X: most, Y: 0.5}, Text: "more by " + percent(round(most, 3)), Side: Left, Gap: 1, Held: true})
	out.Panels = []Panel{{Scene: c, Tall: rowTall * float64(n), X: x, Y: Range{0.5, float64(n) + 0.5}}}
	return out
}

// SVG implements calc.Drawing.
func (d *Ripple) SVG(s calc.Style) string { return svgOf(d, s) }

// Describe implements calc.Drawing.
func (d *Ripple) Describe(calc.Style) string {
	if len(d.Items) == 0 {
		return "Nothing moved."
	}
	var parts []string
	for _, m := range d.Items[:min(3, len(d.Items))] {
		parts = append(parts, m.Name+" from "+m.Before+" to "+m.After)
	}
	t := count(len(d.Items), "value", "values") + " before and after: " + and(parts)
	if len(d.Items) > 3 {
		t += ", and more"
	}
	return sentence(t)
}
