package markdown

import (
	"bytes"
	"html"
	"strings"

	"github.com/yuin/goldmark/ast"
	extensionast "github.com/yuin/goldmark/extension/ast"
	goldmarkhtml "github.com/yuin/goldmark/renderer/html"
)

// slotSource shows a slot as it is written.
func slotSource(s *Slot) string { return "{" + s.Text + "}" }

// plainText returns the text of a node without any marking; slots as slotText
// gives them.
func (d *Document) plainText(n ast.Node, slotText func(*Slot) string) string {
	var b strings.Builder
	d.writePlain(&b, n, slotText)
	return strings.TrimSpace(b.String())
}

func (d *Document) writePlain(b *strings.Builder, n ast.Node, slotText func(*Slot) string) {
	for c := n.FirstChild(); c != nil; c = c.NextSibling() {
		switch c := c.(type) {
		case *ast.Text:
			if c.IsRaw() {
				b.Write(c.Segment.Value(d.body))
			} else {
				b.WriteString(unescape(c.Segment.Value(d.body)))
			}
			if c.SoftLineBreak() || c.HardLineBreak() {
				b.WriteByte('\n')
			}
		case *ast.String:
			b.Write(c.Value)
		case *ast.AutoLink:
			b.Write(c.Label(d.body))
		case *slotNode:
			slot := c.slot
			if slot == nil { // before the slots are collected
				slot = &Slot{Text: string(c.at.Value(d.body))}
			}
			b.WriteString(slotText(slot))
		case *ast.FencedCodeBlock, *ast.HTMLBlock, *ast.RawHTML, *extensionast.FootnoteLink:
		case *ast.CodeBlock:
			for i := range c.Lines().Len() {
				line := c.Lines().At(i)
				b.Write(line.Value(d.body))
			}
		default:
			d.writePlain(b, c, slotText)
			if c.Type() == ast.TypeBlock {
				b.WriteByte('\n')
			}
		}
	}
}

// PlainText returns the words of a section for a search: headings, paragraphs,
// tables and alt texts, a line each, without calc blocks. A nil r leaves slots
// as they are written.
func (d *Document) PlainText(s *Section, r Results) string {
	slotText := slotSource
	if r != nil {
		slotText = r.SlotText
	}
	d = d.drawn()
	var b strings.Builder
	for _, n := range d.Sections[s.index].nodes {
		if n.Kind() == ast.KindFencedCodeBlock {
			continue
		}
		if text := d.plainText(n, slotText); text != "" {
			b.WriteString(text)
			b.WriteByte('\n')
		}
	}
	return strings.ToValidUTF8(b.String(), "\uFFFD")
}

// unescape resolves the backslashes and entities of a text.
func unescape(s []byte) string {
	if !bytes.ContainsAny(s, "\\&\x00") {
		return string(s)
	}
	var b buffer
	goldmarkhtml.DefaultWriter.Write(&b, s)
	return html.UnescapeString(b.String())
}
