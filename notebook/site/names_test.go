package site_test

import (
	"html"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"scarph/kernel"
	"scarph/notebook"
	"scarph/notebook/site"
)

// TestFoldersOfTheSite: an entry in a folder whose name the site keeps for itself has its
// page in another; the name of a private value is not in the address of a heading; subjects
// that differ in capitals are one.
func TestFoldersOfTheSite(t *testing.T) {
	files, _ := published(t, journalOf(t, map[string]string{
		"journal.md":       "# Fold\n",
		"photos/README.md": "---\nsubjects: [Lofting]\n---\n# About these photos\n\n### Heading {zqgirth} of {told}\n\n```calc\ntold = 3 m\n```\n",
		"assets/a/b.md":    "---\nsubjects: [lofting, Lofting]\n---\n# Deep\n\n```calc private\nzqgirth = 4 m\n```\n",
	}))
	page, ok := files["photos-2/README.html"]
	if !ok || files["assets-2/a/b.html"] == "" {
		t.Fatalf("there is no page in %d files", len(files))
	}
	if !strings.Contains(page, `<h3 id="heading-of"`) {
		t.Errorf("the heading is named otherwise: %s", page)
	}
	for name, text := range files {
		if strings.Contains(strings.ToLower(text), "zqgirth") {
			t.Errorf("%s names a private value", name)
		}
	}
	if s := files["subjects/lofting.html"]; !strings.Contains(s, "About these photos") || strings.Count(s, "Deep") != 1 {
		t.Errorf("the subject has other entries: %s", s)
	}
	if strings.Count(files["subjects.html"], "subjects/lofting.html") != 1 {
		t.Errorf("one subject is listed as several: %s", files["subjects.html"])
	}
}

// TestAFileOfTheAuthorsOwnStays: a page does not take the place of a file that somebody put
// into the site by hand.
func TestAFileOfTheAuthorsOwnStays(t *testing.T) {
	dir, out := journalOf(t, map[string]string{"journal.md": "# One\n"}), filepath.Join(t.TempDir(), "site")
	publish := func() error {
		n, err := notebook.Open(dir)
		if err != nil {
			t.Fatal(err)
		}
		_, err = site.Publish(n, out, site.Options{AsOf: kernel.Now})
		return err
	}
	if err := publish(); err != nil {
		t.Fatal(err)
	}
	own := filepath.Join(out, "about.html")
	if err := os.WriteFile(own, []byte("by hand"), 0o644); err != nil {
		t.Fatal(err)
	}
	if err := publish(); err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(filepath.Join(dir, "about.md"), []byte("# About\n"), 0o644); err != nil {
		t.Fatal(err)
	}
	if err := publish(); err == nil || !strings.Contains(err.Error(), "about.html") {
		t.Errorf("it is published: %v", err)
	}
	if b, err := os.ReadFile(own); err != nil || string(b) != "by hand" {
		t.Errorf("the file holds %q, %v", b, err)
	}
}

// TestWhatAPrivateSumWas: a published sum of told and private values is told of another day
// as it was on that day.
func TestWhatAPrivateSumWas(t *testing.T) {
	files, r := published(t, journalOf(t, map[string]string{
		"journal.md":    "# Sum\n",
		"2027-01-02.md": "# First\n\nAll up {all_up}; it was {then(all_up)}.\n\n```calc\nhull = 80 kg\nall_up = hull + crew\n```\n\n```calc private\ncrew = 93.25 kg\n```\n",
		"2027-02-02.md": "# Second\n\n```calc\nrevise hull = 90 kg\nold = all_up as of entry 2\n```\n",
	}))
	if len(r.Problems) > 0 {
		t.Errorf("there are problems: %v", r.Problems)
	}
	first, second := files["2027-01-02.html"], files["2027-02-02.html"]
	if !strings.Contains(first, "183.3 kg") || !strings.Contains(first, "173.3 kg") || !strings.Contains(second, "173.3 kg") || strings.Contains(first+second, "waits") {
		t.Errorf("%s\n%s", first, second)
	}
}

// TestFeedWithoutStyles: the values of an entry stand apart where no style sheet parts them.
func TestFeedWithoutStyles(t *testing.T) {
	files, _ := published(t, journalOf(t, map[string]string{
		"journal.md":    "---\ncanonical: https://boat.example/\nauthor: The builder\n---\n# Feed\n",
		"2027-01-02.md": "# First\n\nShe is {beam} wide.\n\n```calc\nfound beam = 4 ft\nhalf = beam / 2\n```\n",
		"2027-02-02.md": "# Second\n\n```calc\nrevise beam = 5 ft\n```\n",
	}))
	text := regexp.MustCompile(`<[^>]*>`).ReplaceAllString(html.UnescapeString(files["feed.xml"]), "")
	text = strings.Join(strings.Fields(html.UnescapeString(text)), " ")
	for _, want := range []string{"She is 5' [5' was 4' when this was written, until 2 February 2027.] wide.", "half derived = 5' / 2: 2' 6\" · 762 mm"} {
		if !strings.Contains(text, want) {
			t.Errorf("the feed does not say %q: %s", want, text)
		}
	}
}
