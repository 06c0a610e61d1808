package live_test

import (
	"bytes"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"github.com/chromedp/chromedp"
)

// paper is what came out of the printer: the text of each page.
type paper struct {
	t     *testing.T
	pages []string
}

// print prints the page on A4, as the browser does, and reads it with poppler.
func (b *tab) print(name string) paper {
	b.t.Helper()
	if _, err := exec.LookPath("pdftotext"); err != nil {
		if os.Getenv("SCARPH_NEEDS_POPPLER") != "" {
			b.t.Fatal("poppler is not installed")
		}
		b.t.Skip("poppler is not installed; it reads what was printed")
	}
	pdf, err := chromedp.Run(b.ctx, chromedp.PrintToPDF(chromedp.PDFPaper(chromedp.PaperA4), chromedp.PDFPreferCSSPageSize()))
	if err != nil {
		b.t.Fatal(err)
	}
	dir := b.t.TempDir()
	if p := os.Getenv("SCARPH_PICTURES"); p != "" {
		dir = p
	}
	file := filepath.Join(dir, strings.ReplaceAll(b.t.Name(), "/", "-")+"-"+name+".pdf")
	if err := os.WriteFile(file, pdf, 0o644); err != nil {
		b.t.Fatal(err)
	}
	out, err := exec.Command("pdftotext", "-layout", file, "-").Output()
	if err != nil {
		b.t.Fatal(err)
	}
	return paper{b.t, strings.Split(strings.TrimSuffix(string(bytes.TrimSpace(out)), "\f"), "\f")}
}

// has holds a page of the paper to some words, blanks aside.
func (p paper) has(n int, words ...string) {
	p.t.Helper()
	if n >= len(p.pages) {
		p.t.Fatalf("there is no page %d", n+1)
	}
	text := strings.Join(strings.Fields(p.pages[n]), " ")
	for _, w := range words {
		if !strings.Contains(text, w) {
			p.t.Errorf("page %d does not say %q:\n%s", n+1, w, p.pages[n])
		}
	}
}

// lacks holds the paper to be without what is for the screen only.
func (p paper) lacks(words ...string) {
	p.t.Helper()
	for n, text := range p.pages {
		for _, w := range words {
			if strings.Contains(text, w) {
				p.t.Errorf("page %d says %q:\n%s", n+1, w, text)
			}
		}
	}
}

// tools are words of the screen that have nothing to do on paper.
var tools = []string{"Lists", "View", "metric", "Try it", "Print it", "Put it back", "Back to", "To the text", "✕", "things made are off"}

// TestPrintedPages prints an entry, with a card open, turned back, and with a number that
// is tried: the paper says which of them it is, and shows no tools.
func TestPrintedPages(t *testing.T) {
	for _, z := range screen {
		t.Run(z.name, func(t *testing.T) {
			s := open(t, wren)
			b := newTab(t, z)
			b.goTo(s.url + "/")
			b.click("button.v[data-name=beam]")
			b.waitText("#dock h2", "Beam")
			p := b.print("page")
			p.has(0, "Wren", `She is 4' 1 3/4" ± 1/16"`, "thwart part, larch", "sheer_half 1-2-4 2-0-3+ 1-10-6")
			p.lacks(tools...)
			b.goTo(s.url + "/?as-of=2")
			p = b.print("back")
			p.has(0, "as it stood on 18 April 2027", `She is 4' 1 1/2"`)
			p.lacks(tools...)
			b.goTo(s.url + "/?try=beam=4'+3%22")
			p = b.print("tried")
			p.has(0, "Nothing is kept", `She is 4' 3"`)
			p.lacks(tools...)
		})
	}
}

// TestWallSheet prints a list of several pages: each carries the list, the boat, the
// revision and its mark, the day and its number.
func TestWallSheet(t *testing.T) {
	s := open(t, wren)
	var text strings.Builder
	text.WriteString("---\ntitle: Lofting\ndate: 2027-05-03\n---\n```calc\n")
	for n := range 80 {
		fmt.Fprintf(&text, "found mark_%d = %d\" ± 1/16\"   # read off the floor, from the perpendicular aft\n", n, 10+n)
	}
	s.save("2027-05-03-lofting.md", text.String()+"```\n")
	b := newTab(t, desk)
	b.goTo(s.url + "/list/dimensions")
	b.waitText("main tr", "mark 79")
	b.goTo(s.url + "/wall/dimensions")
	b.wait(`!document.querySelector("[data-print]").hidden`)
	mark := eval[string](b, `document.querySelector("[data-mark]").dataset.mark`)
	p := b.print("sheet")
	if len(p.pages) < 3 {
		t.Fatalf("%d pages", len(p.pages))
	}
	for n := range p.pages {
		p.has(n, "Wren, a small tender · Dimensions", "Revision ", "· "+mark, "16 May 2027", fmt.Sprintf("page %d of %d", n+1, len(p.pages)), "value is also kind since note", "mark ")
	}
	p.lacks(tools...)
	p.has(len(p.pages)-1, "is out of date")
	// an editor changes a number: the sheet on the screen says that it is old
	s.save(entry, strings.Replace(s.read(entry), `4' 1 3/4"`, `4' 2"`, 1))
	b.wait(`!document.querySelector(".outdated").hidden`)
	b.shoot("outdated")
}
