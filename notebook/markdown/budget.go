package markdown

import (
	"github.com/yuin/goldmark/ast"
	"github.com/yuin/goldmark/parser"
	"github.com/yuin/goldmark/text"
)

// What counts in one paragraph, heading or cell. All of these cost goldmark
// the square of their number, so a text made to be slow would take minutes.
const (
	maxBrackets   = 1000 // what comes after them is text
	maxMarks      = 2000 // of emphasis; what comes after them is text
	maxReferences = 1000 // lines of a paragraph that may hold link references
)

// inlineBudget counts them in the block that is being parsed.
type inlineBudget struct{ brackets, marks int }

var inlineBudgetKey = parser.NewContextKey()

func budget(pc parser.Context) *inlineBudget {
	return pc.ComputeIfAbsent(inlineBudgetKey, func() any { return new(inlineBudget) }).(*inlineBudget)
}

// markParser parses emphasis or strikethrough within the budget.
type markParser struct{ parser.InlineParser }

func (p markParser) Parse(parent ast.Node, block text.Reader, pc parser.Context) ast.Node {
	b := budget(pc)
	if b.marks++; b.marks > maxMarks {
		return nil
	}
	return p.InlineParser.Parse(parent, block, pc)
}

// referenceParser finds link references in paragraphs that are not too long.
type referenceParser struct{ parser.ParagraphTransformer }

func (p referenceParser) Transform(n *ast.Paragraph, reader text.Reader, pc parser.Context) {
	if n.Lines().Len() <= maxReferences {
		p.ParagraphTransformer.Transform(n, reader, pc)
	}
}
