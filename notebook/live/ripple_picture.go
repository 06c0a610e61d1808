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

// ripplePicture draws the quantities that moved, before and after, when there are two or
// more of them: of one, the line says it all.
func ripplePicture(x kernel.Ripple, style calc.Style) template.HTML {
	d := &draw.Ripple{Most: rippleRows}
	for _, m := range x.Fields() {
		if m.By != nil {
			d.Items = append(d.Items, draw.Moved{Name: calc.Words(m.Name), Before: m.From.Value.Plain(), After: m.To.Value.Plain()})
		}
	}
	if len(d.Items) < 2 {
		return ""
	}
	return template.HTML(d.SVG(style))
}
