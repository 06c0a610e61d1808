package lang

import (
	"strings"

	"scarph/calc"
)

// readNaming reads name = expression, after the word of its kind.
func readNaming(l *line, i int, s *Stmt) *calc.Error {
	eq := l.find(i, len(l.tokens), tokSign, "=")
	if eq < 0 {
		return calc.Errorf(calc.CodeSyntax, "a reading wants = after its name").At(l.span(i, len(l.tokens))).
			WithHint("%s", exampleOf(s.Kind.word()))
	}
	if eq == i {
		return calc.Errorf(calc.CodeSyntax, "a name is missing before =").At(l.tokens[eq].span)
	}
	at := l.span(i, eq)
	if eq != i+1 || l.tokens[i].kind != tokRef {
		name := l.src[at.Start:at.End]
		e := calc.Errorf(calc.CodeName, "%s cannot be a name", name).At(at)
		if l.tokens[i].kind == tokLiteral {
			return e.WithHint("the name stands on the left, the number on the right: beam = %s", name)
		}
		if l.tokens[i].kind == tokFunc {
			return e.WithHint("a value has no arguments: %s = …", l.tokens[i].text)
		}
		if u, ok := calc.FindUnit(name); ok {
			return e.WithHint("it is a unit; say what it is: %s", nameFor(u))
		}
		if joined := joinedName(name); ValidName(joined, at) == nil {
			return e.WithHint("names of several words are joined: %s", joined)
		}
		return e.WithHint("a name is letters, digits and _, and begins with a letter")
	}
	s.Name, s.NameSpan = l.tokens[i].text, at
	if err := ValidName(s.Name, at); err != nil {
		return err
	}
	j, err := l.readTo(eq+1, len(l.tokens), s)
	if err != nil {
		return err
	}
	if eq+1 >= j {
		return calc.Errorf(calc.CodeSyntax, "nothing stands after =").At(l.tokens[eq].span).WithHint(`write %s = 19 in`, s.Name)
	}
	if s.Expr, err = l.compileRange(eq+1, j); err != nil {
		return err
	}
	s.showShare(s.Expr.Text)
	return nil
}

// joinedName makes a name of several words.
func joinedName(s string) string {
	return strings.Join(strings.FieldsFunc(s, func(r rune) bool { return r == ' ' || r == '-' || r == '\t' }), "_")
}

// word is the word that begins a statement of the kind, "" for a bare naming.
func (k Kind) word() string {
	switch k {
	case Chosen:
		return ""
	case Revised:
		return "revise"
	}
	return kindWords[k]
}

// headOfOffset finds the reading of a table's cell in offset notation, such as
//
//	revise offsets.chine_half.st_5 = 1-10-5
//
// and returns where the offset begins; 0 when the line is none. Offsets stand for
// cells of a table only: the name has two dots.
func headOfOffset(src string) int {
	head, _, ok := strings.Cut(src, "=")
	if !ok || strings.Count(head, ".") < 2 || strings.ContainsAny(head, "#\"<>!") {
		return 0
	}
	fields := strings.Fields(head)
	if len(fields) == 0 || len(fields) > 2 || strings.Count(fields[len(fields)-1], ".") != 2 {
		return 0
	}
	value := offsetPart(src[len(head)+1:])
	if !calc.LooksLikeOffset(value) {
		return 0
	}
	return len(head) + 1
}

// offsetPart is the text before a ± or a note.
func offsetPart(s string) string {
	if n := strings.IndexByte(s, '#'); n >= 0 {
		s = s[:n]
	}
	for _, mark := range [...]string{"±", "+/-"} {
		if n := strings.Index(s, mark); n >= 0 {
			s = s[:n]
		}
	}
	return s
}

func (l *line) offsetReading(src string, i int) (*Stmt, *calc.Error) {
	// The head and what follows the offset are lexed with the offset blanked out for
	// a length, so that every other rule of a naming holds here too.
	raw := offsetPart(src[i:])
	v, err := calc.ParseOffset(raw)
	if err != nil {
		lead := len(raw) - len(strings.TrimLeft(raw, " \t"))
		err.Span = calc.Span{Start: i + lead, End: i + len(strings.TrimRight(raw, " \t"))}
		return nil, err
	}
	start := i + len(raw) - len(strings.TrimLeft(raw, " \t"))
	end := i + len(strings.TrimRight(raw, " \t"))
	stand := "0" + strings.Repeat(" ", end-start-3) + "in"
	if err := l.lex(src[:start] + stand + src[end:]); err != nil {
		return nil, err
	}
	for k := range l.tokens {
		t := &l.tokens[k]
		if t.span.Start == start && t.kind == tokLiteral {
			t.lit.Value = v
			t.text = src[start:end]
		}
	}
	l.src = src
	s := &Stmt{Note: l.note, Text: strings.TrimSpace(src[:l.end]), Kind: Chosen}
	from := 0
	for _, k := range statements {
		if len(l.tokens) > 1 && k.word == l.tokens[0].text && k.kind.IsReading() && l.tokens[1].kind == tokRef {
			s.Kind, from = k.kind, 1
		}
	}
	return s, readNaming(l, from, s)
}
