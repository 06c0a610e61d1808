package notebook

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"scarph/kernel"
)

// TestTitleFromFrontMatter: a heading of the text is left out only where it is the title.
func TestTitleFromFrontMatter(t *testing.T) {
	dir := t.TempDir()
	for name, text := range map[string]string{
		TitlePage:       "---\ntitle: Wren\n---\n# Wren\n",
		"2027-04-18.md": "---\ntitle: Thwarts\n---\nCut both.\n\n## Too soon\n\nThey were.\n",
		"2027-05-02.md": "# The sides spread\n\nOff the moulds.\n",
	} {
		if err := os.WriteFile(filepath.Join(dir, name), []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	n, err := Open(dir)
	if err != nil {
		t.Fatal(err)
	}
	var pages []string
	for _, e := range n.Entries() {
		pages = append(pages, strings.Join(n.RenderEntry(e, Page{AsOf: kernel.Now, WithoutTitle: true}), ""))
	}
	if len(pages) != 3 || !strings.Contains(pages[1], "Too soon") || strings.Contains(pages[2], "The sides spread") {
		t.Errorf("pages: %q", pages)
	}
}
