package markdown

import (
	"bytes"
	"strings"

	"github.com/yuin/goldmark/ast"
	extensionast "github.com/yuin/goldmark/extension/ast"

	"scarph/calc"
)

// Table is a data table: a table whose corner cell ends in a colon.
type Table struct {
	Index    int       // its place among the tables of its section
	Name     string    // from the corner cell, as a name of the calc language
	Kind     string    // drawn, found, built, guess, or "" when the corner cell has no such word
	Unit     string    // of the bare numbers of the whole table: "offsets (mm):"
	Span     calc.Span // from the first line to the last
	NameSpan calc.Span // the corner cell
	Columns  []Label
	Rows     []Label
	Cells    [][]Cell // a row of cells for each row label, a cell for each column
}

// Cell is one cell of a data table. An empty one is missing, not zero.
type Cell struct {
	Text string    // as it is written
	Span calc.Span // of Text; where it would stand when the cell is empty
	Slot *Slot     // when the cell is one slot and nothing else
}

// BareUnit returns the unit that a bare number in a cell takes: that of its
// row, else of its column, else of its table.
func (t *Table) BareUnit(row, col int) string {
	for _, unit := range []string{t.Rows[row].Unit, t.Columns[col].Unit, t.Unit} {
		if unit != "" {
			return unit
		}
	}
	return ""
}

// maxCells is how many cells the data tables of one file have. Each is a value of the
// journal with a name of its own; a table of offsets has a few hundred.
const maxCells = 50_000

func (c *collector) addTable(n *extensionast.Table) {
	d := c.doc
	header := n.FirstChild()
	corner := header.FirstChild()
	caption, isData := strings.CutSuffix(d.plainText(corner, slotSource), ":")
	if !isData {
		return
	}
	t := &Table{NameSpan: d.cellSpan(corner)}
	caption, t.Unit = cutUnit(strings.TrimSpace(caption))
	t.Kind, caption = cutKind(caption)
	if t.Name = NameOf(caption); t.Name == "" {
		d.problem(t.NameSpan, calc.CodeTable, "this table of data has no name", "write one before the colon, as offsets:")
		return
	}
	if c.cells += header.ChildCount() * n.ChildCount(); c.cells > maxCells {
		d.problem(t.NameSpan, calc.CodeLimit, "the tables of data in this file have more than 50,000 cells with this one", "it is shown, and its cells are text; put it into a file of its own, or leave out what no sum needs")
		return
	}
	for cell := corner.NextSibling(); cell != nil; cell = cell.NextSibling() {
		t.Columns = append(t.Columns, d.label(cell))
	}
	for row := header.NextSibling(); row != nil; row = row.NextSibling() {
		c.addRow(t, row)
	}
	d.nameLabels(t.Columns, "column")
	d.nameLabels(t.Rows, "row")
	t.Span = calc.Span{Start: d.base + d.lineStart(t.NameSpan.Start-d.base), End: d.base + d.lineEnd(d.tableEnd(n))}
	d.marks.tables[n] = t
	c.section.Tables = append(c.section.Tables, t)
}

// cutKind takes the word for the kind of its readings from a caption.
func cutKind(caption string) (kind, rest string) {
	word, rest, _ := strings.Cut(caption, " ")
	switch word = strings.ToLower(word); word {
	case "drawn", "found", "built", "guess":
		return word, rest
	}
	return "", caption
}

func (c *collector) addRow(t *Table, row ast.Node) {
	d := c.doc
	first := row.FirstChild()
	cells := make([]Cell, 0, len(t.Columns))
	blank := isBlankCell(first)
	for n := first.NextSibling(); n != nil; n = n.NextSibling() {
		blank = blank && isBlankCell(n)
		cells = append(cells, d.cell(n))
	}
	if blank {
		return
	}
	if rest := d.afterCells(row); strings.Trim(d.text(rest), "| \t") != "" {
		d.problem(rest, calc.CodeTable, "this row has more cells than the table has columns", "give the column a header, or take the cell away")
	}
	t.Rows = append(t.Rows, d.label(first))
	t.Cells = append(t.Cells, cells)
}

func isBlankCell(n ast.Node) bool {
	lines := n.Lines()
	return lines.Len() == 0 || lines.At(0).Start >= lines.At(0).Stop
}

func (d *Document) cell(n ast.Node) Cell {
	c := Cell{Span: d.cellSpan(n)}
	c.Text = d.text(c.Span)
	if only, ok := n.FirstChild().(*slotNode); ok && n.ChildCount() == 1 {
		c.Slot = only.slot
	}
	return c
}

// cellSpan returns the text of a cell; a cell that a short row lacks lies at
// the end of that row.
func (d *Document) cellSpan(n ast.Node) calc.Span {
	if lines := n.Lines(); lines.Len() > 0 {
		return d.segment(lines.At(0))
	}
	end := d.rowEnd(n.Parent())
	return d.span(end, end)
}

// rowEnd returns the end of the last cell that is written in a row.
func (d *Document) rowEnd(row ast.Node) int {
	end := row.Pos()
	for n := row.FirstChild(); n != nil; n = n.NextSibling() {
		if lines := n.Lines(); lines.Len() > 0 {
			end = lines.At(0).Stop
		}
	}
	return max(end, 0)
}

// tableEnd returns an offset in the last line of a table.
func (d *Document) tableEnd(n ast.Node) int {
	last := n.LastChild()
	if last == n.FirstChild() { // only the header: its ruled line follows
		_, next := cutLine(d.body, d.rowEnd(last))
		return min(next, len(d.body))
	}
	return d.rowEnd(last)
}

// afterCells returns what a row holds beyond the columns of its table.
func (d *Document) afterCells(row ast.Node) calc.Span {
	end := d.rowEnd(row)
	stop := d.lineEnd(end)
	if i := bytes.IndexByte(d.body[end:stop], '|'); i >= 0 {
		end += i + 1
	}
	return d.span(end, max(end, stop))
}
