package draw

import (
	"math"
	"sort"

	"scarph/calc"
)

// Moved is a value before and after a reading was revised.
type Moved struct {
	Name          string
	Before, After calc.Value
}

// change is the share by which the value grew, 0.05 for 5 % more; NaN where that means
// nothing.
func (m Moved) change() float64 {
	a, b := m.Before, m.After
	switch {
	case !a.IsQuantity() || !b.IsQuantity() || a.D != b.D || a.D.OnScale():
		return math.NaN()
	case a.V == b.V:
		return 0
	}
	return (b.V - a.V) / math.Abs(a.V)
}

func (m Moved) still() bool { return calc.Same(m.Before, m.After) }

// figures writes both, with all that is left over: a change may be less than a mark.
func (m Moved) figures(s calc.Style) string {
	a, b := valueText(s, m.Before), valueText(s, m.After)
	switch {
	case m.still():
		return b + ", unchanged"
	case a == b:
		return b + ", by less than can be written"
	}
	return a + " → " + b
}

func valueText(s calc.Style, x calc.Value) string {
	if x.Kind() == calc.Missing || x.IsQuantity() && !written(x.V) {
		return "—"
	}
	return s.Text(x)
}

// Ripple shows what a revision moved, and by what share.
type Ripple struct {
	Items []Moved
	// Most draws no more values than this, those that moved by the largest share, in their
	// order; 0 draws all.
	Most int
	// Farthest is the share at which the scale ends; what moved further is drawn to its end
	// with a cross. 0 draws all to scale.
	Farthest float64
}

// mostMoved bounds a picture, and mostStill is how many values may stand in one with
// those that did not move: more are counted in words.
const (
	mostMoved = 40
	mostStill = 12
)

// shown are the values that are drawn, and how many are not.
func (d *Ripple) shown() (list []Moved, still, more int) {
	items := d.Items
	if n := len(items); d.Most > 0 && n > d.Most {
		order := make([]int, n)
		for i := range order {
			order[i] = i
		}
		sort.SliceStable(order, func(a, b int) bool {
			return math.Abs(items[order[a]].change()) > math.Abs(items[order[b]].change())
		})
		sort.Ints(order[:d.Most])
		largest := make([]Moved, d.Most)
		for i := range largest {
			largest[i] = items[order[i]]
		}
		items, more = largest, n-d.Most
	}
	for _, m := range items {
		switch {
		case m.still() && len(items) > mostStill:
			still++
		case len(list) == mostMoved:
			more++
		default:
			list = append(list, m)
		}
	}
	return list, still, more
}

const rippleTitle = "Before and after"

// Sheet implements Kind.
func (d *Ripple) Sheet(s calc.Style) Sheet {
	list, still, more := d.shown()
	n := len(list)
	out := Sheet{Title: rippleTitle}
	if more > 0 {
		out.Notes = append(out.Notes, sentence(count(more, "more value has", "more values have")+" moved"))
	}
	if still > 0 {
		out.Notes = append(out.Notes, sentence(count(still, "value is", "values are")+" unchanged"))
	}
	if n == 0 {
		if still == 0 {
			out.Notes = []string{"Nothing moved."}
		}
		return out
	}
	most := 0.0
	for _, m := range list {
		if v := math.Abs(m.change()); v > most && v <= farthest {
			most = v
		}
	}
	if d.Farthest > 0 {
		most = math.Min(most, d.Farthest)
	}
	x := Range{-1, 1}
	if most > 0 {
		x = Range{-most, most}
	}
	var c Scene
	beyond := 0
	c.Line(Plain, Point{Y: 0.5}, Point{Y: float64(n) + 0.2})
	for i, m := range list {
		y := c.row(i, n, m.Name, m.figures(s), x)
		p := Point{X: m.change(), Y: y}
		shape := Dot
		if d.Farthest > 0 && math.Abs(p.X) > most {
			p.X, shape = math.Copysign(most, p.X), Cross
			beyond++
		}
		if finite(p) {
			c.Line(Heavy, Point{Y: y}, p)
			c.Mark(Mark{At: Point{Y: y}, Shape: Ring})
			c.Mark(Mark{At: p, Shape: shape, Bold: p.X != 0, Saying: m.Name + ": " + m.figures(s)})
		}
	}
	if most > 0 {
		c.Label(Label{At: Point{X: -most, Y: 0.5}, Text: "less by " + percent(round(most, 3)), Side: Right, Gap: 1, Held: true})
		c.Label(Label{At: Point{X: most, Y: 0.5}, Text: "more by " + percent(round(most, 3)), Side: Left, Gap: 1, Held: true})
	}
	if beyond > 0 {
		out.Notes = append(out.Notes, sentence(count(beyond, "value has", "values have")+" moved beyond the scale, to a cross at its end"))
	}
	head := rippleTitle
	if d.Most > 0 && more > 0 {
		head = "What moved most, before and after"
	}
	out.Panels = []Panel{{Head: head, Scene: c, Tall: rowTall * float64(n), X: x, Y: Range{0.5, float64(n) + 0.5}}}
	return out
}

// SVG implements calc.Drawing.
func (d *Ripple) SVG(s calc.Style) string { return svgOf(d, s) }

// Describe implements calc.Drawing.
func (d *Ripple) Describe(s calc.Style) string {
	var parts []string
	moved := 0
	for _, m := range d.Items {
		if m.still() {
			continue
		}
		if moved++; moved <= 3 {
			parts = append(parts, m.Name+" from "+valueText(s, m.Before)+" to "+valueText(s, m.After))
		}
	}
	if moved == 0 {
		return "Nothing moved."
	}
	t := "of " + count(len(d.Items), "value", "values") + ", " + count(moved, "has moved", "have moved") + ": " + and(parts)
	if moved > 3 {
		t += ", and more"
	}
	return sentence(t)
}
