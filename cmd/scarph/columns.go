package main

import (
	"fmt"
	"strings"
)

// widest is how wide a column gets: one list of thirty numbers does not push what
// stands beside it out of sight.
const widest = 40

// table writes rows in columns for a terminal; the last column is not padded. A cell
// wider than its column is folded on a terminal; for a file or another program a row
// stays one line.
func (s *streams) table(rows [][]string) {
	var width []int
	for _, r := range rows {
		for i, c := range r {
			if i == len(width) {
				width = append(width, 0)
			}
			width[i] = max(width[i], min(runes(c), widest))
		}
	}
	for _, r := range rows {
		if !isScreen(s.out) {
			fmt.Fprintln(s.out, rowLine(r, width))
			continue
		}
		for _, line := range foldedRow(r, width) {
			fmt.Fprintln(s.out, rowLine(line, width))
		}
	}
}

// rowLine writes the cells of a row in their columns.
func rowLine(cells []string, width []int) string {
	var b strings.Builder
	for i, c := range cells {
		b.WriteString(c)
		if i < len(cells)-1 {
			b.WriteString(strings.Repeat(" ", max(width[i]-runes(c), 0)+2))
		}
	}
	return strings.TrimRight(b.String(), " ")
}

// foldedRow parts the cells of a row, the last apart, into as many rows as the longest
// of them needs.
func foldedRow(cells []string, width []int) [][]string {
	lines := [][]string{make([]string, len(cells))}
	for i, c := range cells {
		if i == len(cells)-1 {
			lines[0][i] = c
			break
		}
		for k, part := range folded(c, width[i]) {
			if k == len(lines) {
				lines = append(lines, make([]string, len(cells)))
			}
			lines[k][i] = part
		}
	}
	return lines
}

// folded breaks a text into lines: behind the commas of a list, so that 3 11/16" stays
// whole, and between words only where one item is wider than the column.
func folded(text string, width int) []string {
	if runes(text) <= width {
		return []string{text}
	}
	var lines []string
	line := ""
	add := func(piece string) {
		switch {
		case line == "":
			line = piece
		case runes(line)+1+runes(piece) > width:
			lines = append(lines, line)
			line = piece
		default:
			line += " " + piece
		}
	}
	for _, item := range items(text) {
		if runes(item) <= width {
			add(item)
			continue
		}
		for _, word := range strings.Fields(item) {
			add(word)
		}
	}
	return append(lines, line)
}

// items parts a text behind its commas and semicolons.
func items(text string) []string {
	var list []string
	item := ""
	for _, word := range strings.Fields(text) {
		item = strings.TrimPrefix(item+" "+word, " ")
		if strings.HasSuffix(word, ",") || strings.HasSuffix(word, ";") {
			list = append(list, item)
			item = ""
		}
	}
	if item != "" {
		list = append(list, item)
	}
	return list
}

func runes(s string) int { return len([]rune(s)) }
