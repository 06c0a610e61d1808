package results

import (
	"bytes"
	"strings"

	"scarph/calc"
	"scarph/kernel"
)

// partText writes a part as the cut list says it: 2 of 3/4" × 7" × 4' 0 5/8".
func partText(v calc.Value, style calc.Style) string {
	var sizes, further []string
	count := ""
	for i, it := range v.Items() {
		switch name := v.Labels()[i]; name {
		case "count":
			count = style.Text(it)
		case "within":
			further = append(further, "within "+style.Text(it))
		case "thickness", "width", "length":
			sizes = append(sizes, style.Text(it)+sizeWord(v, name))
		default:
			further = append(further, calc.Words(name)+" "+style.Text(it))
		}
	}
	text := count + " of " + strings.Join(sizes, " × ")
	if len(further) > 0 {
		text += "; " + strings.Join(further, ", ")
	}
	return text
}

// sizeWord says which size it is, of a part that has not all three.
func sizeWord(v calc.Value, name string) string {
	for _, other := range [...]string{"thickness", "width", "length"} {
		if _, ok := v.Member(other); !ok {
			return map[string]string{"thickness": " thick", "width": " wide", "length": " long"}[name]
		}
	}
	return ""
}

// madeSide writes how many were made, to which sizes, and how they stand now.
func (r *Writer) madeSide(w *bytes.Buffer, o *kernel.Outcome) {
	w.WriteString(`<span class="is">`)
	if n, ok := o.Result.Value.Member("count"); ok {
		esc(w, r.Style.Text(n))
	}
	esc(w, r.madeTo(o))
	w.WriteString(`</span>`)
	for _, m := range o.Made {
		r.madeState(w, m, len(o.Made) > 1)
	}
}

// mostSizes is how many sizes as made a row shows.
const mostSizes = 4

// madeTo says the sizes as made: of a part those that are others now, of what is no part
// all: " to 6' 0 5/8\"".
func (r *Writer) madeTo(o *kernel.Outcome) string {
	if len(o.Made) == 0 {
		return ""
	}
	var list []string
	length := true // and nothing else
	for _, z := range o.Made[0].Sizes {
		if z.Began == "right" && o.Line.Stmt.Expr != nil {
			continue
		}
		length = length && z.Name == "length"
		list = append(list, calc.Words(z.Name)+" "+r.Style.Text(z.First))
	}
	switch n := len(list) - mostSizes; {
	case len(list) == 0:
		return ""
	case length:
		list[0] = strings.TrimPrefix(list[0], "length ")
	case n > 0:
		list = append(list[:mostSizes], r.Style.Text(calc.Number(float64(n)))+" more")
	}
	return " to " + strings.Join(list, ", ")
}

// madeState writes the judgement of a thing made: right, or off by how much; of some of
// the pieces of a line, with their number.
func (r *Writer) madeState(w *bytes.Buffer, m kernel.Made, some bool) {
	number := ""
	if some && m.Count > 0 {
		number = r.Style.Text(calc.Number(m.Count)) + ": "
	}
	if m.Off && !r.hides("rework") {
		w.WriteString(`<p class="rework"><b>Rework.</b> `)
		esc(w, number+r.offWords(m))
		if m.Since != nil {
			esc(w, ", since "+r.when(m.Since.Entry))
		}
		w.WriteString(`.</p>`)
		return
	}
	if s := m.Settled; s != nil {
		w.WriteString(`<p class="settled">`)
		esc(w, number+strings.ToUpper(s.How[:1])+s.How[1:]+" on "+r.when(s.Entry))
		if s.Note != "" {
			esc(w, ": "+s.Note)
		}
		w.WriteString(`.</p>`)
	}
}

// offWords says what is off: "length 0.249 in short, heel 2.99° under".
func (r *Writer) offWords(m kernel.Made) string {
	var parts []string
	for _, z := range m.Sizes {
		if z.Off {
			name := calc.Words(z.Name)
			if z.Name == m.Thing {
				parts = append(parts, r.offBy(z))
			} else {
				parts = append(parts, name+" "+r.offBy(z))
			}
		}
	}
	return strings.Join(parts, ", ")
}

// offBy says how far a size as made is off, in the page's style.
func (r *Writer) offBy(z kernel.MadeSize) string {
	if z.Words == "right" {
		return z.Words
	}
	return kernel.Words(z.By, r.Style)
}
