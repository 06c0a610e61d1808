package lang

import (
	"strings"

	"scarph/calc"
)

// sizeNames are the names of the sizes that stand after "of", by how many there are.
var sizeNames = map[int][]string{1: {"length"}, 2: {"width", "length"}, 3: {"thickness", "width", "length"}}

// readPart reads
//
//	part NAME: COUNT of THICKNESS by WIDTH by LENGTH in WOOD, SIZE = …, within TOLERANCE
func readPart(l *line, i int, s *Stmt) *calc.Error {
	i, err := l.readSubject(i, s)
	if err != nil {
		return err
	}
	return l.readPieces(i, s)
}

// readStock reads stock COUNT of THICKNESS by WIDTH by LENGTH in WOOD: boards at hand.
func readStock(l *line, i int, s *Stmt) *calc.Error {
	if err := l.readPieces(i, s); err != nil {
		return err
	}
	if s.Wood == "" {
		return calc.Errorf(calc.CodePart, "boards at hand want their wood").At(l.span(i, len(l.tokens))).WithHint("%s", exampleOf("stock"))
	}
	s.Name = s.Wood
	return nil
}

// readSubject reads NAME: and returns the token after the colon.
func (l *line) readSubject(i int, s *Stmt) (int, *calc.Error) {
	if i >= len(l.tokens) || l.tokens[i].kind != tokRef {
		return i, calc.Errorf(calc.CodePart, "%s wants the name of a part", s.Kind.Word()).At(l.span(i, i+1)).WithHint("%s", exampleOf(s.Kind.Word()))
	}
	s.Name, s.NameSpan = l.tokens[i].text, l.tokens[i].span
	if i+1 >= len(l.tokens) || l.tokens[i+1].text != ":" {
		e := calc.Errorf(calc.CodePart, "a colon is wanted after %s", s.Name).At(l.span(i+1, i+2))
		if colon := l.find(i, len(l.tokens), tokSign, ":"); colon > i+1 && l.tokens[i+1].kind == tokRef {
			return i, e.WithHint("names of several words are joined: %s", joinedName(l.src[s.NameSpan.Start:l.tokens[colon-1].span.End]))
		}
		return i, e.WithHint("%s", exampleOf(s.Kind.Word()))
	}
	if s.Kind == PartLine {
		if err := ValidName(s.Name, s.NameSpan); err != nil {
			return i, err
		}
	}
	return i + 2, nil
}

// readPieces reads COUNT of sizes, in WOOD, further sizes, tolerance.
func (l *line) readPieces(i int, s *Stmt) *calc.Error {
	n := len(l.tokens)
	of := l.find(i, n, tokWord, "of")
	if of < 0 {
		return calc.Errorf(calc.CodePart, "a part wants its count and its sizes").At(l.span(i, n)).WithHint("%s", exampleOf("part"))
	}
	var err *calc.Error
	if s.Expr, err = l.compileRange(i, of); err != nil {
		return err
	}
	end := l.find(of, n, tokSign, ",")
	if end < 0 {
		end = n
	}
	sizesEnd := end
	if in := l.findLast(of, end, tokWord, "in"); in >= 0 {
		if sizesEnd = in; in+2 != end || l.tokens[in+1].kind != tokRef && l.tokens[in+1].kind != tokText {
			return calc.Errorf(calc.CodePart, "in names the wood, in one word or between quotes").At(l.span(in, end)).WithHint(`write in white_oak or in "white oak"`)
		}
		s.Wood = strings.ReplaceAll(l.tokens[in+1].text, "_", " ")
	}
	if err := l.readSizes(of+1, sizesEnd, s); err != nil {
		return err
	}
	return l.readFurther(end, s)
}

func (l *line) readSizes(i, j int, s *Stmt) *calc.Error {
	var exprs []*Expr
	for from := i; ; {
		by := l.find(from, j, tokWord, "by")
		to := by
		if by < 0 {
			to = j
		}
		e, err := l.compileRange(from, to)
		if err != nil {
			return err
		}
		exprs = append(exprs, e)
		if by < 0 {
			break
		}
		from = by + 1
	}
	names := sizeNames[len(exprs)]
	if names == nil {
		return calc.Errorf(calc.CodePart, "a part has one to three sizes: thickness by width by length").At(l.span(i, j))
	}
	for k, e := range exprs {
		s.Sizes = append(s.Sizes, Size{names[k], e})
	}
	return nil
}

// readFurther reads ", SIZE = …" and ", within …" from a comma on.
func (l *line) readFurther(i int, s *Stmt) *calc.Error {
	n := len(l.tokens)
	for i < n {
		if l.tokens[i].text == "," && l.tokens[i].kind == tokSign {
			i++
		}
		end := l.find(i, n, tokSign, ",")
		if end < 0 {
			end = n
		}
		var err *calc.Error
		switch {
		case i < n && l.tokens[i].kind == tokWord && l.tokens[i].text == "within":
			s.Within, err = l.compileRange(i+1, end)
		case i+1 < end && l.tokens[i].kind == tokRef && l.tokens[i+1].text == "=":
			var e *Expr
			if e, err = l.compileRange(i+2, end); err == nil {
				for _, z := range s.Sizes {
					if z.Name == l.tokens[i].text {
						return calc.Errorf(calc.CodePart, "%s is given twice", z.Name).At(l.tokens[i].span)
					}
				}
				s.Sizes = append(s.Sizes, Size{l.tokens[i].text, e})
			}
		default:
			return calc.Errorf(calc.CodePart, "a further size is written name = size, a tolerance within size").At(l.span(i, end)).
				WithHint(`write , heel = heel_bevel, within 1/16"`)
		}
		if err != nil {
			return err
		}
		i = end
	}
	return nil
}
