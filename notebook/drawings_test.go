package notebook

import (
	"context"
	"encoding/json"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/chromedp"

	"scarph/calc"
	"scarph/calc/trade"
	"scarph/kernel"
)

// everyDrawing is a journal with each drawing of the registry.
const everyDrawing = "../testdata/drawings"

// TestEveryDrawingFromAJournal: each drawing is made from the tables and readings of a
// journal, without a fault, in the units of the journal and in the other ones.
func TestEveryDrawingFromAJournal(t *testing.T) {
	n, err := Open(everyDrawing)
	if err != nil {
		t.Fatal(err)
	}
	for _, d := range n.Problems(kernel.Now) {
		t.Errorf("%s:%d: %s", d.File, d.Line, d.Message)
	}
	src, err := os.ReadFile(filepath.Join(everyDrawing, "journal.md"))
	if err != nil {
		t.Fatal(err)
	}
	for _, f := range trade.All() {
		if f.Group == "Drawings" && !strings.Contains(string(src), f.Name+"(") {
			t.Errorf("%s is in no journal", f.Name)
		}
	}
	metric := calc.Style{System: calc.Metric}
	inch, mm := drawingsPage(t, n, Page{AsOf: kernel.Now}), drawingsPage(t, n, Page{AsOf: kernel.Now, Style: &metric})
	if !strings.Contains(inch, `4&#39; 7 1/2&#34;`) && !strings.Contains(inch, `4' 7 1/2&quot;`) || !strings.Contains(mm, "1409.7 mm") {
		t.Error("the beam is not written in the family of the page")
	}
	if n := strings.Count(mm, "<svg"); n != strings.Count(inch, "<svg") || n < 26 {
		t.Errorf("%d drawings", n)
	}
}

func drawingsPage(t *testing.T, n *Notebook, p Page) string {
	t.Helper()
	var b strings.Builder
	for _, e := range n.Entries() {
		for _, x := range n.RenderEntry(e, p) {
			b.WriteString(x)
		}
	}
	return b.String()
}

// TestDrawingsInABrowser looks at every drawing as a page shows it, by day and by night
// and on a phone: no two texts of one lie over one another in the letters of the page,
// none is smaller than eleven pixels, nothing makes the page broader than the phone, and
// the accessibility checker finds nothing.
func TestDrawingsInABrowser(t *testing.T) {
	axe, err := os.ReadFile("../node_modules/axe-core/axe.min.js")
	chromium, lost := exec.LookPath("chromium-headless-shell")
	if lost != nil {
		chromium, lost = exec.LookPath("chromium")
	}
	if err != nil || lost != nil {
		if os.Getenv("SCARPH_NEEDS_BROWSER") != "" {
			t.Fatal("chromium or axe-core is not there", err, lost)
		}
		t.Skip("chromium or axe-core is not there")
	}
	n, err := Open(everyDrawing)
	if err != nil {
		t.Fatal(err)
	}
	css := ""
	for _, name := range []string{"journal.css", "reader.css"} {
		b, err := os.ReadFile(filepath.Join("assets", name))
		if err != nil {
			t.Fatal(err)
		}
		css += string(b)
	}
	page := `<!doctype html><html lang="en"><meta charset="utf-8"><meta name="viewport" content="width=device-width, initial-scale=1"><title>Every drawing</title><style>` + css + `</style><main class="entry"><h1>Every drawing</h1>` +
		drawingsPage(t, n, Page{AsOf: kernel.Now, WithoutTitle: true}) + n.RenderList("ledger", Page{AsOf: kernel.Now}) + `</main></html>`
	file := filepath.Join(t.TempDir(), "page.html")
	if err := os.WriteFile(file, []byte(page), 0o644); err != nil {
		t.Fatal(err)
	}
	alloc, stopAlloc := chromedp.NewExecAllocator(context.Background(), chromedp.ExecPath(chromium), chromedp.NoSandbox, chromedp.Headless, chromedp.DisableGPU,
		chromedp.Flag("disable-dev-shm-usage", true), chromedp.Flag("hide-scrollbars", true))
	defer stopAlloc()
	browser, stop := chromedp.NewContext(alloc)
	defer stop()
	if _, err := chromedp.Run(browser, chromedp.Navigate("file://"+file)); err != nil {
		t.Fatal(err)
	}
	for _, look := range []struct {
		width, height int64
		scheme        string
		axe           bool
	}{{390, 844, "light", false}, {390, 844, "dark", true}, {1280, 900, "light", true}} {
		ctx, cancel := context.WithTimeout(browser, 3*time.Minute)
		say := func(what string, list []string) {
			for _, x := range list {
				t.Errorf("%d px, %s: %s: %s", look.width, look.scheme, what, x)
			}
		}
		run := func(script string) (list []string) {
			t.Helper()
			out, err := chromedp.Run(ctx, chromedp.Evaluate[string](script, chromedp.EvalAwaitPromise))
			if err != nil {
				t.Fatal(err)
			}
			if err := json.Unmarshal([]byte(out), &list); err != nil {
				t.Fatal(err)
			}
			return list
		}
		if _, err := chromedp.Call(ctx, emulation.SetEmulatedMedia, emulation.SetEmulatedMediaParams{Features: []*emulation.MediaFeature{{Name: "prefers-color-scheme", Value: look.scheme}}}); err != nil {
			t.Fatal(err)
		}
		if _, err := chromedp.Run(ctx, chromedp.EmulateViewport(look.width, look.height)); err != nil {
			t.Fatal(err)
		}
		say("over one another", run(overlaps))
		say("too small", run(smallTexts))
		say("broader than the page", run(broad))
		if look.axe {
			run(string(axe) + ";JSON.stringify([])")
			say("axe", run(axeRun))
		}
		cancel()
	}
}

const (
	// overlaps compares the boxes of the letters, less what no letter fills of a line.
	overlaps = `(async () => { await document.fonts.ready; const bad = [];
for (const svg of document.querySelectorAll("svg.draw")) {
  const boxes = [...svg.querySelectorAll("text")].map((t) => { const r = t.getBoundingClientRect(); const e = Math.min(r.width, r.height) * .17; return { t, x0: r.left + .5, x1: r.right - .5, y0: r.top + e, y1: r.bottom - e, tall: r.height > r.width }; });
  for (let i = 0; i < boxes.length; i++) for (let j = i + 1; j < boxes.length; j++) {
    const a = boxes[i], b = boxes[j];
    if (a.x0 < b.x1 && b.x0 < a.x1 && a.y0 < b.y1 && b.y0 < a.y1) bad.push(svg.querySelector("title").textContent + ": " + a.t.textContent + " and " + b.t.textContent);
  }
} return JSON.stringify(bad); })()`
	smallTexts = `(() => { const bad = []; for (const svg of document.querySelectorAll("svg.draw")) {
  const scale = svg.getBoundingClientRect().width / svg.viewBox.baseVal.width;
  const px = 13 * scale; if (!(px >= 11)) bad.push(svg.querySelector("title").textContent + ": " + px.toFixed(1) + " px");
} return JSON.stringify(bad); })()`
	broad = `(() => { const bad = []; for (const svg of document.querySelectorAll("svg.draw")) {
  const r = svg.getBoundingClientRect(); if (r.right > innerWidth || r.width < 200) bad.push(svg.querySelector("title").textContent + " from " + r.left + " to " + r.right);
} return JSON.stringify(bad); })()`
	axeRun = `(async () => { const r = await axe.run({ include: [["svg.draw"]] }, { runOnly: ["wcag2a", "wcag2aa", "wcag21aa", "wcag22aa", "best-practice"] });
return JSON.stringify(r.violations.map((v) => v.id + ": " + v.help + " " + v.nodes.slice(0, 3).map((n) => n.html.slice(0, 160)).join(" ")).slice(0, 10)); })()`
)
