package site_test

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/chromedp"

	"scarph/kernel"
	"scarph/notebook"
	"scarph/notebook/site"
)

// axeScript is the accessibility checker that the tests load into pages.
func axeScript(t *testing.T) string {
	t.Helper()
	src, err := os.ReadFile("../../node_modules/axe-core/axe.min.js")
	if err != nil {
		if os.Getenv("SCARPH_NEEDS_BROWSER") != "" {
			t.Fatal("axe-core is not there; npm ci brings it")
		}
		t.Skip("axe-core is not there; npm ci brings it")
	}
	return string(src)
}

// accessible holds the page as it is shown now to WCAG 2.2 A and AA and to the checker's
// own good practice, and asks that it is no wider than the window.
func (b *tab) accessible(axe, state string) {
	b.t.Helper()
	if !eval[bool](b, `typeof axe === "object"`) {
		eval[bool](b, axe+"\n;true")
	}
	for _, f := range eval[[]string](b, `(async () => {
		document.getAnimations().forEach((a) => a.finish());
		const r = await axe.run(document, { preload: false, rules: { "target-size": { enabled: true } } });
		return r.violations.flatMap((v) => v.nodes.slice(0, 3).map((n) => v.id + ": " + n.html.slice(0, 160) + " — " + n.failureSummary.replace(/\s+/g, " ").slice(0, 200)));
	})()`) {
		b.t.Errorf("%s: %s", state, f)
	}
	if wide := eval[int](b, `document.documentElement.scrollWidth - innerWidth`); wide > 0 {
		b.t.Errorf("%s: the page is %d pixels wider than the window", state, wide)
	}
}

// TestAccessible visits every kind of page, and the states that a reader brings it into,
// on the desk by day and on the phone by night.
func TestAccessible(t *testing.T) {
	axe := axeScript(t)
	needEngine(t)
	out := publish(t, sorrel)
	n, err := notebook.Open(sorrel)
	if err != nil {
		t.Fatal(err)
	}
	if _, err := site.PublishOne(n, filepath.Join(out, "one.html"), "2027-02-07", site.Options{AsOf: kernel.Now, Anyway: true}); err != nil {
		t.Fatal(err)
	}
	base := carriers(t, out)["server"]
	for look, size := range map[string][2]int64{"light": {1280, 900}, "dark": {390, 844}} {
		t.Run(look, func(t *testing.T) {
			b := newTab(t, size[0], size[1])
			if _, err := chromedp.Call(b.ctx, emulation.SetEmulatedMedia, emulation.SetEmulatedMediaParams{Features: []*emulation.MediaFeature{{Name: "prefers-color-scheme", Value: look}}}); err != nil {
				t.Fatal(err)
			}
			pages := []string{"index", "2027-01-16-offsets", "2027-02-21-the-batten-refuses", "dimensions", "cutlist", "rework", "checks", "ledger", "history", "subjects", "subjects/frames", "functions", "search", "one"}
			if look == "dark" { // the kinds of page that differ on a phone
				pages = []string{"index", "2027-02-21-the-batten-refuses", "rework", "functions"}
			}
			for _, at := range pages {
				b.goTo(base + at + ".html")
				b.accessible(axe, at)
				b.shoot(look + "-" + strings.ReplaceAll(at, "/", "-"))
			}
			b.goTo(base + "search.html?q=bevel")
			b.wait(`document.querySelector(".finds li")`)
			b.accessible(axe, "what was found")
			b.goTo(base + "2027-02-07-frames.html")
			b.do(`document.querySelector('a.v[data-name="frame_count"]').click()`)
			b.wait(`document.getElementById("try").open`)
			b.accessible(axe, "the card of a value")
			b.shoot(look + "-card")
			b.do(`document.querySelector("#try .close").click()`)
			b.tries("frame_count", "10 kg")
			b.wait(`document.getElementById("try-fault").textContent !== ""`)
			b.accessible(axe, "a number that is refused")
			b.shoot(look + "-refused")
			b.do(`document.querySelector("#try .close").click()`)
			b.tries("frame_count", "10")
			b.wait(`!document.getElementById("yours").hidden`)
			b.do(`document.querySelector("#yours details").open = true`)
			b.accessible(axe, "a reader's number")
			b.shoot(look + "-yours")
		})
	}
}

// TestOneFileWorksAlone tries a number in a page that was sent by mail.
func TestOneFileWorksAlone(t *testing.T) {
	needEngine(t)
	n, err := notebook.Open(sorrel)
	if err != nil {
		t.Fatal(err)
	}
	at := filepath.Join(t.TempDir(), "sorrel.html")
	if _, err := site.PublishOne(n, at, "", site.Options{AsOf: kernel.Now}); err != nil {
		t.Fatal(err)
	}
	b := newTab(t, 1280, 900)
	b.goTo("file://" + filepath.ToSlash(at))
	if n := eval[int](b, `performance.getEntriesByType("resource").filter((x) => !x.name.startsWith("data:")).length`); n != 0 {
		t.Errorf("%d things are loaded", n)
	}
	b.do(`for (const x of document.images) x.loading = "eager"`)
	b.wait(`[...document.images].every((x) => x.naturalWidth > 0)`)
	b.tries("frame_count", "10")
	b.wait(`!document.getElementById("yours").hidden`)
	const spacing = `1' 5 1/2"`
	for _, sel := range []string{`article[data-entry="2027-02-07-frames.md"] [data-name=frame_spacing]`, `[data-list=dimensions] .yours-list [data-name=frame_spacing]`} {
		if text := b.text(sel); text != spacing {
			t.Errorf("%s says %q", sel, text)
		}
	}
	b.do(`[...document.querySelectorAll("#yours .act")].find((x) => x.textContent.startsWith("The journal")).click()`)
	b.wait(`document.getElementById("yours").hidden`)
	if text := b.text(`#value-frame_spacing .v`); text == spacing {
		t.Error("there is no way back")
	}
}
