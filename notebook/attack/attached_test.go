package attack_test

import (
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"scarph/notebook"
)

// TestAttachedFilesDoNotRun links to files that a browser would run: none is published.
func TestAttachedFilesDoNotRun(t *testing.T) {
	dir := t.TempDir()
	text := "# Links\n\n"
	for _, name := range []string{"page.html", "PAGE.HTM", "x.xhtml", "x.js", "x.mjs", "x.xml", "x.xsl", "x.svgz", "x.mht", "x.swf", "x.php", "list.csv", "plan.svg", "data.json"} {
		if err := os.WriteFile(filepath.Join(dir, name), []byte(`<svg xmlns="http://www.w3.org/2000/svg" onload="trap()"><script>trap()</script><rect width="3" height="3"/></svg>`), 0o644); err != nil {
			t.Fatal(err)
		}
		text += "[" + name + "](" + name + ")\n"
	}
	if err := os.WriteFile(filepath.Join(dir, "2027-01-02.md"), []byte(text), 0o644); err != nil {
		t.Fatal(err)
	}
	n, err := notebook.Open(dir)
	if err != nil {
		t.Fatal(err)
	}
	out := published(t, n)
	kinds := map[string]int{}
	_ = filepath.WalkDir(out, func(p string, d fs.DirEntry, _ error) error {
		at, _ := filepath.Rel(out, p)
		text, _ := os.ReadFile(p)
		switch {
		case d.IsDir() || strings.HasPrefix(filepath.ToSlash(at), "assets/"):
			return nil
		case strings.Contains(string(text), "trap()") && filepath.Ext(p) != ".csv" && filepath.Ext(p) != ".json":
			t.Errorf("%s carries the script", at)
		}
		if strings.HasPrefix(filepath.ToSlash(at), "files/") {
			kinds[filepath.Ext(p)]++
		}
		return nil
	})
	if len(kinds) != 2 || kinds[".csv"] != 1 || kinds[".json"] != 1 {
		t.Errorf("published as they are: %v", kinds)
	}
}
