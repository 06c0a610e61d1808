package live_test

import (
	"fmt"
	"io"
	"net/http"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"
)

// largeJournal writes a journal of 300 entries with 2,000 statements: each entry measures,
// derives, makes and checks; sums hang on sums of the entries before.
func largeJournal(t *testing.T) string {
	t.Helper()
	dir := t.TempDir()
	put := func(name, text string) {
		if err := os.WriteFile(filepath.Join(dir, name), []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	put("journal.md", "---\ntitle: A long build\nboat: Petrel\n---\n# Petrel\n\nShe is {beam} in the beam.\n\n```calc\ndrawn beam = 5' 6\"\nsum_0 = beam\n```\n")
	first := time.Date(2026, 1, 1, 0, 0, 0, 0, time.UTC)
	statements := 2
	for n := 1; n < 300; n++ {
		var b strings.Builder
		day := first.AddDate(0, 0, n).Format("2006-01-02")
		fmt.Fprintf(&b, "---\ntitle: Day %d\ndate: %s\n---\nThe plank of day %d came in at {plank_%d}; it all comes to {sum_%d}.\n\n```calc\n", n, day, n, n, n)
		fmt.Fprintf(&b, "found plank_%d = %d 3/8\" ± 1/16\"   # at the middle\nseam_%d = 1/%d\"\n", n, 4+n%7, n, 8*(1+n%4))
		fmt.Fprintf(&b, "sum_%d = plank_%d - seam_%d + sum_%d / 4\n", n, n, n, n-1)
		fmt.Fprintf(&b, "part strake_%d: 2 of 3/4\" by plank_%d by beam in larch\nmade strake_%d: 2\nwork %d.5 h on planking\n", n, n, n, 1+n%3)
		statements += 6
		if n%300 < 204 {
			fmt.Fprintf(&b, "check sum_%d < 3 ft\n", n)
			statements++
		}
		put(fmt.Sprintf("%s-day.md", day), b.String()+"```\n")
	}
	if statements < 1995 || statements > 2005 {
		t.Fatalf("%d statements", statements)
	}
	return dir
}

// TestALongJournalStaysUsable works in a journal of 300 entries with 2,000 statements. Its
// pages stay small; what it takes is told, not judged: machines differ.
func TestALongJournalStaysUsable(t *testing.T) {
	s := open(t, largeJournal(t))
	for _, c := range []struct {
		path string
		most int // bytes
	}{{"/entry/2026-10-20-day", 120 << 10}, {"/", 160 << 10}, {"/card?name=plank_250&part=1", 30 << 10}, {"/card?name=beam&part=1", 150 << 10}, {"/list/dimensions", 700 << 10}} {
		from := time.Now()
		r, err := http.Get(s.url + c.path)
		if err != nil {
			t.Fatal(err)
		}
		b, err := io.ReadAll(r.Body)
		r.Body.Close()
		if err != nil || r.StatusCode != 200 {
			t.Fatal(r.StatusCode, err)
		}
		t.Logf("%s: %d KB in %v", c.path, len(b)>>10, time.Since(from).Round(time.Millisecond/10))
		if len(b) > c.most {
			t.Errorf("%s has %d KB, more than %d", c.path, len(b)>>10, c.most>>10)
		}
	}
	for _, z := range screen {
		t.Run(z.name, func(t *testing.T) {
			b := newTab(t, z)
			b.goTo(s.url + "/entry/2026-10-20-day")
			b.takes("a card", `document.querySelector("button.v[data-name=plank_292]").click()`, "#dock h2", "Plank 292")
			b.takes("a number is tried", `document.querySelector("#try-value").value = "9 in"; document.querySelector("form.try").requestSubmit()`, ".trial", "Not kept")
			b.shoot("tried")
			b.click(`#dock [data-close]`)
			b.takes("put back", `document.querySelector("#notice [data-drop]").click()`, "button.v[data-name=plank_292]", `9 3/8"`)
			b.goTo(s.url + "/")
			b.shoot("front")
			b.takes("the card of what all hangs on", `document.querySelector("button.v[data-name=beam]").click()`, "#dock h2", "Beam")
			b.shoot("beam")
			b.takes("what all hangs on is tried", `document.querySelector("#try-value").value = "6 ft"; document.querySelector("form.try").requestSubmit()`, ".trial", "Not kept")
			b.shoot("all")
			b.takes("its sheet", `document.querySelector("[data-ripple]").click()`, "#dock h2", "What would move")
			b.shoot("sheet")
			b.goTo(s.url + "/list/dimensions")
			b.shoot("dimensions")
		})
	}
}

// takes tells how long it takes from an act until an element says some words.
func (b *tab) takes(what, act, sel, words string) {
	b.t.Helper()
	took := eval[float64](b, `(async () => {
		const from = performance.now();
		`+act+`;
		while (!document.querySelector(`+quote(sel)+`)?.textContent.includes(`+quote(words)+`)) await new Promise((done) => setTimeout(done, 2));
		return performance.now() - from;
	})()`)
	b.t.Logf("%s: %.0f ms", what, took)
}
