package live

import (
	"strings"
	"testing"
)

// TestWhatIsCutMovesFirst lists what moved with the parts first, then in the journal's
// order, and keeps values near nothing from stretching the scale of the picture.
func TestWhatIsCutMovesFirst(t *testing.T) {
	g := newGate(t, "127.0.0.1:7433", Options{})
	g.write(map[string]string{"2027-01-02.md": "```calc\nbump = beam - 3 ft 11 1/2 in\nhalf = beam / 2\nlong = beam - 1 in\npart seat: 2 of 1\" by 8\" by long in larch\nmade seat: 1\n```\n"})
	page := g.page("/ripple?try=beam%3D4%27+3%22")
	at := -1
	for _, name := range []string{">seat<", ">beam<", ">bump<", ">half<", ">long<"} {
		i := strings.Index(page, `<ul class="moved">`)
		if i < 0 {
			t.Fatal("nothing moved")
		}
		if k := strings.Index(page[i:], name); k < at {
			t.Errorf("%s stands at %d, after what should follow it at %d", name, k, at)
		} else {
			at = k
		}
	}
	g.has(page, "more by 20 %", "One value has moved beyond")
}
