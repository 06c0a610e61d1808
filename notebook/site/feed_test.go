package site_test

import (
	"encoding/xml"
	"maps"
	"net/url"
	"path"
	"regexp"
	"slices"
	"strings"
	"testing"
	"time"

	"golang.org/x/net/html"
	atoms "golang.org/x/net/html/atom"
)

// element is any element of an XML file.
type element struct {
	XMLName xml.Name
	Attrs   []xml.Attr `xml:",any,attr"`
	Text    string     `xml:",chardata"`
	Inside  []element  `xml:",any"`
}

func (e *element) all(name string) []element {
	var list []element
	for _, x := range e.Inside {
		if x.XMLName.Local == name && x.XMLName.Space == atom {
			list = append(list, x)
		}
	}
	return list
}

func (e *element) attr(name string) string {
	for _, a := range e.Attrs {
		if a.Name.Local == name {
			return a.Value
		}
	}
	return ""
}

const atom = "http://www.w3.org/2005/Atom"

// RFC 3339, section 5.6; RFC 4287, section 3.3, asks for capitals T and Z.
var dateTime = regexp.MustCompile(`^\d{4}-\d\d-\d\dT\d\d:\d\d:\d\d(\.\d+)?(Z|[+-]\d\d:\d\d)$`)

// checkFeed holds a feed to RFC 4287; the sections stand beside the rules.
func checkFeed(t *testing.T, src []byte, files map[string][]byte, base string) {
	t.Helper()
	var f element
	if err := xml.Unmarshal(src, &f); err != nil {
		t.Fatal(err)
	}
	if f.XMLName.Space != atom || f.XMLName.Local != "feed" {
		t.Fatalf("the top is %v", f.XMLName) // 4.1.1
	}
	ids := map[string]bool{}
	both := func(e *element, what string) {
		for _, name := range []string{"id", "title", "updated"} { // 4.1.1, 4.1.2: exactly one
			if list := e.all(name); len(list) != 1 || strings.TrimSpace(list[0].Text) == "" {
				t.Errorf("%s: %d elements %s", what, len(list), name)
			}
		}
		id := e.all("id")[0].Text
		if u, err := url.Parse(id); err != nil || u.Scheme == "" { // 4.2.6: an IRI that is not relative
			t.Errorf("%s: %q is no id", what, id)
		}
		if ids[id] { // 4.1.1: no two entries of one id with the same updated; here none at all
			t.Errorf("%s: the id %s stands twice", what, id)
		}
		ids[id] = true
		for _, name := range []string{"updated", "published"} { // 3.3
			for _, d := range e.all(name) {
				if _, err := time.Parse(time.RFC3339, d.Text); err != nil || !dateTime.MatchString(d.Text) {
					t.Errorf("%s: %s is no date", what, d.Text)
				}
			}
		}
		for _, name := range []string{"published", "summary", "content", "rights", "source", "subtitle", "generator", "icon", "logo"} { // at most one
			if n := len(e.all(name)); n > 1 {
				t.Errorf("%s: %d elements %s", what, n, name)
			}
		}
		alternates := map[string]bool{}
		for _, l := range e.all("link") { // 4.2.7
			if l.attr("href") == "" || l.Inside != nil {
				t.Errorf("%s: a link without an address", what)
			}
			if rel := l.attr("rel"); rel == "" || rel == "alternate" {
				k := l.attr("type") + " " + l.attr("hreflang")
				if alternates[k] {
					t.Errorf("%s: two alternate links of type %s", what, k)
				}
				alternates[k] = true
			}
			to, err := url.PathUnescape(l.attr("href"))
			if err != nil || !strings.HasPrefix(to, base) || files[strings.TrimPrefix(to, base)] == nil {
				t.Errorf("%s: %s leads to nothing", what, to)
			}
			if typ := l.attr("type"); typ != "" && !strings.Contains(typ, "/") {
				t.Errorf("%s: %s is no media type", what, typ)
			}
		}
		for _, p := range append(e.all("author"), e.all("contributor")...) { // 3.2
			if n := p.all("name"); len(n) != 1 || n[0].Text == "" {
				t.Errorf("%s: an author without a name", what)
			}
		}
		for _, c := range e.all("category") { // 4.2.2
			if c.attr("term") == "" {
				t.Errorf("%s: a category without a term", what)
			}
		}
		for _, name := range []string{"title", "summary", "subtitle", "rights"} { // 3.1.1: text without elements
			for _, x := range e.all(name) {
				if typ := x.attr("type"); (typ == "" || typ == "text" || typ == "html") && x.Inside != nil {
					t.Errorf("%s: elements in %s", what, name)
				}
			}
		}
		if len(e.all("content")) == 0 && !alternates["text/html "] { // 4.1.2
			t.Errorf("%s: neither content nor an alternate link", what)
		}
	}
	both(&f, "feed")
	self := false
	for _, l := range f.all("link") {
		self = self || l.attr("rel") == "self"
	}
	if base != "" && !self { // 4.1.1: should
		t.Error("the feed does not say where it stands")
	}
	newest := ""
	for _, e := range f.all("entry") {
		title := e.all("title")[0].Text
		both(&e, title)
		if len(f.all("author"))+len(e.all("author")) == 0 { // 4.1.2
			t.Errorf("%s: nobody wrote it", title)
		}
		newest = max(newest, e.all("updated")[0].Text)
		for _, c := range e.all("content") { // 3.1.1.2, 4.1.3.3: HTML as text, fit for a DIV
			if c.attr("type") != "html" || c.Inside != nil {
				t.Errorf("%s: the content is no HTML as text", title)
			}
			checkFeedText(t, title, c.Text)
		}
	}
	if up := f.all("updated")[0].Text; up != newest {
		t.Errorf("the feed is of %s, its newest entry of %s", up, newest)
	}
}

// checkFeedText asks that the text of an entry needs nothing of the page that it stands
// in: no script, no address that holds only on the site.
func checkFeedText(t *testing.T, title, text string) {
	nodes, err := html.ParseFragment(strings.NewReader(text), &html.Node{Type: html.ElementNode, Data: "div", DataAtom: atoms.Div})
	if err != nil {
		t.Error(err)
	}
	for _, n := range nodes {
		walk(n, func(n *html.Node) {
			if n.Type == html.ElementNode && n.Namespace == "" && slices.Contains([]string{"script", "style", "template", "html", "head", "body", "title", "iframe", "form"}, n.Data) {
				t.Errorf("%s: <%s> in the feed", title, n.Data)
			}
			for _, a := range n.Attr {
				if (a.Key == "href" || a.Key == "src") && n.Namespace == "" {
					if u, err := url.Parse(a.Val); err != nil || u.Scheme == "" && !strings.HasPrefix(a.Val, "#") {
						t.Errorf("%s: the address %s holds only on the site", title, a.Val)
					}
				}
			}
		})
	}
}

func TestFeed(t *testing.T) {
	for _, name := range examples {
		files := readSite(t, publish(t, "../../examples/"+name))
		base := ""
		if _, at, ok := strings.Cut(string(files["index.html"]), `<link rel="canonical" href="`); ok {
			base, _, _ = strings.Cut(at, `"`)
		}
		if files["feed.xml"] == nil {
			if strings.Contains(string(files["index.html"]), "feed.xml") {
				t.Errorf("%s: the pages lead to a feed that is not there", name)
			}
			continue
		}
		checkFeed(t, files["feed.xml"], files, base)
	}
	files := readSite(t, publish(t, wrenJournal(t)))
	checkFeed(t, files["feed.xml"], files, "https://boats.example.org/wren/")
	checkSite(t, files)
	checkSitemap(t, files, "https://boats.example.org/wren/")
	feed := string(files["feed.xml"])
	for _, want := range []string{"<title>Ashlar &amp; Sons, 4&#39; 6 1/4&#34; ± 1/16&#34;</title>", "<rights>CC BY 4.0</rights>", `xml:lang="en-GB"`, `term="the keel"`, "<published>2027-05-02T00:00:00Z"} {
		if !strings.Contains(feed, want) {
			t.Errorf("%s is not in the feed", want)
		}
	}
	if again := readSite(t, publish(t, wrenJournal(t)))["feed.xml"]; string(again) != feed {
		t.Error("the feed is another one each time, or tells of the folder it was made in")
	}
}

// checkSitemap asks for every page that is worth finding, once, and nothing else.
// Source: sitemaps.org protocol 0.9.
func checkSitemap(t *testing.T, files map[string][]byte, base string) {
	t.Helper()
	var set element
	if err := xml.Unmarshal(files["sitemap.xml"], &set); err != nil {
		t.Fatal(err)
	}
	if set.XMLName.Local != "urlset" || set.XMLName.Space != "http://www.sitemaps.org/schemas/sitemap/0.9" {
		t.Errorf("the top is %v", set.XMLName)
	}
	seen := map[string]bool{}
	for _, u := range set.Inside {
		loc := u.Inside[0].Text
		at := strings.TrimPrefix(loc, base)
		if at == "" {
			at = "index.html"
		}
		if at, _ = url.PathUnescape(at); files[at] == nil || !strings.HasPrefix(loc, base) || seen[at] {
			t.Errorf("%s is no page, or stands twice", loc)
		}
		seen[at] = true
		if c := `<link rel="canonical" href="` + html.EscapeString(loc) + `">`; !strings.Contains(string(files[at]), c) {
			t.Errorf("%s calls itself something else than %s", at, loc)
		}
	}
	for _, at := range slices.Sorted(maps.Keys(files)) {
		if path.Ext(at) == ".html" && !seen[at] && at != "search.html" && path.Dir(at) != "subjects" {
			t.Errorf("%s is not in the sitemap", at)
		}
	}
}
