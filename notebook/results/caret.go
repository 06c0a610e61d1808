package results

import (
	"strings"
	"unicode/utf8"
)

// Caret draws the mark under columns [column, column+width) of a line; tabs are
// kept, so that it stands right whatever their size.
func Caret(line string, column, width int) string {
	var b strings.Builder
	n := 1
	for _, r := range line {
		if n == column {
			break
		}
		if r == '\t' {
			b.WriteByte('\t')
		} else {
			b.WriteByte(' ')
		}
		n++
	}
	if rest := utf8.RuneCountInString(line) - column + 1; width > rest && rest > 0 {
		width = rest
	}
	b.WriteByte('^')
	for i := 1; i < width; i++ {
		b.WriteByte('~')
	}
	return b.String()
}
