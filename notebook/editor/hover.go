package editor

import (
	"strings"

	"scarph/calc"
	"scarph/calc/lang"
	"scarph/calc/trade"
	"scarph/kernel"
)

// hover tells of what the pointer rests on: a value, a function, a number, a word, or
// the line as a whole.
func (s *Server) hover(p at) (any, error) {
	doc, ok := s.document(p.TextDocument)
	if !ok {
		return nil, nil
	}
	offset := doc.text.offset(p.Position, s.encoding)
	c := s.newCard()
	span, ok := s.tellOf(c, doc, offset)
	if !ok || c.b.Len() == 0 {
		return nil, nil
	}
	return hover{*c.markup(), doc.text.textRange(span, s.encoding)}, nil
}

func (s *Server) tellOf(c *card, doc *document, offset int) (calc.Span, bool) {
	session := doc.j.book.Session
	style := session.Style()
	if m, ok := doc.mentionAt(offset); ok {
		name := m.path[:m.upTo]
		if d, ok := session.Describe(name, kernel.Now, nil); ok {
			c.about(d, style)
			span := m.span
			if !m.label {
				span.End = span.Start + m.upTo
			}
			return span, true
		}
	}
	p, ok := doc.placeAt(offset)
	if !ok {
		return calc.Span{}, false
	}
	for _, t := range lang.Tokens(p.text) {
		at := t.Span.Shift(p.span.Start)
		if offset < at.Start || offset > at.End || offset == at.End && t.Kind == lang.SignToken {
			continue
		}
		switch t.Kind {
		case lang.FunctionToken, lang.WordToken:
			if d, ok := session.Describe(t.Text, kernel.Now, nil); ok {
				c.about(d, style)
				return at, true
			}
		case lang.NumberToken:
			s.number(c, t.Text, style)
			return at, true
		}
	}
	return s.line(c, doc, p)
}

// number tells what a literal comes to in both families of units.
func (s *Server) number(c *card, text string, style calc.Style) {
	l, err := calc.ParseLiteral(text)
	if err != nil {
		if v, e := calc.ParseOffset(text); e == nil {
			c.para(c.strong(text) + " · feet-inches-eighths · " + c.text(style.Text(v)+" ("+style.Echo(v)+")"))
		}
		return
	}
	line := c.strong(text) + " · " + l.Value.D.Word()
	if l.Value.D.IsNumber() {
		return
	}
	both := style.Text(l.Value)
	if e := style.Echo(l.Value); e != "" {
		both += " (" + e + ")"
	}
	c.para(line + " · " + c.text(both))
	if l.Note != "" {
		c.para(c.text(l.Note))
	}
}

// line tells what a statement came to, with the cautions of its functions.
func (s *Server) line(c *card, doc *document, p place) (calc.Span, bool) {
	if !p.known {
		return calc.Span{}, false
	}
	session := doc.j.book.Session
	o, ok := session.Outcome(p.line, kernel.Now)
	if !ok || !o.Result.OK() {
		return calc.Span{}, false
	}
	style := session.Style()
	if text := hintOf(o, style); text != "" {
		c.para(c.text(text))
	}
	if text, filled := session.LineFormula(p.line, kernel.Now, style); text != "" {
		c.code(text, filled)
	}
	for _, w := range o.Result.Warnings {
		c.para(c.text("Note: " + w))
	}
	c.cautions(o.Result)
	return p.span, true
}

// signatureHelp tells which argument of a function the cursor stands at.
func (s *Server) signatureHelp(p at) (any, error) {
	doc, ok := s.document(p.TextDocument)
	if !ok {
		return nil, nil
	}
	offset := doc.text.offset(p.Position, s.encoding)
	pl, ok := doc.placeAt(offset)
	if !ok {
		return nil, nil
	}
	name, arg, ok := lang.CallAt(pl.text, offset-pl.span.Start)
	if !ok {
		return nil, nil
	}
	sig, ok := s.signatureOf(name)
	if !ok {
		return nil, nil
	}
	if n := len(sig.Parameters); n > 0 {
		arg = min(arg, n-1)
	}
	return signatureHelp{Signatures: []signature{sig}, ActiveParameter: arg}, nil
}

func (s *Server) signatureOf(name string) (signature, bool) {
	if f, ok := trade.Find(name); ok {
		sig := signature{Label: f.Signature(), Documentation: s.plainMarkup(f.Summary + cautionTail(f)), Parameters: []parameter{}}
		at := len(f.Name) + 1
		for i := range f.Params {
			q := f.Params[i]
			label := q.Name
			if q.Optional {
				label += "?"
			}
			doc := q.What()
			if q.Doc != "" && q.Doc != doc {
				doc += ": " + q.Doc
			}
			sig.Parameters = append(sig.Parameters, parameter{Label: s.paramLabel(label, at), Documentation: s.plainMarkup(doc)})
			at += len(label) + len(", ")
		}
		return sig, true
	}
	for _, f := range lang.Forms() {
		if f.Name == name {
			sig := signature{Label: f.Call, Documentation: s.plainMarkup(f.Summary), Parameters: []parameter{}}
			at := len(f.Name) + 1
			for _, q := range strings.Split(strings.TrimSuffix(f.Call[at:], ")"), ", ") {
				sig.Parameters = append(sig.Parameters, parameter{Label: s.paramLabel(q, at)})
				at += len(q) + len(", ")
			}
			return sig, true
		}
	}
	return signature{}, false
}

func cautionTail(f *trade.Function) string {
	if t := f.Caution.Text(); t != "" {
		return "\nCaution. " + t
	}
	return ""
}

func (s *Server) plainMarkup(text string) *markup { return &markup{"plaintext", text} }

// paramLabel is a parameter's text, or its place in the signature where the client
// takes places, so that one name inside another does no harm. Signatures are ASCII.
func (s *Server) paramLabel(label string, at int) any {
	if s.client.TextDocument.SignatureHelp.SignatureInformation.ParameterInformation.LabelOffsetSupport {
		return [2]int{at, at + len(label)}
	}
	return label
}
