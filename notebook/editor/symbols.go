package editor

import (
	"strings"

	"scarph/calc"
	"scarph/calc/lang"
	"scarph/kernel"
	"scarph/notebook"
)

// documentSymbols lists the entries of a file with the values, parts, checks and
// tables in them.
func (s *Server) documentSymbols(p documentOnly) (any, error) {
	list := []documentSymbol{}
	doc, ok := s.document(p.TextDocument)
	if !ok {
		return list, nil
	}
	for _, e := range doc.source().Entries() {
		list = append(list, s.entrySymbol(doc, e))
	}
	if s.client.TextDocument.DocumentSymbol.Hierarchical {
		return list, nil
	}
	flat := []symbolInformation{}
	for _, x := range list {
		flat = append(flat, symbolInformation{x.Name, x.Kind, location{doc.uri, x.Range}, ""})
		for _, y := range x.Children {
			flat = append(flat, symbolInformation{y.Name, y.Kind, location{doc.uri, y.Range}, x.Name})
		}
	}
	return flat, nil
}

func (s *Server) entrySymbol(doc *document, e *notebook.Entry) documentSymbol {
	whole := trimmed(doc.text.src, e.Section.Span)
	at := calc.Span{Start: whole.Start, End: whole.Start}
	if e.Section.Heading != nil {
		at = e.Section.Heading.Span
	}
	name := e.Title
	if name == "" {
		name = doc.path
	}
	z := documentSymbol{Name: name, Detail: e.Date, Kind: symbolNamespace, Range: doc.text.textRange(whole, s.encoding), SelectionRange: doc.text.textRange(at, s.encoding)}
	for _, t := range e.Section.Tables {
		z.Children = append(z.Children, s.tableSymbol(doc, t.Name, t.Span, t.NameSpan))
	}
	for i, o := range doc.j.book.Session.Outcomes(e.Key, kernel.Now) {
		if i < e.Lines() {
			if x, ok := s.lineSymbol(doc, e, i, o); ok {
				z.Children = append(z.Children, x)
			}
		}
	}
	return z
}

// trimmed is a span without the blank space at its ends.
func trimmed(src string, s calc.Span) calc.Span {
	s.End = min(s.End, len(src))
	for s.End > s.Start && strings.IndexByte(" \t\r\n", src[s.End-1]) >= 0 {
		s.End--
	}
	return s
}

func (s *Server) tableSymbol(doc *document, name string, span, at calc.Span) documentSymbol {
	return documentSymbol{Name: name, Detail: "data table", Kind: symbolStruct, Range: doc.text.textRange(span, s.encoding), SelectionRange: doc.text.textRange(at, s.encoding)}
}

// lineSymbol is a statement that names something, or a check.
func (s *Server) lineSymbol(doc *document, e *notebook.Entry, i int, o kernel.Outcome) (documentSymbol, bool) {
	st := e.Line(i).Stmt
	if st == nil || e.Line(i).Cell || e.Line(i).Slot {
		return documentSymbol{}, false
	}
	span := e.Span(i)
	at := st.NameSpan.Shift(span.Start)
	z := documentSymbol{Name: st.Name, Kind: symbolVariable, Range: doc.text.textRange(span, s.encoding)}
	switch {
	case st.Kind.IsReading():
		if o.Result.OK() {
			switch o.Result.Value.Kind() {
			case calc.List:
				z.Kind = symbolArray
			case calc.Record:
				z.Kind = symbolObject
			}
		}
	case st.Kind == lang.PartLine:
		z.Kind = symbolStruct
	case st.Kind == lang.MadeLine:
		z.Kind, z.Name = symbolEvent, "made "+st.Name
	case st.Kind == lang.Check:
		z.Kind, z.Name, at = symbolBoolean, st.Text, span
	default:
		return documentSymbol{}, false
	}
	z.Detail = o.Kind
	if text := hintOf(o, doc.j.book.Session.Style()); text != "" {
		z.Detail += " · " + text
	} else if o.Result.OK() {
		z.Detail += " · " + clipped(doc.j.words(o.Result))
	}
	z.SelectionRange = doc.text.textRange(at, s.encoding)
	return z, true
}

// mostSymbols is the most that a search for symbols lists.
const mostSymbols = 200

// workspaceSymbols finds values of all open journals by a part of their name.
func (s *Server) workspaceSymbols(p struct {
	Query string `json:"query"`
}) (any, error) {
	list := []symbolInformation{}
	query := strings.ToLower(p.Query)
	for _, j := range s.journals {
		for _, name := range j.book.Session.Names() {
			if len(list) == mostSymbols {
				return list, nil
			}
			if !strings.Contains(strings.ToLower(name), query) {
				continue
			}
			if h, ok := j.book.Session.History(name, kernel.Now); ok && len(h.Readings) > 0 {
				list = append(list, symbolInformation{name, symbolVariable, s.locationOfReading(j, h.Readings[0]), h.Kind})
			}
		}
	}
	return list, nil
}

// foldingRanges folds calc blocks, data tables, entries and the front matter.
func (s *Server) foldingRanges(p documentOnly) (any, error) {
	list := []foldingRange{}
	doc, ok := s.document(p.TextDocument)
	if !ok {
		return list, nil
	}
	add := func(span calc.Span, kind string) {
		span = trimmed(doc.text.src, span)
		if from, to := doc.text.lineOf(span.Start), doc.text.lineOf(max(span.Start, span.End-1)); to > from {
			list = append(list, foldingRange{from, to, kind})
		}
	}
	f := doc.source()
	if m := f.Doc.FrontMatter; m.End > m.Start {
		add(calc.Span{Start: 0, End: m.End + len("---")}, "")
	}
	for _, e := range f.Entries() {
		if e.Section.Date != "" {
			add(e.Section.Span, "region")
		}
		for _, b := range e.Section.Blocks {
			add(b.Span, "")
		}
		for _, t := range e.Section.Tables {
			add(t.Span, "")
		}
	}
	return list, nil
}
