package lang

import (
	"strings"

	"scarph/calc"
)

// readLedger reads work HOURS on SUBJECT and spend MONEY on SUBJECT. The subject is
// the words to the end of the line.
func readLedger(l *line, i int, s *Stmt) *calc.Error {
	n := len(l.tokens)
	on := l.find(i, n, tokWord, "on")
	if on < 0 {
		return calc.Errorf(calc.CodeSyntax, "%s wants on and a subject", s.Kind.Word()).At(l.span(i, n)).WithHint("%s", exampleOf(s.Kind.Word()))
	}
	var err *calc.Error
	if s.Expr, err = l.compileRange(i, on); err != nil {
		return err
	}
	if on+1 >= n {
		return calc.Errorf(calc.CodeSyntax, "on wants a subject").At(l.tokens[on].span).WithHint("%s", exampleOf(s.Kind.Word()))
	}
	s.NameSpan = l.span(on+1, n)
	s.Name = strings.Join(strings.Fields(strings.Trim(l.src[s.NameSpan.Start:s.NameSpan.End], `"`)), " ")
	return nil
}
