package site_test

import (
	"fmt"
	"io"
	"maps"
	"net/url"
	"os"
	"path"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"golang.org/x/net/html"

	"scarph/kernel"
	"scarph/notebook"
	"scarph/notebook/site"
)

// examples are the journals that are published whole in the tests of pages.
var examples = []string{"sorrel", "pippin", "quillet"}

// What the HTML Standard says of the elements that pages are made of.
// Source: HTML Living Standard, section 3.2.5 (kinds of content) and section 4 (the
// elements: their contents, attributes, and which attributes they must have).
var (
	void      = words("area base br col embed hr img input link meta source track wbr")
	phrasing  = words("a abbr b bdi bdo br button cite code data del dfn em i img input ins kbd label mark math noscript q s samp script select small span strong sub sup svg template textarea time u var wbr")
	phrasedIn = words("p h1 h2 h3 h4 h5 h6 pre span b i em strong s u code kbd samp small sub sup mark abbr cite q dfn time var label button summary")
	onlyIn    = map[string][]string{
		"li": {"ul", "ol", "menu"}, "dt": {"dl", "div"}, "dd": {"dl", "div"}, "tr": {"table", "thead", "tbody", "tfoot"}, "td": {"tr"}, "th": {"tr"},
		"thead": {"table"}, "tbody": {"table"}, "caption": {"table"}, "figcaption": {"figure"}, "summary": {"details"}, "body": {"html"}, "head": {"html"}, "main": {"div", "body"},
	}
	holdsOnly = map[string][]string{
		"ul": {"li", "template", "script"}, "ol": {"li", "template", "script"}, "dl": {"dt", "dd", "div", "template", "script"},
		"table": {"caption", "colgroup", "thead", "tbody", "tfoot", "template"}, "thead": {"tr", "template"}, "tbody": {"tr", "template"}, "tr": {"td", "th", "template"},
	}
	common = words("id class lang dir title hidden tabindex role translate")
	own    = map[string][]string{
		"a": words("href rel target hreflang type download"), "img": words("src alt width height srcset sizes loading decoding"), "link": words("rel href type title sizes"),
		"meta": words("charset name content http-equiv"), "script": words("src defer async type"), "button": words("type value disabled"), "input": words("type autocomplete autocapitalize spellcheck disabled checked value name placeholder"),
		"label": words("for"), "time": words("datetime"), "td": words("colspan rowspan headers"), "th": words("colspan rowspan headers scope abbr"), "ol": words("start reversed type"), "li": words("value"),
		"form": words("method action role"), "dialog": words("open"), "details": words("open name"), "blockquote": words("cite"), "del": words("cite datetime"), "html": nil, "col": words("span"),
	}
	must = map[string][]string{"img": {"src", "alt"}, "link": {"rel", "href"}, "label": {"for"}}
	// obsolete are elements that a page must not have.
	obsolete = words("font center big tt strike marquee frame frameset applet acronym basefont dir blink nobr")
)

func words(s string) []string { return strings.Fields(s) }

// readSite reads the files of a site, those that publish keeps for itself too.
func readSite(t *testing.T, out string) map[string][]byte {
	t.Helper()
	files := map[string][]byte{}
	err := filepath.WalkDir(out, func(p string, d os.DirEntry, err error) error {
		if err != nil || d.IsDir() {
			return err
		}
		data, err := os.ReadFile(p)
		rel, _ := filepath.Rel(out, p)
		files[filepath.ToSlash(rel)] = data
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	return files
}

func TestPagesAreValid(t *testing.T) {
	for _, name := range examples {
		t.Run(name, func(t *testing.T) {
			files := readSite(t, publish(t, "../../examples/"+name))
			checkSite(t, files)
		})
	}
}

// checkSite holds every page to the standard and every address in it to the site.
func checkSite(t *testing.T, files map[string][]byte) {
	t.Helper()
	pages := map[string]*markup{}
	for _, at := range slices.Sorted(maps.Keys(files)) {
		if !strings.HasSuffix(at, ".html") {
			continue
		}
		m := readMarkup(files[at])
		for _, fault := range m.faults {
			t.Errorf("%s: %s", at, fault)
		}
		pages[at] = m
	}
	for _, at := range slices.Sorted(maps.Keys(pages)) {
		for _, to := range pages[at].addresses {
			u, err := url.Parse(to)
			if err != nil {
				t.Errorf("%s: %s is no address: %v", at, to, err)
				continue
			}
			if u.Scheme != "" || u.Host != "" {
				continue
			}
			file := at
			if u.Path != "" {
				file = path.Join(path.Dir(at), u.Path)
			}
			if _, ok := files[file]; !ok || strings.HasPrefix(u.Path, "/") {
				t.Errorf("%s: %s leads to nothing", at, to)
			} else if p := pages[file]; p != nil && u.Fragment != "" && !p.ids[u.Fragment] {
				t.Errorf("%s: %s leads to a page without that place", at, to)
			}
		}
	}
}

// markup is a page as it was read.
type markup struct {
	faults    []string
	ids       map[string]bool
	addresses []string
}

func (m *markup) fault(format string, args ...any) {
	m.faults = append(m.faults, fmt.Sprintf(format, args...))
}

// readMarkup reads a page strictly: every element closed by hand and in its place, as
// the parser of the standard would build the same tree; then each element by itself.
func readMarkup(src []byte) *markup {
	m := &markup{ids: map[string]bool{}}
	if !strings.HasPrefix(strings.ToLower(string(src)), "<!doctype html>\n") {
		m.fault("it begins with no doctype")
	}
	written := m.written(src)
	doc, err := html.Parse(strings.NewReader(string(src)))
	if err != nil {
		m.fault("%v", err)
		return m
	}
	var built []string
	walk(doc, func(n *html.Node) {
		if n.Type == html.ElementNode {
			built = append(built, strings.ToLower(n.Parent.Data+" > "+n.Data))
		}
	})
	for i := range built {
		if i >= len(written) || built[i] != written[i] {
			m.fault("element %d is written as %q and read as %q", i, written[min(i, len(written)-1)], built[i])
			break
		}
	}
	m.elements(doc)
	return m
}

// written lists the elements with their parents as the text nests them.
func (m *markup) written(src []byte) []string {
	z := html.NewTokenizer(strings.NewReader(string(src)))
	stack := []string{""}
	var list []string
	for {
		switch z.Next() {
		case html.ErrorToken:
			if z.Err() != io.EOF {
				m.fault("%v", z.Err())
			}
			if len(stack) > 1 {
				m.fault("<%s> is never closed", stack[len(stack)-1])
			}
			return list
		case html.StartTagToken, html.SelfClosingTagToken:
			t := z.Token()
			list = append(list, stack[len(stack)-1]+" > "+t.Data)
			seen := map[string]bool{}
			for _, a := range t.Attr {
				if seen[a.Key] {
					m.fault("<%s> has %s twice", t.Data, a.Key)
				}
				seen[a.Key] = true
			}
			foreign := slices.Contains(stack, "svg") || t.Data == "svg"
			switch {
			case slices.Contains(void, t.Data):
			case t.Type == html.SelfClosingTagToken && foreign:
			case t.Type == html.SelfClosingTagToken:
				m.fault("<%s/> does not close itself", t.Data)
			default:
				stack = append(stack, t.Data)
			}
		case html.EndTagToken:
			t := z.Token()
			if top := stack[len(stack)-1]; top != t.Data {
				m.fault("</%s> where <%s> is open", t.Data, top)
				return list
			}
			stack = stack[:len(stack)-1]
		}
	}
}

func walk(n *html.Node, f func(*html.Node)) {
	f(n)
	for c := n.FirstChild; c != nil; c = c.NextSibling {
		walk(c, f)
	}
}

// elements looks at each element of a page.
func (m *markup) elements(doc *html.Node) {
	count := map[string]int{}
	var refs []string
	back := map[string]bool{} // ids on the faces that lie in templates
	walk(doc, func(n *html.Node) {
		if n.Type != html.ElementNode || n.Namespace == "svg" && n.Data != "svg" {
			return
		}
		in := inTemplate(n)
		if !in {
			count[n.Data]++
		}
		m.place(n)
		has := map[string]string{}
		for _, a := range n.Attr {
			has[a.Key] = a.Val
			switch {
			case n.Data == "svg" || strings.HasPrefix(a.Key, "data-") || strings.HasPrefix(a.Key, "aria-") || slices.Contains(common, a.Key) || slices.Contains(own[n.Data], a.Key):
			default:
				m.fault("<%s> has an attribute %s", n.Data, a.Key)
			}
			switch a.Key {
			case "id":
				if a.Val == "" || strings.ContainsAny(a.Val, " \t\n") {
					m.fault("%q is no id", a.Val)
				}
				set := m.ids
				if in {
					set = back
				}
				if set[a.Val] {
					m.fault("the id %s stands twice", a.Val)
				}
				set[a.Val] = true
			case "href", "src":
				if n.Data != "svg" {
					m.addresses = append(m.addresses, a.Val)
				}
			case "srcset":
				for _, x := range strings.Split(a.Val, ", ") {
					m.addresses = append(m.addresses, strings.Fields(x)[0])
				}
			case "for", "aria-labelledby", "aria-describedby":
				refs = append(refs, strings.Fields(a.Val)...)
			}
		}
		if from := has["src"]; strings.Contains(from, "//") || n.Data == "link" && has["rel"] != "canonical" && strings.Contains(has["href"], "//") {
			m.fault("<%s> needs the net: %s", n.Data, from+has["href"])
		}
		for _, k := range must[n.Data] {
			if _, ok := has[k]; !ok {
				m.fault("<%s> without %s", n.Data, k)
			}
		}
		if len(n.Data) == 2 && n.Data[0] == 'h' && n.Data[1] >= '1' && n.Data[1] <= '6' && strings.TrimSpace(textOf(n)) == "" {
			m.fault("a heading says nothing")
		}
	})
	for _, id := range refs {
		if !m.ids[id] {
			m.fault("nothing has the id %s", id)
		}
	}
	for _, one := range []string{"title", "main", "h1", "html", "head", "body"} {
		if count[one] != 1 {
			m.fault("%d elements %s", count[one], one)
		}
	}
}

// place looks at an element where it stands.
func (m *markup) place(n *html.Node) {
	p := parentOf(n)
	switch {
	case p == nil:
	case slices.Contains(obsolete, n.Data):
		m.fault("<%s> is obsolete", n.Data)
	case onlyIn[n.Data] != nil && !slices.Contains(onlyIn[n.Data], p.Data):
		m.fault("<%s> in <%s>", n.Data, p.Data)
	case holdsOnly[p.Data] != nil && !slices.Contains(holdsOnly[p.Data], n.Data):
		m.fault("<%s> in <%s>", n.Data, p.Data)
	case slices.Contains(phrasedIn, p.Data) && !slices.Contains(phrasing, n.Data) && !(p.Data == "summary" && strings.HasPrefix(n.Data, "h")):
		m.fault("<%s> in <%s>", n.Data, p.Data)
	}
	if slices.Contains([]string{"a", "button", "input", "label", "details"}, n.Data) {
		for up := n.Parent; up != nil; up = up.Parent {
			if up.Data == "a" || up.Data == "button" {
				m.fault("<%s> in <%s>", n.Data, up.Data)
			}
		}
	}
}

// parentOf is the element that an element will stand in: of a face in a template, the
// one around the template.
func parentOf(n *html.Node) *html.Node {
	p := n.Parent
	if p != nil && p.Data == "template" {
		p = p.Parent
	}
	if p == nil || p.Type != html.ElementNode {
		return nil
	}
	return p
}

func inTemplate(n *html.Node) bool {
	for p := n.Parent; p != nil; p = p.Parent {
		if p.Data == "template" {
			return true
		}
	}
	return false
}

func textOf(n *html.Node) string {
	var b strings.Builder
	walk(n, func(n *html.Node) {
		if n.Type == html.TextNode {
			b.WriteString(n.Data)
		}
	})
	return b.String()
}

// TestMarkupIsReadStrictly shows the reader pages with one fault each.
func TestMarkupIsReadStrictly(t *testing.T) {
	const page = "<!doctype html>\n<html lang=\"en\"><head><title>x</title></head><body><main><h1>x</h1>%s</main></body></html>"
	for body, want := range map[string]string{
		"<p>a</p><template><p>b</p></template>": "", "<p><div>a</div></p>": "main > div", "<ul><p>a</p></ul>": "<p> in <ul>", "<a href=\"\"><b><a href=\"\">a</a></b></a>": "element",
		"<table><tr><td>a</td></tr></table>": "element", "<img src=\"x.png\">": "without alt", "<b id=\"a\">a</b><b id=\"a\">b</b>": "twice", "<p align=\"left\">a</p>": "attribute align",
		"<b>a": "</main>", "<h2> </h2>": "says nothing", "<label for=\"a\">a</label>": "nothing has the id", "<h1>a</h1>": "2 elements h1", "<span><ul><li>a</li></ul></span>": "<ul> in <span>", "<div/>": "close itself", "<img alt=\"\" src=\"https://example.org/a.png\">": "the net",
	} {
		m := readMarkup([]byte(fmt.Sprintf(page, body)))
		if got := strings.Join(m.faults, "; "); got != "" != (want != "") || !strings.Contains(got, want) {
			t.Errorf("%s: %q, want %q", body, got, want)
		}
	}
}

// TestOneFileIsValid holds the page that is sent by mail to the same rules.
func TestOneFileIsValid(t *testing.T) {
	for _, name := range examples {
		n, err := notebook.Open("../../examples/" + name)
		if err != nil {
			t.Fatal(err)
		}
		for _, entry := range []string{"", n.Entries()[1].Key} {
			at := filepath.Join(t.TempDir(), "one.html")
			if _, err := site.PublishOne(n, at, entry, site.Options{AsOf: kernel.Now, Anyway: true}); err != nil {
				t.Fatal(err)
			}
			files := readSite(t, filepath.Dir(at))
			for _, fault := range readMarkup(files["one.html"]).faults {
				t.Errorf("%s %s: %s", name, entry, fault)
			}
		}
	}
}
