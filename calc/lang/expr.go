package lang

import (
	"strings"

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
	named  []named // where names stand in Text, for Fill
}

// named is a place in the text of an expression where a name stands.
type named struct {
	at   calc.Span
	need int // which
}

// compileRange compiles tokens [i, j) to an expression.
func (l *line) compileRange(i, j int) (*Expr, *calc.Error) {
	span := l.span(i, j)
	if i >= j {
		return nil, calc.Errorf(calc.CodeSyntax, "an expression is missing here").At(span)
	}
	t := &l.terms
	t.begin(l, &Expr{Text: l.src[span.Start:span.End], Span: span}, i, j)
	if err := t.enter(i, j); err != nil {
		return nil, err
	}
	tree, fault := parseTree(t.symbols, &l.trees)
	if fault != nil {
		return nil, t.parseError(fault)
	}
	c := &compiler{terms: t, expr: t.expr}
	run, err := c.node(tree)
	if err != nil {
		return nil, err
	}
	t.expr.run = run
	if j == i+1 && l.tokens[i].kind == tokLiteral {
		t.expr.Literal = l.tokens[i].lit
	}
	t.expr.System = t.system()
	return t.expr, nil
}

// Fill writes the expression with texts put in for its names, as in
// 157 1/2" / (12 − 1).
func (e *Expr) Fill(text func(n Need) string) string {
	var b strings.Builder
	at := 0
	for _, n := range e.named {
		if n.at.Start < at {
			continue
		}
		b.WriteString(e.Text[at:n.at.Start])
		b.WriteString(text(e.Needs[n.need]))
		at = n.at.End
	}
	b.WriteString(e.Text[at:])
	return b.String()
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
	case isWord(s) || isReserved(first):
		return calc.Errorf(calc.CodeName, "%s is a word of the language and cannot be a name", first).At(at).WithHint("add something to it: %s_1, my_%s", first, first)
	case !strings.Contains(s, "."):
		if u, ok := calc.FindUnit(s); ok {
			return calc.Errorf(calc.CodeName, "%s is a unit and cannot be a name", s).At(at).
				WithHint("say what it is: %s", nameFor(u))
		}
	}
	return nil
}

func nameFor(u *calc.Unit) string {
	w := u.D.Word()
	if w == "number" {
		w = "count"
	}
	return strings.ReplaceAll(w, " ", "_") + "_of_frame"
}

// isReserved reports whether s begins a statement or stands for a value.
func isReserved(s string) bool {
	switch s {
	case "drawn", "found", "built", "guess", "revise", "check", "part", "made", "settle", "work", "spend", "stock",
		"it", "true", "false", "yes", "no", "and", "or", "not", "as", "to", "entry", "then":
		return true
	}
	return false
}
