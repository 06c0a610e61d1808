package live

import (
	"strings"

	"scarph/calc"
	"scarph/notebook"
)

// cutTable finds rows and columns in a pasted text: between cells stand tabs, bars,
// semicolons, two blanks or more, or, where there is nothing else, single blanks.
func cutTable(text string) (columns []string, rows []gridRow) {
	var lines []string
	for _, l := range strings.Split(strings.NewReplacer("\r\n", "\n", "\r", "\n", "\u00a0", " ").Replace(text), "\n") {
		if strings.Trim(l, " \t|-:+=") != "" { // neither empty nor a ruled line
			lines = append(lines, l)
		}
	}
	cut := cutterFor(lines)
	var table [][]string
	most := 0
	for _, l := range lines {
		cells := cut(l)
		table = append(table, cells)
		most = max(most, len(cells))
	}
	if most < 2 {
		return nil, nil
	}
	labelled := hasLabels(table)
	if len(table) > 1 && isHeader(table, labelled) {
		head := table[0]
		if labelled && len(head) == most {
			head = head[1:]
		}
		columns, table = head, table[1:]
	}
	for _, cells := range table {
		r := gridRow{Cells: cells}
		if labelled {
			r.Name, r.Cells = cells[0], cells[1:]
		}
		rows = append(rows, r)
	}
	for _, r := range rows {
		for len(columns) < len(r.Cells) {
			columns = append(columns, "")
		}
	}
	return columns, rows
}

// cutterFor finds what stands between the cells.
func cutterFor(lines []string) func(string) []string {
	every := func(sign string) bool {
		n := 0
		for _, l := range lines {
			if strings.Contains(strings.TrimRight(l, " "), sign) {
				n++
			}
		}
		return n > 0 && n >= len(lines)-1
	}
	switch {
	case every("\t"):
		return func(l string) []string { return trimAll(strings.Split(strings.TrimRight(l, "\n"), "\t")) }
	case every("|"):
		return func(l string) []string {
			return trimAll(strings.Split(strings.TrimSuffix(strings.TrimPrefix(strings.TrimSpace(l), "|"), "|"), "|"))
		}
	case every(";"):
		return func(l string) []string { return trimAll(strings.Split(l, ";")) }
	}
	for _, l := range lines {
		if strings.Contains(strings.TrimSpace(l), "  ") {
			return cutAtGaps
		}
	}
	return func(l string) []string {
		cells := strings.Fields(l)
		if strings.HasPrefix(l, " ") { // a head whose corner is empty
			cells = append([]string{""}, cells...)
		}
		return cells
	}
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

// hasLabels reports whether the first column names the rows: in most rows it is no
// measure, or it is a bare number beside measures.
func hasLabels(table [][]string) bool {
	words, numbers, measures := 0, 0, 0
	for _, row := range table[min(1, len(table)-1):] {
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
	return words+numbers > measures
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
