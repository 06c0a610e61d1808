package markdown

import (
	"github.com/yuin/goldmark/ast"
	"github.com/yuin/goldmark/parser"
	"github.com/yuin/goldmark/text"
)

// dashParser sets -- as an en dash, --- as an em dash and ... as an ellipsis.
// Quotes are never touched: in this trade ' and " are feet and inches. Longer
// runs stay as they are, and so does --word after a space, which is an option
// of a command.
type dashParser struct{}

func (dashParser) Trigger() []byte { return []byte{'-', '.'} }

func (dashParser) Parse(_ ast.Node, block text.Reader, _ parser.Context) ast.Node {
	line, _ := block.PeekLine()
	sign := line[0]
	n := 1
	for n < min(len(line), 4) && line[n] == sign {
		n++
	}
	before := block.PrecendingCharacter()
	if n < 2 || n > 3 || before == rune(sign) {
		return nil
	}
	set := ""
	switch {
	case sign == '.' && n == 3:
		set = "…"
	case sign == '-' && n == 3:
		set = "—"
	case sign == '-' && !(before == ' ' || before == '\n') || n == len(line) || !isASCIILetter(line[n]):
		if sign == '-' {
			set = "–"
		}
	}
	if set == "" {
		return nil
	}
	block.Advance(n)
	return ast.NewString([]byte(set))
}

func isASCIILetter(c byte) bool { return c|0x20 >= 'a' && c|0x20 <= 'z' }
