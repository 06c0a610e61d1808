package notebook

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"scarph/kernel"
)

// TestGoldenPages renders small journals, one idea each, and compares the HTML with
// what was once looked at in a browser. SCARPH_UPDATE=1 writes it anew.
func TestGoldenPages(t *testing.T) {
	files, err := filepath.Glob("../testdata/html/*.md")
	if err != nil || len(files) < 6 {
		t.Fatal("the pages were not found", err)
	}
	for _, f := range files {
		t.Run(filepath.Base(f), func(t *testing.T) {
			n, err := Open(f)
			if err != nil {
				t.Fatal(err)
			}
			var b strings.Builder
			for _, p := range []struct {
				title string
				page  Page
			}{{"the live page", Page{AsOf: kernel.Now, Live: true}}, {"the published page", Page{AsOf: kernel.Now, Public: true, Href: func(name string) string { return "dimensions.html#value-" + name }}}} {
				b.WriteString("<!-- " + p.title + " -->\n")
				for _, e := range n.Entries() {
					for _, x := range n.RenderEntry(e, p.page) {
						b.WriteString(strings.TrimRight(x, "\n") + "\n")
					}
				}
			}
			golden := strings.TrimSuffix(f, ".md") + ".html"
			if os.Getenv("SCARPH_UPDATE") != "" {
				if err := os.WriteFile(golden, []byte(b.String()), 0o644); err != nil {
					t.Fatal(err)
				}
			}
			want, err := os.ReadFile(golden)
			if err != nil {
				t.Fatal(err)
			}
			if b.String() != string(want) {
				t.Errorf("the page is not what it was; look at it, then SCARPH_UPDATE=1 go test ./notebook:\n%s", firstDifference(b.String(), string(want)))
			}
		})
	}
}

func firstDifference(got, want string) string {
	g, w := strings.Split(got, "\n"), strings.Split(want, "\n")
	for i := range g {
		if i >= len(w) || g[i] != w[i] {
			old := ""
			if i < len(w) {
				old = w[i]
			}
			return "now:  " + g[i] + "\nthen: " + old
		}
	}
	return "the page is shorter"
}
