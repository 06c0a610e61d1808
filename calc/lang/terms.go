package lang

import (
	"strings"

	"scarph/calc"
)

// terms are the tokens of an expression as the grammar reads them, and what its operands
// stand for.
type terms struct {
	l        *line
	expr     *Expr
	symbols  []symbol
	operands []operand
	feet     bool
	metric   bool
}

// symbol is what the grammar reads.
type symbol struct {
	kind    symbolKind
	word    string // as it is written, signs in their one spelling
	at      calc.Span
	operand int // which, of an operand
}

type symbolKind uint8

const (
	endSymbol     symbolKind = iota
	signSymbol               // a sign, a bracket, and, or, not
	nameSymbol               // of a function
	fieldSymbol              // behind a dot
	operandSymbol            // a number, a text, a name with the reading it wants
)

// operand is what stands for a value.
type operand struct {
	kind   tokenKind // tokLiteral, tokText, tokRef
	text   string
	lit    *calc.Literal
	at     calc.Span
	need   int      // index of the need, for names
	spread int      // index of its ± source, −1 for none
	member []string // of it.x: the fields
}

// begin makes room for what tokens [i, j) come to. A line's expressions are read one after
// the other and take the same room.
func (m *terms) begin(l *line, e *Expr, i, j int) {
	names := 0
	for k := i; k < j; k++ {
		if l.tokens[k].kind == tokRef {
			names++
		}
	}
	m.l, m.expr, m.feet, m.metric = l, e, false, false
	if cap(m.symbols) < j-i {
		m.symbols, m.operands = make([]symbol, 0, len(l.tokens)), make([]operand, 0, len(l.tokens)/2+1)
	}
	m.symbols, m.operands = m.symbols[:0], m.operands[:0]
	if names > 0 {
		e.Needs, e.named = make([]Need, 0, names), make([]named, 0, names)
	}
}

func (m *terms) put(kind symbolKind, t *token) {
	m.symbols = append(m.symbols, symbol{kind: kind, word: t.text, at: t.span})
}

// enter turns tokens [i, j) into symbols.
func (m *terms) enter(i, j int) *calc.Error {
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
			m.put(signSymbol, t)
		case tokWord:
			if t.text != "and" && t.text != "or" && t.text != "not" {
				return calc.Errorf(calc.CodeSyntax, "the word %s cannot stand here", t.text).At(t.span).WithHint("%s", wordHint(t.text))
			}
			m.put(signSymbol, t)
		case tokFunc:
			n, err := m.function(k, j)
			if err != nil {
				return err
			}
			k += n
		case tokAsOf:
			return calc.Errorf(calc.CodeSyntax, "as of follows a name").At(t.span)
		case tokRef:
			if k > i && m.l.tokens[k-1].kind == tokSign && m.l.tokens[k-1].text == "." {
				m.fields(t)
				continue
			}
			var asOf *token
			if k+1 < j && m.l.tokens[k+1].kind == tokAsOf {
				asOf = &m.l.tokens[k+1]
				k++
			}
			m.ref(t, asOf)
		case tokText:
			m.operand(t, operand{kind: tokText, text: t.text, at: t.span, need: -1, spread: -1})
		case tokLiteral:
			m.literal(t)
		}
	}
	return nil
}

// fields enters what follows a dot: a field, or a field of a field.
func (m *terms) fields(t *token) {
	for i, name := range strings.Split(t.text, ".") {
		if i > 0 {
			m.symbols = append(m.symbols, symbol{kind: signSymbol, word: ".", at: t.span})
		}
		m.symbols = append(m.symbols, symbol{kind: fieldSymbol, word: name, at: t.span})
	}
}

// operand enters an operand, which is shown at a token.
func (m *terms) operand(t *token, op operand) {
	m.symbols = append(m.symbols, symbol{kind: operandSymbol, word: t.text, at: t.span, operand: len(m.operands)})
	m.operands = append(m.operands, op)
}

func (m *terms) literal(t *token) {
	op := operand{kind: tokLiteral, text: t.text, lit: t.lit, at: t.span, need: -1, spread: -1}
	if t.lit.Plus != 0 {
		op.spread = m.expr.Spreads
		m.expr.Spreads++
	}
	m.feet = m.feet || t.lit.System == calc.FeetInches
	m.metric = m.metric || t.lit.System == calc.Metric
	m.operand(t, op)
}

// ref enters a name, as a need or as the element of a list.
func (m *terms) ref(t, asOf *token) {
	op := operand{kind: tokRef, text: t.text, at: t.span, need: -1, spread: -1}
	if t.text == "it" || strings.HasPrefix(t.text, "it.") {
		op.member = strings.Split(t.text, ".")[1:]
	} else if !isTruth(t.text) {
		n := Need{Path: t.text, Span: t.span}
		if asOf != nil {
			n.Mode, n.Entry, n.Date = AsOfEntry, asOf.entry, asOf.date
			if asOf.date != "" {
				n.Mode = AsOfDate
			}
			op.at.End = asOf.span.End
		}
		op.need = m.nameAt(n, op.at)
	}
	m.operand(t, op)
}

// nameAt enters a need and the place where it stands.
func (m *terms) nameAt(n Need, at calc.Span) int {
	need := m.need(n)
	m.expr.named = append(m.expr.named, named{at.Shift(-m.expr.Span.Start), need})
	return need
}

// need enters a need once.
func (m *terms) need(n Need) int {
	for i, o := range m.expr.Needs {
		if o.Path == n.Path && o.Mode == n.Mode && o.Entry == n.Entry && o.Date == n.Date && o.Subject == n.Subject {
			return i
		}
	}
	m.expr.Needs = append(m.expr.Needs, n)
	return len(m.expr.Needs) - 1
}

// function enters the name of a function, or all of a call that stands for one value; it
// returns how many tokens that takes behind the first.
func (m *terms) function(k, j int) (int, *calc.Error) {
	t := &m.l.tokens[k]
	if mode, ok := readingWord(t.text); ok {
		return m.reading(k, j, mode)
	}
	if mode, ok := ledgerWord(t.text); ok {
		return m.ledger(k, j, mode)
	}
	if !plainName(t.text) {
		return 0, calc.Errorf(calc.CodeUnknownFunc, "there is no function %s", t.text).At(t.span)
	}
	m.put(nameSymbol, t)
	return 0, nil
}

// readingWord is what a function chooses of the name in its brackets.
func readingWord(s string) (Mode, bool) {
	switch s {
	case "then":
		return Then, true
	case "drawn":
		return Drawn, true
	case "found":
		return Found, true
	case "built":
		return Built, true
	case "why":
		return Why, true
	}
	return Now, false
}

// reading enters then(beam) and its like, four tokens, as one operand; it returns
// how many tokens follow the first.
func (m *terms) reading(k, j int, mode Mode) (int, *calc.Error) {
	t := m.l.tokens
	if k+3 >= j || t[k+2].kind != tokRef || t[k+3].text != ")" {
		return 0, calc.Errorf(calc.CodeArguments, "%s wants one name in its brackets", t[k].text).At(t[k].span).
			WithHint("write %s(beam)", t[k].text)
	}
	op := operand{kind: tokRef, text: t[k+2].text, at: calc.Span{Start: t[k].span.Start, End: t[k+3].span.End}, spread: -1}
	op.need = m.nameAt(Need{Path: op.text, Mode: mode, Span: t[k+2].span}, op.at)
	m.operand(&t[k], op)
	return 3, nil
}

// ledgerWord is what a function reads of the work and spend lines.
func ledgerWord(s string) (Mode, bool) {
	switch s {
	case "worked":
		return Worked, true
	case "spent":
		return Spent, true
	}
	return Now, false
}

// ledger enters worked() or worked("framing") as one operand; it returns how many
// tokens follow the first.
func (m *terms) ledger(k, j int, mode Mode) (int, *calc.Error) {
	t := m.l.tokens
	more, subject := 2, ""
	if k+2 < j && t[k+2].kind == tokText {
		more, subject = 3, strings.Join(strings.Fields(t[k+2].text), " ")
	}
	if k+more >= j || t[k+more].text != ")" || t[k+more].kind != tokSign || more == 3 && subject == "" {
		return 0, calc.Errorf(calc.CodeArguments, "%s wants a subject in quotes, or nothing, in its brackets", t[k].text).At(t[k].span).
			WithHint(`write %s() for all of it, %s("framing") for one subject`, t[k].text, t[k].text)
	}
	op := operand{kind: tokRef, text: t[k].text, at: calc.Span{Start: t[k].span.Start, End: t[k+more].span.End}, spread: -1}
	op.need = m.need(Need{Path: t[k].text + "()", Mode: mode, Subject: subject, Span: op.at})
	m.operand(&t[k], op)
	return more, nil
}

func (m *terms) system() calc.System {
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

// parseError puts a fault of the grammar into the words of the shop.
func (m *terms) parseError(fault *treeError) *calc.Error {
	switch fault.why {
	case shortFault:
		open, closed := 0, 0
		for _, s := range m.symbols {
			if s.kind == signSymbol && s.word == "(" {
				open++
			} else if s.kind == signSymbol && s.word == ")" {
				closed++
			}
		}
		if open > closed {
			return calc.Errorf(calc.CodeSyntax, "a bracket is not closed").At(m.lastOpen()).WithHint("every ( wants its )")
		}
		return calc.Errorf(calc.CodeSyntax, "the expression stops short").At(calc.Span{Start: m.expr.Span.End - 1, End: m.expr.Span.End}).
			WithHint("a number or a name is wanted after the last sign")
	case argumentFault:
		return calc.Errorf(calc.CodeArguments, "the function wants more arguments").At(fault.at)
	}
	return calc.Errorf(calc.CodeSyntax, "%s cannot stand here", fault.word).At(fault.at).WithHint("%s", strayHint(fault.word))
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

// lastOpen is the last bracket that nothing closes.
func (m *terms) lastOpen() calc.Span {
	var stack []calc.Span
	for _, s := range m.symbols {
		if s.kind != signSymbol {
			continue
		}
		switch s.word {
		case "(", "[":
			stack = append(stack, s.at)
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
