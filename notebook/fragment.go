package notebook

import (
	"html"
	"strings"

	"scarph/calc"
	"scarph/calc/lang"
	"scarph/kernel"
)

// ResultHTML writes one result as a piece of HTML for a page of someone else's: plain
// elements, nothing that runs, its remarks and cautions under it.
func ResultHTML(r *kernel.Result, style calc.Style) string {
	var b strings.Builder
	b.WriteString(`<div class="result">`)
	fragment(&b, r.Value, style)
	if e := style.Echo(r.Value); e != "" {
		b.WriteString(` <span class="echo">` + html.EscapeString(e) + `</span>`)
	}
	for _, w := range r.Warnings {
		b.WriteString(`<p class="remark">` + html.EscapeString(w) + `</p>`)
	}
	for _, c := range lang.CautionsOf(r.Cautions) {
		b.WriteString(`<p class="caution"><strong>Caution.</strong> ` + html.EscapeString(c.Text()) + `</p>`)
	}
	b.WriteString(`</div>`)
	return b.String()
}

// fragment writes a value: one quantity or text as a word, a list and a record as a
// table of two columns, a drawing as itself.
func fragment(b *strings.Builder, x calc.Value, style calc.Style) {
	switch x.Kind() {
	case calc.List, calc.Record:
		b.WriteString(`<table>`)
		for i, it := range x.Items() {
			label := style.Text(calc.Number(float64(i + 1)))
			if l := x.Labels(); l != nil {
				label = calc.Words(l[i])
			}
			b.WriteString(`<tr><th scope="row">` + html.EscapeString(label) + `</th><td>`)
			fragment(b, it, style)
			b.WriteString(`</td></tr>`)
		}
		b.WriteString(`</table>`)
	case calc.Picture:
		if d := x.X.Drawing; d != nil {
			b.WriteString(d.SVG(style))
		}
	default:
		b.WriteString(`<span class="value">` + html.EscapeString(style.Text(x)) + `</span>`)
	}
}
