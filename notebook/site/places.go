package site

import (
	"net/url"
	"path"
	"strconv"
	"strings"

	"scarph/notebook"
)

// places are the pages' files, below the root of the site.
type places struct {
	page map[*notebook.Entry]string
	by   map[string]*notebook.Entry // entries by the path of their Markdown file; the first of several
}

// own are the files that no entry's page may displace.
var own = []string{"index.html", "dimensions.html", "cutlist.html", "rework.html", "checks.html", "ledger.html", "history.html", "functions.html", "subjects.html", "search.html", "feed.xml", "sitemap.xml", "values.json", "values.csv", "search-index.js"}

// newPlaces gives every entry a page. Names that another file has, also where a disk
// takes capitals and small letters for the same, get a number.
func newPlaces(entries []*notebook.Entry) places {
	p := places{page: map[*notebook.Entry]string{}, by: map[string]*notebook.Entry{}}
	taken := map[string]bool{}
	for _, name := range own {
		taken[name] = true
	}
	for _, e := range entries {
		if _, ok := p.by[e.File.Path]; !ok {
			p.by[e.File.Path] = e
		}
		if e.Front {
			p.page[e] = "index.html"
			continue
		}
		name := plainPath(e.Slug)
		if ofTheSite(name) { // photos/README is a page of photos-2
			top, rest, _ := strings.Cut(name, "/")
			name = top + "-2/" + rest
		}
		at := name + ".html"
		for n := 2; taken[strings.ToLower(at)]; n++ {
			at = name + "-" + strconv.Itoa(n) + ".html"
		}
		taken[strings.ToLower(at)] = true
		p.page[e] = at
	}
	return p
}

// ofTheSite reports whether a path lies in a folder that the site keeps for itself.
func ofTheSite(at string) bool {
	top, _, below := strings.Cut(strings.ToLower(at), "/")
	return below && (top == "assets" || top == "photos" || top == "subjects" || top == "tables" || top == "files")
}

// plainPath makes a path one that every disk and server takes: no signs that some
// refuse, no name that ends in a dot or a space.
func plainPath(slug string) string {
	parts := strings.Split(path.Clean(slug), "/")
	for i, p := range parts {
		p = strings.Map(func(r rune) rune {
			if r < ' ' || strings.ContainsRune(`\:*?"<>|#%`, r) {
				return '-'
			}
			return r
		}, p)
		if p = strings.Trim(p, ". "); p == "" {
			p = "-"
		}
		parts[i] = p
	}
	return strings.Join(parts, "/")
}

// rootOf leads from a page to the top of the site.
func rootOf(at string) string { return strings.Repeat("../", strings.Count(at, "/")) }

// address is a path as it stands in a link.
func address(at string) string { return (&url.URL{Path: at}).EscapedPath() }

// wordPath is a word as the name of a file.
func wordPath(word string) string {
	return plainPath(strings.ReplaceAll(strings.ReplaceAll(strings.ToLower(word), " ", "-"), "/", "-"))
}
