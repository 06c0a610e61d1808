package live_test

import (
	"encoding/json"
	"strconv"
	"testing"

	"github.com/chromedp/cdproto/accessibility"
	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"
)

// said is what a screen reader has of a thing: its role, its name and its value.
type said struct{ role, name, value string }

// spoken lists what the page is to a screen reader.
func (b *tab) spoken() []said {
	b.t.Helper()
	tree, err := chromedp.Call(b.ctx, accessibility.GetFullAXTree, accessibility.GetFullAXTreeParams{})
	if err != nil {
		b.t.Fatal(err)
	}
	word := func(v *accessibility.Value) string {
		if v == nil {
			return ""
		}
		var text string
		if json.Unmarshal(v.Value, &text) != nil { // a number
			text = string(v.Value)
		}
		return text
	}
	var list []said
	for _, n := range tree.Nodes {
		if !n.Ignored {
			list = append(list, said{word(n.Role), word(n.Name), word(n.Value)})
		}
	}
	return list
}

// speaks holds the page to have each of these things.
func (b *tab) speaks(want ...said) {
	b.t.Helper()
	list := b.spoken()
	for _, w := range want {
		found := false
		for _, x := range list {
			found = found || x == w
		}
		if !found {
			b.t.Errorf("there is no %s %q %s; there are %q", w.role, w.name, w.value, list)
			return
		}
	}
}

// tabTo presses Tab until the focus stands on what a selector finds.
func (b *tab) tabTo(sel string) {
	b.t.Helper()
	for range 60 {
		b.keys(kb.Tab)
		if eval[bool](b, `document.activeElement.matches(`+quote(sel)+`)`) {
			return
		}
	}
	b.t.Fatalf("Tab does not come to %s; the focus is on %s", sel, eval[string](b, `document.activeElement.outerHTML.slice(0, 200)`))
}

// focused waits until the focus stands on what a selector finds.
func (b *tab) focused(sel string) {
	b.t.Helper()
	b.wait(`document.activeElement.matches(` + quote(sel) + `)`)
}

// TestByKeysAlone goes through the main work without a pointer: a card is opened, a
// number tried, kept as a new reading, looked at and taken back; the focus is never lost,
// and what happens is said aloud.
func TestByKeysAlone(t *testing.T) {
	for _, z := range screen {
		t.Run(z.name, func(t *testing.T) {
			s := open(t, wren)
			before := s.read(title)
			b := newTab(t, z)
			b.goTo(s.url + "/")
			b.keys(kb.Tab)
			b.focused(".skip")
			b.keys(kb.Enter)
			b.focused("main")
			b.speaks(said{role: "button", name: `beam 4' 1 3/4" ± 1/16", found`}, said{role: "button", name: "offsets, sheer half, st 2 2-0-3+, drawn"},
				said{role: "navigation", name: "The journal’s days"}, said{role: "main", name: ""}, said{role: "heading", name: "Wren"})
			b.tabTo("button.v[data-name=beam]")
			b.keys(kb.Enter)
			b.focused("#dock h2")
			b.speaks(said{role: "dialog", name: "Beam"}, said{role: "textbox", name: "Try another number", value: `4' 1 3/4" ± 1/16"`}, said{role: "button", name: `1/16" more`})
			b.tabTo("#try-value")
			eval[bool](b, `(document.activeElement.select(), true)`)
			b.keys(`4' 3"`)
			b.waitText("#try-reads", "1295.4 mm")
			b.keys(kb.Enter)
			b.waitText(".trial", "Not kept")
			b.focused("#try-value")
			b.waitText("#aloud", "3 values move")
			b.tabTo("#dock .keep > summary")
			b.keys(kb.Enter)
			b.tabTo(".keep [name=way]")
			b.tabTo(".keep [name=kind]")
			b.speaks(said{role: "radio", name: "found: read off the boat or the loft"}, said{role: "group", name: "What kind of reading is it?"}, said{role: "textbox", name: "Note"})
			b.keys(kb.ArrowDown)
			b.wait(`document.querySelector(".keep [name=kind]:checked").value === "built"`)
			b.tabTo(".keep [name=note]")
			b.keys("as planked")
			b.keys(kb.Enter)
			b.waitText("#dock h2", "What moved")
			b.focused("#dock h2")
			b.waitText(".bar .said[aria-live=polite]", "Kept in “16 May 2027”: the new reading of beam.")
			s.holds("2027-05-16.md", "---\ntitle: \"16 May 2027\"\ndate: 2027-05-16\n---\n```calc\nbuilt beam = 4' 3\"   # as planked\n```\n")
			b.keys(kb.Escape)
			b.focused("button.v[data-name=beam]")
			b.tabTo(".bar .act:nth-child(2)")
			b.keys(kb.Enter)
			b.waitText(".bar .said", "Taken back")
			b.focused(".bar .act")
			if len(s.files()) != 3 || s.read(title) != before {
				t.Error("it was not taken back")
			}

			// the drawers and the stick
			b.goTo(s.url + "/")
			b.tabTo(".slide")
			b.speaks(said{role: "slider", name: "Turn the journal back", value: "3"})
			b.tabTo("details.drop > summary")
			b.keys(kb.Enter)
			b.keys(kb.Tab)
			b.focused(".drawer a")
			b.keys(kb.Escape)
			b.focused("details.drop > summary")
			b.keys(kb.Enter)
			b.tabTo(`.drawer a[href="/list/cutlist"]`)
			b.keys(kb.Enter)
			b.waitText("h1", "Cut list")
		})
	}
}

// TestTargets measures everything that is touched: 24 px at least, 44 px where large
// targets are asked for. Source: WCAG 2.2, success criteria 2.5.8 and 2.5.5.
func TestTargets(t *testing.T) {
	s := open(t, wren)
	b := newTab(t, phone)
	small := func(where string, least int) {
		t.Helper()
		for _, x := range eval[[]string](b, `(() => { const least = `+strconv.Itoa(least)+`;
			return [...document.querySelectorAll("button, summary, input:not([type=radio]), select, .tool, .act, .drawer a, .keep label:has(input)")]
				.filter((x) => x.checkVisibility() && x.getBoundingClientRect().width > 0)
				.map((x) => [x.getBoundingClientRect(), x])
				.filter(([r]) => r.height < least - 0.5 || r.width < 24)
				.map(([r, x]) => r.width.toFixed(0) + " × " + r.height.toFixed(0) + " " + x.outerHTML.slice(0, 120)); })()`) {
			t.Errorf("%s: %s", where, x)
		}
	}
	for _, least := range []int{24, 44} {
		b.goTo(s.url + "/")
		if least == 44 {
			eval[bool](b, `(document.cookie = "scarph-targets=large; path=/", true)`)
			b.goTo(s.url + "/")
		}
		small("the page", least)
		b.click("button.v[data-name=beam]")
		b.click(".keep > summary")
		small("a card", least)
		b.goTo(s.url + "/write/2027-05-02-measured")
		b.waitText(".proof", "Off the moulds")
		small("writing", least)
		b.click("[data-grid]")
		small("the table of offsets", least)
	}
}
