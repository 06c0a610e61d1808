package lang

import "scarph/calc"

// Constant is the expression of one literal, for a cell of a data table.
func Constant(text string, lit calc.Literal) *Expr {
	e := &Expr{Text: text, Span: calc.Span{Start: 0, End: len(text)}, Literal: &lit, System: lit.System}
	v := lit.Value
	if lit.Plus == 0 {
		e.run = func(*Frame) calc.Value { return v }
		return e
	}
	e.Spreads = 1
	e.run = func(f *Frame) calc.Value { return calc.WithSpread(v, lit.Plus, f.source(0)) }
	return e
}

// ReadingOf is the statement that gives a name a reading, as a cell of a data
// table does.
func ReadingOf(kind Kind, name, text string, e *Expr) *Stmt {
	return &Stmt{Kind: kind, Name: name, Text: text, Expr: e}
}

// KindOf finds the kind of reading that a word names; Chosen for "".
func KindOf(word string) (Kind, bool) {
	if word == "" {
		return Chosen, true
	}
	for _, s := range statements {
		if s.word == word && s.kind.IsReading() {
			return s.kind, true
		}
	}
	return Chosen, false
}
