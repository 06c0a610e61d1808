package live

import (
	"bytes"
	"encoding/json"
	"io"
	"net/http"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// post sends a change from this machine, with the key of its page.
func (g *gate) post(path string, body map[string]any, into any) int {
	g.t.Helper()
	b, err := json.Marshal(body)
	if err != nil {
		g.t.Fatal(err)
	}
	r := g.ask("POST", home+path, here, b, "Origin", home, "Scarph-Key", g.s.door.key)
	all, _ := io.ReadAll(r.Body)
	if into != nil {
		if err := json.Unmarshal(all, into); err != nil {
			g.t.Fatalf("%s: %s", err, all)
		}
	}
	return r.StatusCode
}

func (g *gate) file(name string) string {
	g.t.Helper()
	b, err := os.ReadFile(filepath.Join(g.dir, name))
	if err != nil {
		g.t.Fatal(err)
	}
	return string(b)
}

func (g *gate) lay(name, text string) {
	g.t.Helper()
	if err := os.WriteFile(filepath.Join(g.dir, name), []byte(text), 0o644); err != nil {
		g.t.Fatal(err)
	}
	g.s.Refresh(g.t.Context())
}

// TestASaveAsksBeforeAHeadIsLost saves a text above the head of a private entry: it is
// asked about, with a text that mends it, and saved when somebody is sure.
func TestASaveAsksBeforeAHeadIsLost(t *testing.T) {
	g := newGate(t, "127.0.0.1:7433", Options{})
	const head = "---\ntitle: Diary\nprivate: true\n---\n"
	const before, added = head + "Mine alone.\n", "\n```calc\n\n```\n"
	g.lay("2027-01-05.md", before)
	for _, c := range []struct{ text, mended string }{
		{added + before, head + added + "Mine alone.\n"},
		{strings.TrimPrefix(before, "---\n"), before},
		{strings.Replace(before, "private: true\n", "", 1) + "More.\n", before + "More.\n"},
		{"Mine alone.\n", before},
		{"½" + before, head + "½\nMine alone.\n"},
		{strings.Replace(before, "true\n---\n", "true\n", 1), before},
	} {
		var asked headless
		body := map[string]any{"path": "2027-01-05.md", "base": before, "text": c.text}
		if status := g.post("/save", body, &asked); status != http.StatusConflict || asked.Code != "head" || len(asked.Lost) == 0 {
			t.Fatalf("%q is saved with %d: %+v", c.text, status, asked)
		}
		if asked.Mended != c.mended {
			t.Errorf("%q is mended as %q, want %q", c.text, asked.Mended, c.mended)
		}
		if got := g.file("2027-01-05.md"); got != before {
			t.Fatalf("the file is %q", got)
		}
		body["text"], body["base"] = asked.Mended, before
		if status := g.post("/save", body, nil); status != http.StatusOK {
			t.Errorf("what was mended is refused with %d", status)
		}
		g.lay("2027-01-05.md", before)
	}
	body := map[string]any{"path": "2027-01-05.md", "base": before, "text": "Open to all.\n", "sure": true}
	if status := g.post("/save", body, nil); status != http.StatusOK || g.file("2027-01-05.md") != "Open to all.\n" {
		t.Errorf("who is sure is refused with %d", status)
	}
}

// TestAClashOffersBothReadings has two people add a reading at one place: the text that
// is offered holds both.
func TestAClashOffersBothReadings(t *testing.T) {
	g := newGate(t, "127.0.0.1:7433", Options{})
	const base = "Text.\n"
	mine, theirs := base+"\n```calc\nfound ines = 101 mm\n```\n", base+"\n```calc\nfound pieter = 202 mm\n```\n"
	g.lay("2027-01-05.md", theirs)
	var c clash
	if status := g.post("/save", map[string]any{"path": "2027-01-05.md", "base": base, "text": mine}, &c); status != http.StatusConflict || c.Code != "conflict" {
		t.Fatalf("%d: %+v", status, c)
	}
	if want := mine + strings.TrimPrefix(theirs, base); c.Joined != want || !c.Clean {
		t.Errorf("joined: %q, want %q", c.Joined, want)
	}
}

// TestWhereAnEntryEndsInItsFile tells the page how much of a file stands behind the entry.
func TestWhereAnEntryEndsInItsFile(t *testing.T) {
	g := newGate(t, "127.0.0.1:7433", Options{})
	g.lay("days.md", "# Days\n\n## 2027-01-05 One\nA.\n\n## 2027-01-06 Two\n½ é 😀\n")
	r := g.ask("GET", home+"/write/days-2027-01-05", here, nil)
	page, _ := io.ReadAll(r.Body)
	if !strings.Contains(string(page), `data-tail="25"`) {
		t.Errorf("the page does not say so: %.200s", page[bytes.Index(page, []byte("<textarea")):])
	}
}
