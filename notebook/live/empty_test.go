package live

import (
	"io"
	"net/http"
	"strings"
	"testing"
)

// TestAnEmptyCellIsFilledLater opens the card of a cell that was not measured, gives it
// a reading, and finds it in the table with the day on which it came.
func TestAnEmptyCellIsFilledLater(t *testing.T) {
	g := newGate(t, "127.0.0.1:7433", Options{})
	g.lay("2027-01-05.md", "| found survey: | s1 | s2 |\n|---|---|---|\n| port (mm) | 734 ± 2 | |\n")
	page := func(path string) string {
		b, _ := io.ReadAll(g.ask("GET", home+path, here, nil).Body)
		return string(b)
	}
	if got := page("/entry/2027-01-05"); !strings.Contains(got, `data-name="survey.port.s2" aria-label="survey, port, s2, not yet measured">—</button>`) {
		t.Errorf("the empty cell has no card: %s", got[strings.Index(got, "<tbody"):])
	}
	card := page("/card?name=survey.port.s2&at=2027-01-05.md%7C1")
	for _, want := range []string{"not yet measured", "Try its first number", `id="try-value" name="value" value=""`} {
		if !strings.Contains(card, want) {
			t.Errorf("the card does not say %s: %s", want, card[strings.Index(card, "<main"):])
		}
	}
	if status := g.post("/keep", map[string]any{"name": "survey.port.s2", "value": "669 ± 2", "kind": "found"}, nil); status != http.StatusOK {
		t.Fatalf("its first reading is refused with %d", status)
	}
	if got := g.file("2027-05-16.md"); !strings.Contains(got, "found survey.port.s2 = 669 mm ± 2 mm\n") {
		t.Errorf("kept: %s", got)
	}
	if got := page("/entry/2027-01-05"); !strings.Contains(got, `<del class="missing" title="until 16 May 2027">—</del> <button class="v found`) {
		t.Errorf("the cell: %s", got[strings.Index(got, "<tbody"):])
	}
}

// TestEveryStepOfARevisedCell revises a cell three times, back to what it was.
func TestEveryStepOfARevisedCell(t *testing.T) {
	g := newGate(t, "127.0.0.1:7433", Options{})
	g.lay("2027-01-05.md", "| found survey: | s1 | s2 |\n|---|---|---|\n| port (mm) | 899 ± 3 | 1 |\n")
	for day, value := range map[string]string{"08": "896", "10": "889", "12": "899"} {
		g.lay("2027-01-"+day+".md", "```calc\nrevise survey.port.s1 = "+value+" mm ± 3 mm\n```\n")
	}
	b, _ := io.ReadAll(g.ask("GET", home+"/entry/2027-01-05", here, nil, "Cookie", "scarph-units=metric").Body)
	for _, want := range []string{`<del title="until 8 January 2027">899 ± 3</del>`, `<del title="until 10 January 2027">896 ± 3 mm</del>`, `<del title="until 12 January 2027">889 ± 3 mm</del>`} {
		if !strings.Contains(string(b), want) {
			t.Errorf("no %s in %s", want, b[strings.Index(string(b), "<tbody"):])
		}
	}
}
