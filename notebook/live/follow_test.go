package live_test

import (
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// TestASavedFileMovesThePage saves the title page as an editor does and sees the
// number change on the open page, without a reload, and hears what moved.
func TestASavedFileMovesThePage(t *testing.T) {
	for _, z := range screen {
		t.Run(z.name, func(t *testing.T) {
			s := open(t, wren)
			b := newTab(t, z)
			b.goTo(s.url + "/")
			b.waitText(`button.v[data-name=spacing]`, `1' 1 1/4"`)
			eval[bool](b, `(window.sameRun = true, scrollTo(0, 200), true)`)
			text := s.read(title)
			s.save(title, strings.Replace(text, "frames = 9", "frames = 11", 1))
			b.waitText(`button.v[data-name=spacing]`, `10 5/8" shy`)
			b.waitText(".bar .said", "frames 9 → 11")
			if !eval[bool](b, `window.sameRun === true`) {
				t.Error("the page was loaded anew")
			}
			b.shoot("moved")
			b.click(".bar .act")
			b.waitText("#dock h2", "What moved")
			b.waitText("#dock .moved", "2 more")
			b.waitText("#dock .still", "beam")
			b.shoot("sheet")

			// a file that comes and one that goes
			s.save("2027-05-03-more.md", "---\ntitle: More\n---\n```calc\nfound run = 9'\n```\n")
			b.waitText(".contents", "More")
			b.waitText(".row.displaced", "until 3 May 2027: then found 9'")
			if err := os.Remove(filepath.Join(s.dir, "2027-05-03-more.md")); err != nil {
				t.Fatal(err)
			}
			b.wait(`!document.querySelector(".contents").textContent.includes("More")`)
			b.wait(`!document.querySelector("main").textContent.includes("3 May 2027")`)
			if !eval[bool](b, `window.sameRun === true`) {
				t.Error("the page was loaded anew")
			}
		})
	}
}

// TestSettleFromTheSheet settles a part that is off, and finds the line in today's entry.
func TestSettleFromTheSheet(t *testing.T) {
	for _, z := range screen {
		t.Run(z.name, func(t *testing.T) {
			s := open(t, wren)
			text := s.read(entry)
			s.save(entry, strings.Replace(text, "settle thwart: replaced", "# settle thwart: replaced", 1))
			b := newTab(t, z)
			b.goTo(s.url + "/entry/2027-04-18-thwarts")
			b.waitText(".to-settle", "1 thing made is off")
			s.save(entry, strings.Replace(s.read(entry), `4' 1 3/4"`, `4' 2"`, 1))
			b.waitText(".bar .said", "off")
			b.click(".bar .act")
			b.waitText("#dock .off", "thwart")
			b.click("#dock .off summary")
			b.click(`#dock [name=how][value=packed]`)
			b.fill(`#dock [name=note]`, "a slip of larch under each end")
			b.shoot("settling")
			b.click("#dock .off [type=submit]")
			b.wait(`!document.querySelector(".to-settle")`)
			s.holds("2027-05-16.md", "---\ntitle: \"16 May 2027\"\ndate: 2027-05-16\n---\n```calc\nsettle thwart: packed   # a slip of larch under each end\n```\n")
		})
	}
}

// TestACardKeepsWhatIsTyped types on a card while an editor saves the file: the card
// follows, and what was typed and chosen stays.
func TestACardKeepsWhatIsTyped(t *testing.T) {
	for _, z := range screen {
		t.Run(z.name, func(t *testing.T) {
			s := open(t, wren)
			b := newTab(t, z)
			b.goTo(s.url + "/")
			b.click("button.v[data-name=beam]")
			b.fill("#try-value", `4' 2"`)
			b.click(".keep > summary")
			b.click(".keep [name=kind][value=built]")
			b.fill(".keep [name=note]", "with the clamps off")
			s.save(entry, strings.Replace(s.read(entry), `4' 1 3/4"`, `4' 1 5/8"`, 1))
			b.waitText("main button.v[data-name=beam]", `4' 1 5/8"`)
			b.focused(".keep [name=note]")
			eval[bool](b, `(document.activeElement.blur(), true)`)
			b.waitText("#dock .big", `4' 1 5/8"`)
			b.wait(`document.querySelector(".keep").open`)
			if got := eval[string](b, `[document.querySelector("#try-value").value, document.querySelector(".keep [name=kind]:checked").value, document.querySelector(".keep [name=note]").value].join(" | ")`); got != `4' 2" | built | with the clamps off` {
				t.Errorf("the card holds %s", got)
			}
			b.click(".keep [type=submit]")
			s.holds("2027-05-16.md", "---\ntitle: \"16 May 2027\"\ndate: 2027-05-16\n---\n```calc\nbuilt beam = 4' 2\"   # with the clamps off\n```\n")
		})
	}
}
