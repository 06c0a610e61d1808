package notebook

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"scarph/kernel"
)

const ribs = "---\nshow:\n  length: feet-inches\n  nearest: 1/16\"\n---\n" + `# 2027-01-02 Ribs
` + "```calc" + `
rib_cut = 6' 0 5/8"
part rib: 24 of 3/8" by 1" by rib_cut in white_oak, within 1/16"
made rib: 24
part knee: 4 of 1" by 5" in apple
part strake: 14 of 3/8" by 7 1/2" by 14' 2" in white_cedar
stock 16 of 1/2" by 8" by 10 ft in white_cedar
saw_bevel = 13°
made first_cut to saw_bevel within 1/2°
` + "```" + `
` + "```calc private" + `
part hush: 2 of 1/2" by 3" by 4' in white_cedar
part hush_two: 2 of 3" by 4' in white_cedar
` + "```" + `
# 2027-02-02 Longer
` + "```calc" + `
revise rib_cut = 6' 2 1/4"
settle rib: 20 replaced
` + "```\n"

// TestPagesOfParts: a made row says to which sizes where they are others now, and the cut
// list what is off, what no board gives and why, and how thin stock is sold.
func TestPagesOfParts(t *testing.T) {
	path := filepath.Join(t.TempDir(), "boat.md")
	if err := os.WriteFile(path, []byte(ribs), 0o644); err != nil {
		t.Fatal(err)
	}
	n, err := Open(path)
	if err != nil {
		t.Fatal(err)
	}
	page := Page{AsOf: kernel.Now, List: func(name string) string { return "/list/" + name }}
	var entry string
	for _, e := range n.Entries() {
		entry += strings.Join(n.RenderEntry(e, page), "")
	}
	for html, wants := range map[string][]string{
		entry: {
			`>24 to 6&#39; 0 5/8&#34;</span>`, `> to saw bevel 13°</span>`, `<b>Rework.</b> 4: length `, `20: Replaced on `,
			`4 of 1&#34; wide × 5&#34; long`, `two sizes are width and length`,
		},
		n.RenderList("cutlist", page): {
			`<a href="/list/rework">4 off</a>`, `white oak: nothing is left to make.`, `counted as made until they are settled: 4 rib`,
			`counts as a full inch at many yards: for strake, hush so counted, buy `, `No lumber is reckoned for knee, hush two`,
			`No board at hand for 14 × strake: the longest of white cedar is 10&#39;, and 14&#39; 2&#34; is wanted`,
		},
		n.RenderList("rework", page): {`4 × rib`, `20 × rib`, `still to settle`, `replaced, `},
	} {
		for _, want := range wants {
			if !strings.Contains(html, want) {
				t.Errorf("%s is not in\n%s", want, html)
			}
		}
	}
	if html := n.RenderList("cutlist", Page{AsOf: kernel.Now, Public: true}); strings.Contains(html, "hush") {
		t.Error("a private part is published")
	}
	if html := n.RenderList("cutlist", Page{AsOf: 0}); strings.Contains(html, "<th scope=\"col\">off</th>") {
		t.Error("a column of what is off where nothing is")
	}
}
