package site_test

import (
	"bytes"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
)

// TestGoldenSite publishes a small journal with something of every kind in it and
// compares every page and file of data, whole, with what was once looked at in a browser.
// SCARPH_UPDATE=1 writes them anew. What the program carries for all journals alike, the
// look and the scripts, is not among them.
func TestGoldenSite(t *testing.T) {
	const golden = "testdata/whole/site"
	files := readSite(t, publish(t, "testdata/whole/journal"))
	for name, data := range files {
		if strings.HasPrefix(name, ".") || strings.HasPrefix(name, "assets/") && name != "assets/cargo.js" {
			delete(files, name)
			continue
		}
		files[name] = bytes.Replace(data, []byte(" data-engine"), nil, 1) // there or not, as the program was made
	}
	if os.Getenv("SCARPH_UPDATE") != "" {
		if err := os.RemoveAll(golden); err != nil {
			t.Fatal(err)
		}
		for name, data := range files {
			save(t, filepath.Join(golden, filepath.FromSlash(name)), string(data))
		}
	}
	want := readSite(t, golden)
	if _, carried := files["assets/cargo.js"]; !carried {
		delete(want, "assets/cargo.js")
	}
	for name, data := range want {
		switch now, ok := files[name]; {
		case !ok:
			t.Errorf("%s is no longer written", name)
		case !bytes.Equal(now, data):
			t.Errorf("%s is not what it was; look at it, then SCARPH_UPDATE=1 go test ./notebook/site -run Golden:\n%s", name, firstDifference(string(now), string(data)))
		}
	}
	for name := range files {
		if want[name] == nil {
			t.Errorf("%s is new", name)
		}
	}
	kinds := []string{"index.html", "2027-05-02-moulds.html", "dimensions.html", "cutlist.html", "rework.html", "checks.html", "ledger.html", "history.html", "functions.html", "subjects.html", "subjects/moulds.html", "search.html", "search-index.js", "feed.xml", "sitemap.xml", "values.json", "values.csv", "tables/offsets.csv", "tables/wood.csv"}
	if missing := slices.DeleteFunc(kinds, func(name string) bool { return want[name] != nil }); len(missing) > 0 {
		t.Errorf("of these there is none: %q", missing)
	}
}
