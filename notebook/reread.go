package notebook

import (
	"sort"

	"scarph/calc"
	"scarph/calc/lang"
	"scarph/kernel"
	"scarph/notebook/markdown"
)

// rereading is a file that is being read, and the earlier version from which it takes
// over what did not change: the lines that stand before the change and those behind it
// are the same but for their places, and in between a statement is known by its text.
type rereading struct {
	*File
	before *File // nil for none: then all is changed
	change markdown.Change
	known  map[written]parsed
	parser lang.Parser
}

// written is the text of a line of a block, or of a slot.
type written struct {
	text string
	slot bool
}

// parsed is a statement that has been read, or why it could not be.
type parsed struct {
	stmt *lang.Stmt
	err  *calc.Error
}

// from reads the Markdown, and notes the statements that the earlier version had where it
// has changed.
func (r *rereading) from(before *File) {
	if before == nil {
		r.Doc, r.change = markdown.Parse(r.Src), markdown.Change{To: len(r.Src) + 1}
		return
	}
	r.before = before
	r.Doc, r.change = before.Doc.Reparse(r.Src)
	for _, e := range r.before.entries {
		for i := e.firstFrom(r.change.From); i < e.firstFrom(r.change.To-r.change.Moved); i++ {
			if l := &e.lines[i]; !l.Cell {
				r.known[written{l.Text, l.Slot}] = parsed{l.Stmt, l.Err}
			}
		}
	}
}

// lineStarts lists where the lines of the file begin.
func (r *rereading) lineStarts() []int {
	if r.before == nil {
		return appendStarts([]int{0}, r.Src, 0, len(r.Src))
	}
	was := r.before.starts
	starts := make([]int, max(1, sort.SearchInts(was, r.change.From+1)), len(was)+8) // the first line begins at 0
	copy(starts, was)
	starts = appendStarts(starts, r.Src, starts[len(starts)-1], min(r.change.To, len(r.Src)))
	for _, s := range was[sort.SearchInts(was, r.change.To-r.change.Moved+1):] {
		starts = append(starts, s+r.change.Moved)
	}
	return starts
}

// statement reads a line of a block.
func (r *rereading) statement(text string) parsed {
	return r.parse(written{text: text}, r.parser.Parse)
}

// slot reads what stands in the braces of a slot.
func (r *rereading) slot(text string) parsed {
	return r.parse(written{text, true}, r.parser.ParseSlot)
}

func (r *rereading) parse(w written, parse func(string) (*lang.Stmt, *calc.Error)) parsed {
	p, ok := r.known[w]
	if !ok {
		p.stmt, p.err = parse(w.text)
		r.known[w] = p
	}
	return p
}

// changed reports whether what begins at an offset is to be read.
func (r *rereading) changed(at int) bool { return r.change.From <= at && at < r.change.To }

// run is lines of an entry that follow one another.
type run struct {
	lines []kernel.Line
	spans []calc.Span
}

// head is what section i begins with from before the change.
func (r *rereading) head(i int) run {
	if r.Doc.Sections[i].Span.Start >= r.change.From {
		return run{}
	}
	e := r.before.entries[i]
	n := e.firstFrom(r.change.From)
	return run{e.lines[:n:n], e.spans[:n:n]}
}

// tail is what section i ends with from behind the change, as it stands now.
func (r *rereading) tail(i int) run {
	if r.Doc.Sections[i].Span.End <= r.change.To {
		return run{}
	}
	e := r.before.entries[i+len(r.before.entries)-len(r.Doc.Sections)]
	from := e.firstFrom(r.change.To - r.change.Moved)
	z := run{e.lines[from:], make([]calc.Span, len(e.spans)-from)}
	for k, s := range e.spans[from:] {
		z.spans[k] = s.Shift(r.change.Moved)
	}
	if down := r.lineOf(r.change.To) - r.before.lineOf(r.change.To-r.change.Moved); down != 0 {
		z.lines = append([]kernel.Line(nil), z.lines...)
		for k := range z.lines {
			z.lines[k].Place.Line += down
		}
	}
	return z
}

// with puts another run behind this one. Where one of them is empty, the other stays the
// very same.
func (a run) with(b run) run {
	switch {
	case len(b.lines) == 0:
		return a
	case len(a.lines) == 0:
		return b
	}
	z := run{make([]kernel.Line, 0, len(a.lines)+len(b.lines)), make([]calc.Span, 0, len(a.spans)+len(b.spans))}
	return run{append(append(z.lines, a.lines...), b.lines...), append(append(z.spans, a.spans...), b.spans...)}
}

// firstFrom is the first line of the entry that begins at an offset or behind it.
func (e *Entry) firstFrom(at int) int {
	return sort.Search(len(e.spans), func(i int) bool { return e.spans[i].Start >= at })
}

// lineOf is the line that stands at a span of the file.
func (e *Entry) lineOf(s calc.Span) (int, bool) {
	i := e.firstFrom(s.Start)
	return i, i < len(e.spans) && e.spans[i] == s
}

// cellLine is the line of a cell of a data table. The cells that a short row lacks all
// stand at its end, one after another.
func (e *Entry) cellLine(t *markdown.Table, row, col int) (int, bool) {
	cells := t.Cells[row]
	at := cells[col].Span
	if s := cells[col].Slot; s != nil {
		at = s.Span
	}
	i := e.firstFrom(at.Start)
	for k := range col {
		if cells[k].Span == at && t.Columns[k].Name != "" {
			i++
		}
	}
	return i, i < len(e.spans) && e.spans[i] == at && e.lines[i].Cell
}
