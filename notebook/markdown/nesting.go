package markdown

import (
	"github.com/yuin/goldmark/ast"
	extensionast "github.com/yuin/goldmark/extension/ast"
	"github.com/yuin/goldmark/parser"
	"github.com/yuin/goldmark/text"
	"github.com/yuin/goldmark/util"
)

// maxNesting bounds how deep quotes, lists and notes stand in one another.
// What would go deeper stays text; without a bound a line of a million > signs
// would cost a million times its length.
const maxNesting = 100

// boundedParser opens no block below maxNesting.
type boundedParser struct{ parser.BlockParser }

// bounded puts the bound on those parsers whose blocks hold other blocks.
func bounded(parsers []util.PrioritizedValue) []util.PrioritizedValue {
	for i, p := range parsers {
		if b, ok := p.Value.(parser.BlockParser); ok && mayHoldBlocks(b) {
			parsers[i].Value = boundedParser{b}
		}
	}
	return parsers
}

// mayHoldBlocks reports whether a parser is triggered by a sign that opens a
// quote, a list, a definition or a note.
func mayHoldBlocks(b parser.BlockParser) bool {
	for _, c := range b.Trigger() {
		switch c {
		case '>', '+', '[', ':':
			return true
		}
	}
	return false
}

func (b boundedParser) Open(parent ast.Node, reader text.Reader, pc parser.Context) (ast.Node, parser.State) {
	if !isList(parent) && depth(parent) > maxNesting {
		return nil, parser.NoChildren
	}
	return b.BlockParser.Open(parent, reader, pc)
}

// isList reports whether n holds items: a list that was let in must get its
// first item.
func isList(n ast.Node) bool {
	return n.Kind() == ast.KindList || n.Kind() == extensionast.KindDefinitionList
}

// depth counts the blocks around n, at most one more than the bound.
func depth(n ast.Node) int {
	d := 0
	for ; n != nil && d <= maxNesting; n = n.Parent() {
		d++
	}
	return d
}
