package editor

import (
	"strings"

	"scarph/calc"
	"scarph/calc/lang"
	"scarph/kernel"
	"scarph/notebook"
	"scarph/notebook/markdown"
)

// place is a piece of the calc language in a document: a line of a block, a slot, or
// the slot in a cell of a table.
type place struct {
	text  string     // the statement or expression
	span  calc.Span  // of text, in the file
	stmt  *lang.Stmt // nil when it cannot be read, or is not there yet
	line  kernel.LineRef
	known bool // line names a line of the session
	slot  bool
}

// placeAt finds the piece of the calc language at an offset of an open document. A
// slot that is not closed yet counts.
func (d *document) placeAt(offset int) (place, bool) {
	f := d.source()
	e := f.EntryAt(offset)
	if e == nil {
		return place{}, false
	}
	if i, ok := e.LineAt(offset); ok {
		if p, ok := placeOf(e, i); ok && p.span.Start <= offset && offset <= p.span.End {
			return p, true
		}
	}
	for _, b := range e.Section.Blocks {
		for _, l := range b.Lines { // an empty line, or a note alone
			if l.Span.Start <= offset && offset <= l.Span.End {
				return place{text: l.Text, span: l.Span}, true
			}
		}
		if b.Span.Start <= offset && offset <= b.Span.End {
			return place{}, false
		}
	}
	return d.openSlot(offset)
}

// placeOf is the piece of the calc language that a line of an entry is; false for a
// cell that holds no slot.
func placeOf(e *notebook.Entry, i int) (place, bool) {
	l, span := e.Line(i), e.Span(i)
	p := place{text: l.Text, span: span, stmt: l.Stmt, line: kernel.LineRef{Entry: e.Key, Index: i}, known: true, slot: l.Slot}
	if l.Cell {
		p.slot = true
		return p, inBraces(e, i)
	}
	return p, true
}

// inBraces reports whether a line is what stands between the braces of a slot.
func inBraces(e *notebook.Entry, i int) bool {
	at := e.Span(i).Start
	return at > 0 && e.File.Src[at-1] == '{'
}

// openSlot is a slot that has no closing brace yet, on the line of an offset.
func (d *document) openSlot(offset int) (place, bool) {
	line := d.text.line(d.text.lineOf(offset))
	before := d.text.src[line.Start:max(line.Start, min(offset, line.End))]
	open := strings.LastIndexByte(before, '{')
	if open < 0 || strings.ContainsAny(before[open:], "}|") || open > 0 && before[open-1] == '\\' {
		return place{}, false
	}
	start := line.Start + open + 1
	end := line.End
	if n := strings.IndexAny(d.text.src[start:end], "}|"); n >= 0 {
		end = start + n
	}
	return place{text: d.text.src[start:end], span: calc.Span{Start: start, End: end}, slot: true}, true
}

// mention is a name at a place of a document, with the part of it that was pointed at.
type mention struct {
	path string    // the whole of it, with its dots
	span calc.Span // of path, in the file
	upTo int       // the end of the part pointed at, in path
	// label is set when it stands as the name of a table, a row or a column, which is
	// not written as the language writes it.
	label bool
	gives bool // the statement gives the name a reading
}

// mentionAt finds the name at an offset.
func (d *document) mentionAt(offset int) (mention, bool) {
	if p, ok := d.placeAt(offset); ok {
		for _, m := range mentions(p) {
			if m.span.Start <= offset && offset <= m.span.End {
				return m.at(offset), true
			}
		}
		return mention{}, false
	}
	e := d.source().EntryAt(offset)
	if e == nil {
		return mention{}, false
	}
	for _, t := range e.Section.Tables {
		for _, l := range labelsOf(t) {
			if l.span.Start <= offset && offset <= l.span.End {
				return l, true
			}
		}
		for ri, r := range t.Rows {
			for ci := range t.Cells[ri] {
				if c := t.Cells[ri][ci]; c.Span.Start <= offset && offset <= c.Span.End && ci < len(t.Columns) {
					name := t.Name + "." + r.Name + "." + t.Columns[ci].Name
					return mention{path: name, span: c.Span, upTo: len(name), label: true}, true
				}
			}
		}
	}
	return mention{}, false
}

// mentions lists the names at a place, in the file.
func mentions(p place) []mention {
	var list []mention
	for _, m := range lang.Mentions(p.text, p.statement()) {
		list = append(list, mention{path: m.Path, span: m.Span.Shift(p.span.Start), upTo: len(m.Path), gives: m.Gives})
	}
	return list
}

// statement is the statement as its own text has it: a reading that is a cell's slot
// is, in itself, an expression.
func (p place) statement() *lang.Stmt {
	if p.stmt == nil || !p.slot || p.stmt.Name == "" {
		return p.stmt
	}
	st := *p.stmt
	st.Name, st.NameSpan, st.Kind = "", calc.Span{}, lang.Answer
	return &st
}

// at cuts a mention to the part that an offset lies in: of offsets.chine_half.st_5,
// offsets.chine_half.
func (m mention) at(offset int) mention {
	in := offset - m.span.Start
	for i := max(in, 0); i < len(m.path); i++ {
		if m.path[i] == '.' {
			m.upTo = i
			return m
		}
	}
	m.upTo = len(m.path)
	return m
}

// labelsOf lists the names that a table gives by its corner, its columns and its rows.
func labelsOf(t *markdown.Table) []mention {
	list := []mention{{path: t.Name, span: t.NameSpan, upTo: len(t.Name), label: true}}
	for _, ls := range [][]markdown.Label{t.Columns, t.Rows} {
		for _, l := range ls {
			if l.Name != "" {
				name := t.Name + "." + l.Name
				list = append(list, mention{path: name, span: l.Span, upTo: len(name), label: true})
			}
		}
	}
	return list
}
