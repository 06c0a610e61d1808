package live

import (
	"strings"
	"testing"
)

// TestATriedNumberGoesThroughout holds a page and its cards to show nothing of the number
// that stands while another is tried: not in the working, not beside a check, not on the
// cards of what it hangs on or what hangs on it.
func TestATriedNumberGoesThroughout(t *testing.T) {
	g := newGate(t, "127.0.0.1:7433", Options{})
	g.write(map[string]string{
		"2027-01-02.md": "```calc\nplank = 3/8\"\nrivet = plank * 2 + 1/8\"\ncheck rivet < 2\"\ncheck rivet < 1\"\nlong = 3 ft - rivet\npart seat: 1 of 1\" by 8\" by long in larch, within 1/32\"\nmade seat: 1\n```\nSo {rivet + 1\"}.\n",
	})
	kept := g.page("/entry/2027-01-02")
	g.has(kept, `>3/8&#34; * 2 + 1/8&#34;<`, `7/8&#34; &lt; 2&#34;`, `7/8&#34; &lt; 1&#34;`)
	page := g.page("/entry/2027-01-02?try=plank%3D1%2F2%22")
	g.has(page, `>1/2&#34; * 2 + 1/8&#34;<`, `1 1/8&#34; &lt; 2&#34;`, `1 1/8&#34; &gt; 1&#34;`, `class="row tried"`, "Rework.")
	g.lacks(page, `>3/8&#34; * 2`, `7/8&#34; &lt;`)
	card := g.page("/card?name=rivet&try=plank%3D1%2F2%22")
	g.has(card, `<p class="sum filled tried">= 1/2&#34; × 2 &#43; 1/8&#34;</p>`, `<p class="sum filled tried">= 1 1/8&#34;</p>`, `<span class="n tried">1/2&#34;</span>`, "would be off")
	g.lacks(card, `= 3/8&#34; ×`)
	card = g.page("/card?name=plank&try=plank%3D1%2F2%22")
	hangs := card[strings.Index(card, "What hangs on it"):]
	g.has(hangs, `<span class="n tried">1 1/8&#34;</span>`)
	g.lacks(hangs, `>7/8&#34;<`)
	card = g.page("/card?at=2027-01-02.md%7C7&try=plank%3D1%2F2%22")
	g.has(card, `2 1/8&#34;</span> with what is tried`)
}

// TestListsFollowWhatIsTried holds the lists to the tried number, marked as such; the sheet
// for the wall is of what is kept.
func TestListsFollowWhatIsTried(t *testing.T) {
	g := newGate(t, "127.0.0.1:7433", Options{})
	g.write(map[string]string{
		"2027-01-02.md": "```calc\nplank = 3/8\"\nrivet = plank * 2 + 1/8\"\napart = 4 in\ncheck rivet < 1\"\nlong = 3 ft - rivet\npart seat: 1 of 1\" by 8\" by long in larch, within 1/32\"\nmade seat: 1\n```\n",
	})
	const try = "?try=plank%3D1%2F2%22"
	list := g.page("/list/dimensions" + try)
	g.has(list, `aria-label="plank 1/2&#34;, tried, not kept"`, `aria-label="rivet 1 1/8&#34;, tried, not kept"`, `aria-label="apart 4&#34;, chosen"`, "your numbers")
	g.lacks(list, `>7/8&#34;<`, "#trying")
	g.has(g.page("/list/checks"+try), "1 1/8&#34; &gt; 1&#34;")
	g.has(g.page("/list/rework"+try), "1/4&#34;")
	g.has(g.page("/list/history"+try), "your numbers")
	g.has(g.page("/list/cutlist"+try), "2&#39; 10 7/8&#34;")
	g.has(g.page("/wall/dimensions"+try), "7/8&#34;")
	g.lacks(g.page("/wall/dimensions"+try), ">1 1/8&#34;<", "your numbers")
	g.has(g.page("/list/dimensions?try=plank%3D1%2F2+lb"), "Nothing is tried", `>7/8&#34;<`)
	g.has(g.page("/list/dimensions"), `>7/8&#34;<`)
}

// TestARefusedTrialSaysSo says of a number that cannot be tried that it is not.
func TestARefusedTrialSaysSo(t *testing.T) {
	g := newGate(t, "127.0.0.1:7433", Options{})
	page := g.page("/?try=beam%3D7%2F16")
	g.has(page, "Beam = 7/16 cannot be tried: beam is a length; 7/16 is ", "Nothing is tried.")
	g.lacks(page, "Trying", "Nothing is kept", "?.", "..")
	page = g.page("/?try=beam%3D1%2C5%22")
	g.has(page, "cannot be tried")
	g.lacks(page, "?.")
	card := g.page("/card?name=beam&try=beam%3D7%2F16")
	g.has(card, "cannot be tried")
	g.lacks(card, "Not kept")
}
