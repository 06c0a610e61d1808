package live

import (
	"net/http"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// write puts files into the journal and has the server read them.
func (g *gate) write(files map[string]string) {
	g.t.Helper()
	for name, text := range files {
		g.put(name, text)
	}
	g.s.Refresh(g.t.Context())
}

// send posts a change with the key of the run.
func (g *gate) send(target, body string) *http.Response {
	g.t.Helper()
	return g.ask("POST", target, here, []byte(body), "Host", "127.0.0.1:7433", "Origin", home, "Content-Type", "application/json", "Scarph-Key", g.s.door.key)
}

// head is what a page says in its head of what wants a look.
func (g *gate) head(target string) string {
	g.t.Helper()
	text := g.page(target)
	i := strings.Index(text, `<nav class="remarks"`)
	if i < 0 {
		return ""
	}
	return text[i : i+strings.Index(text[i:], "</nav>")]
}

func (g *gate) has(text string, words ...string) {
	g.t.Helper()
	for _, w := range words {
		if !strings.Contains(text, w) {
			g.t.Errorf("there is no %q in %.9000s", w, text[max(0, strings.Index(text, "<main")):])
		}
	}
}

func (g *gate) lacks(text string, words ...string) {
	g.t.Helper()
	for _, w := range words {
		if strings.Contains(text, w) {
			g.t.Errorf("there is %q in %.9000s", w, text[max(0, strings.Index(text, "<main")):])
		}
	}
}

// TestEveryPageSaysWhatWantsALook counts lines that are wrong, checks that do not hold
// and things made that are off in the head of every page, each a link that leads there.
func TestEveryPageSaysWhatWantsALook(t *testing.T) {
	g := newGate(t, "127.0.0.1:7433", Options{})
	if err := os.Remove(filepath.Join(g.dir, "sub", "2027-01-3.md")); err != nil { // its name is no day
		t.Fatal(err)
	}
	g.s.Refresh(t.Context())
	if h := g.head("/"); h != "" {
		t.Errorf("all is well, yet %s", h)
	}
	g.write(map[string]string{
		"2027-01-02.md": "Beam {beam}, {nothing} and {nobody}.\n\n```calc\ncheck beam > 3 ft\n```\n",
		"2027-01-03.md": "```calc\npart seat: 1 of 1\" by 8\" by beam in larch, within 1/16\"\nmade seat: 1\n```\n",
		"2027-01-04.md": "```calc\nrevise beam = 2 ft\nx = beam + 1 kg\ny = x\nwork 2 on paint\n```\n",
	})
	for _, page := range []string{"/", "/entry/2027-01-02", "/list/dimensions", "/search?q=beam", "/today", "/write/2027-01-02"} {
		g.has(g.head(page), `>3 lines are wrong<`, `href="/list/checks">1 check does not hold<`, `href="/list/rework">1 thing made is off<`)
	}
	g.has(g.head("/entry/2027-01-04"), `href="/wrong?after=2027-01-04.md%7C-2"`)
	if h := g.head("/?as-of=2"); strings.Contains(h, "does not hold") || !strings.Contains(h, ">1 line is wrong<") {
		t.Errorf("as of the second entry the head says %s", h)
	}
	after := "/wrong"
	for _, want := range []string{"/entry/2027-01-02#line-1", "/entry/2027-01-04#line-1", "/entry/2027-01-04#line-3", "/entry/2027-01-02#line-1"} {
		r := g.ask("GET", after, here, nil, "Host", "127.0.0.1:7433")
		if got := r.Header.Get("Location"); r.StatusCode != http.StatusSeeOther || got != want {
			t.Errorf("%s leads to %d %s, want %s", after, r.StatusCode, got, want)
		}
		page, line, _ := strings.Cut(want, "#line-")
		after = "/wrong?after=" + strings.TrimPrefix(page, "/entry/") + ".md%7C" + line
	}
	g.write(map[string]string{"2027-01-02.md": "Well.\n", "2027-01-03.md": "Well.\n", "2027-01-04.md": "Well.\n"})
	if h := g.head("/"); h != "" {
		t.Errorf("all is well again, yet %s", h)
	}
}

// TestANewEntryHasItsDay begins entries for other days than today, and refuses what is
// no day.
func TestANewEntryHasItsDay(t *testing.T) {
	g := newGate(t, "127.0.0.1:7433", Options{})
	g.has(g.page("/"), `href="/today"`)
	g.status(http.StatusOK, g.send("/begin", `{"title":"Ribs","day":"2027-05-14"}`), "begin")
	if b, err := os.ReadFile(filepath.Join(g.dir, "2027-05-14-ribs.md")); err != nil || string(b) != "---\ntitle: \"Ribs\"\ndate: 2027-05-14\n---\n" {
		t.Errorf("%q %v", b, err)
	}
	for _, day := range []string{"../2027-05-14", "2027-02-30", "2027-5-4", "yesterday"} {
		g.status(http.StatusUnprocessableEntity, g.send("/begin", `{"title":"x","day":"`+day+`"}`), day)
	}
	g.lacks(g.page("/?as-of=1"), `<a class="act" href="/today"`)
}
