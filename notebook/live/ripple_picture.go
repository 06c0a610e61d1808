package live

import (
	"html/template"

	"scarph/calc"
	"scarph/calc/draw"
	"scarph/kernel"
)

// rippleRows are how many values a ripple's picture shows, those that moved by the
// largest share; the list under it has all.
const rippleRows = 12

// farthestShare is the share up to which bars are drawn to scale. A value near nothing
// moves by many times itself, and would leave no room for the others.
const farthestShare = 0.2

// ripplePicture draws the quantities that moved, before and after, in their order, when
// there are two or more of them: of one, the line says it all. What moved by less than can
// be written is left to the list.
func ripplePicture(fields []kernel.Moved, style calc.Style) template.HTML {
	d := &draw.Ripple{Most: rippleRows, Farthest: farthestShare}
	for _, m := range fields {
		if m.By == nil {
			continue
		}
		before, after := m.From.Value.Plain(), m.To.Value.Plain()
		if style.Text(before) != style.Text(after) {
			d.Items = append(d.Items, draw.Moved{Name: calc.Words(m.Name), Before: before, After: after})
		}
	}
	if len(d.Items) < 2 {
		return ""
	}
	return template.HTML(d.SVG(style))
}
