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
	r.both(w, o.Result.Value, text)
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

// both writes the text in either family as attributes, so that a reader can switch
// without the engine.
func (r *Writer) both(w *bytes.Buffer, v calc.Value, text string) {
	if r.Live || !v.IsQuantity() {
		return
	}
	if e := r.Style.Echo(v); e != "" && v.D != calc.DimAngle {
		w.WriteString(` data-other="`)
		esc(w, e)
		w.WriteByte('"')
	}
}

// at marks the place of a line for a script.
func (r *Writer) at(w *bytes.Buffer, o *kernel.Outcome) {
	w.WriteString(` data-at="`)
	esc(w, o.Ref.Entry+"|"+strconv.Itoa(o.Ref.Index))
	w.WriteByte('"')
	if o.Name != "" {
		w.WriteString(` data-name="`)
		esc(w, o.Name)
		w.WriteByte('"')
	}
}

// hover is the short text that a pointer shows: the other family, what is left
// over, the kind.
func (r *Writer) hover(o *kernel.Outcome) string {
	var parts []string
	v := o.Result.Value
	if e := r.Style.Echo(v); e != "" {
		parts = append(parts, e)
	}
	if v.IsQuantity() && v.D == calc.DimLength && r.Style.System != calc.Metric {
		parts = append(parts, calc.Style{}.Text(v.Shown(decimalInches)))
	}
	if o.Name != "" {
		parts = append(parts, calc.Words(o.Name)+", "+o.Kind)
	}
	return strings.Join(parts, " · ")
}

var decimalInches = calc.InUnit("in")

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
	if kept := r.Kept[o.Ref]; kept != nil {
		if kept.OK() && o.Result.OK() && !calc.Same(kept.Value, o.Result.Value) {
			w.WriteString(`<small class="mnote tried"><b>`)
			esc(w, r.Style.Text(o.Result.Value))
			w.WriteString(`</b> is tried, in place of `)
			esc(w, r.Style.Text(kept.Value))
			w.WriteString(`.</small>`)
		}
		return
	}
	if o.Before == nil || !o.Before.Result.OK() || !o.Result.OK() || !o.Moved || r.noted[o.Name] {
		return
	}
	if r.noted == nil {
		r.noted = map[string]bool{}
	}
	r.noted[o.Name] = true
	w.WriteString(`<small class="mnote"><b>`)
	esc(w, r.Style.Text(o.Result.Value))
	w.WriteString(`</b> was `)
	esc(w, r.Style.Text(o.Before.Result.Value))
	if b := r.until(o); b != "" {
		w.WriteString(` until `)
		esc(w, b)
	}
	w.WriteString(`.</small>`)
}

// until is the day on which the reading before was displaced.
func (r *Writer) until(o *kernel.Outcome) string {
	if h, ok := r.Session.History(o.Name, r.AsOf); ok {
		for _, x := range h.Readings {
			if x.Ref == o.Before.Ref && x.Until != nil {
				return When(*x.Until)
			}
		}
	}
	return ""
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

// Cell writes a cell of a data table as it is written, or what came in its place.
func (r *Writer) Cell(w *bytes.Buffer, o *kernel.Outcome) {
	if o.Line.Empty {
		w.WriteString(`<span class="missing">—</span>`)
		return
	}
	text := o.Line.Text
	if o.Displaced != nil && o.Result.OK() {
		w.WriteString(`<del title="`)
		esc(w, "until "+When(o.Displaced.Entry))
		w.WriteString(`">`)
		esc(w, text)
		w.WriteString(`</del> `)
		if o.Displaced.Result.OK() {
			now := *o
			now.Result, now.Kind, now.Ref = o.Displaced.Result, o.Displaced.Kind, o.Displaced.Ref
			r.valueText(w, &now, cellText(now.Result.Value, r.Style, text), false)
		}
		return
	}
	if st := o.Line.Stmt; !o.Result.OK() || st == nil || st.Expr == nil || st.Expr.Literal == nil || strings.HasPrefix(text, "\"") {
		r.Value(w, o, false)
		return
	}
	r.valueText(w, o, text, false)
}

// cellText writes a revised value as its table writes its values.
func cellText(x calc.Value, style calc.Style, old string) string {
	if calc.LooksLikeOffset(old) && x.IsQuantity() && x.D == calc.DimLength {
		return calc.FormatOffset(x.V)
	}
	return style.Text(x)
}

func esc(w *bytes.Buffer, s string) { w.WriteString(html.EscapeString(s)) }
