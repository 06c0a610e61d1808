package attack_test

import (
	"crypto/sha256"
	"encoding/base64"
	"encoding/json"
	"encoding/xml"
	"html"
	"io"
	"io/fs"
	"net/http"
	"net/http/httptest"
	"net/url"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"scarph/kernel"
	"scarph/notebook"
	"scarph/notebook/site"
)

var policy = regexp.MustCompile(`<meta http-equiv="Content-Security-Policy" content="([^"]*)">`)

// readerScript reports whether a script is one of a published page's own.
func readerScript(src, text string) bool {
	return strings.TrimSpace(text) == "" && strings.HasSuffix(src, "assets/reader.js") && strings.Trim(strings.TrimSuffix(src, "assets/reader.js"), "./") == ""
}

// published writes the site of a hostile journal to a folder.
func published(t *testing.T, n *notebook.Notebook) string {
	t.Helper()
	out := filepath.Join(t.TempDir(), "site")
	if _, err := site.Publish(n, out, site.Options{AsOf: kernel.Now, Anyway: true}); err != nil {
		t.Fatal(err)
	}
	return out
}

// TestPublished reads every page of the site of a hostile journal, its feed and its data.
func TestPublished(t *testing.T) {
	list := some(attacks(t))
	n, err := notebook.Open(hostile(t, list, together()))
	if err != nil {
		t.Fatal(err)
	}
	out := published(t, n)
	var pages []string
	err = filepath.WalkDir(out, func(p string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() {
			return err
		}
		at, _ := filepath.Rel(out, p)
		text, err := os.ReadFile(p)
		if err != nil {
			return err
		}
		switch filepath.Ext(p) {
		case ".html":
			pages = append(pages, filepath.ToSlash(at))
			for _, f := range audit(string(text), readerScript) {
				t.Errorf("%s: %s", at, f)
			}
			if m := policy.FindSubmatch(text); m == nil || strings.Contains(string(m[1]), "unsafe-inline") || strings.Contains(string(m[1]), "'unsafe-eval'") || !strings.Contains(html.UnescapeString(string(m[1])), "default-src 'none'") {
				t.Errorf("%s: policy %q", at, m)
			}
		case ".json":
			if !json.Valid(text) {
				t.Errorf("%s is no JSON", at)
			}
		case ".xml":
			wellFormed(t, at, string(text))
		}
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
	if len(pages) < len(list)/together() {
		t.Errorf("only %d pages were written", len(pages))
	}
	wrapped := feedContents(t, filepath.Join(out, "feed.xml"))
	server := httptest.NewServer(http.FileServer(http.Dir(out)))
	defer server.Close()
	b, lax := newSnare(t, false), newSnare(t, true)
	opened := 0
	for i, at := range append(pages, "feed.xml") {
		if os.Getenv("SCARPH_LONG") == "" && i%3 != 0 && strings.HasPrefix(at, "subjects/") {
			continue
		}
		b.open(server.URL + "/" + (&url.URL{Path: at}).EscapedPath())
		if i%4 == 0 {
			lax.open("file://" + filepath.ToSlash(out) + "/" + (&url.URL{Path: at}).EscapedPath())
		}
		opened++
	}
	lax.open("file://" + filepath.ToSlash(wrapped))
	b.close()
	t.Logf("%d attacks, %d pages; %d were opened in a browser, and the texts of the feed without any policy", len(list), len(pages), opened)
}

// wellFormed reads a file as XML.
func wellFormed(t *testing.T, at, text string) {
	t.Helper()
	d := xml.NewDecoder(strings.NewReader(text))
	for {
		k, err := d.Token()
		if err == io.EOF {
			return
		}
		if err != nil {
			t.Errorf("%s: %v", at, err)
			return
		}
		if _, ok := k.(xml.Directive); ok {
			t.Errorf("%s has a declaration of its own: %s", at, k)
		}
	}
}

// feedContents takes the texts out of a feed as a reader of feeds does, audits each, and
// writes them as a page that has no policy.
func feedContents(t *testing.T, feed string) string {
	t.Helper()
	text, err := os.ReadFile(feed)
	if err != nil {
		t.Fatal(err)
	}
	var f struct {
		Entries []struct {
			Content struct {
				Type string `xml:"type,attr"`
				Text string `xml:",chardata"`
			} `xml:"content"`
			Links []struct {
				Href string `xml:"href,attr"`
			} `xml:"link"`
		} `xml:"entry"`
	}
	if err := xml.Unmarshal(text, &f); err != nil {
		t.Fatal(err)
	}
	var page strings.Builder
	page.WriteString("<!doctype html><meta charset=utf-8>")
	for _, e := range f.Entries {
		for _, fault := range audit(strings.ReplaceAll(e.Content.Text, `src="https://boats.test/`, `src="/`), func(string, string) bool { return false }) {
			t.Errorf("feed: %s", fault)
		}
		for _, l := range e.Links {
			if !harmless("a", "href", l.Href) {
				t.Errorf("feed: a link to %s", l.Href)
			}
		}
		page.WriteString(strings.ReplaceAll(e.Content.Text, "https://boats.test/", "/"))
	}
	if len(f.Entries) < 3 {
		t.Errorf("the feed has %d entries", len(f.Entries))
	}
	p := filepath.Join(t.TempDir(), "feed.html")
	if err := os.WriteFile(p, []byte(page.String()), 0o644); err != nil {
		t.Fatal(err)
	}
	return p
}

// TestOneFile reads the file that is sent by mail. Its scripts and styles are those whose
// hashes its policy names, and no other.
func TestOneFile(t *testing.T) {
	list := attacks(t)
	n, err := notebook.Open(hostile(t, list, together()))
	if err != nil {
		t.Fatal(err)
	}
	out := filepath.Join(t.TempDir(), "one.html")
	if _, err := site.PublishOne(n, out, "", site.Options{AsOf: kernel.Now, Anyway: true}); err != nil {
		t.Fatal(err)
	}
	text, err := os.ReadFile(out)
	if err != nil {
		t.Fatal(err)
	}
	m := policy.FindSubmatch(text)
	if m == nil || strings.Contains(string(m[1]), "unsafe-inline") || strings.Contains(string(m[1]), "http") {
		t.Fatalf("policy %q", m)
	}
	allowed := html.UnescapeString(string(m[1]))
	byHash := func(src, text string) bool {
		sum := sha256.Sum256([]byte(text))
		return src == "" && strings.Contains(allowed, "'sha256-"+base64.StdEncoding.EncodeToString(sum[:])+"'")
	}
	for _, f := range audit(string(text), byHash) {
		t.Error(f)
	}
	for _, lax := range []bool{false, true} {
		b := newSnare(t, lax)
		b.open("file://" + filepath.ToSlash(out))
		b.close()
	}
	t.Logf("%d attacks in one file of %d kB", len(list), len(text)/1000)
}
