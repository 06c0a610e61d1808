package notebook

import (
	"cmp"
	"html"
	"path"
	"slices"
	"strconv"
	"strings"

	"scarph/calc"
	"scarph/calc/lang"
	"scarph/kernel"
	"scarph/notebook/markdown"
)

// Entry is one dated piece of the journal: a file, or a dated section of one.
type Entry struct {
	Key      string // the file's path, with #n for later sections
	Slug     string // for addresses: the path without its ending, or the date
	Title    string
	Date     string
	Summary  string
	Subjects []string
	Draft    bool
	Private  bool
	Front    bool // the title page
	File     *File
	Section  *markdown.Section

	said   string // the title by which the kernel speaks of the entry
	lines  []kernel.Line
	spans  []calc.Span // of each line, in the file
	tables []kernel.Table
	seals  map[int][]lang.Seal // of a published line, the values whose working is not told
}

// Span is where a line of the entry stands in its file.
func (e *Entry) Span(line int) calc.Span { return e.spans[line] }

// titledByHeading reports whether the title is the heading that the entry begins
// with, and not the front matter's or a heading further down.
func (e *Entry) titledByHeading() bool {
	h := e.Section.Heading
	if h == nil || e.Title != e.Section.Title {
		return false
	}
	if e.Section.Date != "" {
		return true
	}
	from := max(e.Section.Span.Start, 0)
	if f := e.File.Doc.FrontMatter; f.End > from {
		_, from = e.File.lineAround(f.End)
		_, from = e.File.lineAround(min(from+1, len(e.File.Src)))
	}
	for _, c := range e.File.Src[min(from, h.Span.Start):h.Span.Start] {
		if c != ' ' && c != '\n' && c != '\r' && c != '#' && c != '-' && c != '\t' && c < 0x80 {
			return false
		}
	}
	return true
}

// Lines counts the statements, slots and cells of the entry.
func (e *Entry) Lines() int { return len(e.lines) }

// entriesOf makes the entries of the file. Those whose head cannot be understood are
// private; of the title page's that is known before.
func (r *rereading) entriesOf(front bool, faulty doubt) ([]*Entry, []Diagnostic) {
	f := r.File
	var head entryFront
	var probs []Diagnostic
	head.Private = faulty.kept
	if !front {
		probs, faulty = f.readFront(&head)
		head.Private = head.Private || faulty.odd
	}
	stray := f.hiddenHead()
	probs = append(probs, stray...)
	settings := f.straySettings()
	if len(stray) == 0 {
		probs = append(probs, settings...)
	}
	if stray == nil && len(within(settings, f.Doc.Sections[0].Span)) > 0 {
		stray = settings // what stands before all dated headings is about the whole file
	}
	if front && settings != nil {
		f.settings.Hide = hideable
	}
	for _, p := range f.Doc.Problems {
		probs = append(probs, f.diagnose(p.Span, p.Code, p.Message, p.Hint))
	}
	base := f.base()
	date, slips := f.dayOf(head.Date, front)
	probs = append(probs, slips...)
	var list []*Entry
	onDay := map[string]int{} // sections so far, by their day
	for i, s := range f.Doc.Sections {
		e := &Entry{Key: f.Path, Title: s.Title, Date: s.Date, Draft: head.Draft, Private: head.Private, Subjects: head.Subjects, Summary: head.Summary, File: f, Section: s, Front: front && i == 0 && s.Date == ""}
		e.Slug = strings.TrimSuffix(f.Path, path.Ext(f.Path))
		if i > 0 || s.Date != "" {
			e.Key += "#" + s.Date
			if i > 0 {
				e.Slug += "-" + s.Date
			}
			again := onDay[s.Date]
			onDay[s.Date]++
			e.Key += oneOf("'", again)
			e.Slug += oneOf("b", again)
		}
		if e.Date == "" {
			e.Date = date
		}
		if head.Title != "" && s.Date == "" {
			e.Title = head.Title
		}
		if e.Title == "" {
			e.Title = strings.Trim(strings.TrimPrefix(base, date), "- _")
			e.Title = strings.ReplaceAll(e.Title, "-", " ")
		}
		if e.Title == "" {
			e.Title = e.Date
		}
		e.said = e.saidTitle()
		e.Private = e.Private || stray != nil || within(settings, s.Span) != nil
		probs = append(probs, e.read(r, i)...)
		list = append(list, e)
	}
	return list, probs
}

// oneOf tells apart what would bear one name: the second gets a sign, the third two, and
// where there are many the sign and a number.
func oneOf(sign string, before int) string {
	if before <= 3 {
		return strings.Repeat(sign, before)
	}
	return sign + strconv.Itoa(before)
}

// piece is a line of the entry before it has its place.
type piece struct {
	at   calc.Span
	line kernel.Line
}

// read gathers the statements, slots and cells of the entry, which is section i, in the
// order in which they stand in the file.
func (e *Entry) read(r *rereading, i int) []Diagnostic {
	var pieces []piece
	for _, b := range e.Section.Blocks {
		if !r.changed(b.Span.Start) {
			continue
		}
		for _, l := range b.Lines {
			p := r.statement(l.Text)
			if p.stmt == nil && p.err == nil {
				continue // an empty line, or a note alone
			}
			k := r.line(l.Text, l.Span, p)
			k.Private = b.Private
			pieces = append(pieces, piece{l.Span, k})
		}
	}
	inCell := map[int]bool{}
	var probs []Diagnostic
	for _, t := range e.Section.Tables {
		if d, ok := e.declare(t); !ok {
			probs = append(probs, d)
		} else if r.changed(t.Span.Start) {
			pieces = append(pieces, e.readTable(r, t, inCell)...)
		}
	}
	for _, s := range e.Section.Slots {
		if inCell[s.Index] || !r.changed(s.Span.Start) {
			continue
		}
		k := r.line(s.Text, s.Span, r.slot(s.Text))
		k.Slot = true
		pieces = append(pieces, piece{s.Span, k})
	}
	fresh := run{make([]kernel.Line, len(pieces)), make([]calc.Span, len(pieces))}
	for i, n := range inOrder(pieces) {
		fresh.lines[i], fresh.spans[i] = pieces[n].line, pieces[n].at
	}
	all := r.head(i).with(fresh).with(r.tail(i))
	e.lines, e.spans = all.lines, all.spans
	return probs
}

// inOrder lists the pieces by where they begin. Their numbers are sorted rather than
// they themselves, which are large.
func inOrder(pieces []piece) []int {
	list := make([]int, len(pieces))
	for i := range list {
		list[i] = i
	}
	slices.SortFunc(list, func(a, b int) int {
		return cmp.Or(pieces[a].at.Start-pieces[b].at.Start, a-b)
	})
	return list
}

// declare adds a data table to those of the entry; where its name is none, it says so.
func (e *Entry) declare(t *markdown.Table) (Diagnostic, bool) {
	if err := lang.ValidName(t.Name, t.NameSpan); err != nil {
		return e.File.diagnose(t.NameSpan, err.Code, err.Message, err.Hint), false
	}
	z := kernel.Table{Name: t.Name, Place: e.File.place(t.NameSpan.Start)}
	for _, c := range t.Columns {
		if c.Name != "" {
			z.Columns = append(z.Columns, c.Name)
		}
	}
	for _, r := range t.Rows {
		if r.Name != "" {
			z.Rows = append(z.Rows, r.Name)
		}
	}
	e.tables = append(e.tables, z)
	return Diagnostic{}, true
}

// readTable makes a reading of each cell of a data table.
func (e *Entry) readTable(r *rereading, t *markdown.Table, inCell map[int]bool) []piece {
	kind, _ := lang.KindOf(t.Kind)
	var list []piece
	for ri, row := range t.Rows {
		if row.Name == "" {
			continue
		}
		for ci, c := range t.Columns {
			if c.Name == "" || ci >= len(t.Cells[ri]) {
				continue
			}
			cell := t.Cells[ri][ci]
			name := t.Name + "." + row.Name + "." + c.Name
			where := cell.Span
			if cell.Slot != nil { // the statement is what stands between the braces
				where = cell.Slot.Span
				inCell[cell.Slot.Index] = true
			}
			k := r.line(string(r.Src[where.Start:where.End]), where, r.readCell(kind, name, &cell, t.BareUnit(ri, ci)))
			k.Cell = true
			k.Empty = lang.EmptyCell(cell.Text)
			list = append(list, piece{where, k})
		}
	}
	return list
}

// readCell reads the text of a cell.
func (r *rereading) readCell(kind lang.Kind, name string, c *markdown.Cell, unit string) parsed {
	if c.Slot == nil || lang.EmptyCell(c.Text) {
		st, err := lang.ParseCell(kind, name, c.Text, unit)
		return parsed{stmt: st, err: err}
	}
	p := r.slot(c.Slot.Text)
	if p.err != nil {
		return p
	}
	s := *p.stmt
	s.Kind, s.Name = kind, name
	return parsed{stmt: &s}
}

func cellLiteral(text, unit string) (calc.Literal, *calc.Error) { return lang.CellLiteral(text, unit) }

// saidTitle is the title by which the kernel speaks of the entry: its slots, whose values
// the kernel is yet to work out, stand as dots.
func (e *Entry) saidTitle() string {
	if e.Section.Heading == nil || e.Title != e.Section.Title || len(e.Section.Slots) == 0 {
		return e.Title
	}
	return html.UnescapeString(e.File.Doc.RenderTitle(e.Section, dotted{}))
}

// dotted gives a dot for each slot of a title.
type dotted struct{ markdown.Results }

func (dotted) SlotText(*markdown.Slot) string { return "…" }
