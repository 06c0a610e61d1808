package site_test

import (
	"path/filepath"
	"testing"

	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/chromedp"
)

// sideways lists the cells and their words that a reader of a narrow screen could see
// only by sliding the list, or not at all.
const sideways = `[...document.querySelectorAll(".list td, .list tbody th")].filter((c) => {
	if (c.textContent === "") return false;
	const range = document.createRange();
	range.selectNodeContents(c);
	const box = range.getBoundingClientRect();
	return box.width === 0 || box.left < 0 || box.right > innerWidth + 1;
}).map((c) => c.closest("[data-list]").dataset.list + ": " + c.textContent).concat([...document.querySelectorAll(".list .wide")].filter((w) => w.scrollWidth > w.clientWidth + 1).map((w) => "slides: " + w.textContent.slice(0, 60)))`

// TestListsOnAPhone looks at the lists of journals in both families of units on a screen of
// 390 pixels: each row is a block, in which every cell has its column's word and is seen
// whole.
func TestListsOnAPhone(t *testing.T) {
	for i, name := range []string{"sorrel", "quillet"} {
		out := publish(t, "../../examples/"+name)
		b := newTab(t, 390, 844)
		look := []string{"light", "dark"}[i]
		if _, err := chromedp.Call(b.ctx, emulation.SetEmulatedMedia, emulation.SetEmulatedMediaParams{Features: []*emulation.MediaFeature{{Name: "prefers-color-scheme", Value: look}}}); err != nil {
			t.Fatal(err)
		}
		for _, list := range []string{"dimensions", "cutlist", "rework", "checks", "ledger", "history"} {
			at := filepath.Join(out, list+".html")
			if infos(t, out)[list+".html"] == nil {
				continue
			}
			b.goTo("file://" + filepath.ToSlash(at))
			for _, units := range []string{"own", "other"} {
				if units == "other" {
					b.do(`document.querySelector("button.units").click()`)
				}
				for _, cell := range eval[[]string](b, sideways) {
					t.Errorf("%s, %s, in the %s units: out of sight, %s", name, list, units, cell)
				}
				if n := eval[int](b, `document.documentElement.scrollWidth - innerWidth`); n > 0 {
					t.Errorf("%s, %s: the page is %d pixels too wide", name, list, n)
				}
			}
			if list == "rework" {
				if word := eval[string](b, `getComputedStyle(document.querySelector(".list td:nth-child(6)"), "::before").content`); word != `"made − now "` {
					t.Errorf("%s: before what a part is off stands %s", name, word)
				}
			}
			b.shoot("phone-" + look + "-" + list)
		}
	}
}
