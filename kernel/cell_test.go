package kernel

import (
	"context"
	"strings"
	"testing"

	"scarph/calc"
)

// TestCellsByEitherName: a reading of a cell is one of the cell, whichever of its two
// names is written first; a cell that the table does not have is no new value.
func TestCellsByEitherName(t *testing.T) {
	table := "table o: st_1 st_2\n+ half 1-2-4 2-0-3\n+ x 0-0-0 3-0-0"
	s := open(entryOf("a", "2027-01-01", table), entryOf("b", "2027-02-01", `
		revise o.st_1.half = 1-2-3
		found o.st_2.half = 2-0-4
		found o.half.st_22 = 1-0-0
		found o.haf.st_2 = 1-0-0
		found o.st_2.y = 1-0-0
		revise o.half = 3 in`))
	near(t, "half at 1", inches(t, s, "o.half.st_1", Now), 14.375)
	near(t, "half at 2", inches(t, s, "o.half.st_2", Now), 24.5)
	near(t, "half at 2, before", inches(t, s, "o.half.st_2", 0), 24.375)
	for i, hint := range map[int]string{2: "st_2", 3: "half", 4: "there are half, x", 5: "cell by cell"} {
		o := s.Outcomes("b", Now)[i]
		if o.Result.Err == nil || !strings.Contains(o.Result.Err.Hint, hint) {
			t.Errorf("%s: %+v, want a hint with %q", o.Line.Text, o.Result.Err, hint)
		}
	}
	if o := s.Outcomes("b", Now)[2]; o.Result.Err.Code != calc.CodeUnknownItem {
		t.Errorf("code %s", o.Result.Err.Code)
	}
}

// TestTablesComeAndGo: what a table refused is in force again when the table goes.
func TestTablesComeAndGo(t *testing.T) {
	values := entryOf("b", "2027-02-01", "found o.st_1.half = 9 in\no.half = 2 in\nlast = o.half + 1 in")
	with := []Entry{entryOf("a", "2027-01-01", "table o: st_1\n+ half 1-2-4"), values}
	without := []Entry{entryOf("a", "2027-01-01", "other = 1 in"), values}
	s := open(with...)
	for i := 0; i < 4; i++ {
		now := [][]Entry{without, with}[i%2]
		s.Update(context.Background(), now)
		if d := compare(s, open(now...), now); d != "" {
			t.Fatalf("step %d: %s", i, d)
		}
	}
}

// TestRowsOfLaterTables: as of a day, the rows of a table that was given later are not
// listed, nor are those of which no cell can be read.
func TestRowsOfLaterTables(t *testing.T) {
	s := open(entryOf("a", "2027-01-01", "beam = 4'"), entryOf("b", "2027-02-01", "table o: c0\n+ r0 1-2-4\n+ r1 1-2-9"))
	for asOf, want := range map[int]string{0: "beam", Now: "beam o.r0 o.r0.c0"} {
		var names []string
		for _, d := range s.Dimensions(asOf) {
			names = append(names, d.Name)
			if d.Place.Line == 0 {
				t.Errorf("%s has no place", d.Name)
			}
		}
		if got := strings.Join(names, " "); got != want {
			t.Errorf("as of %d: %s, want %s", asOf, got, want)
		}
	}
}
