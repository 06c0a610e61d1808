package notebook

import (
	"bytes"
	"html"
	"strings"

	"scarph/calc"
	"scarph/kernel"
	"scarph/notebook/markdown"
	"scarph/notebook/results"
)

// Page says how entries are shown to a reader.
type Page struct {
	// AsOf is the order of the entry as of which values are shown; kernel.Now for
	// the journal as it stands.
	AsOf int
	// Live marks values with the places a script finds them by.
	Live bool
	// Series shows a page of the published series: lines are marked for the browser
	// build, and values that have changed since their entry say so.
	Series bool
	// Public leaves out what is private.
	Public bool
	// Hide leaves out kinds of lines: money, hours, …
	Hide func(what string) bool
	// Href gives the address that tells more of a name, "" for none.
	Href func(name string) string
	// Entry gives the address of an entry, and in it of the row that names a value;
	// History that of all readings of a value.
	Entry   func(key, name string) string
	History func(name string) string
	// List gives the address of one of the lists; it may be nil.
	List func(name string) string
	// Link and Image rewrite addresses.
	Link, Image func(dest string) string
	Picture     func(dest string) markdown.Picture
	// IDPrefix begins every id.
	IDPrefix string
	// WithoutTitle leaves out the heading that gave the entry its title.
	WithoutTitle bool
	// Tried, if not nil, are the lines under a what-if. Values that it moves are marked as
	// tried and not kept.
	Tried map[kernel.LineRef]kernel.Tried
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
	return e.File.Doc.Render(e.Section, r, markdown.Options{IDPrefix: p.IDPrefix, WithoutTitle: p.WithoutTitle && e.titledByHeading(), Link: p.Link, Image: p.Image, Picture: p.Picture})
}

// RenderTitle returns the HTML of an entry's title.
func (n *Notebook) RenderTitle(e *Entry, p Page) string {
	if e.Section.Heading == nil || e.Title != e.Section.Title {
		return html.EscapeString(e.Title)
	}
	return e.File.Doc.RenderTitle(e.Section, n.renderer(e, p))
}

// RenderHeading returns the HTML of an entry's title as it stands in its page: with the
// markup of its heading, and values like those of the text.
func (n *Notebook) RenderHeading(e *Entry, p Page) string {
	if !e.titledByHeading() {
		return html.EscapeString(e.Title)
	}
	return e.File.Doc.RenderHeading(e.Section, n.renderer(e, p), markdown.Options{Link: p.Link, Image: p.Image, Picture: p.Picture})
}

// RenderList returns the HTML of one of the journal's lists: dimensions, cutlist,
// rework, checks, ledger, history.
func (n *Notebook) RenderList(name string, p Page) string {
	var w bytes.Buffer
	n.writer(p).List(&w, name, n.buying())
	return w.String()
}

// PlainText returns the text of an entry with its values, for search and feeds.
func (n *Notebook) PlainText(e *Entry, p Page) string {
	return e.File.Doc.PlainText(e.Section, n.renderer(e, p))
}

// writer writes results as the page shows them.
func (n *Notebook) writer(p Page) *results.Writer {
	return &results.Writer{Session: n.Session, Style: p.style(n), AsOf: p.AsOf, Live: p.Live, Marks: p.Series, Public: p.Public, Hide: p.Hide, Href: p.Href, Entry: p.Entry, History: p.History, ListAt: p.List, IDPrefix: p.IDPrefix}
}

func (n *Notebook) renderer(e *Entry, p Page) *renderer {
	r := &renderer{Writer: n.writer(p), e: e, out: n.Session.Outcomes(e.Key, p.AsOf), published: n.published}
	if p.Series && len(r.out) > 0 {
		r.Then = n.Session.Outcomes(e.Key, r.out[0].Entry.Number-1)
	}
	if p.Tried != nil {
		r.Kept, r.Filled = map[kernel.LineRef]*kernel.Result{}, map[kernel.LineRef]string{}
		for i := range r.out {
			o := &r.out[i]
			if z, ok := p.Tried[o.Ref]; ok {
				r.Kept[o.Ref], r.Filled[o.Ref] = o.Result, z.Filled
				*o = z.Outcome
			}
		}
	}
	return r
}

// renderer gives the results of an entry's slots, blocks and cells while the entry
// is rendered.
type renderer struct {
	*results.Writer
	e   *Entry
	out []kernel.Outcome
	// published is set where slots without a line say what readers may not know.
	published bool
}

func (r *renderer) outcome(line int) *kernel.Outcome {
	if line < 0 || line >= len(r.out) {
		return nil
	}
	return &r.out[line]
}

// Slot writes the value of a slot.
func (r *renderer) Slot(w *bytes.Buffer, s *markdown.Slot) {
	line, ok := r.e.lineOf(s.Span)
	o := r.outcome(line)
	if !ok || o == nil {
		r.unsaid(w, s)
		return
	}
	if r.Public && o.Line.Private {
		return
	}
	r.Writer.Slot(w, o, s.InLink || s.InHeading)
}

// unsaid writes what stands for a slot without a line: in what is published, one that
// would say what is private.
func (r *renderer) unsaid(w *bytes.Buffer, s *markdown.Slot) {
	if r.published {
		w.WriteString(`<span class="unsaid">not told</span>`)
		return
	}
	w.WriteString(html.EscapeString("{" + s.Text + "}"))
}

// SlotText returns the value of a slot as plain text.
func (r *renderer) SlotText(s *markdown.Slot) string {
	line, ok := r.e.lineOf(s.Span)
	o := r.outcome(line)
	if (!ok || o == nil) && r.published {
		return "…"
	}
	if !ok || o == nil {
		return "{" + s.Text + "}"
	}
	if r.Public && o.Line.Private {
		return ""
	}
	if !o.Result.OK() {
		return "{" + s.Text + "}"
	}
	return r.Style.Text(o.Result.Value)
}

// Cell writes a cell of a data table.
func (r *renderer) Cell(w *bytes.Buffer, t *markdown.Table, row, col int) {
	line, ok := r.e.cellLine(t, row, col)
	o := r.outcome(line)
	if !ok || o == nil || r.Public && o.Line.Private {
		return
	}
	r.Writer.Cell(w, o)
}

// CellText returns a cell of a data table as plain text.
func (r *renderer) CellText(t *markdown.Table, row, col int) string {
	line, ok := r.e.cellLine(t, row, col)
	o := r.outcome(line)
	switch {
	case ok && o != nil && (o.Line.Empty || r.Public && o.Line.Private), (!ok || o == nil) && r.published:
		return ""
	case !ok || o == nil || !o.Result.OK():
		return t.Cells[row][col].Text
	}
	return r.Style.Text(o.Result.Value)
}

// Block writes a calc block as working: a ruled row for each statement, what it is on
// the left and what it came to on the right, in both families.
func (r *renderer) Block(w *bytes.Buffer, b *markdown.Block) {
	var rows bytes.Buffer
	cautions := uint8(0)
	for i := range b.Lines {
		line, ok := r.e.lineOf(b.Lines[i].Span)
		if !ok {
			if note, ok := strings.CutPrefix(strings.TrimSpace(b.Lines[i].Text), "#"); ok && r.told(b, note) {
				rows.WriteString(`<p class="aside">` + html.EscapeString(strings.TrimSpace(note)) + "</p>\n")
			}
			continue
		}
		o := r.outcome(line)
		if o == nil || r.Hidden(o) {
			continue
		}
		r.Row(&rows, o)
		if o.Result.OK() {
			cautions |= o.Result.Cautions
		}
	}
	if rows.Len() == 0 {
		return
	}
	w.WriteString(`<div class="working">` + "\n")
	w.Write(rows.Bytes())
	results.Cautions(w, cautions)
	w.WriteString("</div>\n")
}

// told reports whether a note that stands alone in a block is for readers.
func (r *renderer) told(b *markdown.Block, note string) bool {
	if !r.Public && !r.published {
		return true
	}
	return !r.e.Private && !b.Private && !(r.Hide != nil && r.Hide("money") && namesMoney(note))
}

func when(e kernel.EntryRef) string { return results.When(e) }

// Day writes an ISO date as people say it: 21 February 2027.
func Day(date string) string { return results.Day(date) }
