package draw

import (
	"math"
	"sort"
	"strings"

	"scarph/calc"
)

// Influence is what one reading adds to the ± of a value, in the value's own unit.
type Influence struct {
	Name string
	Part calc.Value
}

// Sensitivity shows which readings the ± of a value comes from, the most first.
type Sensitivity struct {
	Of    string // the value, or ""
	Items []Influence
}

func (d *Sensitivity) ordered() []Influence {
	var list []Influence
	for _, it := range d.Items {
		if it.Part.IsQuantity() && math.Abs(it.Part.V) <= farthest {
			list = append(list, it)
		}
	}
	sort.SliceStable(list, func(a, b int) bool { return math.Abs(list[a].Part.V) > math.Abs(list[b].Part.V) })
	return list
}

// likely is the root of the sum of the squares of the parts, worst their sum.
// Source: JCGM 100:2008, 5.1.2, for readings that do not hang together.
func likely(list []Influence) (sum calc.Value) {
	for _, it := range list {
		sum = calc.Of(math.Hypot(sum.V, it.Part.V), it.Part.D)
	}
	return sum
}

func worst(list []Influence) (sum calc.Value) {
	for _, it := range list {
		sum = calc.Of(sum.V+math.Abs(it.Part.V), it.Part.D)
	}
	return sum
}

// plusMinus writes a spread by itself: ± 1/16", ± 2 mm.
func plusMinus(s calc.Style, u calc.Value) string {
	if !written(u.V) {
		return "—"
	}
	t := s.Text(calc.WithSpread(calc.Of(0, u.D), math.Abs(u.V), 1))
	if i := strings.Index(t, "±"); i >= 0 {
		return t[i:]
	}
	return "± " + t // too small for any figure of the style
}

func (d *Sensitivity) title() string {
	if d.Of == "" {
		return "Where the ± comes from"
	}
	return "Where the ± of " + d.Of + " comes from"
}

// Sheet implements Kind.
func (d *Sensitivity) Sheet(s calc.Style) Sheet {
	var c Scene
	list := d.ordered()
	n := len(list)
	out := Sheet{Title: d.title()}
	if n == 0 {
		out.Notes = []string{"No reading with a ± bears on it."}
		return out
	}
	x := Range{0, math.Max(math.Abs(list[0].Part.V), 1e-12)}
	for i, it := range list {
		y := c.row(i, n, it.Name, plusMinus(s, it.Part), x)
		c.Bar(Plain, Point{Y: y - 0.14}, Point{X: math.Abs(it.Part.V), Y: y + 0.14})
	}
	out.Panels = []Panel{{Head: d.title(), Scene: c, Tall: rowTall * float64(n), X: x, Y: Range{0.5, float64(n) + 0.5}}}
	if n > 1 {
		out.Notes = []string{
			"All together " + plusMinus(s, likely(list)) + " likely, " + plusMinus(s, worst(list)) + " at worst.",
			"Were " + list[0].Name + " exact, " + plusMinus(s, likely(list[1:])) + " would be left.",
		}
	}
	return out
}

// SVG implements calc.Drawing.
func (d *Sensitivity) SVG(s calc.Style) string { return svgOf(d, s) }

// Describe implements calc.Drawing.
func (d *Sensitivity) Describe(s calc.Style) string {
	list := d.ordered()
	if len(list) == 0 {
		return "No reading with a ± bears on it."
	}
	of := "the ±"
	if d.Of != "" {
		of += " of " + d.Of
	}
	return sentence(of + " comes from " + count(len(list), "reading", "readings") + ", most of it from " + list[0].Name + ", " + plusMinus(s, list[0].Part))
}
