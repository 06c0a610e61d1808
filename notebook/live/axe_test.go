package live_test

import (
	"os"
	"strings"
	"testing"
)

// axeScript is the accessibility checker that the tests load into pages.
func axeScript(t *testing.T) string {
	t.Helper()
	path := os.Getenv("SCARPH_AXE")
	if path == "" {
		path = "../../node_modules/axe-core/axe.min.js"
	}
	src, err := os.ReadFile(path)
	if err != nil {
		if os.Getenv("SCARPH_NEEDS_BROWSER") != "" {
			t.Fatal("axe-core is not there; npm ci brings it")
		}
		t.Skip("axe-core is not there; npm ci brings it")
	}
	return string(src)
}

// finding is a rule that a page breaks, and where.
type finding struct {
	ID    string   `json:"id"`
	Help  string   `json:"help"`
	Nodes []string `json:"nodes"`
}

// accessible holds the page as it is shown now to WCAG 2.2 A and AA and to the
// checker's own good practice.
func (b *tab) accessible(axe, state string) {
	b.t.Helper()
	if !eval[bool](b, `typeof axe === "object"`) {
		eval[bool](b, axe+"\n;true")
	}
	list := eval[[]finding](b, `(async () => {
		document.getAnimations().forEach((a) => a.finish());
		// what an open drawer lies over is not to be tapped before it is closed
		const r = await axe.run(document.querySelector("details.drop[open]") || document, { resultTypes: ["violations"], rules: { "target-size": { enabled: true } } });
		return r.violations.map((v) => ({ id: v.id, help: v.help, nodes: v.nodes.slice(0, 4).map((n) => n.html.slice(0, 160) + " — " + n.failureSummary.replace(/\s+/g, " ").slice(0, 200)) }));
	})()`)
	for _, f := range list {
		b.t.Errorf("%s: %s: %s\n\t%s", state, f.ID, f.Help, strings.Join(f.Nodes, "\n\t"))
	}
}

// TestAccessible visits every page and every state of it, on the desk and on the
// phone, by day, by night and in high contrast.
func TestAccessible(t *testing.T) {
	axe := axeScript(t)
	for _, c := range []struct {
		size
		look string
		all  bool // every page and state; else those in which a look tells
	}{{desk, "light", true}, {phone, "dark", true}, {desk, "stark", false}, {phone, "large", false}, {phone, "stark", false}} {
		z, look := c.size, c.look
		if testing.Short() && !c.all {
			continue
		}
		func() {
			t.Run(z.name+"/"+look, func(t *testing.T) {
				s := open(t, wren)
				s.save("_broken", "")
				s.save("2027-05-09-wrong.md", "---\ntitle: Wrong on purpose\n---\n```calc\nlost = nowhere + 1 in\nwaiting = lost * 2\ncheck beam > 9 ft\nguess mast = 14 ft\n```\nNot there: {lost}, {waiting}.\n")
				b := newTab(t, z)
				b.dark(look == "dark")
				b.goTo(s.url + "/")
				if look == "stark" || look == "large" {
					set := map[string]string{"stark": "contrast=high", "large": "targets=large"}[look]
					eval[bool](b, `(document.cookie = "scarph-`+set+`; path=/", true)`)
				}
				for _, path := range []string{"/", "/entry/2027-05-02-measured", "/entry/2027-05-09-wrong", "/?as-of=2", "/entry/2027-05-02-measured?as-of=1", "/list/dimensions", "/list/cutlist", "/list/rework", "/list/checks", "/list/ledger", "/list/history", "/search?q=beam", "/wall/dimensions", "/wall/rework", "/phone", "/today", "/card?name=beam", "/ripple?try=beam=4'+3%22", "/nothing/here", "/rescued"} {
					if !c.all && path != "/" && !strings.Contains(path, "wrong") && !strings.Contains(path, "rework") {
						continue
					}
					b.goTo(s.url + path)
					b.accessible(axe, path)
					b.shoot("page" + path)
				}
				b.goTo(s.url + "/")
				b.click("details.drop:last-of-type > summary")
				b.accessible(axe, "an open drawer")
				b.shoot("drawer")
				b.click("details.drop:last-of-type > summary")
				b.click(`button.v[data-name=beam]`)
				b.waitText("#dock h2", "Beam")
				b.accessible(axe, "a card")
				b.fill("#try-value", "19")
				b.waitText("#try-reads.wrong", "19 what?")
				b.accessible(axe, "a card with a number that is refused")
				b.shoot("refused")
				b.fill("#try-value", `4' 3"`)
				b.waitText("#try-reads", "1295.4")
				b.click("form.try [type=submit]")
				b.waitText("#notice", "Nothing is kept")
				b.click(".keep > summary")
				b.accessible(axe, "a number that is tried")
				if !c.all {
					return
				}
				b.click("[data-ripple]")
				b.waitText("#dock h2", "What would move")
				b.accessible(axe, "what would move")
				b.shoot("would-move")
				b.click("#dock [data-close]")
				b.click(`#notice [data-drop]`)
				b.wait(`!document.querySelector("#notice").textContent.trim()`)
				b.click(`button.v[data-name=inside]`)
				b.waitText("#dock h2", "Inside")
				b.accessible(axe, "a card with a sum")
				b.shoot("sum")
				s.save("2027-05-02-measured.md", strings.Replace(s.read("2027-05-02-measured.md"), `4' 1 3/4"`, `4' 2 3/4"`, 1))
				b.waitText(".bar .said", "beam")
				b.accessible(axe, "the bar")
				b.click(".bar .act")
				b.waitText("#dock h2", "What moved")
				b.wait(`document.querySelector("#dock .moved")`)
				b.accessible(axe, "a ripple")
				b.shoot("ripple")

				b.goTo(s.url + "/write/2027-05-09-wrong")
				b.waitText(".want", "nothing is named nowhere")
				b.accessible(axe, "writing")
				b.shoot("writing")
				b.caretAt("guess mast")
				b.typeText("x = fra")
				b.waitText(".fit", "frames")
				b.accessible(axe, "words that fit")
				b.click("[data-grid]")
				b.fill("#grid-paste", "a 1-2-3 1-12-3\nb 1-2-4 1-3-0")
				b.click("[data-read]")
				b.waitText(".back", "a foot or more")
				b.accessible(axe, "the table of offsets")
				b.click("dialog.grid [data-shut]")
				b.click("[data-photo]")
				b.accessible(axe, "the photo")
				b.shoot("photo")
				b.click("dialog.photo [data-shut]")
			})
		}()
	}
}
