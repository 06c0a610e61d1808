package lang

import (
	"strings"
	"unicode"

	"scarph/calc"
)

// Mode says which reading of a name is wanted.
type Mode uint8

// The modes of a need.
const (
	Now       Mode = iota // the value as it stands
	Then                  // as it stood in the entry where the statement is written
	AsOfEntry             // as it stood at entry number Entry
	AsOfDate              // as it stood at the end of Date
	Drawn                 // the latest drawn reading
	Found                 // the latest found reading
	Built                 // the latest built reading
	Why                   // the list of readings its ± comes from
	Worked                // the hours of the ledger, of the subject in Path or of all
	Spent                 // the money of the ledger, likewise
)

// OfLedger reports whether the need is of the ledger, and of no name.
func (m Mode) OfLedger() bool { return m == Worked || m == Spent }

// Need is a name that an expression uses, with the reading it wants of it.
type Need struct {
	Path  string // beam, diagonal.port, offsets.chine_half.st_5; of the ledger, worked() and spent()
	Mode  Mode
	Entry int
	Date  string
	// Subject is what of the ledger is wanted, "" for all of it.
	Subject string
	Span    calc.Span
}

// Expr is a compiled expression. It is not changed after it is made and may be
// evaluated by several goroutines, each with a Frame of its own.
type Expr struct {
	Text  string
	Span  calc.Span // in the statement
	Needs []Need
	// Spreads counts the sources of ± that the expression writes itself.
	Spreads int
	// System is the family of the lengths it writes, Both when mixed or none.
	System calc.System
	// Literal is set when the whole expression is one literal quantity.
	Literal *calc.Literal
	// Calls names the functions it calls.
	Calls []string
	// Sealed is set when the expression keeps a value and its working is not told.
	Sealed bool
	run    step
	offs   []calc.Span // spans of needs in Text, for Fill
	which  []int       // which need stands at each of offs
}

// firstMask is the first of the private letters that stand for operands while the
// parser runs: Tangut, a script nobody keeps a boat's diary in.
const firstMask, lastMask = 0x17000, 0x187F7

func masked(r rune) bool { return r >= firstMask && r <= lastMask }

// compileRange compiles tokens [i, j) to an expression.
func (l *line) compileRange(i, j int) (*Expr, *calc.Error) {
	span := l.span(i, j)
	if i >= j {
		return nil, calc.Errorf(calc.CodeSyntax, "an expression is missing here").At(span)
	}
	m := &mask{l: l, expr: &Expr{Text: l.src[span.Start:span.End], Span: span}}
	m.makeRoom(i, j)
	if err := m.build(i, j); err != nil {
		return nil, err
	}
	t, fault := parseTree(m.out)
	if fault != nil {
		return nil, m.parseError(fault)
	}
	c := &compiler{mask: m, expr: m.expr}
	run, err := c.node(t)
	if err != nil {
		return nil, err
	}
	m.expr.run = run
	if j == i+1 && l.tokens[i].kind == tokLiteral {
		m.expr.Literal = l.tokens[i].lit
	}
	m.expr.System = m.system()
	return m.expr, nil
}

// mask is the text handed to the parser, with operands as single letters, and the
// way back from its runes to the source.
type mask struct {
	l        *line
	expr     *Expr
	out      []rune
	at       []int // source offset of each rune of out
	operands []operand
	feet     bool
	metric   bool
}

// operand is what a private letter stands for.
type operand struct {
	tok    token
	need   int      // index of the need, for names
	spread int      // index of its ± source, −1 for none
	member []string // of it.x: the fields
}

// makeRoom makes room for what tokens [i, j) come to.
func (m *mask) makeRoom(i, j int) {
	operands, names := 0, 0
	for k := i; k < j; k++ {
		switch m.l.tokens[k].kind {
		case tokLiteral, tokText:
			operands++
		case tokRef:
			operands++
			names++
		}
	}
	runes := len(m.expr.Text) + 2*(j-i)
	m.out, m.at = make([]rune, 0, runes), make([]int, 0, runes)
	m.operands = make([]operand, 0, operands)
	if names > 0 {
		m.expr.Needs = make([]Need, 0, names)
		m.expr.offs, m.expr.which = make([]calc.Span, 0, names), make([]int, 0, names)
	}
}

func (m *mask) put(s string, at int) {
	for _, r := range s {
		m.out = append(m.out, r)
		m.at = append(m.at, at)
	}
}

func (m *mask) build(i, j int) *calc.Error {
	for k := i; k < j; k++ {
		t := &m.l.tokens[k]
		if k > i {
			prev := &m.l.tokens[k-1]
			if endsOperand(prev) && beginsOperand(t) {
				return noSign(prev.text, t.text, t.span)
			}
		}
		switch t.kind {
		case tokSign:
			if t.text == "=" {
				return calc.Errorf(calc.CodeSyntax, "= names a value; it cannot stand inside an expression").At(t.span).WithHint("to compare, write ==")
			}
			m.put(t.text, t.span.Start)
			m.put(" ", t.span.End)
		case tokWord:
			if t.text != "and" && t.text != "or" && t.text != "not" {
				return calc.Errorf(calc.CodeSyntax, "the word %s cannot stand here", t.text).At(t.span).WithHint("%s", wordHint(t.text))
			}
			m.put(" ", t.span.Start)
			m.put(t.text, t.span.Start)
			m.put(" ", t.span.Start)
		case tokFunc:
			if mode, ok := readingWords[t.text]; ok {
				n, err := m.reading(k, j, mode)
				if err != nil {
					return err
				}
				k += n
				continue
			}
			if mode, ok := ledgerWords[t.text]; ok {
				n, err := m.ledger(k, j, mode)
				if err != nil {
					return err
				}
				k += n
				continue
			}
			if !plainName(t.text) {
				return calc.Errorf(calc.CodeUnknownFunc, "there is no function %s", t.text).At(t.span)
			}
			m.put(" ", t.span.Start)
			m.put(t.text, t.span.Start)
		case tokAsOf:
			return calc.Errorf(calc.CodeSyntax, "as of follows a name").At(t.span)
		default:
			if t.kind == tokRef && k > i && m.l.tokens[k-1].kind == tokSign && m.l.tokens[k-1].text == "." {
				m.put(t.text+" ", t.span.Start) // a field of what stands before
				continue
			}
			op := operand{tok: *t, need: -1, spread: -1}
			if t.kind == tokRef {
				var asOf *token
				if k+1 < j && m.l.tokens[k+1].kind == tokAsOf {
					asOf = &m.l.tokens[k+1]
					k++
				}
				m.ref(&op, asOf)
			}
			if t.kind == tokLiteral {
				if t.lit.Plus != 0 {
					op.spread = m.expr.Spreads
					m.expr.Spreads++
				}
				m.feet = m.feet || t.lit.System == calc.FeetInches
				m.metric = m.metric || t.lit.System == calc.Metric
			}
			if err := m.operand(op); err != nil {
				return err
			}
		}
	}
	return nil
}

// operand puts the private letter of an operand into the masked text.
func (m *mask) operand(op operand) *calc.Error {
	if firstMask+len(m.operands) > lastMask {
		return calc.Errorf(calc.CodeLimit, "too many numbers in one statement").At(op.tok.span)
	}
	at := op.tok.span.Start
	m.out = append(m.out, ' ', rune(firstMask+len(m.operands)), ' ')
	m.at = append(m.at, at, at, at)
	m.operands = append(m.operands, op)
	return nil
}

// readingWords are the functions that choose a reading of the name in their brackets.
var readingWords = map[string]Mode{"then": Then, "drawn": Drawn, "found": Found, "built": Built, "why": Why}

// reading enters then(beam) and its like, four tokens, as one operand; it returns
// how many tokens follow the first.
func (m *mask) reading(k, j int, mode Mode) (int, *calc.Error) {
	t := m.l.tokens
	if k+3 >= j || t[k+2].kind != tokRef || t[k+3].text != ")" {
		return 0, calc.Errorf(calc.CodeArguments, "%s wants one name in its brackets", t[k].text).At(t[k].span).
			WithHint("write %s(beam)", t[k].text)
	}
	op := operand{tok: t[k+2], spread: -1}
	op.tok.span = calc.Span{Start: t[k].span.Start, End: t[k+3].span.End}
	op.need = m.need(Need{Path: t[k+2].text, Mode: mode, Span: t[k+2].span})
	rel := calc.Span{Start: op.tok.span.Start - m.expr.Span.Start, End: op.tok.span.End - m.expr.Span.Start}
	m.expr.offs = append(m.expr.offs, rel)
	m.expr.which = append(m.expr.which, op.need)
	return 3, m.operand(op)
}

// ledgerWords are the words that read the work and spend lines.
var ledgerWords = map[string]Mode{"worked": Worked, "spent": Spent}

// ledger enters worked() or worked("framing") as one operand; it returns how many
// tokens follow the first.
func (m *mask) ledger(k, j int, mode Mode) (int, *calc.Error) {
	t := m.l.tokens
	more, subject := 2, ""
	if k+2 < j && t[k+2].kind == tokText {
		more, subject = 3, strings.Join(strings.Fields(t[k+2].text), " ")
	}
	if k+more >= j || t[k+more].text != ")" || t[k+more].kind != tokSign || more == 3 && subject == "" {
		return 0, calc.Errorf(calc.CodeArguments, "%s wants a subject in quotes, or nothing, in its brackets", t[k].text).At(t[k].span).
			WithHint(`write %s() for all of it, %s("framing") for one subject`, t[k].text, t[k].text)
	}
	op := operand{tok: t[k], spread: -1}
	op.tok.kind = tokRef
	op.tok.span = calc.Span{Start: t[k].span.Start, End: t[k+more].span.End}
	op.need = m.need(Need{Path: t[k].text + "()", Mode: mode, Subject: subject, Span: op.tok.span})
	return more, m.operand(op)
}

func (m *mask) system() calc.System {
	switch {
	case m.feet && !m.metric:
		return calc.FeetInches
	case m.metric && !m.feet:
		return calc.Metric
	}
	return calc.Both
}

func wordHint(w string) string {
	switch w {
	case "to":
		return "what stands after to is a unit or a mark, once, at the end: beam to mm"
	case "in":
		return "in is a unit after a number, or names the wood of a part"
	}
	return w + " belongs to part, made, work and spend"
}

func plainName(s string) bool {
	for i := 0; i < len(s); i++ {
		c := s[i]
		if !(c == '_' || c >= 'a' && c <= 'z' || c >= 'A' && c <= 'Z' || i > 0 && c >= '0' && c <= '9') {
			return false
		}
	}
	return true
}

func endsOperand(t *token) bool {
	return t.kind == tokLiteral || t.kind == tokText || t.kind == tokRef || t.kind == tokAsOf || t.kind == tokSign && (t.text == ")" || t.text == "]")
}

func beginsOperand(t *token) bool {
	return t.kind == tokLiteral || t.kind == tokText || t.kind == tokRef || t.kind == tokFunc || t.kind == tokSign && t.text == "(" || t.kind == tokSign && t.text == "["
}

// ref enters a name, as a need or as the element of a list.
func (m *mask) ref(op *operand, asOf *token) {
	path := op.tok.text
	if path == "it" || strings.HasPrefix(path, "it.") {
		op.member = strings.Split(path, ".")[1:]
		return
	}
	if path == "true" || path == "false" || path == "yes" || path == "no" {
		return
	}
	n := Need{Path: path, Span: op.tok.span}
	if asOf != nil {
		n.Mode, n.Entry, n.Date = AsOfEntry, asOf.entry, asOf.date
		if asOf.date != "" {
			n.Mode = AsOfDate
		}
		op.tok.span.End = asOf.span.End
	}
	op.need = m.need(n)
	rel := calc.Span{Start: op.tok.span.Start - m.expr.Span.Start, End: op.tok.span.End - m.expr.Span.Start}
	m.expr.offs = append(m.expr.offs, rel)
	m.expr.which = append(m.expr.which, op.need)
}

// need enters a need once.
func (m *mask) need(n Need) int {
	for i, o := range m.expr.Needs {
		if o.Path == n.Path && o.Mode == n.Mode && o.Entry == n.Entry && o.Date == n.Date && o.Subject == n.Subject {
			return i
		}
	}
	m.expr.Needs = append(m.expr.Needs, n)
	return len(m.expr.Needs) - 1
}

// source maps a rune of the masked text to the source.
func (m *mask) source(rune int) int {
	if rune < 0 {
		rune = 0
	}
	if rune >= len(m.at) {
		return m.expr.Span.End
	}
	return m.at[rune]
}

// Fill writes the expression with texts put in for its names, as in
// 157 1/2" / (12 − 1).
func (e *Expr) Fill(text func(n Need) string) string {
	var b strings.Builder
	at := 0
	for i, s := range e.offs {
		if s.Start < at {
			continue
		}
		b.WriteString(e.Text[at:s.Start])
		b.WriteString(text(e.Needs[e.which[i]]))
		at = s.End
	}
	b.WriteString(e.Text[at:])
	return b.String()
}

// parseError puts a fault of the grammar into the words of the shop.
func (m *mask) parseError(fault *treeError) *calc.Error {
	at := m.source(fault.from)
	span := calc.Span{Start: at, End: at + 1}
	tok := m.tokenAt(at)
	if tok != nil {
		span = tok.span
	}
	switch {
	case fault.why == shortFault || fault.from >= len(m.out)-1:
		open, closed := strings.Count(string(m.out), "("), strings.Count(string(m.out), ")")
		if open > closed {
			return calc.Errorf(calc.CodeSyntax, "a bracket is not closed").At(m.lastOpen()).WithHint("every ( wants its )")
		}
		return calc.Errorf(calc.CodeSyntax, "the expression stops short").At(calc.Span{Start: m.expr.Span.End - 1, End: m.expr.Span.End}).
			WithHint("a number or a name is wanted after the last sign")
	case fault.why == argumentFault:
		return calc.Errorf(calc.CodeArguments, "the function wants more arguments").At(span)
	case fault.why == limitFault:
		return calc.Errorf(calc.CodeLimit, "the expression has too many parts").At(m.expr.Span).WithHint("give parts of it names of their own")
	}
	if tok != nil {
		return calc.Errorf(calc.CodeSyntax, "%s cannot stand here", tok.text).At(span).WithHint("%s", strayHint(tok.text))
	}
	return calc.Errorf(calc.CodeSyntax, "the expression cannot be read from here").At(span)
}

func strayHint(s string) string {
	switch s {
	case ")", "]":
		return "there is no opening bracket for it, or something is missing before it"
	case ",":
		return "a comma stands between the arguments of a function or the elements of a list"
	case ":":
		return "a ratio is written tight, 1:12; a choice is written condition ? this : that"
	case ".":
		return "a field follows its name without a space: offsets.beam"
	}
	return "a number or a name is wanted here"
}

func (m *mask) lastOpen() calc.Span {
	var stack []calc.Span
	for _, t := range m.l.tokens {
		if t.span.Start < m.expr.Span.Start || t.span.End > m.expr.Span.End || t.kind != tokSign {
			continue
		}
		switch t.text {
		case "(", "[":
			stack = append(stack, t.span)
		case ")", "]":
			if len(stack) > 0 {
				stack = stack[:len(stack)-1]
			}
		}
	}
	if len(stack) == 0 {
		return m.expr.Span
	}
	return stack[len(stack)-1]
}

func (m *mask) tokenAt(at int) *token {
	for i := range m.l.tokens {
		t := &m.l.tokens[i]
		if t.span.Start <= at && at < t.span.End {
			return t
		}
	}
	return nil
}

// spanOf is the place of a node in the source.
func (m *mask) spanOf(n *tree) calc.Span {
	at := m.source(n.from)
	if t := m.tokenAt(at); t != nil {
		return t.span
	}
	return calc.Span{Start: at, End: at + 1}
}

// ValidName reports why s cannot name a value, or nil.
func ValidName(s string, at calc.Span) *calc.Error {
	for part, rest, more := "", s, true; more; {
		part, rest, more = strings.Cut(rest, ".")
		if part == "" || wordAt(part) != part {
			return calc.Errorf(calc.CodeName, "%s cannot be a name", s).At(at).
				WithHint("a name is letters, digits and _, beginning with a letter, with dots for families: diagonal.port")
		}
	}
	first, _, _ := strings.Cut(s, ".")
	switch {
	case words[s] || reserved[first]:
		return calc.Errorf(calc.CodeName, "%s is a word of the language and cannot be a name", first).At(at).WithHint("add something to it: %s_1, my_%s", first, first)
	case !strings.Contains(s, "."):
		if u, ok := calc.FindUnit(s); ok {
			return calc.Errorf(calc.CodeName, "%s is a unit and cannot be a name", s).At(at).
				WithHint("say what it is: %s", nameFor(u))
		}
	}
	for _, r := range s {
		if unicode.IsUpper(r) && len(s) == 3 && calcCurrency(s) {
			return calc.Errorf(calc.CodeName, "%s is a currency and cannot be a name", s).At(at)
		}
	}
	return nil
}

func calcCurrency(s string) bool {
	u, ok := calc.FindUnit(s)
	return ok && u.D.HasMoney()
}

func nameFor(u *calc.Unit) string {
	w := u.D.Word()
	if w == "number" {
		w = "count"
	}
	return strings.ReplaceAll(w, " ", "_") + "_of_frame"
}

// reserved are words that begin a statement or stand for a value.
var reserved = map[string]bool{
	"drawn": true, "found": true, "built": true, "guess": true, "revise": true, "check": true, "part": true, "made": true,
	"settle": true, "work": true, "spend": true, "stock": true, "it": true, "true": true, "false": true, "yes": true, "no": true,
	"and": true, "or": true, "not": true, "as": true, "to": true, "entry": true,
	"then": true,
}
