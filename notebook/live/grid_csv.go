package live

import (
	"strings"
	"unicode/utf8"
)

// records cuts lines at a sign as RFC 4180 says (section 2, 5 to 7): a cell between
// quotes may hold the sign, a line end, and quotes written twice. A quote further on in
// a cell, or one that is never closed, is an inch mark or a slip and stands for itself.
func records(lines []string, sign rune) [][]string {
	text := strings.Join(lines, "\n")
	table, row := [][]string{}, []string(nil)
	for {
		cell, rest, ok := quoted(text, sign)
		if !ok {
			end := strings.IndexFunc(text, func(r rune) bool { return r == sign || r == '\n' })
			if end < 0 {
				end = len(text)
			}
			cell, rest = text[:end], text[end:]
		}
		row = append(row, strings.Join(strings.Fields(cell), " "))
		if rest == "" || rest[0] == '\n' {
			table, row = append(table, row), nil
		}
		if rest == "" {
			return table
		}
		_, width := utf8.DecodeRuneInString(rest)
		text = rest[width:]
	}
}

// quoted takes a cell between quotes off a text; false when it begins with none.
func quoted(text string, sign rune) (cell, rest string, ok bool) {
	t := strings.TrimLeft(text, " ")
	if !strings.HasPrefix(t, `"`) {
		return "", "", false
	}
	var b strings.Builder
	for t = t[1:]; ; {
		i := strings.IndexByte(t, '"')
		if i < 0 {
			return "", "", false
		}
		b.WriteString(t[:i])
		if t = t[i+1:]; strings.HasPrefix(t, `"`) {
			b.WriteByte('"')
			t = t[1:]
			continue
		}
		t = strings.TrimLeft(t, " ")
		r, _ := utf8.DecodeRuneInString(t)
		return b.String(), t, t == "" || r == sign || r == '\n'
	}
}

// even reports whether a table has two columns or more, and all rows have them.
func even(table [][]string) bool {
	for _, row := range table {
		if len(row) != len(table[0]) {
			return false
		}
		for _, c := range row {
			if c == "±" || c == "+/-" {
				return false
			}
		}
	}
	return len(table) > 0 && len(table[0]) > 1
}

// onlyDecimalCommas reports whether every comma stands between two digits.
func onlyDecimalCommas(lines []string) bool {
	for _, l := range lines {
		if withPoints(l) == l && strings.Contains(l, ",") || strings.Contains(withPoints(l), ",") {
			return false
		}
	}
	return true
}

// hasDecimalComma reports whether a cell is written with decimal commas, 461,5.
func hasDecimalComma(cell string) bool {
	return !strings.ContainsAny(cell, `."`) && withPoints(cell) != cell
}

// withPoints gives a text points for its decimal commas: each comma between two digits,
// where the number has but one.
func withPoints(text string) string {
	b := []byte(text)
	digit := func(i int) bool { return i >= 0 && i < len(b) && b[i] >= '0' && b[i] <= '9' }
	for i := range b {
		if b[i] != ',' || !digit(i-1) || !digit(i+1) {
			continue
		}
		from, to := i-1, i+1
		for digit(from) {
			from--
		}
		for digit(to) {
			to++
		}
		if (from < 0 || b[from] != ',' && b[from] != '.') && (to == len(b) || text[to] != ',' && text[to] != '.') {
			b[i] = '.'
		}
	}
	return string(b)
}
