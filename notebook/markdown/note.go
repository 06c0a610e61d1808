package markdown

import (
	"github.com/yuin/goldmark/ast"
	"github.com/yuin/goldmark/extension"
	extensionast "github.com/yuin/goldmark/extension/ast"
	"github.com/yuin/goldmark/parser"
	"github.com/yuin/goldmark/text"
)

// noteParser is goldmark's parser of footnotes. That one gathers the notes in
// a list where the first of them stood, which for a note inside a note is a
// list inside one of its own items; here the list goes to the front of the
// tree, out of the way.
type noteParser struct{ parser.BlockParser }

func newNoteParser() parser.BlockParser { return noteParser{extension.NewFootnoteBlockParser()} }

func (p noteParser) Close(n ast.Node, reader text.Reader, pc parser.Context) {
	root := n.Parent()
	for root.Parent() != nil {
		root = root.Parent()
	}
	p.BlockParser.Close(n, reader, pc)
	if list := n.Parent(); list != root.FirstChild() {
		list.Parent().RemoveChild(list.Parent(), list)
		root.InsertBefore(root, root.FirstChild(), list)
	}
}

// takeNotes takes the footnotes out of the tree and returns them in the order
// of the file.
func takeNotes(root ast.Node) []*extensionast.Footnote {
	list, ok := root.FirstChild().(*extensionast.FootnoteList)
	if !ok {
		return nil
	}
	root.RemoveChild(root, list)
	var notes []*extensionast.Footnote
	for n := list.FirstChild(); n != nil; n = n.NextSibling() {
		notes = append(notes, n.(*extensionast.Footnote))
	}
	return notes
}
