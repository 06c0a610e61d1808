package markdown

import (
	"github.com/yuin/goldmark/ast"
	"github.com/yuin/goldmark/extension"
	"github.com/yuin/goldmark/parser"
	"github.com/yuin/goldmark/renderer"
	"github.com/yuin/goldmark/renderer/html"
	"github.com/yuin/goldmark/text"
	"github.com/yuin/goldmark/util"
)

// pageParser and pageRenderer are set up once and then only read; both may be
// used from several goroutines.
var (
	pageParser   = newParser(commonMark(), slots(), dialect(), dashes())
	pageRenderer = newRenderer()
)

type markdownParser struct{ parser.Parser }

// parse returns the tree of a body and where its links and images end.
func (p markdownParser) parse(body []byte) (ast.Node, linkEnds) {
	pc := parser.NewContext()
	root := p.Parse(text.NewReader(body), parser.WithContext(pc))
	ends, _ := pc.Get(linkEndsKey).(linkEnds)
	return root, ends
}

func newParser(parts ...[]parser.Option) markdownParser {
	var options []parser.Option
	for _, p := range parts {
		options = append(options, p...)
	}
	return markdownParser{parser.NewParser(options...)}
}

// commonMark is the standard dialect, with bounds on what a text can cost and
// with links that know their ends.
func commonMark() []parser.Option {
	return []parser.Option{
		parser.WithBlockParsers(bounded(parser.DefaultBlockParsers())...),
		parser.WithInlineParsers(
			util.Prioritized(parser.NewCodeSpanParser(), 100),
			util.Prioritized(linkParser{parser.NewLinkParser()}, 200),
			util.Prioritized(parser.NewAutoLinkParser(), 300),
			util.Prioritized(parser.NewRawHTMLParser(), 400),
			util.Prioritized(markParser{parser.NewEmphasisParser()}, 500),
		),
		parser.WithParagraphTransformers(
			util.Prioritized(referenceParser{parser.LinkReferenceParagraphTransformer}, 100),
		),
	}
}

func slots() []parser.Option {
	return []parser.Option{parser.WithInlineParsers(util.Prioritized(slotParser{}, 150))}
}

func dashes() []parser.Option {
	return []parser.Option{parser.WithInlineParsers(util.Prioritized(dashParser{}, 600))}
}

// dialect is what a journal has beyond CommonMark. Footnotes are gathered by
// us, a section at a time, so goldmark's own gathering is left out.
func dialect() []parser.Option {
	return []parser.Option{
		parser.WithParagraphTransformers(util.Prioritized(extension.NewTableParagraphTransformer(), 200)),
		parser.WithASTTransformers(util.Prioritized(extension.NewTableASTTransformer(), 0)),
		parser.WithBlockParsers(bounded([]util.PrioritizedValue{
			util.Prioritized(extension.NewDefinitionListParser(), 101),
			util.Prioritized(extension.NewDefinitionDescriptionParser(), 102),
			util.Prioritized(newNoteParser(), 999),
		})...),
		parser.WithInlineParsers(
			util.Prioritized(extension.NewTaskCheckBoxParser(), 0),
			util.Prioritized(extension.NewFootnoteParser(), 101),
			util.Prioritized(markParser{extension.NewStrikethroughParser()}, 500),
		),
	}
}

// newRenderer writes every node; ours stand before goldmark's.
func newRenderer() renderer.Renderer {
	return renderer.NewRenderer(renderer.WithNodeRenderers(
		util.Prioritized(pageNodes{}, 100),
		util.Prioritized(html.NewRenderer(), 1000),
		util.Prioritized(extension.NewTableHTMLRenderer(), 1000),
		util.Prioritized(extension.NewStrikethroughHTMLRenderer(), 1000),
		util.Prioritized(extension.NewDefinitionListHTMLRenderer(), 1000),
	), html.WithXHTML())
}
