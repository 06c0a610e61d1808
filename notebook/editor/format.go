package editor

import (
	"strings"
	"unicode/utf8"

	"scarph/calc"
	"scarph/calc/lang"
	"scarph/notebook/markdown"
)

type formattingParams struct {
	TextDocument documentID `json:"textDocument"`
}

// formatting lays out the calc blocks of a file: one space where one belongs, the
// notes of lines that follow each other under one another. No value changes, and
// nothing outside of the blocks.
func (s *Server) formatting(p formattingParams) (any, error) {
	return s.layOut(p.TextDocument, func(*document, calc.Span) bool { return true })
}

// rangeFormatting lays out the lines that a range touches.
func (s *Server) rangeFormatting(p inlayHintParams) (any, error) {
	return s.layOut(p.TextDocument, func(doc *document, line calc.Span) bool {
		in := doc.text.span(p.Range, s.encoding)
		return line.Start <= in.End && line.End >= in.Start
	})
}

func (s *Server) layOut(id documentID, wanted func(*document, calc.Span) bool) (any, error) {
	edits := []textEdit{}
	doc, ok := s.document(id)
	if !ok {
		return edits, nil
	}
	for _, e := range doc.source().Entries() {
		for _, b := range e.Section.Blocks {
			for i, text := range formatBlock(b.Lines) {
				if l := b.Lines[i]; text != l.Text && wanted(doc, l.Span) && doc.text.src[l.Span.Start:l.Span.End] == l.Text {
					edits = append(edits, textEdit{doc.text.textRange(l.Span, s.encoding), text})
				}
			}
		}
	}
	return edits, nil
}

// formatBlock lays out the lines of a block.
func formatBlock(lines []markdown.Line) []string {
	out := make([]string, len(lines))
	notes := make([]string, len(lines))
	for i, l := range lines {
		out[i], notes[i] = formatLine(l.Text)
	}
	for i := 0; i < len(out); { // lines with notes that follow each other
		n := i
		width := 0
		for n < len(out) && notes[n] != "" && out[n] != "" {
			width = max(width, utf8.RuneCountInString(out[n]))
			n++
		}
		for k := i; k < n; k++ {
			out[k] += strings.Repeat(" ", width-utf8.RuneCountInString(out[k])+3) + notes[k]
		}
		if n == i {
			out[i] += notes[i]
			n++
		}
		i = n
	}
	for i, l := range lines {
		if !sameMeaning(l.Text, out[i]) {
			out[i] = l.Text
		}
	}
	return out
}

// formatLine lays out a statement and its note. What is not wholly understood is left
// as it is.
func formatLine(src string) (statement, note string) {
	tokens := lang.Tokens(src)
	if n := len(tokens); n > 0 && tokens[n-1].Kind == lang.NoteToken {
		note = strings.TrimRight(tokens[n-1].Text, " \t\r")
		src = src[:tokens[n-1].Span.Start]
		tokens = tokens[:n-1]
	}
	if st, err := lang.Parse(src); err != nil || st == nil {
		return strings.TrimRight(src, " \t\r"), note
	}
	var b strings.Builder
	for i, t := range tokens {
		if i > 0 && spaced(tokens, i) {
			b.WriteByte(' ')
		}
		b.WriteString(strings.TrimSpace(t.Text))
	}
	return b.String(), note
}

// spaced reports whether a space stands before token i.
func spaced(tokens []lang.Token, i int) bool {
	t, before := tokens[i], tokens[i-1]
	if t.Kind == lang.SignToken {
		switch t.Text {
		case ",", ")", "]", "..", ".":
			return false
		case "(":
			if before.Kind == lang.FunctionToken {
				return false
			}
		case ":":
			return tokens[0].Kind != lang.WordToken || i != 2 // part thwart: 2 of …
		}
	}
	if before.Kind != lang.SignToken {
		return true
	}
	switch before.Text {
	case "..", ".":
		return false
	case "-", "−", "–", "+", "!":
		return !unary(tokens, i-1)
	}
	return !opens(before)
}

func opens(t lang.Token) bool {
	return t.Kind == lang.SignToken && (t.Text == "(" || t.Text == "[")
}

// unary reports whether the sign at i has nothing before it to work on.
func unary(tokens []lang.Token, i int) bool {
	if i == 0 || tokens[i].Text == "!" {
		return true
	}
	before := tokens[i-1]
	return before.Kind == lang.WordToken && before.Text != "it" || before.Kind == lang.SignToken && before.Text != ")" && before.Text != "]"
}

// sameMeaning reports whether two lines say the same to the language: the same
// pieces, the same note, and both can be read or neither.
func sameMeaning(a, b string) bool {
	x, y := lang.Tokens(a), lang.Tokens(b)
	if len(x) != len(y) {
		return false
	}
	for i := range x {
		if x[i].Kind != y[i].Kind || strings.TrimSpace(x[i].Text) != strings.TrimSpace(y[i].Text) {
			return false
		}
	}
	s, err := lang.Parse(a)
	t, err2 := lang.Parse(b)
	if (err == nil) != (err2 == nil) || (s == nil) != (t == nil) {
		return false
	}
	return s == nil || err != nil || s.Kind == t.Kind && s.Name == t.Name && s.Note == t.Note
}
