package markdown

import (
	"cmp"
	"slices"

	"github.com/yuin/goldmark/ast"
	extensionast "github.com/yuin/goldmark/extension/ast"

	"scarph/calc"
)

// collector walks the tree once and gives each section what stands in it.
type collector struct {
	doc     *Document
	ends    linkEnds
	section *Section
	cells   int // of the data tables so far
}

// place tells where in the text a node stands.
type place struct{ heading, link, alt bool }

func (c *collector) collect(root ast.Node) {
	d := c.doc
	notes := takeNotes(root)
	c.splitSections(root)
	for _, s := range d.Sections {
		c.section = s
		c.walkAll(s.nodes)
		s.runs = c.blockHTML(s.nodes)
	}
	for _, n := range notes {
		c.collectNote(n)
	}
}

// finish does what takes the whole of a file, when all that is in it was found.
func (d *Document) finish() {
	slugs := slugs{}
	for i, s := range d.Sections {
		s.index = i
		s.number()
		for _, h := range s.Headings {
			h.ID = slugs.unique(h.slug)
		}
		s.entitle()
	}
	sortBySpan(d.Problems, func(p Problem) calc.Span { return p.Span })
}

// collectNote gives what is in a footnote to the section in which it stands.
// A note that nobody refers to is not shown; its calc blocks count all the
// same, which must not happen unseen.
func (c *collector) collectNote(n *extensionast.Footnote) {
	c.section = c.doc.sectionOf(c.doc.base + n.Pos())
	before := len(c.section.Blocks)
	c.walk(n, place{})
	if n.Index > 0 {
		c.doc.marks.notes[n.Index] = n
		return
	}
	for _, b := range c.section.Blocks[before:] {
		c.doc.problem(b.Span, calc.CodeSyntax, "this calc block stands in a footnote that nobody refers to, so no page shows it",
			"write [^"+string(n.Ref)+"] where it belongs")
	}
}

// number puts what was found in the order of the file and counts it. The tree
// is not quite in that order: notes come last, and a definition list after the
// table that it took its term from.
func (s *Section) number() {
	sortBySpan(s.Blocks, func(b *Block) calc.Span { return b.Span })
	sortBySpan(s.Slots, func(x *Slot) calc.Span { return x.Span })
	sortBySpan(s.Tables, func(t *Table) calc.Span { return t.Span })
	sortBySpan(s.Images, func(i *Image) calc.Span { return i.Span })
	sortBySpan(s.Headings, func(h *Heading) calc.Span { return h.Span })
	for i, b := range s.Blocks {
		b.Index = i
	}
	for i, x := range s.Slots {
		x.Index = i
	}
	for i, t := range s.Tables {
		t.Index = i
	}
}

func sortBySpan[T any](found []T, span func(T) calc.Span) {
	slices.SortStableFunc(found, func(a, b T) int { return cmp.Compare(span(a).Start, span(b).Start) })
}

func (c *collector) walkAll(nodes []ast.Node) {
	for _, n := range nodes {
		c.walk(n, place{})
	}
}

// walk visits n and all below it, in the order of the text.
func (c *collector) walk(n ast.Node, at place) {
	switch n := n.(type) {
	case *slotNode:
		c.addSlot(n, at)
		return
	case *ast.FencedCodeBlock:
		c.addFence(n)
		return
	case *ast.Image:
		c.walkChildren(n, place{at.heading, at.link, true})
		c.addImage(n, at)
		return
	case *ast.Link:
		at.link = true
		c.walkChildren(n, at)
		if !at.alt {
			c.addLink(n)
		}
		return
	case *ast.AutoLink:
		if !at.alt && !at.link {
			c.addAutoLink(n)
		}
		return
	case *ast.Heading:
		at.heading = true
		c.walkChildren(n, at)
		c.addHeading(n)
		return
	case *extensionast.Table:
		c.walkChildren(n, at)
		c.addTable(n)
		return
	}
	c.walkChildren(n, at)
}

func (c *collector) walkChildren(n ast.Node, at place) {
	hasTags, hasHTML := false, false
	for child := n.FirstChild(); child != nil; child = child.NextSibling() {
		switch child.Kind() {
		case ast.KindText:
			continue
		case ast.KindRawHTML:
			hasTags = true
		case ast.KindHTMLBlock:
			hasHTML = true
		}
		c.walk(child, at)
	}
	if hasTags {
		c.inlineHTML(n)
	}
	if hasHTML {
		c.blockHTML(children(n))
	}
}

func children(n ast.Node) []ast.Node {
	nodes := make([]ast.Node, 0, n.ChildCount())
	for child := n.FirstChild(); child != nil; child = child.NextSibling() {
		nodes = append(nodes, child)
	}
	return nodes
}

func (c *collector) addSlot(n *slotNode, at place) {
	n.slot = c.newSlot(c.doc.segment(n.at), at)
}

func (c *collector) newSlot(span calc.Span, at place) *Slot {
	s := &Slot{
		Text:      c.doc.text(span),
		Span:      span,
		InHeading: at.heading,
		InLink:    at.link,
		InAlt:     at.alt,
	}
	c.section.Slots = append(c.section.Slots, s)
	return s
}

func (c *collector) addHeading(n *ast.Heading) {
	d := c.doc
	h := &Heading{Level: n.Level, Text: d.plainText(n, slotSource), slug: d.plainText(n, noSlot), top: n.Parent().Kind() == ast.KindDocument, node: n}
	if lines := n.Lines(); lines.Len() > 0 {
		h.Span = d.span(lines.At(0).Start, lines.At(lines.Len()-1).Stop)
	} else {
		at := min(n.Pos(), len(d.body)) // a tab that is part of an indent counts once more
		h.Span = d.span(at, at)
	}
	d.marks.headings[n] = h
	c.section.Headings = append(c.section.Headings, h)
}

func (c *collector) addLink(n *ast.Link) {
	d := c.doc
	c.section.Links = append(c.section.Links, &Link{
		Destination: destination(n.Destination),
		Text:        d.plainText(n, slotSource),
		Span:        d.span(n.Pos(), c.ends[n]),
	})
}

func (c *collector) addAutoLink(n *ast.AutoLink) {
	c.section.Links = append(c.section.Links, &Link{
		Destination: autoDestination(n, c.doc.body),
		Text:        string(n.Label(c.doc.body)),
		Span:        c.doc.span(n.Pos(), n.Pos()+len("<>")+len(n.Label(c.doc.body))),
	})
}
