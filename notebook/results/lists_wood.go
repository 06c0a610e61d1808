package results

import (
	"bytes"

	"scarph/calc"
)

// cutlist writes the cut list: the parts, what to buy, and how they lie on the boards at
// hand.
func (r *Writer) cutlist(w *bytes.Buffer, wood Buying) {
	wood.Public = r.Public
	l := CutlistOf(r.Session, r.AsOf, wood)
	if r.hides("rework") {
		for i := range l.Parts {
			l.Parts[i].Off = 0
		}
	}
	all := l.Table(r.Style)
	var rows [][]string
	for i, row := range all[1:] {
		p := &l.Parts[i]
		esc := make([]string, len(row))
		for k, c := range row {
			esc[k] = text(c)
		}
		esc[0] = text(calc.Words(row[0]))
		if p.Off > 0 && p.Result.OK() {
			esc[offColumn] = r.link("rework", row[offColumn]+" off")
		}
		rows = append(rows, esc)
	}
	t := table{head: all[0], rows: rows, none: "No part has been listed yet."}
	t.write(w)
	for _, line := range l.Lines(r.Style) {
		w.WriteString(`<p>`)
		esc(w, line+".")
		w.WriteString(`</p>`)
	}
	if !r.Public {
		r.boards(w, &l)
	}
}

// link is a text that leads to one of the lists, where the page knows its address.
func (r *Writer) link(list, words string) string {
	if r.ListAt == nil {
		return text(words)
	}
	return `<a href="` + text(r.ListAt(list)) + `">` + text(words) + `</a>`
}

// boards writes what the boards at hand cannot give, and how the pieces lie on them.
func (r *Writer) boards(w *bytes.Buffer, l *Cutlist) {
	for i := range l.Unplaced {
		w.WriteString(`<p class="short">`)
		esc(w, sentence(l.Unplaced[i].Words(r.Style)))
		w.WriteString(`</p>`)
	}
	if len(l.Layouts) == 0 {
		return
	}
	w.WriteString(`<h2>Out of the boards at hand</h2>`)
	for i := range l.Layouts {
		b := &l.Layouts[i]
		w.WriteString(`<p class="board"><b>`)
		esc(w, b.Wood+" "+b.Board(r.Style))
		w.WriteString(`</b></p><ul class="strips">`)
		for k := range b.Strips {
			w.WriteString(`<li>`)
			esc(w, b.Strips[k].Line(r.Style))
			w.WriteString(`</li>`)
		}
		if b.LeftWidth > 0 {
			w.WriteString(`<li>`)
			esc(w, "left over beside them "+r.Style.Text(calc.Length(b.LeftWidth)))
			w.WriteString(`</li>`)
		}
		w.WriteString(`</ul>`)
	}
	w.WriteString(`<p>`)
	esc(w, LayoutNote)
	w.WriteString(`</p>`)
}

// LayoutNote says how the boards are laid out.
const LayoutNote = "Widest first, then longest, each in the first strip that takes it: a good layout, not the best possible."

// sentence is a text with a large first letter and a full stop.
func sentence(t string) string { return string(t[0]-'a'+'A') + t[1:] + "." }
