package results

import (
	"bytes"
	"html"
	"strconv"
	"strings"

	"scarph/calc"
	"scarph/kernel"
)

// Value writes a value in running text: a button or a link with the mark of its
// kind; in a heading or a link, plain.
func (r *Writer) Value(w *bytes.Buffer, o *kernel.Outcome, plain bool) {
	if !o.Result.OK() {
		r.fault(w, o)
		return
	}
	v := o.Result.Value
	if v.Kind() == calc.Picture && !plain {
		r.drawing(w, v)
		return
	}
	r.valueText(w, o, r.Style.Text(v), plain)
}

func (r *Writer) valueText(w *bytes.Buffer, o *kernel.Outcome, text string, plain bool) {
	tag := "span"
	href := ""
	if !plain && r.Href != nil && o.Name != "" {
		if href = r.Href(o.Name); href != "" {
			tag = "a"
		}
	}
	if r.Live && !plain {
		tag = "button"
	}
	w.WriteString("<" + tag + ` class="v ` + kindClass(o))
	if o.Moved {
		w.WriteString(" moved")
	}
	tried := r.tried(o)
	if tried {
		w.WriteString(" tried")
	}
	w.WriteByte('"')
	switch tag {
	case "a":
		w.WriteString(` href="`)
		esc(w, href)
		w.WriteByte('"')
	case "button":
		w.WriteString(` type="button"`)
	}
	if !plain {
		r.at(w, o)
		if title := r.hover(o); title != "" {
			w.WriteString(` title="`)
			esc(w, title)
			w.WriteByte('"')
		}
	}
	if tag == "button" {
		r.spoken(w, o, text, tried)
	}
	w.WriteByte('>')
	esc(w, text)
	w.WriteString("</" + tag + ">")
}

// tried reports whether a what-if moves the result of a line.
func (r *Writer) tried(o *kernel.Outcome) bool {
	kept := r.Kept[o.Ref]
	return kept != nil && !(kept.OK() && o.Result.OK() && calc.Same(kept.Value, o.Result.Value))
}

// spoken is what a screen reader says of a value that can be activated: its name,
// the text that is shown, and how it came by it.
func (r *Writer) spoken(w *bytes.Buffer, o *kernel.Outcome, text string, tried bool) {
	w.WriteString(` aria-label="`)
	if o.Name != "" {
		esc(w, calc.Words(o.Name)+" ")
	}
	esc(w, text)
	switch {
	case tried:
		w.WriteString(", tried, not kept")
	case o.Name != "":
		esc(w, ", "+o.Kind)
	}
	w.WriteByte('"')
}

// at marks the place of a line for a script.
func (r *Writer) at(w *bytes.Buffer, o *kernel.Outcome) {
	if !r.Marks {
		w.WriteString(` data-at="`)
		if o.Ref.Entry != r.Yours || r.Yours == "" { // what is tried stands nowhere
			esc(w, o.Ref.Entry+"|"+strconv.Itoa(o.Ref.Index))
		}
		w.WriteByte('"')
	}
	if o.Name == "" {
		return
	}
	if r.Marks { // in a series, a value with this mark is one that readers may try
		if _, given := r.Session.Listed(o.Name); !given {
			return
		}
	}
	w.WriteString(` data-name="`)
	esc(w, o.Name)
	w.WriteByte('"')
}

// hover is the short text that a pointer shows: the other family, what is left
// over, the kind.
func (r *Writer) hover(o *kernel.Outcome) string {
	var parts []string
	v := o.Result.Value
	if o.Line != nil && o.Line.Cell && v.IsQuantity() { // a cell is shown as it is written
		if t := r.Style.Text(v); t != o.Line.Text {
			parts = append(parts, t)
		}
	}
	if e := r.Style.Echo(v); e != "" {
		parts = append(parts, e)
	}
	if v.IsQuantity() && v.D == calc.DimLength && r.Style.System != calc.Metric {
		parts = append(parts, calc.Style{}.Text(v.Shown(calc.InUnit("in"))))
	}
	if o.Name != "" {
		parts = append(parts, calc.Words(o.Name)+", "+o.Kind)
	}
	return strings.Join(parts, " · ")
}

// kindClass is the class that tells a value's kind by the shape of its line.
func kindClass(o *kernel.Outcome) string {
	switch o.Kind {
	case "found", "built", "guess", "drawn":
		return o.Kind
	case "derived", "answer", "check":
		return "sum"
	}
	return "chosen"
}

// fault writes what stands where a value should.
func (r *Writer) fault(w *bytes.Buffer, o *kernel.Outcome) {
	if len(o.Result.Waits) > 0 && o.Result.Err == nil {
		w.WriteString(`<span class="waits"`)
		r.at(w, o)
		w.WriteString(`>waits for `)
		esc(w, strings.Join(o.Result.Waits, ", "))
		w.WriteString(`</span>`)
		return
	}
	err := o.Result.Err
	w.WriteString(`<span class="wrong" role="note"`)
	r.at(w, o)
	w.WriteString(`><code>`)
	esc(w, o.Line.Text)
	w.WriteString(`</code> <span class="why">`)
	esc(w, err.Message)
	if err.Hint != "" {
		w.WriteString(` — `)
		esc(w, err.Hint)
	}
	w.WriteString(`</span></span>`)
}

// Note writes, beside a value that was revised, what it was and until when.
func (r *Writer) Note(w *bytes.Buffer, o *kernel.Outcome) {
	if r.tried(o) {
		r.triedNote(w, o)
		return
	}
	if r.Kept[o.Ref] != nil || r.noted[o.Name] && o.Name != "" {
		return
	}
	was, ok := r.written(o)
	words := ` when this was written`
	if !ok && o.Before != nil && o.Before.Result.OK() && o.Result.OK() && o.Moved {
		was, ok, words = o.Before.Result.Value, true, ""
	}
	if !ok {
		return
	}
	if r.noted == nil {
		r.noted = map[string]bool{}
	}
	r.noted[o.Name] = true
	w.WriteString(`<small class="mnote"><b>`)
	esc(w, r.Style.Text(o.Result.Value))
	w.WriteString(`</b> was `)
	esc(w, r.Style.Text(was))
	w.WriteString(words)
	if o.Before != nil && o.Before.Until != nil {
		if words != "" {
			w.WriteByte(',')
		}
		w.WriteString(` until `)
		esc(w, r.when(*o.Before.Until))
	}
	w.WriteString(`.</small>`)
}

// triedNote says that a value is tried, and what it stands in place of.
func (r *Writer) triedNote(w *bytes.Buffer, o *kernel.Outcome) {
	kept := r.Kept[o.Ref]
	if !kept.OK() || !o.Result.OK() {
		return
	}
	w.WriteString(`<small class="mnote tried"><b>`)
	esc(w, r.Style.Text(o.Result.Value))
	if r.Yours != "" {
		w.WriteString(`</b> with your numbers; the journal says `)
	} else {
		w.WriteString(`</b> is tried, in place of `)
	}
	esc(w, r.Style.Text(kept.Value))
	w.WriteString(`.</small>`)
}

func (r *Writer) drawing(w *bytes.Buffer, v calc.Value) {
	d := v.X.Drawing
	if d == nil {
		return
	}
	w.WriteString(`<span class="drawing">`)
	w.WriteString(d.SVG(r.Style))
	w.WriteString(`</span>`)
}

// Slot writes a slot of the running text with its note in the margin; in a heading or
// a link, plain, the value alone.
func (r *Writer) Slot(w *bytes.Buffer, o *kernel.Outcome, plain bool) {
	r.marked(w, o, func() {
		r.Value(w, o, plain)
		if !plain {
			r.Note(w, o)
		}
	})
}

// Cell writes a cell of a data table as it is written, or what came in its place.
func (r *Writer) Cell(w *bytes.Buffer, o *kernel.Outcome) {
	r.marked(w, o, func() { r.cell(w, o) })
}

// marked writes a line inside a running text so that the browser build finds it.
func (r *Writer) marked(w *bytes.Buffer, o *kernel.Outcome, write func()) {
	if !r.Marks {
		write()
		return
	}
	w.WriteString("<span")
	r.mark(w, o)
	w.WriteByte('>')
	write()
	w.WriteString("</span>")
}

// mark writes the number of a line in its entry.
func (r *Writer) mark(w *bytes.Buffer, o *kernel.Outcome) {
	if r.Marks {
		w.WriteString(` data-line="` + strconv.Itoa(o.Ref.Index) + `"`)
	}
}

func (r *Writer) cell(w *bytes.Buffer, o *kernel.Outcome) {
	text := o.Line.Text
	if o.Displaced != nil && (o.Result.OK() || o.Line.Empty) {
		r.revisedCell(w, o, text)
		return
	}
	if o.Line.Empty {
		r.emptyCell(w, o)
		return
	}
	if st := o.Line.Stmt; !o.Result.OK() || st == nil || st.Expr == nil || st.Expr.Literal == nil || strings.HasPrefix(text, "\"") {
		r.Value(w, o, false)
		return
	}
	r.valueText(w, o, text, false)
}

// revisedCell writes what a cell was, what it was after that, and what it is now.
func (r *Writer) revisedCell(w *bytes.Buffer, o *kernel.Outcome, text string) {
	was, class := text, ""
	if o.Line.Empty {
		was, class = "—", ` class="missing"`
	}
	w.WriteString("<del" + class + ` title="until `)
	esc(w, r.when(o.Since()))
	w.WriteString(`">`)
	esc(w, was)
	w.WriteString(`</del> `)
	for i, x := range o.Steps {
		if o.Skipped > 0 && i == len(o.Steps)/2 {
			w.WriteString("… " + strconv.Itoa(o.Skipped) + " others … ")
		}
		if !x.Result.OK() {
			continue
		}
		w.WriteString(`<del title="until `)
		esc(w, r.when(*x.Until))
		w.WriteString(`">`)
		esc(w, cellText(x.Result.Value, r.Style, text))
		w.WriteString(`</del> `)
	}
	if o.Displaced.Result.OK() {
		now := *o
		now.Result, now.Kind, now.Ref = o.Displaced.Result, o.Displaced.Kind, o.Displaced.Ref
		r.valueText(w, &now, cellText(now.Result.Value, r.Style, text), false)
	}
}

// emptyCell writes a cell that was not measured yet; where values have cards, it has
// one too.
func (r *Writer) emptyCell(w *bytes.Buffer, o *kernel.Outcome) {
	if !r.Live || o.Name == "" {
		w.WriteString(`<span class="missing">—</span>`)
		return
	}
	w.WriteString(`<button class="v missing" type="button"`)
	r.at(w, o)
	w.WriteString(` aria-label="`)
	esc(w, calc.Words(o.Name)+", not yet measured")
	w.WriteString(`">—</button>`)
}

// cellText writes a revised value as its table writes its values.
func cellText(x calc.Value, style calc.Style, old string) string {
	if calc.LooksLikeOffset(old) && x.IsQuantity() && x.D == calc.DimLength {
		return calc.FormatOffset(x.V)
	}
	return style.Text(x)
}

func esc(w *bytes.Buffer, s string) { w.WriteString(html.EscapeString(s)) }
