package markdown

import (
	"strings"

	"github.com/yuin/goldmark/ast"
	"github.com/yuin/goldmark/renderer/html"
)

// link writes a link. One whose address is not allowed keeps its text and
// leads nowhere.
func (s *sheet) link(n *ast.Link, entering bool) {
	if !entering {
		s.WriteString("</a>")
		return
	}
	s.openLink(destination(n.Destination))
	if n.Title != nil {
		s.WriteString(` title="`)
		html.DefaultWriter.Write(s, n.Title)
		s.WriteByte('"')
	}
	s.WriteByte('>')
}

func (s *sheet) openLink(dest string) {
	s.WriteString("<a")
	if !mayFollow(dest) {
		return
	}
	if place, ok := strings.CutPrefix(dest, "#"); ok && place != "" {
		dest = "#" + s.options.IDPrefix + place // within the file, whose ids have the prefix
	} else if s.options.Link != nil {
		if dest = s.options.Link(dest); dest == "" {
			return
		}
	}
	s.WriteString(` href="`)
	s.escaped(dest)
	s.WriteByte('"')
}

// autoLink writes an address in < > as a link, inside another link as text.
func (s *sheet) autoLink(n *ast.AutoLink) {
	label := string(n.Label(s.doc.body))
	if inLink(n) {
		s.escaped(label)
		return
	}
	s.openLink(autoDestination(n, s.doc.body))
	s.WriteByte('>')
	s.escaped(label)
	s.WriteString("</a>")
}

// inLink reports whether n stands in the text of a link.
func inLink(n ast.Node) bool {
	for p := n.Parent(); p != nil && p.Type() == ast.TypeInline; p = p.Parent() {
		if p.Kind() == ast.KindLink {
			return true
		}
	}
	return false
}
