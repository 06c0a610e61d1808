package live

import (
	"strings"
	"testing"

	"scarph/calc"
	"scarph/notebook/markdown"
)

// FuzzGrid pastes anything as a table of offsets. What is found in it is written as one
// data table of as many cells, whatever the cells hold.
func FuzzGrid(f *testing.F) {
	for _, s := range []string{"a\tb\n1-2-3\t2-3-4", "| a: | st 1 |\n|--|--|\n| sheer | 1-2-3+ |", "st 1; st 2\nsheer; 12; 13", "sheer  1 2 3\nkeel  4 5 6", "a|b\\|c\n{x}|`d`", "\x00\t\xff\n<b>\t</b>", "  \t \n\t\t", "x: y\n- z", "x,s0,s1\nport,111,222", "a;1,5\n\"b;\"\"c\";2,5"} {
		f.Add(s, "offsets", "mm")
	}
	f.Fuzz(func(t *testing.T, text, name, unit string) {
		q := gridTable{Name: name, Unit: unit, Kind: "found", Text: text}
		p := cutTable(text, "")
		q.Columns, q.Rows = p.columns, p.rows
		if len(q.Rows) == 0 || len(q.Columns) == 0 || len(q.Rows) > maxGridRows || len(q.Columns) > maxGridColumns {
			return
		}
		z := q.back(calc.Style{})
		if len(z.Rows) != len(q.Rows) {
			t.Fatalf("%d rows of %d", len(z.Rows), len(q.Rows))
		}
		for _, r := range z.Rows {
			if len(r.Cells) != len(z.Columns) {
				t.Fatalf("%d cells under %d columns", len(r.Cells), len(z.Columns))
			}
		}
		if z.Faults > 0 {
			return // such a table is not put into a text
		}
		d := markdown.Parse([]byte(z.Markdown))
		if n := len(d.Sections[0].Tables); n != 1 {
			t.Fatalf("%q is written as %d tables:\n%s", text, n, z.Markdown)
		}
		if got := len(d.Sections[0].Tables[0].Rows); got != len(z.Rows) {
			t.Errorf("%q: %d rows in\n%s", text, got, strings.TrimSpace(z.Markdown))
		}
	})
}
