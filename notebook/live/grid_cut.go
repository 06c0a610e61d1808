package live

import (
	"slices"
	"strconv"
	"strings"
	"unicode"

	"scarph/calc"
	"scarph/notebook"
)

// pasted is a table that was found in a pasted text.
type pasted struct {
	columns []string
	rows    []gridRow
	named   bool   // the first column names the rows
	head    string // of the first column, when it has one
}

// cutTable finds rows and columns in a pasted text. What stands between the cells is
// found from the whole of it: tabs, bars, semicolons or commas, two blanks or more, or,
// where there is nothing else, single blanks. names says whether the first column names
// the rows: yes, no, or "" to find that out.
func cutTable(text, names string) pasted {
	var lines []string
	for _, l := range strings.Split(strings.NewReplacer("\r\n", "\n", "\r", "\n", "\u00a0", " ", byteOrderMark, "").Replace(text), "\n") {
		if strings.TrimFunc(l, rules) != "" { // neither empty nor a ruled line
			lines = append(lines, l)
		}
	}
	table := cutCells(lines)
	most := 0
	for _, cells := range table {
		most = max(most, len(cells))
	}
	if most < 2 {
		return pasted{}
	}
	p := pasted{named: names == "yes" || names == "" && hasLabels(table)}
	if len(table) > 1 && isHeader(table, p.named) {
		head := table[0]
		if len(head) == most {
			p.head = head[0]
			if p.named {
				head = head[1:]
			}
		}
		p.columns, table = head, table[1:]
	}
	for _, cells := range table {
		r := gridRow{Cells: cells}
		if p.named {
			r.Name, r.Cells = cells[0], cells[1:]
		}
		p.rows = append(p.rows, r)
	}
	for _, r := range p.rows {
		for len(p.columns) < len(r.Cells) {
			p.columns = append(p.columns, "")
		}
	}
	return p
}

// rules reports whether a line of r alone holds nothing: blanks of any kind, among them
// the page break of a text from a PDF, and what tables are ruled with.
func rules(r rune) bool { return unicode.IsSpace(r) || strings.ContainsRune("|-:+=", r) }

// cutCells cuts lines into cells by what stands between them.
func cutCells(lines []string) [][]string {
	every := func(sign string) bool {
		n := 0
		for _, l := range lines {
			if strings.Contains(strings.TrimRight(l, " "), sign) {
				n++
			}
		}
		return n > 0 && n >= len(lines)-1
	}
	eachLine := func(cut func(string) []string) (table [][]string) {
		for _, l := range lines {
			table = append(table, trimAll(cut(l)))
		}
		return table
	}
	switch {
	case every("\t"):
		return records(lines, '\t')
	case every("|"):
		return eachLine(func(l string) []string {
			return strings.Split(strings.TrimSuffix(strings.TrimPrefix(strings.TrimSpace(l), "|"), "|"), "|")
		})
	case every(";"):
		return records(lines, ';')
	}
	cut := strings.Fields
	for _, l := range lines {
		if strings.Contains(strings.TrimSpace(l), "  ") {
			cut = cutAtGaps
		}
	}
	atBlanks := eachLine(func(l string) []string {
		cells := cut(l)
		if strings.HasPrefix(l, " ") && len(cells) > 0 && cells[0] != "" { // a head whose corner is empty
			cells = append([]string{""}, cells...)
		}
		return cells
	})
	// commas between digits alone are decimal commas, where blanks cut a table too
	if table := records(lines, ','); even(table) && !(even(atBlanks) && onlyDecimalCommas(lines)) {
		return table
	}
	return atBlanks
}

// cutAtGaps cuts at two blanks or more; a line that begins with them has an empty
// first cell.
func cutAtGaps(l string) []string {
	l = strings.ReplaceAll(strings.TrimRight(l, " "), "\t", "  ")
	var cells []string
	if strings.HasPrefix(l, "  ") {
		cells = append(cells, "")
	}
	for _, c := range strings.Split(strings.TrimLeft(l, " "), "  ") {
		if c = strings.TrimSpace(c); c != "" {
			cells = append(cells, c)
		}
	}
	return cells
}

func trimAll(cells []string) []string {
	for i := range cells {
		cells[i] = strings.TrimSpace(cells[i])
	}
	return cells
}

// isMeasure reports whether a cell holds an offset or a length, not a bare number.
func isMeasure(cell string) bool {
	if calc.LooksLikeOffset(cell) {
		return true
	}
	v, err := notebook.ReadCell(cell, "")
	return err == nil && !v.D.IsNumber()
}

func isBareNumber(cell string) bool {
	v, err := notebook.ReadCell(cell, "")
	return err == nil && v.IsQuantity() && v.D.IsNumber()
}

// namesRows are heads under which the rows of a table are named or numbered.
var namesRows = []string{"station", "stations", "st", "st.", "sta", "sta.", "name", "no", "no.", "nr", "nr.", "#", "frame", "frames", "mould", "mold", "point", "place"}

// hasLabels reports whether the first column names the rows: its head says so, it counts
// 0, 1, 2, 3 …, in most rows it is no measure, or it is a bare number beside measures.
func hasLabels(table [][]string) bool {
	if len(table) > 1 && slices.Contains(namesRows, strings.ToLower(strings.TrimSpace(table[0][0]))) {
		return true
	}
	words, numbers, measures := 0, 0, 0
	body := table[min(1, len(table)-1):]
	for _, row := range body {
		switch {
		case isMeasure(row[0]):
			measures++
		case isBareNumber(row[0]):
			if len(row) > 1 && isMeasure(row[1]) {
				numbers++
			} else {
				measures++
			}
		default:
			words++
		}
	}
	return words+numbers > measures || counts(body)
}

// counts reports whether the first cells of two rows or more count up from 0 or 1.
func counts(rows [][]string) bool {
	from, err := strconv.Atoi(rows[0][0])
	if err != nil || from > 1 || from < 0 || len(rows) < 2 {
		return false
	}
	for i, row := range rows {
		if row[0] != strconv.Itoa(from+i) {
			return false
		}
	}
	return true
}

// isHeader reports whether the first line names the columns: it holds no measure
// where the line below does, or only words.
func isHeader(table [][]string, labelled bool) bool {
	from := 0
	if labelled {
		from = 1
	}
	measures, words, bare := 0, 0, 0
	for i, c := range table[0] {
		switch {
		case i < from && len(table[0]) == len(table[1]):
		case isMeasure(c):
			measures++
		case isBareNumber(c):
			bare++
		case c != "":
			words++
		}
	}
	if measures > 0 {
		return false
	}
	if words > 0 || labelled && len(table[0]) == len(table[1]) && table[0][0] == "" {
		return true
	}
	for i, c := range table[1] {
		if i >= from && isMeasure(c) {
			return bare > 0
		}
	}
	return false
}
