package grown_test

import (
	"strings"
	"testing"

	"scarph/kernel/grown"
)

// TestJournal grows each shape twice and counts what it asked for.
func TestJournal(t *testing.T) {
	for _, s := range []grown.Shape{
		{Statements: 100, Entries: 1}, {Statements: 1000, Entries: 30, Spread: true}, {Statements: 500, Entries: 7, Chain: 400},
		{Statements: 500, Entries: 5, Fan: 300}, {Statements: 40, Entries: 60, Readings: 20}, {Statements: 10, Rows: 5, Columns: 9},
		{Statements: 90, Entries: 30, Made: 40}, {Statements: 90, Entries: 30, Ledger: 41},
	} {
		days := grown.Journal(s)
		n, named := 0, map[string]bool{}
		for _, d := range days {
			n += len(d.Statements)
			for _, x := range d.Statements {
				name, _, _ := strings.Cut(x, " =")
				named[name] = true
			}
			if len(d.Rows) > 0 && (len(d.Rows) != s.Rows || len(d.Head) != s.Columns+1) {
				t.Errorf("%+v: %d rows of %d", s, len(d.Rows), len(d.Head))
			}
		}
		if n != s.Statements || len(days) != max(1, s.Entries) {
			t.Errorf("%+v: %d statements in %d entries", s, n, len(days))
		}
		if s.Readings == 0 && s.Fan == 0 && s.Rows == 0 && !(named[s.Head()] && named[s.Last()]) {
			t.Errorf("%+v has no %s or %s", s, s.Head(), s.Last())
		}
		again := grown.Journal(s)
		for i := range days {
			if days[i].Markdown() != again[i].Markdown() {
				t.Fatalf("%+v grew twice differently", s)
			}
		}
	}
}
