package markdown

import (
	"github.com/yuin/goldmark/ast"
	extensionast "github.com/yuin/goldmark/extension/ast"
)

// table writes a table in a box that scrolls sideways where the page is
// narrow; the box takes the focus, so that a keyboard can scroll it. In a data
// table the first cell of a row is its header and the cells are results.
func (s *sheet) table(n *extensionast.Table) {
	data := s.doc.marks.tables[n]
	s.WriteString(`<div class="wide" tabindex="0" role="group" aria-label="`)
	if data == nil {
		s.WriteString(`table"><table>`)
	} else {
		s.escaped(s.doc.plainText(n.FirstChild().FirstChild(), s.results.SlotText))
		s.WriteString(`"><table class="offsets">`)
	}
	s.WriteString("\n<thead>\n<tr>\n")
	header := n.FirstChild()
	for cell := header.FirstChild(); cell != nil; cell = cell.NextSibling() {
		s.tableCell(cell, `th scope="col"`, "th")
	}
	s.WriteString("</tr>\n</thead>\n")
	if row := header.NextSibling(); row != nil {
		s.WriteString("<tbody>\n")
		if data != nil {
			s.dataRows(n, data)
		} else {
			s.rows(row)
		}
		s.WriteString("</tbody>\n")
	}
	s.WriteString("</table></div>\n")
}

func (s *sheet) rows(row ast.Node) {
	for ; row != nil; row = row.NextSibling() {
		s.WriteString("<tr>\n")
		for cell := row.FirstChild(); cell != nil; cell = cell.NextSibling() {
			s.tableCell(cell, "td", "td")
		}
		s.WriteString("</tr>\n")
	}
}

func (s *sheet) dataRows(n *extensionast.Table, data *Table) {
	for i, row := range data.Rows {
		s.WriteString("<tr>\n")
		s.tableCell(row.node, `th scope="row"`, "th")
		for j := range data.Cells[i] {
			s.WriteString("<td")
			s.align(n.Alignments[j+1])
			s.results.Cell(&s.Buffer, data, i, j)
			s.WriteString("</td>\n")
		}
		s.WriteString("</tr>\n")
	}
}

func (s *sheet) tableCell(n ast.Node, open, tag string) {
	s.WriteString("<" + open)
	s.align(n.(*extensionast.TableCell).Alignment)
	s.children(n)
	s.WriteString("</" + tag + ">\n")
}

// align ends the opening tag of a cell. Alignment is a class, since the
// content policy of our pages allows no style attributes.
func (s *sheet) align(a extensionast.Alignment) {
	if a != extensionast.AlignNone {
		s.WriteString(` class="` + a.String() + `"`)
	}
	s.WriteByte('>')
}
