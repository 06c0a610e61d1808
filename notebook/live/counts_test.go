package live

import (
	"io"
	"net/http"
	"testing"
)

// TestAReadingThatDoesNotCountSaysWhy names the reading that counts for more, whatever
// the kind of the new one: a later day is as good a reason as a stronger kind.
func TestAReadingThatDoesNotCountSaysWhy(t *testing.T) {
	g := newGate(t, "127.0.0.1:7433", Options{}) // today is 16 May 2027
	g.write(map[string]string{"2027-12-05.md": "```calc\nbuilt beam = 4' 1\"\n```\n"})
	card := g.page("/card?name=beam")
	g.has(card, `<span>revised: decided anew <i class="small">noted only: the built reading of 5 December 2027 counts for more</i>`,
		`as it was made <i class="small">noted only: the built reading of 5 December 2027 counts for more</i>`)
	r := g.send("/keep", `{"name":"beam","value":"4' 2\"","at":"","kind":"revise","note":""}`)
	g.status(http.StatusOK, r, "keep")
	b, _ := io.ReadAll(r.Body)
	g.has(string(b), "the new reading of beam. It is noted only: the built reading of 5 December 2027 counts for more.")

	g = newGate(t, "127.0.0.1:7433", Options{})
	g.write(map[string]string{"2027-04-05.md": "```calc\nfound beam = 4' 1\"\n```\n"})
	card = g.page("/card?name=beam")
	g.has(card, `from the plan <i class="small">noted only: the found reading of 5 April 2027 counts for more</i>`,
		`<span>revised: decided anew</span>`, `<span>built: as it was made</span>`, `<span>found: read off the boat or the loft</span>`)
}

// TestATitleIsSaidOnce: a page that is titled as its journal says so once.
func TestATitleIsSaidOnce(t *testing.T) {
	g := newGate(t, "127.0.0.1:7433", Options{})
	g.has(g.page("/"), "<title>Tern</title>")
	g.has(g.page("/entry/2027-01-02"), " · Tern</title>")
}
