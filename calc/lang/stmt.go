package lang

import (
	"strings"

	"scarph/calc"
)

// Kind is the kind of a statement.
type Kind uint8

// The kinds of statements. Chosen to Revise give a name a reading.
const (
	Chosen   Kind = iota // name = …
	DrawnAs              // drawn name = …
	FoundAs              // found name = …
	BuiltAs              // built name = …
	Guessed              // guess name = …
	Revised              // revise name = …
	Answer               // an expression alone, or a slot
	Check                // check …
	PartLine             // part name: …
	MadeLine             // made …
	Settle               // settle name: …
	Work                 // work … on …
	Spend                // spend … on …
	Stock                // stock …
)

// Word is the reading's kind as the diary says it.
func (k Kind) Word() string { return kindWords[k] }

var kindWords = [...]string{"chosen", "drawn", "found", "built", "guess", "revised", "answer", "check", "part", "made", "settle", "work", "spend", "stock"}

// IsReading reports whether the statement gives a name a reading.
func (k Kind) IsReading() bool { return k <= Revised }

// Strength orders the kinds of readings: a weaker one never displaces a stronger.
func (k Kind) Strength() int {
	switch k {
	case Guessed:
		return 0
	case FoundAs:
		return 2
	case BuiltAs:
		return 3
	}
	return 1 // drawn, chosen; a revision takes the place of any
}

// Stmt is a parsed statement. It is not changed after it is made.
type Stmt struct {
	Kind     Kind
	Text     string // as written, without the note
	Name     string // the value, part or subject it speaks of
	NameSpan calc.Span
	Expr     *Expr         // the right side, the condition, the amount
	To       *calc.Display // how it asks to be shown
	Note     string        // the text after #
	Remarks  []string      // about the way it is written
	// Sizes are the named expressions of a part, a made or a settle line, in order.
	Sizes  []Size
	Within *Expr // tolerance
	Wood   string
	How    string // of settle: trimmed, packed, replaced, left
	// Condition keeps the two sides of a check that is one comparison.
	Left, Right *Expr
	Sign        string
}

// IsCount reports whether a made line says no more than how many, in figures.
func (s *Stmt) IsCount() bool {
	return s.Expr != nil && s.Expr.Literal != nil && s.Within == nil && len(s.Sizes) == 0
}

// Size is a named size of a part: length, thickness, heel.
type Size struct {
	Name string
	Expr *Expr
}

// Exprs lists all expressions of the statement.
func (s *Stmt) Exprs() []*Expr {
	var list []*Expr
	for _, e := range [...]*Expr{s.Expr, s.Within, s.Left, s.Right} {
		if e != nil {
			list = append(list, e)
		}
	}
	for _, z := range s.Sizes {
		list = append(list, z.Expr)
	}
	return list
}

// statement is a row of the table of kinds: the word that begins the line and the
// function that reads the rest, from token i on.
type statement struct {
	word string
	kind Kind
	read func(l *line, i int, s *Stmt) *calc.Error
}

// statements is the table of statement kinds. A line that begins with none of
// the words is a bare naming or an expression.
var statements = []statement{
	{"drawn", DrawnAs, readNaming}, {"found", FoundAs, readNaming}, {"built", BuiltAs, readNaming},
	{"guess", Guessed, readNaming}, {"revise", Revised, readNaming},
	{"check", Check, readCheck},
	{"part", PartLine, readPart}, {"made", MadeLine, readMade}, {"settle", Settle, readSettle},
	{"work", Work, readLedger}, {"spend", Spend, readLedger}, {"stock", Stock, readStock},
}

// Words lists the words that begin a statement.
func Words() []string {
	list := make([]string, len(statements))
	for i, s := range statements {
		list[i] = s.word
	}
	return list
}

// Parser reads statements one after the other, each in the room of the one before: the
// zero Parser is ready. It is not for several goroutines at once; what it has read is.
type Parser struct{ line line }

// Parse is Parser.Parse for one statement.
func Parse(src string) (*Stmt, *calc.Error) { return new(Parser).Parse(src) }

// ParseSlot is Parser.ParseSlot for one slot.
func ParseSlot(src string) (*Stmt, *calc.Error) { return new(Parser).ParseSlot(src) }

// ParseScratch is Parse for scratch paper, where "it" outside a list is a name: that
// of the answer before.
func ParseScratch(src string) (*Stmt, *calc.Error) { return new(Parser).parse(src, true) }

// Parse reads one line of a calc block. An empty line, or one with a note only,
// gives nil and no error. Spans are offsets in src.
func (p *Parser) Parse(src string) (*Stmt, *calc.Error) { return p.parse(src, false) }

func (p *Parser) parse(src string, scratch bool) (*Stmt, *calc.Error) {
	l := &p.line
	if i := headOfOffset(src); i > 0 {
		return l.offsetReading(src, i)
	}
	if err := l.lex(src); err != nil {
		return nil, err
	}
	l.scratch = scratch
	if len(l.tokens) == 0 {
		return nil, nil
	}
	s := &Stmt{Text: strings.TrimSpace(src[:l.end]), Note: l.note, Remarks: l.remark}
	first := l.tokens[0]
	if len(l.tokens) > 1 && first.kind == tokRef && !(l.tokens[1].kind == tokSign && l.tokens[1].text != "(" && l.tokens[1].text != "[" && l.tokens[1].text != "-") {
		for _, k := range statements {
			if k.word == first.text {
				s.Kind = k.kind
				return s, k.read(l, 1, s)
			}
		}
	}
	if k := wordOf(first); k != nil && (first.kind == tokFunc && k.kind == Check || len(l.tokens) == 1) {
		if len(l.tokens) == 1 {
			return s, calc.Errorf(calc.CodeSyntax, "%s wants something after it", first.text).At(first.span).WithHint("%s", exampleOf(k.word))
		}
		s.Kind = k.kind
		return s, k.read(l, 1, s)
	}
	if n := l.find(0, len(l.tokens), tokSign, "="); n > 0 {
		s.Kind = Chosen
		return s, readNaming(l, 0, s)
	}
	s.Kind = Answer
	return s, readAnswer(l, 0, s)
}

func wordOf(t token) *statement {
	if t.kind != tokRef && t.kind != tokFunc {
		return nil
	}
	for i := range statements {
		if statements[i].word == t.text {
			return &statements[i]
		}
	}
	return nil
}

func exampleOf(word string) string {
	switch word {
	case "check":
		return `write check beam < 4' 2"`
	case "part":
		return `write part thwart: 2 of 3/4" by 7" by inside in larch`
	case "made":
		return "write made thwart: 2"
	case "settle":
		return "write settle thwart: replaced"
	case "work":
		return "write work 3.5 h on framing"
	case "spend":
		return "write spend 48.20 USD on fastenings"
	case "stock":
		return `write stock 3 of 1" by 8" by 14 ft in cedar`
	}
	return strings.TrimSpace("write "+word) + ` beam = 4' 7 1/2"`
}

// ParseSlot reads the text between the braces of a slot: an expression, perhaps with to.
func (p *Parser) ParseSlot(src string) (*Stmt, *calc.Error) {
	l := &p.line
	if err := l.lex(src); err != nil {
		return nil, err
	}
	s := &Stmt{Kind: Answer, Text: strings.TrimSpace(src), Remarks: l.remark}
	if len(l.tokens) == 0 || len(l.tokens) == 1 && l.tokens[0].text == "=" {
		return nil, calc.Errorf(calc.CodeSlot, "the slot is empty").At(calc.Span{Start: 0, End: len(src)})
	}
	first := 0
	if l.tokens[0].kind == tokSign && l.tokens[0].text == "=" {
		first = 1
	}
	return s, readAnswer(l, first, s)
}

// readTo cuts "to UNIT" off the end of tokens [i, j) and returns where the
// expression ends.
func (l *line) readTo(i, j int, s *Stmt) (int, *calc.Error) {
	n := l.findLast(i, j, tokWord, "to")
	if n < 0 {
		return j, nil
	}
	if n+1 >= j {
		return n, calc.Errorf(calc.CodeSyntax, "to wants a unit or a mark after it").At(l.tokens[n].span).WithHint(`write to mm, to 1/16" or to 1/4°`)
	}
	from, to := l.tokens[n+1].span.Start, l.tokens[j-1].span.End
	d, err := calc.ScanDisplay(l.src[from:to])
	if err != nil {
		if err.Span == (calc.Span{}) {
			err.Span = calc.Span{Start: 0, End: to - from}
		}
		err.Span = err.Span.Shift(from)
		return n, err
	}
	s.To = d
	return n, nil
}

func readAnswer(l *line, i int, s *Stmt) *calc.Error {
	j, err := l.readTo(i, len(l.tokens), s)
	if err != nil {
		return err
	}
	if s.Expr, err = l.compileRange(i, j); err != nil {
		return err
	}
	s.showShare(s.Expr.Text)
	return nil
}

// showShare lets a share that is written in per cent, a literal alone, be shown so; a
// wish that is written after it stands.
func (s *Stmt) showShare(text string) {
	if l := s.Expr.Literal; s.To == nil && l != nil && l.Value.D.IsNumber() && strings.Contains(text, "%") {
		s.To = calc.InUnit("%")
	}
}
