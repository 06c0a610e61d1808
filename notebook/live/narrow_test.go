package live_test

import (
	"path/filepath"
	"testing"
)

// sideways lists the cells that a reader of a narrow screen could see only by sliding the
// list, or not at all.
const sideways = `[...document.querySelectorAll(".list td, .list tbody th")].filter((c) => {
	if (c.textContent === "") return false;
	const range = document.createRange();
	range.selectNodeContents(c);
	const box = range.getBoundingClientRect();
	return box.width === 0 || box.left < 0 || box.right > innerWidth + 1;
}).map((c) => c.textContent).concat([...document.querySelectorAll(".list .wide")].filter((w) => w.scrollWidth > w.clientWidth + 1).map((w) => "slides: " + w.textContent.slice(0, 60)))`

// TestListsOnAPhone looks at the lists on a screen of 390 pixels: each row is a block, in
// which every cell is seen whole.
func TestListsOnAPhone(t *testing.T) {
	for i, name := range []string{"sorrel", "quillet"} {
		s := open(t, filepath.FromSlash("../../examples/"+name))
		b := newTab(t, phone)
		b.dark(i == 1)
		for _, list := range []string{"dimensions", "cutlist", "rework", "checks", "ledger", "history"} {
			b.goTo(s.url + "/list/" + list)
			for _, cell := range eval[[]string](b, sideways) {
				t.Errorf("%s, %s: out of sight, %s", name, list, cell)
			}
			if n := eval[int](b, `document.documentElement.scrollWidth - innerWidth`); n > 0 {
				t.Errorf("%s, %s: the page is %d pixels too wide", name, list, n)
			}
			b.shoot("phone-" + name + "-" + list)
		}
	}
}
