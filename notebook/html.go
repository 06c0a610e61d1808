package notebook

import (
	"bytes"
	"html"
	"strconv"
	"strings"

	"scarph/calc"
	"scarph/kernel"
	"scarph/notebook/markdown"
)

// Page says how entries are shown to a reader.
type Page struct {
	// AsOf is the order of the entry as of which values are shown; kernel.Now for
	// the journal as it stands.
	AsOf int
	// Live marks values with the places a script finds them by.
	Live bool
	// Public leaves out what is private.
	Public bool
	// Hide leaves out kinds of lines: money, hours, …
	Hide func(what string) bool
	// Href gives the address that tells more of a name, "" for none.
	Href func(name string) string
	// Link and Image rewrite addresses.
	Link, Image func(dest string) string
	// IDPrefix begins every id.
	IDPrefix string
	// WithoutTitle leaves out the heading that gave the entry its title.
	WithoutTitle bool
	// Results, if not nil, displaces the kernel's results: a what-if. Values that
	// it moves are marked as tried and not kept.
	Results map[kernel.LineRef]*kernel.Result
	// Style, if not nil, displaces the journal's way of showing quantities.
	Style *calc.Style
}

// style is how the page shows quantities.
func (p *Page) style(n *Notebook) calc.Style {
	if p.Style != nil {
		return *p.Style
	}
	return n.Session.Style()
}

// RenderEntry returns the HTML of an entry as its blocks at the top level, so that
// a page can replace only those that changed.
func (n *Notebook) RenderEntry(e *Entry, p Page) []string {
	r := n.renderer(e, p)
	return e.File.Doc.Render(e.Section, r, markdown.Options{IDPrefix: p.IDPrefix, WithoutTitle: p.WithoutTitle && e.titledByHeading(), Link: p.Link, Image: p.Image})
}

// RenderTitle returns the HTML of an entry's title.
func (n *Notebook) RenderTitle(e *Entry, p Page) string {
	if !e.titledByHeading() {
		return html.EscapeString(e.Title)
	}
	return e.File.Doc.RenderTitle(e.Section, n.renderer(e, p))
}

// PlainText returns the text of an entry with its values, for search and feeds.
func (n *Notebook) PlainText(e *Entry, p Page) string {
	return e.File.Doc.PlainText(e.Section, n.renderer(e, p))
}

func (n *Notebook) renderer(e *Entry, p Page) *renderer {
	if p.Hide == nil {
		p.Hide = func(string) bool { return false }
	}
	r := &renderer{n: n, e: e, p: p, style: p.style(n), out: n.Session.Outcomes(e.Key, p.AsOf)}
	if p.Results != nil {
		r.kept = map[kernel.LineRef]*kernel.Result{}
		for i := range r.out {
			if res, ok := p.Results[r.out[i].Ref]; ok {
				r.kept[r.out[i].Ref] = r.out[i].Result
				r.out[i].Result = res
			}
		}
	}
	return r
}

// renderer gives the HTML of results while an entry is rendered.
type renderer struct {
	n     *Notebook
	e     *Entry
	p     Page
	style calc.Style
	out   []kernel.Outcome
	// kept are, in a what-if, the results that stand in place of the tried ones.
	kept  map[kernel.LineRef]*kernel.Result
	noted map[string]bool // names that have their note in the margin
}

func (r *renderer) outcome(line int) *kernel.Outcome {
	if line < 0 || line >= len(r.out) {
		return nil
	}
	return &r.out[line]
}

// Slot writes the value of a slot.
func (r *renderer) Slot(w *bytes.Buffer, s *markdown.Slot) {
	line, ok := r.e.slots[s.Index]
	o := r.outcome(line)
	if !ok || o == nil {
		w.WriteString(html.EscapeString("{" + s.Text + "}"))
		return
	}
	if r.p.Public && o.Line.Private {
		return
	}
	r.value(w, o, s.InLink || s.InHeading)
	if !s.InLink && !s.InHeading {
		r.marginNote(w, o)
	}
}

// SlotText returns the value of a slot as plain text.
func (r *renderer) SlotText(s *markdown.Slot) string {
	line, ok := r.e.slots[s.Index]
	o := r.outcome(line)
	if !ok || o == nil {
		return "{" + s.Text + "}"
	}
	if r.p.Public && o.Line.Private {
		return ""
	}
	if !o.Result.OK() {
		return "{" + s.Text + "}"
	}
	return r.style.Text(o.Result.Value)
}

// Cell writes a cell of a data table.
func (r *renderer) Cell(w *bytes.Buffer, t *markdown.Table, row, col int) {
	line, ok := r.e.cells[t.Index][[2]int{row, col}]
	o := r.outcome(line)
	if !ok || o == nil || r.p.Public && o.Line.Private {
		return
	}
	if o.Line.Empty {
		w.WriteString(`<span class="missing">—</span>`)
		return
	}
	if o.Displaced != nil && o.Result.OK() {
		w.WriteString(`<del title="`)
		esc(w, "until "+when(o.Displaced.Entry))
		w.WriteString(`">`)
		esc(w, o.Line.Text)
		w.WriteString(`</del> `)
		if o.Displaced.Result.OK() {
			now := *o
			now.Result, now.Kind, now.Ref = o.Displaced.Result, o.Displaced.Kind, o.Displaced.Ref
			r.valueText(w, &now, cellText(now.Result.Value, r.style, o.Line.Text), false)
		}
		return
	}
	text := o.Line.Text
	if !o.Result.OK() || t.Cells[row][col].Slot != nil || strings.HasPrefix(text, "\"") {
		r.value(w, o, false)
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

// value writes a value in running text: a button or a link with the mark of its kind.
func (r *renderer) value(w *bytes.Buffer, o *kernel.Outcome, plain bool) {
	if !o.Result.OK() {
		r.fault(w, o)
		return
	}
	v := o.Result.Value
	if v.Kind() == calc.Picture && !plain {
		r.drawing(w, v)
		return
	}
	r.valueText(w, o, r.style.Text(v), plain)
}

func (r *renderer) valueText(w *bytes.Buffer, o *kernel.Outcome, text string, plain bool) {
	tag := "span"
	href := ""
	if !plain && r.p.Href != nil && o.Name != "" {
		if href = r.p.Href(o.Name); href != "" {
			tag = "a"
		}
	}
	if r.p.Live && !plain {
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
func (r *renderer) tried(o *kernel.Outcome) bool {
	kept := r.kept[o.Ref]
	return kept != nil && !(kept.OK() && o.Result.OK() && calc.Same(kept.Value, o.Result.Value))
}

// spoken is what a screen reader says of a value that can be activated: its name,
// the text that is shown, and how it came by it.
func (r *renderer) spoken(w *bytes.Buffer, o *kernel.Outcome, text string, tried bool) {
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
func (r *renderer) both(w *bytes.Buffer, v calc.Value, text string) {
	if r.p.Live || !v.IsQuantity() {
		return
	}
	if e := r.style.Echo(v); e != "" && v.D != calc.DimAngle {
		w.WriteString(` data-other="`)
		esc(w, e)
		w.WriteByte('"')
	}
}

// at marks the place of a line for a script.
func (r *renderer) at(w *bytes.Buffer, o *kernel.Outcome) {
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
func (r *renderer) hover(o *kernel.Outcome) string {
	var parts []string
	v := o.Result.Value
	if e := r.style.Echo(v); e != "" {
		parts = append(parts, e)
	}
	if v.IsQuantity() && v.D == calc.DimLength && r.style.System != calc.Metric {
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
func (r *renderer) fault(w *bytes.Buffer, o *kernel.Outcome) {
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

// marginNote writes, beside a value that was revised, what it was and until when.
func (r *renderer) marginNote(w *bytes.Buffer, o *kernel.Outcome) {
	if kept := r.kept[o.Ref]; kept != nil {
		if kept.OK() && o.Result.OK() && !calc.Same(kept.Value, o.Result.Value) {
			w.WriteString(`<small class="mnote tried"><b>`)
			esc(w, r.style.Text(o.Result.Value))
			w.WriteString(`</b> is tried, in place of `)
			esc(w, r.style.Text(kept.Value))
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
	esc(w, r.style.Text(o.Result.Value))
	w.WriteString(`</b> was `)
	esc(w, r.style.Text(o.Before.Result.Value))
	if b := r.until(o); b != "" {
		w.WriteString(` until `)
		esc(w, b)
	}
	w.WriteString(`.</small>`)
}

// until is the day on which the reading before was displaced.
func (r *renderer) until(o *kernel.Outcome) string {
	if h, ok := r.n.Session.History(o.Name, r.p.AsOf); ok {
		for _, x := range h.Readings {
			if x.Ref == o.Before.Ref && x.Until != nil {
				return when(*x.Until)
			}
		}
	}
	return ""
}

func (r *renderer) drawing(w *bytes.Buffer, v calc.Value) {
	d := v.X.Drawing
	if d == nil {
		return
	}
	w.WriteString(`<span class="drawing">`)
	w.WriteString(d.SVG(r.style))
	w.WriteString(`</span>`)
}

func esc(w *bytes.Buffer, s string) { w.WriteString(html.EscapeString(s)) }

// when names an entry's day: 21 February, or its title when it has no date.
func when(e kernel.EntryRef) string {
	if d := Day(e.Date); d != "" {
		return d
	}
	return e.Title
}

var months = [...]string{"January", "February", "March", "April", "May", "June", "July", "August", "September", "October", "November", "December"}

// Day writes an ISO date as people say it: 21 February 2027.
func Day(date string) string {
	if len(date) != 10 {
		return date
	}
	m, err := strconv.Atoi(date[5:7])
	if err != nil || m < 1 || m > 12 {
		return date
	}
	return strings.TrimPrefix(date[8:], "0") + " " + months[m-1] + " " + date[:4]
}
