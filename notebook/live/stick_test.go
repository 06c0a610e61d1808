package live_test

import (
	"strings"
	"testing"

	"github.com/chromedp/cdproto/input"
	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"
)

// TestTheStick slides the journal back by keys and by hand; numbers, lists and the
// address follow, and a page that had not been written then gives way.
func TestTheStick(t *testing.T) {
	for _, z := range screen {
		t.Run(z.name, func(t *testing.T) {
			s := open(t, wren)
			b := newTab(t, z)
			b.goTo(s.url + "/")
			b.waitText(`button.v[data-name=beam]`, `4' 1 3/4" ± 1/16"`)
			b.wait(`!document.querySelector(".slide").hidden`)
			if got := eval[string](b, `document.querySelector(".slide").getAttribute("aria-valuetext")`); got != "now, 2 May 2027, The sides spread" {
				t.Errorf("the slide says %q", got)
			}
			eval[bool](b, `(document.querySelector(".slide").focus(), true)`)
			b.keys(kb.ArrowUp)
			b.wait(`location.search === "?as-of=2"`)
			b.waitText("#notice", "as it stood on 18 April 2027")
			b.waitText(`main p button.v[data-name=beam]`, `4' 1 1/2"`)
			if !eval[bool](b, `document.activeElement.classList.contains("slide")`) {
				t.Error("the slide lost the focus")
			}
			b.shoot("back")
			b.click(`main p button.v[data-name=beam]`)
			b.waitText("#dock .big", `4' 1 1/2"`)
			b.waitText("#dock", "as of 18 April 2027")
			if eval[bool](b, `!!document.querySelector("#dock form")`) {
				t.Error("the past can be written in")
			}
			b.click("#dock [data-close]")

			b.goTo(s.url + "/list/rework?as-of=2")
			b.waitText("main", "Nothing that was made is off")
			b.goTo(s.url + "/list/dimensions?as-of=1")
			b.waitText("main tr", `4' 1 1/2"`)

			// by hand, from the last entry: on the first day it had not been written
			b.goTo(s.url + "/entry/2027-05-02-measured")
			b.wait(`!document.querySelector(".slide").hidden`)
			b.drag(".slide", ".stick li:first-child")
			b.wait(`location.pathname === "/" && location.search === "?as-of=1"`)
			b.waitText("h1", "Wren")
			b.drag(".slide", ".stick li:last-child")
			b.wait(`location.search === ""`)
			b.wait(`!document.querySelector("#notice").textContent.trim()`)

			b.goTo(s.url + "/entry/2027-05-02-measured?as-of=2")
			b.waitText(".unwritten", "had not been written")
			b.click("#notice .act")
			b.waitText("main", "Off the moulds")
			b.wait(`!document.querySelector(".unwritten")`)
		})
	}
}

// drag takes one thing to the place of another.
func (b *tab) drag(from, to string) {
	b.t.Helper()
	type point struct{ X, Y float64 }
	at := func(sel string) point {
		return eval[point](b, `(() => { const r = document.querySelector(`+quote(sel)+`).getBoundingClientRect(); return { X: r.left + r.width / 2, Y: r.top + r.height / 2 } })()`)
	}
	p, q := at(from), at(to)
	b.run(chromedp.MouseEvent(input.DispatchMouseEventTypeMousePressed, p.X, p.Y, chromedp.ButtonLeft, chromedp.ClickCount(1)))
	for i := 1.0; i <= 4; i++ {
		b.run(chromedp.MouseEvent(input.DispatchMouseEventTypeMouseMoved, p.X+(q.X-p.X)*i/4, p.Y+(q.Y-p.Y)*i/4, chromedp.ButtonLeft))
	}
	b.run(chromedp.MouseEvent(input.DispatchMouseEventTypeMouseReleased, q.X, q.Y, chromedp.ButtonLeft, chromedp.ClickCount(1)))
}

// TestUnitsAndLooks switches units, targets and contrast; each lasts.
func TestUnitsAndLooks(t *testing.T) {
	for _, z := range screen {
		t.Run(z.name, func(t *testing.T) {
			s := open(t, wren)
			b := newTab(t, z)
			b.goTo(s.url + "/")
			b.click(".tool.units")
			b.waitText(`main p button.v[data-name=beam]`, "1263.7 ± 1.6 mm")
			b.waitText(".row", "1263.7 ± 1.6 mm - 2 * 9.5 mm")
			b.shoot("metric")
			b.click(`button.v[data-name=inside]`)
			b.waitText("#dock .big", "1244.6")
			b.waitText("#dock .filled", "1263.7 ± 1.6 mm − 2 × 9.5 mm")
			b.click("#dock [data-close]")
			b.goTo(s.url + "/list/dimensions")
			b.waitText("main td", "1244.6")
			b.goTo(s.url + "/list/rework")
			b.click(".tool.units")
			b.goTo(s.url + "/")
			b.waitText(`main p button.v[data-name=beam]`, `4' 1 3/4"`)
			for _, set := range []string{"targets", "contrast"} {
				b.click("details.drop:last-of-type > summary")
				b.click(`[data-set=` + set + `]`)
				b.wait(`document.querySelector('[data-set=` + set + `]').getAttribute("aria-pressed") === "true"`)
				b.keys(kb.Escape)
			}
			b.goTo(s.url + "/")
			if got := eval[string](b, `document.documentElement.className`); !strings.Contains(got, "large") || !strings.Contains(got, "stark") {
				t.Errorf("the page looks %q", got)
			}
			b.shoot("large-stark")
		})
	}
}

// TestSearch finds words in the text and names.
func TestSearch(t *testing.T) {
	s := open(t, wren)
	b := newTab(t, phone)
	b.goTo(s.url + "/search")
	b.fill("#q", "planking")
	b.keys(kb.Enter)
	b.wait(`location.search && document.readyState === "complete"`)
	b.waitText("main .names", "planking")
	b.waitText("main .hits", "between the planking")
	b.shoot("found")
	b.click("main .names a")
	b.waitText("#dock h2", "Planking")
	b.goTo(s.url + "/search?q=" + "%3Cscript%3Ealert(1)%3C%2Fscript%3E")
	b.waitText("main", "Nothing in the journal says “<script>alert(1)</script>”")
}
