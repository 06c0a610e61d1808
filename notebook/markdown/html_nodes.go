package markdown

import (
	"github.com/yuin/goldmark/ast"
	extensionast "github.com/yuin/goldmark/extension/ast"
	"github.com/yuin/goldmark/renderer"
	"github.com/yuin/goldmark/renderer/html"
	"github.com/yuin/goldmark/util"
)

// pageNodes writes the nodes that a journal's page shows in its own way; the
// others are goldmark's.
type pageNodes struct{}

func (pageNodes) RegisterFuncs(reg renderer.NodeRendererFuncRegisterer) {
	reg.Register(kindSlot, whole((*sheet).slot))
	reg.Register(ast.KindFencedCodeBlock, whole((*sheet).fence))
	reg.Register(ast.KindHTMLBlock, whole((*sheet).rawHTML))
	reg.Register(ast.KindRawHTML, whole((*sheet).rawHTML))
	reg.Register(ast.KindImage, whole((*sheet).image))
	reg.Register(ast.KindAutoLink, whole((*sheet).autoLink))
	reg.Register(extensionast.KindFootnoteLink, whole((*sheet).noteLink))
	reg.Register(extensionast.KindTable, whole((*sheet).table))
	reg.Register(extensionast.KindTaskCheckBox, whole((*sheet).task))
	reg.Register(ast.KindHeading, around((*sheet).heading))
	reg.Register(ast.KindParagraph, around((*sheet).paragraph))
	reg.Register(ast.KindLink, around((*sheet).link))
}

// whole is a writer that sees to a node and all below it.
func whole[N ast.Node](write func(*sheet, N)) renderer.NodeRendererFunc {
	return func(w util.BufWriter, _ []byte, n ast.Node, entering bool) (ast.WalkStatus, error) {
		if entering {
			write(w.(*sheet), n.(N))
		}
		return ast.WalkSkipChildren, nil
	}
}

// around is a writer that is called before and after what is below a node.
func around[N ast.Node](write func(s *sheet, n N, entering bool)) renderer.NodeRendererFunc {
	return func(w util.BufWriter, _ []byte, n ast.Node, entering bool) (ast.WalkStatus, error) {
		write(w.(*sheet), n.(N), entering)
		return ast.WalkContinue, nil
	}
}

func (s *sheet) slot(n *slotNode) { s.results.Slot(&s.Buffer, n.slot) }

func (s *sheet) fence(n *ast.FencedCodeBlock) {
	if b := s.doc.marks.blocks[n]; b != nil {
		s.results.Block(&s.Buffer, b)
		return
	}
	s.WriteString("<pre><code")
	if language := n.Language(s.doc.body); language != nil {
		s.WriteString(` class="language-`)
		html.DefaultWriter.Write(s, language)
		s.WriteByte('"')
	}
	s.WriteByte('>')
	for i := range n.Lines().Len() {
		line := n.Lines().At(i)
		html.DefaultWriter.RawWrite(s, line.Value(s.doc.body))
	}
	s.WriteString("</code></pre>\n")
}

// rawHTML writes what the list of harmless tags leaves of raw HTML.
func (s *sheet) rawHTML(n ast.Node) { s.WriteString(s.doc.marks.html[n]) }

func (s *sheet) heading(n *ast.Heading, entering bool) {
	tag := "h" + string(rune('0'+n.Level))
	if !entering {
		s.WriteString("</" + tag + ">\n")
		return
	}
	s.WriteString("<" + tag + ` id="`)
	s.escaped(s.options.IDPrefix + s.doc.marks.headings[n].ID)
	s.WriteString(`">`)
}

func (s *sheet) paragraph(n *ast.Paragraph, entering bool) {
	tag := "p"
	if first := n.FirstChild(); first != nil && first.Kind() == ast.KindImage && standsAlone(first) {
		tag = "figure"
	}
	if entering {
		s.WriteString("<" + tag + ">")
	} else {
		s.WriteString("</" + tag + ">\n")
	}
}

func (s *sheet) task(n *extensionast.TaskCheckBox) {
	if n.IsChecked {
		s.WriteString(`<input type="checkbox" disabled="" checked="" aria-label="done" /> `)
	} else {
		s.WriteString(`<input type="checkbox" disabled="" aria-label="to do" /> `)
	}
}
