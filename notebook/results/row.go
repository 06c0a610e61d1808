package results

import (
	"bytes"
	"html"
	"strconv"
	"strings"

	"scarph/calc"
	"scarph/calc/lang"
	"scarph/kernel"
)

// Hidden reports whether the page leaves a line out.
func (r *Writer) Hidden(o *kernel.Outcome) bool {
	if r.Public && o.Line.Private {
		return true
	}
	if o.Line.Stmt == nil {
		return false
	}
	switch o.Line.Stmt.Kind {
	case lang.Work:
		return r.hides("hours")
	case lang.Spend:
		return r.hides("money")
	case lang.Check:
		return r.hides("checks")
	}
	return false
}

// Row writes one statement of a calc block as a ruled row.
func (r *Writer) Row(w *bytes.Buffer, o *kernel.Outcome) {
	w.WriteString(`<div class="row`)
	if !o.Result.OK() {
		w.WriteString(" bad")
	}
	if o.Displaced != nil {
		w.WriteString(" displaced")
	}
	if r.Filled != nil && r.Kept[o.Ref] != nil {
		w.WriteString(" tried")
	}
	w.WriteByte('"')
	if id := "value-" + o.Name; o.Name != "" && !o.Line.Cell {
		if st := o.Line.Stmt; o.Displaced != nil || o.First != nil || st == nil || !st.Kind.IsReading() && st.Kind != lang.PartLine {
			id = "line-" + strconv.Itoa(o.Ref.Index) // the address of a name is that of the reading that counts
		}
		w.WriteString(` id="`)
		esc(w, r.IDPrefix+id)
		w.WriteByte('"')
	}
	r.mark(w, o)
	w.WriteString(`>`)
	if !o.Result.OK() {
		r.badRow(w, o)
		w.WriteString("</div>\n")
		return
	}
	w.WriteString(`<span class="what">`)
	r.what(w, o)
	w.WriteString(`</span>`)
	r.is(w, o)
	r.remarks(w, o)
	w.WriteString("</div>\n")
}

// badRow writes a statement that failed: the line as written with a caret under
// the place, the words and the hint; or what it waits for.
func (r *Writer) badRow(w *bytes.Buffer, o *kernel.Outcome) {
	err := o.Result.Err
	if err == nil {
		w.WriteString(`<span class="what"><code>`)
		text, _ := written(o.Line)
		esc(w, strings.TrimSpace(text))
		w.WriteString(`</code></span><span class="is">`)
		r.fault(w, o)
		w.WriteString(`</span>`)
		return
	}
	w.WriteString(`<div class="wrong" role="note"`)
	r.at(w, o)
	w.WriteString(`><pre>`)
	text, sealed := written(o.Line)
	esc(w, text)
	span := err.Span
	if !sealed && span.Start >= 0 && span.Start <= len(text) {
		end := min(max(span.End, span.Start+1), len(text))
		width := 1
		if end > span.Start {
			width = len([]rune(text[span.Start:end]))
		}
		w.WriteString("\n" + `<span class="caret">`)
		esc(w, Caret(text, len([]rune(text[:span.Start]))+1, width))
		w.WriteString(`</span>`)
	}
	w.WriteString(`</pre><p><b>`)
	esc(w, err.Message)
	w.WriteString(`.</b>`)
	if err.Hint != "" {
		w.WriteByte(' ')
		esc(w, err.Hint)
	}
	w.WriteString(`</p></div>`)
}

// written is a line as it may be read: what stands for a working that is not told is said
// to do so.
func written(l *kernel.Line) (text string, sealed bool) {
	text = l.Text
	if l.Stmt == nil {
		return text, false
	}
	exprs := l.Stmt.Exprs()
	for i := len(exprs) - 1; i >= 0; i-- {
		if e := exprs[i]; e.Sealed && e.Span.Start >= 0 && e.Span.End <= len(text) {
			text, sealed = text[:e.Span.Start]+lang.Untold+text[e.Span.End:], true
		}
	}
	return text, sealed
}

// what writes the left side of a row: the name in words, the kind, how it is
// worked out, the note.
func (r *Writer) what(w *bytes.Buffer, o *kernel.Outcome) {
	st := o.Line.Stmt
	switch st.Kind {
	case lang.Answer:
		esc(w, st.Expr.Text)
	case lang.Check:
		w.WriteString(`<span class="kind">check</span> `)
		esc(w, st.Expr.Text)
	case lang.Work, lang.Spend:
		esc(w, st.Name)
		w.WriteString(` <span class="kind">` + st.Kind.Word() + `</span>`)
	case lang.PartLine:
		esc(w, calc.Words(st.Name))
		w.WriteString(` <span class="kind">part`)
		if st.Wood != "" {
			esc(w, ", "+st.Wood)
		}
		w.WriteString(`</span>`)
	case lang.Stock:
		esc(w, "boards of "+st.Wood)
		w.WriteString(` <span class="kind">at hand</span>`)
	case lang.MadeLine:
		esc(w, calc.Words(st.Name))
		w.WriteString(` <span class="kind">made</span>`)
	case lang.Settle:
		esc(w, calc.Words(st.Name))
		w.WriteString(` <span class="kind">` + html.EscapeString(st.How) + `</span>`)
	default:
		esc(w, calc.Words(st.Name))
		w.WriteString(` <span class="kind">` + html.EscapeString(o.Kind) + `</span>`)
	}
	if text, filled := r.Session.LineFormula(o.Ref, r.AsOf, r.Style); text != "" && st.Kind.IsReading() {
		if r.Filled[o.Ref] != "" {
			filled = r.Filled[o.Ref]
		}
		w.WriteString(`<span class="how" title="`)
		esc(w, text)
		w.WriteString(`">`)
		esc(w, filled)
		w.WriteString(`</span>`)
	}
	if st.Note != "" {
		w.WriteString(`<span class="how note">`)
		esc(w, st.Note)
		w.WriteString(`</span>`)
	}
}

// is writes the right side of a row: the value, and the same in the other family.
func (r *Writer) is(w *bytes.Buffer, o *kernel.Outcome) {
	st := o.Line.Stmt
	v := o.Result.Value
	switch {
	case st.Kind == lang.Check:
		r.checkSide(w, o)
	case st.Kind == lang.PartLine || st.Kind == lang.Stock:
		w.WriteString(`<span class="is">`)
		esc(w, partText(v, r.Style))
		w.WriteString(`</span>`)
	case st.Kind == lang.MadeLine:
		r.madeSide(w, o)
	case st.Kind == lang.Settle:
		w.WriteString(`<span class="is">`)
		for i, it := range v.Items() {
			if i > 0 {
				w.WriteString(", ")
			}
			esc(w, r.Style.Text(it))
		}
		w.WriteString(`</span>`)
	case v.Kind() == calc.Picture:
		w.WriteString(`<span class="is wide">`)
		r.drawing(w, v)
		w.WriteString(`</span>`)
	case v.Kind() == calc.List || v.Kind() == calc.Record:
		r.many(w, o)
	default:
		w.WriteString(`<span class="is">`)
		r.Value(w, o, false)
		if e := r.Style.Echo(v); e != "" {
			w.WriteString(`<span class="also">`)
			esc(w, e)
			w.WriteString(`</span>`)
		}
		w.WriteString(`</span>`)
	}
}

// many writes the elements of a list or the fields of a record as a small ruled
// table under the row.
func (r *Writer) many(w *bytes.Buffer, o *kernel.Outcome) {
	v := o.Result.Value
	w.WriteString(`<span class="is count">`)
	r.valueText(w, o, countText(v), false)
	w.WriteString(`</span>`)
	r.elements(w, v, r.before(o))
}

// mostElements is how many elements of a list a page shows.
const mostElements = 60

// elements writes the elements of v, and beside those that differ what they were in
// before.
func (r *Writer) elements(w *bytes.Buffer, v, before calc.Value) {
	items, labels, old := v.Items(), v.Labels(), before.Items()
	if len(old) != len(items) { // another number of elements: none has one that it was
		before, old = calc.Value{}, make([]calc.Value, len(items))
	}
	w.WriteString(`<ol class="many">`)
	for i, it := range items {
		if i == mostElements {
			w.WriteString(`<li class="rest">and `)
			esc(w, r.Style.Text(calc.Number(float64(len(items)-mostElements))))
			w.WriteString(` more</li>`)
			break
		}
		whole := len(it.Items()) > 0 || it.Kind() == calc.Picture || it.Kind() == calc.Text && len(it.Text()) > 24
		if whole {
			w.WriteString(`<li class="whole">`)
		} else {
			w.WriteString(`<li>`)
		}
		if labels != nil {
			w.WriteString(`<span class="label">`)
			esc(w, calc.Words(labels[i]))
			w.WriteString(`</span> `)
		}
		switch {
		case len(it.Items()) > 0:
			r.elements(w, it, old[i])
		case it.Kind() == calc.Picture:
			r.drawing(w, it)
		default:
			w.WriteString(`<span class="n">`)
			text := r.Style.Text(it)
			esc(w, text)
			if before.Items() != nil && old[i].Kind() == it.Kind() && r.Style.Text(old[i]) != text {
				w.WriteString(` <small class="since">was `)
				esc(w, r.Style.Text(old[i]))
				w.WriteString(`</small>`)
			}
			w.WriteString(`</span>`)
		}
		w.WriteString(`</li>`)
	}
	w.WriteString(`</ol>`)
}

func countText(v calc.Value) string {
	n := len(v.Items())
	word := "values"
	if v.Kind() == calc.Record {
		word = "results"
	}
	return calc.Style{}.Text(calc.Number(float64(n))) + " " + word
}

// checkSide writes whether a check holds, by sign and word, with both sides. A
// result that carries a caution gets no tick.
func (r *Writer) checkSide(w *bytes.Buffer, o *kernel.Outcome) {
	holds := o.Result.Value.True()
	sign, word := "✗", "does not hold"
	class := "fails"
	if holds {
		sign, word, class = "✓", "holds", "holds"
	}
	if o.Result.Cautions != 0 {
		sign = ""
	}
	w.WriteString(`<span class="is check ` + class + `">`)
	if sign != "" {
		w.WriteString(`<span class="sign" aria-hidden="true">` + sign + `</span> `)
	}
	w.WriteString(word)
	if c := o.Check; c != nil && c.Left != nil && c.Left.OK() && c.Right.OK() {
		w.WriteString(`<span class="also">`)
		esc(w, r.sides(c))
		if withinSpread(c) {
			w.WriteString(`; the difference is no more than twice its ±`)
		}
		w.WriteString(`</span>`)
	}
	w.WriteString(`</span>`)
}

// withinSpread reports whether the two sides of a check differ by no more than twice
// the ± of their difference, so that the answer may turn with the next reading.
func withinSpread(c *kernel.Check) bool {
	d, err := calc.Sub(c.Left.Value.Plain(), c.Right.Value.Plain())
	return err == nil && d.IsQuantity() && d.Likely() > 0 && abs(d.V) <= 2*d.Likely()
}

// remarks writes what is to be said about a row: what displaced it, what it was
// before, warnings.
func (r *Writer) remarks(w *bytes.Buffer, o *kernel.Outcome) {
	if d := o.Displaced; d != nil && d.Result.OK() && r.isYours(d.Entry) {
		w.WriteString(`<p class="remark yours">your number: `)
		esc(w, r.Style.Text(d.Result.Value))
		w.WriteString(`</p>`)
	} else if d != nil && d.Result.OK() {
		w.WriteString(`<p class="remark">`)
		until := r.when(o.Since())
		for i, x := range o.Steps {
			if o.Skipped > 0 && i == len(o.Steps)/2 {
				esc(w, "until "+until+": then "+strconv.Itoa(o.Skipped)+" others; ")
				until = r.when(x.Entry)
			}
			if x.Result.OK() {
				esc(w, "until "+until+": then "+x.Kind+" "+r.Style.Text(x.Result.Value)+"; ")
				until = r.when(*x.Until)
			}
		}
		esc(w, "until "+until+": then "+d.Kind+" "+r.Style.Text(d.Result.Value))
		if o.Off != nil {
			esc(w, "; the sum was off by "+r.Style.Text(calc.Of(abs(o.Off.V), o.Off.D)))
		}
		w.WriteString(`</p>`)
	}
	if b := o.Before; b != nil && b.Result.OK() && o.Displaced == nil && o.Line.Stmt.Kind.IsReading() {
		w.WriteString(`<p class="remark">was `)
		esc(w, r.Style.Text(b.Result.Value)+" ("+b.Kind+", "+r.when(b.Entry)+")")
		w.WriteString(`</p>`)
	}
	r.changed(w, o)
	for _, t := range o.Result.Warnings {
		w.WriteString(`<p class="remark warn">`)
		esc(w, t)
		w.WriteString(`</p>`)
	}
}

// changed says what a row came to when it was written, or what the journal says where
// a reader's numbers moved it; of a list, element by element, see many.
func (r *Writer) changed(w *bytes.Buffer, o *kernel.Outcome) {
	was, words := calc.Value{}, ""
	if r.tried(o) {
		if o.Result.OK() && o.Result.Value.Kind() == calc.Picture {
			w.WriteString(`<p class="remark yours">drawn with your numbers</p>`)
			return
		}
		if kept := r.Kept[o.Ref]; kept.OK() {
			was, words = kept.Value, "the journal says "
		}
	} else if x, ok := r.written(o); ok && o.Displaced == nil {
		was, words = x, "when this was written: "
	}
	kind := o.Line.Stmt.Kind
	n, now := len(was.Items()), 0
	if o.Result.OK() {
		now = len(o.Result.Value.Items())
	}
	if words == "" || n > 0 && n == now && kind != lang.PartLine || was.Kind() == calc.Picture {
		return
	}
	text := ""
	switch {
	case kind == lang.PartLine:
		text = partText(was, r.Style)
	case n > 0:
		text = countText(was)
	case kind == lang.Check && was.True():
		text = "it holds"
	case kind == lang.Check:
		text = "it does not hold"
	default:
		text = r.Style.Text(was)
	}
	w.WriteString(`<p class="remark since">`)
	esc(w, words+text)
	w.WriteString(`</p>`)
}

// before is a list or record as it was when the line was written, or as the journal
// has it where a reader's numbers moved it; nothing when it is the same.
func (r *Writer) before(o *kernel.Outcome) calc.Value {
	if r.tried(o) {
		return r.Kept[o.Ref].Value
	}
	if was, ok := r.written(o); ok {
		return was
	}
	return calc.Value{}
}

func abs(v float64) float64 {
	if v < 0 {
		return -v
	}
	return v
}
