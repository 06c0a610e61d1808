package markdown

import (
	"github.com/yuin/goldmark/ast"
	"github.com/yuin/goldmark/parser"
	"github.com/yuin/goldmark/text"
)

// linkEnds are the offsets at which links and images end in the body.
type linkEnds map[ast.Node]int

var linkEndsKey = parser.NewContextKey()

// linkParser is goldmark's within the budget, which also notes where a link or
// an image ends.
type linkParser struct{ parser.InlineParser }

func (p linkParser) Parse(parent ast.Node, block text.Reader, pc parser.Context) ast.Node {
	b := budget(pc)
	if b.brackets++; b.brackets > maxBrackets {
		return nil
	}
	n := p.InlineParser.Parse(parent, block, pc)
	if n == nil || n.Kind() != ast.KindLink && n.Kind() != ast.KindImage {
		return n
	}
	ends := pc.ComputeIfAbsent(linkEndsKey, func() any { return linkEnds{} }).(linkEnds)
	_, at := block.Position()
	ends[n] = at.Start
	return n
}

// CloseBlock turns brackets that came to nothing back into text and opens the
// budget of the next block.
func (p linkParser) CloseBlock(parent ast.Node, block text.Reader, pc parser.Context) {
	*budget(pc) = inlineBudget{}
	p.InlineParser.(parser.CloseBlocker).CloseBlock(parent, block, pc)
}
