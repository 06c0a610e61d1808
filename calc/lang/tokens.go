package lang

import (
	"strings"
	"unicode/utf8"

	"scarph/calc"
)

// TokenKind says what a piece of a statement is, for those who colour, complete,
// rename or lay out what someone writes.
type TokenKind uint8

// The kinds of tokens.
const (
	NumberToken   TokenKind = iota // a quantity with its unit: 2' 6 3/8"
	QuotedToken                    // "white oak"
	NameToken                      // beam, offsets.chine_half.st_5
	FunctionToken                  // a name before an opening bracket
	WordToken                      // a word of the language: drawn, part, to, by, within
	SignToken                      // an operator or a bracket
	FieldToken                     // what follows a dot after a bracket: .cross_cut
	AsOfToken                      // as of entry 3
	NoteToken                      // # and all that follows
)

// Token is a piece of a statement. Its text is as written.
type Token struct {
	Kind TokenKind
	Text string
	Span calc.Span
}

// Tokens cuts a statement into its pieces as far as they can be read: what cannot
// is left out, and reading goes on behind it. A statement longer than MaxSource
// has no pieces.
func Tokens(src string) []Token {
	if len(src) > MaxSource {
		return nil
	}
	var list []Token
	stop := len(src)
	if at := headOfOffset(src); at > 0 {
		stop = at // 1-10-5 is no number to the lexer
	}
	l := &line{src: src, end: len(src)}
	for i := 0; i < stop; {
		c := src[i]
		if c == ' ' || c == '\t' || c == '\r' {
			i++
			continue
		}
		if c == '#' {
			return append(list, Token{NoteToken, src[i:], calc.Span{Start: i, End: len(src)}})
		}
		t, err := l.next(src, i)
		if err != nil {
			_, w := utf8.DecodeRuneInString(src[i:])
			i = max(i+w, err.Span.Start)
			if unread := wordAt(src[i:]); unread != "" {
				i += len(unread)
			}
			continue
		}
		list = append(list, Token{l.kindOf(t), src[t.span.Start:t.span.End], t.span})
		l.tokens = append(l.tokens, t)
		i = t.span.End
	}
	if stop < len(src) {
		list = append(list, offsetTokens(src, stop)...)
	}
	return list
}

// kindOf says what a token is, given those before it.
func (l *line) kindOf(t token) TokenKind {
	switch t.kind {
	case tokLiteral:
		return NumberToken
	case tokText:
		return QuotedToken
	case tokFunc:
		if len(l.tokens) == 0 && wordOf(t) != nil {
			return WordToken // check (a) < b
		}
		return FunctionToken
	case tokSign:
		return SignToken
	case tokAsOf:
		return AsOfToken
	case tokWord:
		return WordToken
	}
	if n := len(l.tokens); n > 0 && l.tokens[n-1].kind == tokSign && l.tokens[n-1].text == "." {
		return FieldToken
	}
	if len(l.tokens) == 0 && wordOf(t) != nil || t.text == "it" || strings.HasPrefix(t.text, "it.") || isTruth(t.text) {
		return WordToken
	}
	return NameToken
}

func isTruth(s string) bool { return s == "true" || s == "false" || s == "yes" || s == "no" }

// offsetTokens reads the offset that begins at or after i, and the note behind it.
func offsetTokens(src string, i int) []Token {
	end, note := len(src), len(src)
	if n := strings.IndexByte(src[i:], '#'); n >= 0 {
		end, note = i+n, i+n
	}
	for i < end && (src[i] == ' ' || src[i] == '\t') {
		i++
	}
	for end > i && strings.ContainsRune(" \t\r", rune(src[end-1])) {
		end--
	}
	list := []Token{{NumberToken, src[i:end], calc.Span{Start: i, End: end}}}
	if note < len(src) {
		list = append(list, Token{NoteToken, src[note:], calc.Span{Start: note, End: len(src)}})
	}
	return list
}

// Unclosed reports whether a bracket of the text is open at its end, so that the
// statement goes on in the next line.
func Unclosed(src string) bool {
	depth := 0
	for _, t := range Tokens(src) {
		if t.Kind == SignToken {
			switch t.Text {
			case "(", "[":
				depth++
			case ")", "]":
				depth--
			}
		}
	}
	return depth > 0
}

// CallAt finds the innermost call whose brackets stand around an offset of the
// statement, and the number of the argument there, from 0.
func CallAt(src string, at int) (name string, argument int, ok bool) {
	type open struct {
		name string
		arg  int
	}
	var stack []open
	last := ""
	for _, t := range Tokens(src) {
		if t.Span.Start >= at {
			break
		}
		if t.Kind == SignToken {
			switch t.Text {
			case "(":
				stack = append(stack, open{name: last})
			case "[":
				stack = append(stack, open{})
			case ")", "]":
				if len(stack) > 0 {
					stack = stack[:len(stack)-1]
				}
			case ",":
				if len(stack) > 0 {
					stack[len(stack)-1].arg++
				}
			}
		}
		last = ""
		if t.Kind == FunctionToken {
			last = t.Text
		}
	}
	for i := len(stack) - 1; i >= 0; i-- {
		if stack[i].name != "" {
			return stack[i].name, stack[i].arg, true
		}
	}
	return "", 0, false
}

// Mention is a name in a statement, with its place.
type Mention struct {
	Path string
	Span calc.Span
	// Gives is set where the statement gives the name a reading, or a part its line.
	Gives bool
}

// Mentions lists the names that stand in a statement, in its order: the name it
// gives or speaks of, and those that its expressions use. Of a statement that could
// not be read (nil), all that looks like a name is listed.
func Mentions(src string, s *Stmt) []Mention {
	var list []Mention
	tokens := Tokens(src)
	for _, t := range tokens {
		if t.Kind != NameToken {
			continue
		}
		m := Mention{Path: t.Text, Span: t.Span}
		switch {
		case s == nil:
			m.Gives = false
		case t.Span == s.NameSpan:
			if s.Kind == Work || s.Kind == Spend {
				continue // a subject of the ledger is no value
			}
			m.Gives = s.Kind.IsReading() || s.Kind == PartLine
		case !s.within(t.Span):
			continue // a size of a part, a wood
		}
		list = append(list, m)
	}
	return list
}

// within reports whether a place lies inside an expression of the statement.
func (s *Stmt) within(at calc.Span) bool {
	for _, e := range s.Exprs() {
		if e.Span.Start <= at.Start && at.End <= e.Span.End {
			return true
		}
	}
	return false
}
