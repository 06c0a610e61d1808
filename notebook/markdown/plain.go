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

// noSlot leaves a slot out.
func noSlot(*Slot) string { return "" }

// plainText returns the text of a node without any marking; slots as slotText
// gives them.
func (d *Document) plainText(n ast.Node, slotText func(*Slot) string) string {
	return d.plainWords(n, words{slot: slotText})
}

func (d *Document) plainWords(n ast.Node, w words) string {
	var b strings.Builder
	if t, data := d.dataOf(n, w); data != nil {
		d.writeData(&b, t, data, w)
	} else {
		d.writePlain(&b, n, w)
	}
	return strings.TrimSpace(b.String())
}

// words give the text of what is worked out. Without cell the cells of a data table are
// text like any other.
type words struct {
	slot func(*Slot) string
	cell func(t *Table, row, col int) string
}

func (d *Document) writePlain(b *strings.Builder, n ast.Node, w words) {
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
			b.WriteString(w.slot(slot))
		case *extensionast.Table:
			if _, data := d.dataOf(c, w); data != nil {
				d.writeData(b, c, data, w)
				continue
			}
			d.writePlain(b, c, w)
		case *ast.FencedCodeBlock, *ast.HTMLBlock, *ast.RawHTML, *extensionast.FootnoteLink:
		case *ast.CodeBlock:
			for i := range c.Lines().Len() {
				line := c.Lines().At(i)
				b.Write(line.Value(d.body))
			}
		default:
			d.writePlain(b, c, w)
			if c.Type() == ast.TypeBlock {
				b.WriteByte('\n')
			}
		}
	}
}

// dataOf is the data table that a node is, nil where its cells are to be plain text.
func (d *Document) dataOf(n ast.Node, w words) (*extensionast.Table, *Table) {
	t, ok := n.(*extensionast.Table)
	if !ok || w.cell == nil {
		return nil, nil
	}
	return t, d.marks.tables[t]
}

// writeData writes a data table, its cells as they were worked out.
func (d *Document) writeData(b *strings.Builder, n *extensionast.Table, data *Table, w words) {
	d.writePlain(b, n.FirstChild(), w)
	for i, row := range data.Rows {
		d.writePlain(b, row.node, w)
		for j := range data.Cells[i] {
			b.WriteByte('\n')
			b.WriteString(w.cell(data, i, j))
		}
		b.WriteByte('\n')
	}
}

// PlainText returns the words of a section for a search: headings, paragraphs,
// tables and alt texts, a line each, without calc blocks. A nil r leaves slots
// as they are written.
func (d *Document) PlainText(s *Section, r Results) string {
	w := words{slot: slotSource}
	if r != nil {
		w = words{slot: r.SlotText, cell: r.CellText}
	}
	d = d.drawn()
	var b strings.Builder
	for _, n := range d.Sections[s.index].nodes {
		if n.Kind() == ast.KindFencedCodeBlock {
			continue
		}
		if text := d.plainWords(n, w); text != "" {
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
