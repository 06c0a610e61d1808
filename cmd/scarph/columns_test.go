package main

import (
	"bytes"
	"strings"
	"testing"
)

// TestFolded: long cells are folded behind commas, under their column.
func TestFolded(t *testing.T) {
	width := []int{5, 13, 3}
	var lines []string
	for _, row := range foldedRow([]string{"beam", "1' 2\", 1' 3\", 1' 4\", 1' 5 1/2\"", "a.md:3"}, width) {
		lines = append(lines, rowLine(row, width))
	}
	want := "beam   1' 2\", 1' 3\",  a.md:3\n       1' 4\",\n       1' 5 1/2\""
	if got := strings.Join(lines, "\n"); got != want {
		t.Errorf("folded:\n%s\nwant:\n%s", got, want)
	}
	if got := folded("no board is long enough for it", 12); len(got) != 3 {
		t.Errorf("a sentence is folded into %q", got)
	}
	if got := folded("a_name_that_cannot_be_broken", 5); len(got) != 1 {
		t.Errorf("a word was broken: %q", got)
	}
}

// TestLongCellForAProgram: where no person looks on a row stays a line, and one long
// cell widens no other row.
func TestLongCellForAProgram(t *testing.T) {
	var out bytes.Buffer
	s := &streams{out: &out}
	long := strings.Repeat("1' 2\", ", 40)
	s.table([][]string{{"side", long, "a.md:3"}, {"beam", "4'", "a.md:4"}})
	lines := strings.Split(strings.TrimSpace(out.String()), "\n")
	if len(lines) != 2 || !strings.HasSuffix(lines[0], "a.md:3") || len(lines[1]) > 60 {
		t.Errorf("rows:\n%s", out.String())
	}
}
