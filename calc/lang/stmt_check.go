package lang

import "scarph/calc"

// readCheck reads check condition. When the condition is one comparison its two
// sides are kept apart, so that both values can be shown.
func readCheck(l *line, i int, s *Stmt) *calc.Error {
	n := len(l.tokens)
	var err *calc.Error
	if eq := l.find(i, n, tokSign, "="); eq >= 0 {
		return calc.Errorf(calc.CodeSyntax, "a check compares with ==").At(l.tokens[eq].span).WithHint("= names a value; write == to compare, or < and > for limits")
	}
	if s.Expr, err = l.compileRange(i, n); err != nil {
		return err
	}
	at := -1
	for k := i; k < n; k++ {
		t := l.tokens[k]
		if t.kind == tokWord || t.kind == tokSign && (t.text == "?" || t.text == "!") {
			return nil
		}
		if t.kind == tokSign && comparison(t.text) != nil && l.find(i, k+1, tokSign, t.text) >= 0 {
			if at >= 0 {
				return nil
			}
			at = k
		}
	}
	if at < 0 || l.find(i, n, tokSign, l.tokens[at].text) != at {
		return nil
	}
	if s.Left, err = l.compileRange(i, at); err != nil {
		return err
	}
	s.Right, err = l.compileRange(at+1, n)
	s.Sign = l.tokens[at].text
	return err
}
