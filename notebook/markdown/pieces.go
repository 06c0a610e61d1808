package markdown

import (
	"bytes"

	"github.com/yuin/goldmark/ast"

	"scarph/calc"
)

// Change says what Reparse took over: all that was found before From and from To on is
// what the earlier version had, that from To on moved by Moved bytes. Both are offsets of
// the new text; To lies beyond its end when all behind From was read.
type Change struct{ From, To, Moved int }

// Pieces are cut from texts that are long enough for it to matter, and have this length
// at least, so that what each of them costs does not add up.
const (
	leastText  = 16 << 10
	leastPiece = 2 << 10
)

// stretch is a piece of a body that is read by itself: neither what stands before it nor
// what follows bears on what is found in it.
type stretch struct {
	length int
	first  int       // length of its first line
	doc    *Document // what was found; offsets count from the beginning of the piece
	cells  int       // of its data tables
}

// Reparse reads a later version of the file. Of a long one only the pieces that have
// changed are read, and what was found in the others is moved to where it stands now; the
// document is that of Parse all the same.
//
// A piece begins with a heading or a fence that begins in the first column and stands in
// nothing else. Such a line ends whatever was open before it, so the text may be cut
// there. Link definitions and footnotes bear on the whole of a file: one that has any is
// read whole.
func (d *Document) Reparse(src []byte) (*Document, Change) {
	if len(src) >= leastText {
		if z, c, ok := d.reparse(src, leastPiece); ok {
			return z, c
		}
	}
	return Parse(src), Change{To: len(src) + 1, Moved: len(src) - len(d.Source)}
}

func (before *Document) reparse(src []byte, least int) (*Document, Change, bool) {
	d := &Document{Source: src}
	if len(src) > MaxBytes {
		return nil, Change{}, false
	}
	d.base = d.readFrontMatter()
	d.body = src[d.base:]
	if bytes.Contains(d.body, []byte("]:")) {
		return nil, Change{}, false
	}
	c := d.cut(before, least)
	if !bytes.Equal(before.Source[:before.base], src[:d.base]) {
		c = Change{To: len(src) + 1, Moved: len(src) - len(before.Source)}
	}
	cells := 0
	for _, p := range d.pieces {
		cells += p.cells
	}
	if cells > maxCells {
		return nil, Change{}, false
	}
	d.join()
	return d, c, true
}

// cut makes the pieces of a body, those that have not changed since before taken over.
func (d *Document) cut(before *Document, least int) Change {
	head, tail := commonEnds(before.body, d.body)
	moved := len(d.body) - len(before.body)
	at, k := 0, 0 // the offset reached, and the piece of before that begins there
	for ; k+1 < len(before.pieces); k++ {
		end := at + before.pieces[k].length
		if end+before.pieces[k+1].first > head {
			break
		}
		at = end
	}
	d.pieces = append(make([]stretch, 0, len(before.pieces)+8), before.pieces[:k]...)
	from, was, to := at, at, len(d.body)+1
	for at < len(d.body) {
		for k < len(before.pieces) && was+moved < at {
			was += before.pieces[k].length
			k++
		}
		if k < len(before.pieces) && was+moved == at && at >= len(d.body)-tail {
			d.pieces = append(d.pieces, before.pieces[k:]...)
			to = at
			break
		}
		p := d.readPiece(at, least, func(cut int) bool { return cut >= len(d.body)-tail && before.beginsPiece(k, was, cut-moved) })
		d.pieces = append(d.pieces, p)
		at += p.length
	}
	return Change{From: d.base + from, To: d.base + to, Moved: d.base + moved - before.base}
}

// beginsPiece reports whether a piece begins at an offset of the body; piece k is known
// to begin at was.
func (d *Document) beginsPiece(k, was, at int) bool {
	for ; k < len(d.pieces) && was < at; k++ {
		was += d.pieces[k].length
	}
	return k < len(d.pieces) && was == at
}

// readPiece reads the piece that begins at an offset of the body. It has the least length,
// or ends where known says that one began before.
func (d *Document) readPiece(at, least int, known func(cut int) bool) stretch {
	fence := "" // the signs that opened the fence around a line, as far as one can tell
	for next := d.nextLine(at); ; {
		for next < len(d.body) {
			line := d.body[next:d.nextLine(next)]
			begins := mayBegin(line, &fence)
			if begins && next-at >= least || next-at > 0 && len(line) > 0 && isCutSign(line[0]) && known(next) {
				break
			}
			next += len(line)
		}
		if p, ok := d.tryPiece(at, next); ok {
			return p
		}
		least = max(least, 2*(next-at)) // it goes on: a further place is tried, at a cost that does not add up
		next = d.nextLine(next)
	}
}

func isCutSign(c byte) bool { return c == '#' || c == '`' || c == '~' }

// mayBegin reports whether a line looks like one that begins a piece, and follows the
// fences. Whether it does so is for the parser to say.
func mayBegin(line []byte, fence *string) bool {
	line = bytes.TrimRight(line, " \t\r\n")
	if len(line) == 0 || !isCutSign(line[0]) {
		return false
	}
	signs := string(line[:len(line)-len(bytes.TrimLeft(line, string(line[:1])))])
	switch {
	case *fence != "":
		if len(signs) == len(line) && len(signs) >= len(*fence) && signs[0] == (*fence)[0] {
			*fence = ""
		}
		return false
	case line[0] == '#':
		return true
	case len(signs) < 3:
		return false
	}
	*fence = signs
	return true
}

// tryPiece reads the body from at to end. The line at end is read along with it: false is
// returned when that line does not begin a block of its own.
func (d *Document) tryPiece(at, end int) (stretch, bool) {
	text := bytes.Clone(d.body[at:d.nextLine(end)])
	p := &Document{Source: text, body: text, marks: newMarks()}
	root, ends := pageParser.parse(text)
	if end < len(d.body) {
		last := root.LastChild()
		if last == nil || last.Pos() != end-at || last.Kind() != ast.KindHeading && last.Kind() != ast.KindFencedCodeBlock {
			return stretch{}, false
		}
		root.RemoveChild(root, last)
	}
	c := collector{doc: p, ends: ends}
	c.collect(root)
	p.forgetTree()
	return stretch{length: end - at, first: d.nextLine(at) - at, doc: p, cells: c.cells}, true
}

// forgetTree keeps what was found and lets go of the nodes in which it was found.
func (d *Document) forgetTree() {
	d.marks = marks{}
	for _, s := range d.Sections {
		s.number()
		s.nodes, s.runs = nil, nil
		for _, h := range s.Headings {
			h.node = nil
		}
		for _, t := range s.Tables {
			for i := range t.Columns {
				t.Columns[i].node = nil
			}
			for i := range t.Rows {
				t.Rows[i].node = nil
			}
		}
	}
}

// nextLine returns the offset in the body of the line after that which begins at i.
func (d *Document) nextLine(i int) int {
	_, next := cutLine(d.body, i)
	return next
}

// commonEnds counts the bytes that two texts have in common at their beginnings, and of
// what is left those at their ends.
func commonEnds(a, b []byte) (head, tail int) {
	n := min(len(a), len(b))
	const step = 256
	for head+step <= n && bytes.Equal(a[head:head+step], b[head:head+step]) {
		head += step
	}
	for head < n && a[head] == b[head] {
		head++
	}
	a, b = a[head:], b[head:]
	n = min(len(a), len(b))
	for tail+step <= n && bytes.Equal(a[len(a)-tail-step:len(a)-tail], b[len(b)-tail-step:len(b)-tail]) {
		tail += step
	}
	for tail < n && a[len(a)-1-tail] == b[len(b)-1-tail] {
		tail++
	}
	return head, tail
}

// join makes the sections of a document from what was found in its pieces.
func (d *Document) join() {
	s := &Section{Span: calc.Span{Start: d.base}}
	d.Sections = []*Section{s}
	at := d.base
	for _, p := range d.pieces {
		for i, found := range p.doc.Sections {
			if i > 0 || found.Date != "" {
				s.Span.End = at + found.Span.Start
				s = d.beginSection(found.Date, s.Span.End)
			}
			s.take(found, at)
		}
		for _, x := range p.doc.Problems {
			x.Span = x.Span.Shift(at)
			d.Problems = append(d.Problems, x)
		}
		at += p.length
	}
	s.Span.End = len(d.Source)
	d.finish()
}

// take adds what was found in a piece that begins at an offset of the file.
func (s *Section) take(found *Section, at int) {
	slots := len(s.Slots)
	s.Blocks = appendMoved(s.Blocks, found.Blocks, func(b *Block) {
		b.Span = b.Span.Shift(at)
		lines := make([]Line, len(b.Lines))
		for i, l := range b.Lines {
			lines[i] = Line{l.Text, l.Span.Shift(at)}
		}
		b.Lines = lines
	})
	s.Slots = appendMoved(s.Slots, found.Slots, func(x *Slot) { x.Span = x.Span.Shift(at) })
	s.Tables = appendMoved(s.Tables, found.Tables, func(t *Table) { t.move(at, s.Slots[slots:]) })
	s.Images = appendMoved(s.Images, found.Images, func(i *Image) { i.Span = i.Span.Shift(at) })
	s.Headings = appendMoved(s.Headings, found.Headings, func(h *Heading) { h.Span = h.Span.Shift(at) })
	s.Links = appendMoved(s.Links, found.Links, func(l *Link) { l.Span = l.Span.Shift(at) })
}

// appendMoved adds copies of what was found, each moved; what was found may belong to
// several documents.
func appendMoved[T any](list, found []*T, move func(*T)) []*T {
	if len(found) == 0 {
		return list
	}
	copies := make([]T, len(found))
	for i, x := range found {
		copies[i] = *x
		move(&copies[i])
		list = append(list, &copies[i])
	}
	return list
}

// move moves a table by so many bytes; the slots of its cells are those of a section now.
func (t *Table) move(by int, slots []*Slot) {
	t.Span, t.NameSpan = t.Span.Shift(by), t.NameSpan.Shift(by)
	t.Columns, t.Rows = movedLabels(t.Columns, by), movedLabels(t.Rows, by)
	cells := make([][]Cell, len(t.Cells))
	for i, row := range t.Cells {
		cells[i] = make([]Cell, len(row))
		for j, c := range row {
			c.Span = c.Span.Shift(by)
			if c.Slot != nil {
				c.Slot = slots[c.Slot.Index]
			}
			cells[i][j] = c
		}
	}
	t.Cells = cells
}

func movedLabels(labels []Label, by int) []Label {
	list := make([]Label, len(labels))
	for i, l := range labels {
		l.Span = l.Span.Shift(by)
		list[i] = l
	}
	return list
}

// drawn is the document with the tree that it is rendered from. One that was put together
// from pieces has none: it is read whole the first time that it is rendered.
func (d *Document) drawn() *Document {
	if d.pieces == nil {
		return d
	}
	d.once.Do(func() { d.whole = Parse(d.Source) })
	return d.whole
}
