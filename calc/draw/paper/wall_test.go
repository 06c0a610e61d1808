package paper_test

import (
	"bytes"
	"os"
	"strconv"
	"strings"
	"testing"

	"scarph/calc/draw/paper"
)

func offsetsTable(rows int) paper.Table {
	t := paper.Table{Title: "Offsets, outside of planking", Rows: [][]string{{"", "sheer height", "chine height", "sheer half", "chine half"}}, Note: "Feet, inches and eighths. Station 5 read again on 21 February."}
	for i := 0; i < rows; i++ {
		t.Rows = append(t.Rows, []string{"station " + strconv.Itoa(i), "2-2-0", "0-6-0", "1-11-7+", "−0-0-5"})
	}
	return t
}

func TestWallSheet(t *testing.T) {
	for name, c := range map[string]struct {
		t     paper.Table
		pages int
	}{
		"offsets": {offsetsTable(9), 1}, "long": {offsetsTable(90), 5},
		"words": {paper.Table{Title: "Rework", Rows: [][]string{{"part", "made", "what to do", "settled by"},
			{"form 5, chine half", "30 Jan", strings.Repeat("saw off 0.944 in and plane to the line ", 3), "sawn off"},
			{"chine logs", "14 Feb", "planed from station 2 aft; tapered oak shim glued at station 1", ""}}}, 1},
		"wide": {paper.Table{Title: "Very wide", Rows: [][]string{strings.Fields(strings.Repeat("heading ", 14)), strings.Fields(strings.Repeat("12'11-7/8\" ", 14))}}, 1},
		"one":  {paper.Table{Title: "One", Rows: [][]string{{"only a head"}}}, 1},
	} {
		var b bytes.Buffer
		if err := paper.WallSheet(&b, c.t, options()); err != nil {
			t.Errorf("%s: %v", name, err)
		}
		if dir := os.Getenv("SCARPH_LOOK"); dir != "" {
			os.WriteFile(dir+"/wall-"+name+".pdf", b.Bytes(), 0o644)
		}
		if n := bytes.Count(b.Bytes(), []byte("/Type /Page\n")); n != c.pages {
			t.Errorf("%s: %d pages, want %d", name, n, c.pages)
		}
	}
	for _, bad := range []paper.Table{{}, {Rows: [][]string{{}}}, offsetsTable(3000)} {
		if err := paper.WallSheet(&bytes.Buffer{}, bad, options()); err == nil {
			t.Errorf("a table of %d rows is set", len(bad.Rows))
		}
	}
}

// TestWallTurned: a broad table that may be turned is, when that makes it legible.
func TestWallTurned(t *testing.T) {
	head, port, starboard := []string{"survey"}, []string{"sheer half port"}, []string{"sheer half starboard"}
	for i := 0; i < 9; i++ {
		head, port, starboard = append(head, "st "+strconv.Itoa(i)), append(port, "1' 11 9/16\" ± 0.079\""), append(starboard, "2' 3/16\" ± 0.079\"")
	}
	table := paper.Table{Title: "survey", Rows: [][]string{head, port, starboard}}
	for _, turnable := range []bool{false, true} {
		table.Turnable = turnable
		var b bytes.Buffer
		if err := paper.WallSheet(&b, table, options()); err != nil {
			t.Fatal(err)
		}
		pages := read(t, b.Bytes())
		rules := 0 // under each row, and over the foot
		for _, l := range pages[0].lines {
			if len(l) == 2 && l[0].Y == l[1].Y {
				rules++
			}
		}
		if want := map[bool]int{false: 3 + 1, true: 10 + 1}[turnable]; len(pages) != 1 || rules != want {
			t.Errorf("turnable %v: %d pages, %d rows ruled off", turnable, len(pages), rules-1)
		}
	}
}
