package live

import (
	"encoding/json"
	"io"
	"net/http"
	"net/url"
	"strings"
	"testing"
)

// TestNumbersOfASurvey tries numbers for cells of a table whose rows give the unit.
func TestNumbersOfASurvey(t *testing.T) {
	g := newGate(t, "127.0.0.1:7433", Options{})
	g.lay("journal.md", "---\ntitle: Tern\nshow:\n  length: metric\n  nearest: 0.1 mm\n---\n")
	const table = "| found survey: | s1 | s2 |\n|---|---|---|\n| port (mm) | 734 ± 2 | 700 |\n"
	g.lay("2027-01-05.md", table)
	read := func(q string) (z struct{ Value, Text, Note, Message string }) {
		t.Helper()
		r := g.ask("GET", home+"/read?"+q, here, nil)
		b, _ := io.ReadAll(r.Body)
		if err := json.Unmarshal(b, &z); err != nil {
			t.Fatalf("%s: %s", q, b)
		}
		return z
	}
	page := func(path string) string {
		b, _ := io.ReadAll(g.ask("GET", home+path, here, nil).Body)
		return string(b)
	}
	card := page("/card?name=survey.port.s1")
	for _, want := range []string{`value="734 mm ± 2 mm"`, `data-step="0.1 mm"`} {
		if !strings.Contains(card, want) {
			t.Errorf("the card has no %s", want)
		}
	}
	for _, c := range []struct{ value, more, reads, text, note string }{
		{"734 ± 2", "", "734 ± 2", "734 ± 2 mm", "a bare number is in mm here"},
		{"734 ± 2", "&step=0.1+mm", "734.1 mm ± 2 mm", "734.1 ± 2 mm", ""},
		{"734 mm ± 2 mm", "&step=0.1+mm&down=1", "733.9 mm ± 2 mm", "733.9 ± 2 mm", ""},
		{"720", "", "720", "720 mm", "its ± 2 mm is gone: write 720 mm ± 2 mm to keep it"},
	} {
		z := read("name=survey.port.s1&value=" + url.QueryEscape(c.value) + c.more)
		if z.Value != c.reads || !strings.HasPrefix(z.Text, c.text) || c.note != "" && z.Note != c.note {
			t.Errorf("%s%s reads %+v, want %s, %s, %s", c.value, c.more, z, c.reads, c.text, c.note)
		}
	}
	tried := page("/card?name=survey.port.s1&try=survey.port.s1%3D720")
	if !strings.Contains(tried, `value="720 mm"`) || !strings.Contains(tried, "its ± 2 mm is gone") {
		t.Errorf("tried: %s", tried)
	}
	for _, value := range []string{"735 mm ± 2 mm", "735 ± 2"} {
		if status := g.post("/keep", map[string]any{"name": "survey.port.s1", "value": value, "at": "2027-01-05.md|0"}, nil); status != http.StatusOK {
			t.Fatalf("%s is refused with %d", value, status)
		}
		if got := g.file("2027-01-05.md"); got != strings.Replace(table, "734", "735", 1) {
			t.Errorf("corrected to %s: %s", value, got)
		}
		g.lay("2027-01-05.md", table)
	}
	if status := g.post("/keep", map[string]any{"name": "survey.port.s2", "value": "701", "kind": "found"}, nil); status != http.StatusOK {
		t.Fatalf("a bare number is refused with %d", status)
	}
	if got := g.file("2027-05-16.md"); !strings.Contains(got, "found survey.port.s2 = 701 mm\n") {
		t.Errorf("kept: %s", got)
	}
}
