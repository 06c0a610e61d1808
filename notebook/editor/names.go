package editor

import (
	"strings"

	"scarph/calc"
	"scarph/kernel"
	"scarph/notebook"
)

// bearing is what a name stands for: a value, a data table, or a row or column of one.
type bearing struct {
	kind bearingKind
	name string // beam; offsets; offsets.chine_half
}

type bearingKind uint8

const (
	ofValue bearingKind = iota
	ofTable
	ofLabel
)

// bearingOf finds what a mention stands for; false when it is a field of something,
// such as the length of a part.
func (j *journal) bearingOf(m mention) (bearing, bool) {
	path := m.path[:m.upTo]
	words := strings.Split(path, ".")
	if j.book.Session.IsTable(words[0]) {
		if m.label && len(words) == 3 { // pointed at in its table, a cell is itself
			name, _ := j.book.Session.Bearer(path)
			return bearing{ofValue, name}, name != ""
		}
		switch len(words) {
		case 1:
			return bearing{ofTable, words[0]}, true
		case 2, 3:
			return bearing{ofLabel, words[0] + "." + words[len(words)-1]}, true
		}
		return bearing{}, false
	}
	if name, _ := j.book.Session.Bearer(m.path); name != "" {
		return bearing{ofValue, name}, len(path) <= len(name)
	}
	return bearing{ofValue, m.path}, true
}

// occurrence is a place where a name stands.
type occurrence struct {
	path  string    // of the file
	span  calc.Span // of the part that stands for the bearing
	gives bool
	label bool
}

// occurrences lists the places where a name stands in the journal, in its order; of
// one file only, when path is not "".
func (j *journal) occurrences(b bearing, path string) []occurrence {
	var list []occurrence
	word := b.name[strings.LastIndexByte(b.name, '.')+1:]
	for _, e := range j.book.Entries() {
		if path != "" && e.File.Path != path {
			continue
		}
		for i := 0; i < e.Lines(); i++ {
			if !strings.Contains(e.Line(i).Text, word) {
				continue
			}
			p, ok := placeOf(e, i)
			if !ok {
				continue
			}
			for _, m := range mentions(p) {
				for _, at := range j.partsOf(b, m) {
					list = append(list, occurrence{path: e.File.Path, span: at, gives: m.gives})
				}
			}
		}
		list = append(list, labelled(e, b)...)
	}
	return list
}

// partsOf are the parts of a mention that stand for a bearing.
func (j *journal) partsOf(b bearing, m mention) []calc.Span {
	at := func(from, to int) calc.Span { return calc.Span{Start: m.span.Start + from, End: m.span.Start + to} }
	if b.kind == ofValue {
		name := m.path
		if name != b.name {
			name, _ = j.book.Session.Bearer(m.path)
		}
		switch {
		case name != b.name:
			return nil
		case strings.HasPrefix(m.path, b.name):
			return []calc.Span{at(0, len(b.name))}
		}
		return []calc.Span{m.span} // a cell, column first
	}
	table, label, _ := strings.Cut(b.name, ".")
	words := strings.Split(m.path, ".")
	if words[0] != table {
		return nil
	}
	if b.kind == ofTable {
		return []calc.Span{at(0, len(table))}
	}
	var list []calc.Span
	from := len(table) + 1
	for k, w := range words[1:] {
		if w == label && k < 2 {
			list = append(list, at(from, from+len(w)))
		}
		from += len(w) + 1
	}
	return list
}

// labelled lists the corner cells and labels of an entry's tables that bear a name.
func labelled(e *notebook.Entry, b bearing) []occurrence {
	if b.kind == ofValue {
		return nil
	}
	var list []occurrence
	for _, t := range e.Section.Tables {
		for _, l := range labelsOf(t) {
			if l.path == b.name {
				list = append(list, occurrence{path: e.File.Path, span: l.span, gives: true, label: true})
			}
		}
	}
	return list
}

// pointed finds what a request's place stands for.
func (s *Server) pointed(p at) (*document, mention, bearing, bool) {
	doc, ok := s.document(p.TextDocument)
	if !ok {
		return nil, mention{}, bearing{}, false
	}
	m, ok := doc.mentionAt(doc.text.offset(p.Position, s.encoding))
	if !ok {
		return nil, mention{}, bearing{}, false
	}
	b, ok := doc.j.bearingOf(m)
	return doc, m, b, ok
}

// locate is an occurrence as the protocol has it.
func (s *Server) locate(j *journal, o occurrence) location {
	return location{j.uri(o.path), j.text(o.path).textRange(o.span, s.encoding)}
}

func (s *Server) references(p referenceParams) (any, error) {
	list := []location{}
	doc, _, b, ok := s.pointed(p.at)
	if !ok {
		return list, nil
	}
	for _, o := range doc.j.occurrences(b, "") {
		if !o.gives || p.Context.IncludeDeclaration {
			list = append(list, s.locate(doc.j, o))
		}
	}
	return list, nil
}

func (s *Server) highlights(p at) (any, error) {
	list := []highlight{}
	doc, _, b, ok := s.pointed(p)
	if !ok {
		return list, nil
	}
	const reads, writes = 2, 3
	for _, o := range doc.j.occurrences(b, doc.path) {
		h := highlight{Range: doc.text.textRange(o.span, s.encoding), Kind: reads}
		if o.gives {
			h.Kind = writes
		}
		list = append(list, h)
	}
	return list, nil
}

// declaration leads to the first naming of a value.
func (s *Server) declaration(p at) (any, error) {
	return s.lead(p, func(h kernel.History) []kernel.Reading { return h.Readings[:1] })
}

// definition leads to the reading that counts; from that reading itself, to the first.
func (s *Server) definition(p at) (any, error) {
	offset, path := -1, ""
	if doc, ok := s.document(p.TextDocument); ok {
		offset, path = doc.text.offset(p.Position, s.encoding), doc.path
	}
	return s.lead(p, func(h kernel.History) []kernel.Reading {
		for _, r := range h.Readings {
			here := r.Place.File == path && s.holds(p.TextDocument, r.Ref, offset)
			if r.Counts && !here {
				return []kernel.Reading{r}
			}
		}
		return h.Readings[:1]
	})
}

// readings leads to all readings of a value.
func (s *Server) readings(p at) (any, error) {
	return s.lead(p, func(h kernel.History) []kernel.Reading { return h.Readings })
}

// holds reports whether a line lies around an offset of a document.
func (s *Server) holds(id documentID, ref kernel.LineRef, offset int) bool {
	doc, ok := s.document(id)
	if !ok {
		return false
	}
	e, ok := doc.j.book.Entry(ref.Entry)
	return ok && ref.Index < e.Lines() && e.Span(ref.Index).Start <= offset && offset <= e.Span(ref.Index).End
}

// lead answers with the places of the readings chosen, or of a table's labels.
func (s *Server) lead(p at, choose func(kernel.History) []kernel.Reading) (any, error) {
	list := []location{}
	doc, ok := s.document(p.TextDocument)
	if !ok {
		return list, nil
	}
	m, ok := doc.mentionAt(doc.text.offset(p.Position, s.encoding))
	if !ok {
		return list, nil
	}
	name, _ := doc.j.book.Session.Bearer(m.path[:m.upTo])
	if h, ok := doc.j.book.Session.History(name, kernel.Now); ok && len(h.Readings) > 0 {
		for _, r := range choose(h) {
			list = append(list, s.locationOfReading(doc.j, r))
		}
		return list, nil
	}
	if b, ok := doc.j.bearingOf(m); ok {
		for _, o := range doc.j.occurrences(b, "") {
			if o.label {
				list = append(list, s.locate(doc.j, o))
			}
		}
	}
	return list, nil
}

// locationOfReading is the place of the name that a reading gives; of a cell, the cell.
func (s *Server) locationOfReading(j *journal, r kernel.Reading) location {
	e, ok := j.book.Entry(r.Ref.Entry)
	if !ok || r.Ref.Index >= e.Lines() {
		return s.locationOf(j, r.Place)
	}
	span := e.Span(r.Ref.Index)
	if l := e.Line(r.Ref.Index); !l.Cell && l.Stmt != nil && l.Stmt.NameSpan != (calc.Span{}) {
		span = l.Stmt.NameSpan.Shift(span.Start)
	}
	return location{j.uri(e.File.Path), j.text(e.File.Path).textRange(span, s.encoding)}
}
