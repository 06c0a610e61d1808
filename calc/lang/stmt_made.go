package lang

import "scarph/calc"

// readMade reads
//
//	made PART: COUNT
//	made THING to VALUE, VALUE within TOLERANCE
//
// The second records what is no part: THING was made to the named values.
func readMade(l *line, i int, s *Stmt) *calc.Error {
	n := len(l.tokens)
	if i < n && l.tokens[i].kind == tokRef && i+1 < n && l.tokens[i+1].kind == tokWord && l.tokens[i+1].text == "to" {
		s.Name, s.NameSpan = l.tokens[i].text, l.tokens[i].span
		return l.readMadeTo(i+2, s)
	}
	i, err := l.readSubject(i, s)
	if err != nil {
		return err
	}
	end := l.find(i, n, tokSign, ",")
	if w := l.find(i, n, tokWord, "within"); w >= 0 && (end < 0 || w < end) {
		end = w
	}
	if end < 0 {
		end = n
	}
	if s.Expr, err = l.compileRange(i, end); err != nil {
		return err
	}
	return l.readFurther(end, s)
}

// readMadeTo reads the values a thing was made to. A value that is a single name
// is remembered under it, others by their text.
func (l *line) readMadeTo(i int, s *Stmt) *calc.Error {
	n := len(l.tokens)
	end := n
	if w := l.find(i, n, tokWord, "within"); w >= 0 {
		e, err := l.compileRange(w+1, n)
		if err != nil {
			return err
		}
		s.Within, end = e, w
	}
	if end > i && l.tokens[end-1].text == "," {
		end--
	}
	for i < end {
		to := l.find(i, end, tokSign, ",")
		if to < 0 {
			to = end
		}
		e, err := l.compileRange(i, to)
		if err != nil {
			return err
		}
		s.Sizes = append(s.Sizes, Size{e.Text, e})
		i = to + 1
	}
	if len(s.Sizes) == 0 {
		return calc.Errorf(calc.CodePart, "made %s to wants the values it was made to", s.Name).At(l.span(i, n)).WithHint(`write made %s to chine_bevel within 1/2°`, s.Name)
	}
	return nil
}

// ways are the ways a part that is off can be settled.
var ways = []string{"trimmed", "packed", "replaced", "left"}

// readSettle reads
//
//	settle PART: COUNT trimmed to LENGTH, packed, replaced or left   # and a note
//
// Without a count all that is off is meant. After "to" stand the sizes after the work: a
// length alone, or SIZE = ….
func readSettle(l *line, i int, s *Stmt) *calc.Error {
	i, err := l.readSubject(i, s)
	if err != nil {
		return err
	}
	n := len(l.tokens)
	way := i
	for way < n && !(l.tokens[way].kind == tokRef && isWay(l.tokens[way].text)) {
		way++
	}
	if way == n {
		word := i // that should be the way
		for word+1 < n && l.tokens[word].kind != tokRef {
			word++
		}
		e := calc.Errorf(calc.CodePart, "settle says what was done: trimmed, packed, replaced or left").At(l.span(word, word+1))
		if word < n {
			if near := calc.Nearest(l.tokens[word].text, ways); near != "" {
				return e.WithHint("did you mean %s?", near)
			}
		}
		return e.WithHint("%s", exampleOf("settle"))
	}
	if way > i {
		if s.Expr, err = l.compileRange(i, way); err != nil {
			return err
		}
	}
	s.How = l.tokens[way].text
	i = way + 1
	if i >= n {
		return nil
	}
	if l.tokens[i].kind != tokWord || l.tokens[i].text != "to" {
		return calc.Errorf(calc.CodePart, "after %s stands to and a size, or nothing", s.How).At(l.span(i, n)).
			WithHint(`write settle %s: %s to 3' 7 15/16"; remarks go after #`, s.Name, s.How)
	}
	for i++; i < n; {
		to := l.find(i, n, tokSign, ",")
		if to < 0 {
			to = n
		}
		name, from := "", i
		if i+1 < to && l.tokens[i].kind == tokRef && l.tokens[i+1].text == "=" {
			name, from = l.tokens[i].text, i+2
		}
		e, err := l.compileRange(from, to)
		if err != nil {
			return err
		}
		s.Sizes = append(s.Sizes, Size{name, e})
		i = to + 1
	}
	if len(s.Sizes) == 0 {
		return calc.Errorf(calc.CodePart, "to wants a size").At(l.span(n-1, n))
	}
	return nil
}

func isWay(s string) bool {
	for _, w := range ways {
		if w == s {
			return true
		}
	}
	return false
}
