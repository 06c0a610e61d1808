package live

import (
	"net/http"
	"strings"
	"unicode/utf8"

	"scarph/calc"
	"scarph/notebook"
)

// found is what a search came to.
type found struct {
	Query   string
	Names   []place
	Entries []excerpt
	More    bool
}

// excerpt is an entry with the words around what was looked for.
type excerpt struct {
	place
	Before, Hit, After string
}

// maxFound is how many entries and names are listed.
const maxFound = 100

// search looks for words in the text of the entries and in the names of values.
func (s *visit) search(w http.ResponseWriter, r *http.Request) {
	g := s.glance(r)
	q := strings.TrimSpace(r.URL.Query().Get("q"))
	if len(q) > 200 {
		q = strings.ToValidUTF8(q[:200], "")
	}
	f := found{Query: q}
	if q != "" {
		s.findNames(&f, &g)
		s.findText(&f, &g)
	}
	s.sheetPage(w, r, "search", "Search", f)
}

func (s *visit) findNames(f *found, g *glance) {
	want := fold(strings.NewReplacer("_", " ", ".", " ", ",", " ").Replace(f.Query))
	notes := map[string]string{}
	for _, d := range s.book.Session.Dimensions(g.at()) {
		notes[d.Name] = d.Note
	}
	for _, name := range s.book.Session.Names() {
		if !strings.Contains(fold(strings.ReplaceAll(calc.Words(name), ",", "")), want) && !strings.Contains(fold(notes[name]), fold(f.Query)) {
			continue
		}
		if len(f.Names) == maxFound {
			f.More = true
			return
		}
		if p := s.place(g, name); p != nil {
			f.Names = append(f.Names, *p)
		}
	}
}

func (s *visit) findText(f *found, g *glance) {
	want := fold(f.Query)
	for i, e := range s.book.Entries() {
		if g.Number > 0 && i >= g.Number {
			break
		}
		text := strings.Join(strings.Fields(s.book.PlainText(e, g.page())), " ")
		if !strings.HasPrefix(text, e.Title) {
			text = e.Title + ". " + text
		}
		at := strings.Index(fold(text), want)
		if at < 0 {
			continue
		}
		if len(f.Entries) == maxFound {
			f.More = true
			return
		}
		x := excerpt{place: place{Label: e.Title, Href: g.To(href(e)), Text: notebook.Day(e.Date)}}
		end := min(at+len(want), len(text))
		from, to := max(0, at-90), min(len(text), end+90)
		for from > 0 && !utf8.RuneStart(text[from]) {
			from--
		}
		for to < len(text) && !utf8.RuneStart(text[to]) {
			to++
		}
		x.Before, x.Hit, x.After = text[from:at], text[at:end], text[end:to]
		if from > 0 {
			x.Before = "…" + x.Before
		}
		if to < len(text) {
			x.After += "…"
		}
		f.Entries = append(f.Entries, x)
	}
}

// fold makes letters alike for a search, byte for byte of the same length: it folds
// those whose small letter takes as many bytes as the large one.
func fold(s string) string {
	return strings.Map(func(r rune) rune {
		for _, l := range strings.ToLower(string(r)) {
			if utf8.RuneLen(l) == utf8.RuneLen(r) {
				return l
			}
			break
		}
		return r
	}, s)
}
