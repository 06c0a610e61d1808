package editor

import (
	"slices"
	"strings"
	"unicode/utf8"

	"scarph/calc"
	"scarph/calc/lang"
	"scarph/notebook"
)

// Indices into tokenTypes, by the kinds of the language's tokens.
var typeOfToken = map[lang.TokenKind]int{
	lang.NameToken: 0, lang.FunctionToken: 1, lang.NumberToken: 2, lang.QuotedToken: 3,
	lang.WordToken: 4, lang.SignToken: 5, lang.NoteToken: 6, lang.FieldToken: 7, lang.AsOfToken: 4,
}

// Bits of tokenModifiers.
const (
	declares = 1 << 0
	modifies = 1 << 1
)

type documentOnly struct {
	TextDocument documentID `json:"textDocument"`
}

// semanticTokens colours all of a file's calc language.
func (s *Server) semanticTokens(p documentOnly) (any, error) {
	doc, ok := s.document(p.TextDocument)
	if !ok {
		return semanticTokens{[]int{}}, nil
	}
	return s.coloured(doc, calc.Span{Start: 0, End: len(doc.text.src)}), nil
}

// semanticTokensIn colours what can be seen of a file.
func (s *Server) semanticTokensIn(p inlayHintParams) (any, error) {
	doc, ok := s.document(p.TextDocument)
	if !ok {
		return semanticTokens{[]int{}}, nil
	}
	return s.coloured(doc, doc.text.span(p.Range, s.encoding)), nil
}

func (s *Server) coloured(doc *document, in calc.Span) semanticTokens {
	z := painter{t: doc.text, e: s.encoding, data: []int{}}
	for _, e := range doc.source().Entries() {
		first, next := e.LinesIn(in)
		for i := first; i < next; i++ {
			if p, ok := placeOf(e, i); ok {
				z.place(p)
			}
		}
		for _, at := range notesAlone(e, in) {
			z.paint(at, typeOfToken[lang.NoteToken], 0)
		}
	}
	return semanticTokens{z.encoded()}
}

// notesAlone lists the lines of an entry's blocks that hold nothing but a note.
func notesAlone(e *notebook.Entry, in calc.Span) []calc.Span {
	var list []calc.Span
	for _, b := range e.Section.Blocks {
		if b.Span.End < in.Start || b.Span.Start > in.End {
			continue
		}
		for _, l := range b.Lines {
			if t := strings.TrimLeft(l.Text, " \t"); strings.HasPrefix(t, "#") && l.Span.End >= in.Start && l.Span.Start <= in.End {
				list = append(list, calc.Span{Start: l.Span.End - len(t), End: l.Span.End})
			}
		}
	}
	return list
}

// painter gathers coloured spans and encodes them as differences, as the protocol has it.
type painter struct {
	t    *text
	e    encoding
	list []stroke
	data []int
}

type stroke struct {
	at         calc.Span
	kind, mods int
}

func (z *painter) place(p place) {
	st := p.statement()
	for _, t := range lang.Tokens(p.text) {
		at := t.Span.Shift(p.span.Start)
		mods := 0
		if st != nil && t.Kind == lang.NameToken && t.Span == st.NameSpan && (st.Kind.IsReading() || st.Kind == lang.PartLine) {
			if mods = declares; st.Kind == lang.Revised {
				mods = modifies
			}
		}
		z.paint(at, typeOfToken[t.Kind], mods)
	}
}

func (z *painter) paint(at calc.Span, kind, mods int) {
	z.list = append(z.list, stroke{at, kind, mods})
}

func (z *painter) encoded() []int {
	slices.SortStableFunc(z.list, func(a, b stroke) int { return a.at.Start - b.at.Start })
	last := position{}
	for _, k := range z.list {
		p := z.t.position(k.at.Start, z.e)
		d := p
		if d.Line -= last.Line; d.Line == 0 {
			d.Character -= last.Character
		}
		last = p
		z.data = append(z.data, d.Line, d.Character, z.width(k.at), k.kind, k.mods)
	}
	return z.data
}

func (z *painter) width(at calc.Span) int {
	n := 0
	for i := at.Start; i < at.End; {
		r, w := utf8.DecodeRuneInString(z.t.src[i:at.End])
		n += unitsOf(r, w, z.e)
		i += w
	}
	return n
}
