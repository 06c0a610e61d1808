package live

import (
	"bytes"
	"html"
	"html/template"
	"net/http"
	"net/url"
	"path"
	"strings"

	"scarph/calc"
	"scarph/notebook"
	"scarph/notebook/assets"
)

// pages are the templates of the workshop page and of the sheets that lie on it.
var pages = template.Must(template.New("").Funcs(template.FuncMap{"words": calc.Words, "shape": lineShape}).ParseFS(assets.Files, "workshop*.html"))

// lineShape is the class that tells a reading's kind by the shape of its line.
func lineShape(kind string) string {
	switch kind {
	case "found", "built", "guess", "drawn":
		return kind
	case "derived":
		return "sum"
	}
	return "chosen"
}

// page is what the template of a whole page shows.
type page struct {
	Title, Boat, Language string
	Stick                 stick
	Lists                 []mark
	Head                  template.HTML // the page's heading
	Main                  template.HTML
	Here                  string // the entry's key, or list:NAME
	Notice                notice
	Remarks               []remark // what wants a look
	Glance                glance
	Home                  string
	Write                 string // where this entry can be written on
	Key                   string // of the run, for pages that may write
	IsHere                bool   // the reader sits at this machine
	Shared                bool   // other machines can reach it
	OtherUnits            string
	Undo                  string // what can be taken back
	Bare                  bool   // without the stick, for a page that needs the room
	Sheet                 string // the place of the last ripple that it shows
	Rescued               int    // texts that a save did not bring to their files
	Modules               []string
}

// The modules of a page, fetched side by side instead of as each names the next.
var (
	modules      = []string{"page", "card", "send", "keys", "stick", "look", "keep"}
	writeModules = append(modules[:len(modules):len(modules)], "write", "fits", "proof", "clash", "grid", "photo")
)

// mark is a place to go.
type mark struct {
	Href, Label string
	Here        bool
}

// notice says that the page does not show the journal as it stands.
type notice struct {
	AsOf   string // the day, "" for now
	Trials *rippleSheet
	Back   string // the address of the journal as it stands
}

// lists are the lists that can be looked at.
var lists = []struct{ name, label string }{{"dimensions", "Dimensions"}, {"cutlist", "Cut list"}, {"rework", "Rework"}, {"checks", "Checks"}, {"ledger", "Ledger"}, {"history", "History"}}

func asHTML(s string) template.HTML { return template.HTML(s) }

func (s *visit) index(w http.ResponseWriter, r *http.Request) {
	g := s.glance(r)
	entries := s.book.Entries()
	for _, e := range entries {
		if e.Front {
			s.show(w, r, e)
			return
		}
	}
	var b bytes.Buffer
	b.WriteString("<h1>" + html.EscapeString(s.book.Title()) + "</h1>")
	contents(&b, &g, entries)
	s.write(w, r, page{Title: s.book.Title(), Main: template.HTML(b.String())})
}

func (s *visit) entry(w http.ResponseWriter, r *http.Request) {
	if e := s.bySlug(r.PathValue("slug")); e != nil {
		s.show(w, r, e)
		return
	}
	s.missing(w, r, "There is no such entry.")
}

func (s *visit) bySlug(slug string) *notebook.Entry {
	for _, e := range s.book.Entries() {
		if e.Slug == slug {
			return e
		}
	}
	return nil
}

func (s *visit) missing(w http.ResponseWriter, r *http.Request, text string) {
	if r.URL.Query().Has("part") {
		http.Error(w, text, http.StatusNotFound)
		return
	}
	var b bytes.Buffer
	b.WriteString("<h1>" + html.EscapeString(text) + "</h1><p><a href=\"/\">To the title page</a></p>")
	s.writeStatus(w, r, http.StatusNotFound, page{Title: text, Main: template.HTML(b.String())})
}

// show writes the page of an entry. One that had not been written on the day that
// the journal is turned back to has no text on that day.
func (s *visit) show(w http.ResponseWriter, r *http.Request, e *notebook.Entry) {
	g := s.glance(r)
	p := page{Title: e.Title + " · " + s.book.Title(), Here: e.Key}
	if e.Title == s.book.Title() {
		p.Title = e.Title
	}
	if g.Writes && g.Number == 0 {
		p.Write = "/write/" + (&url.URL{Path: e.Slug}).EscapedPath()
	}
	style := s.style(&g, e)
	var head, b bytes.Buffer
	head.WriteString(`<h1>` + s.book.RenderTitle(e, style) + `</h1>`)
	if d := notebook.Day(e.Date); d != "" {
		head.WriteString(`<p class="date">` + html.EscapeString(d))
		if e.Draft {
			head.WriteString(` · draft`)
		}
		head.WriteString(`</p>`)
	}
	if s.number(e) > g.Number && g.Number > 0 {
		b.WriteString(`<p class="unwritten">This entry had not been written on that day.</p>`)
	} else {
		s.blocks(&b, &g, e, style)
	}
	if e.Front {
		contents(&b, &g, s.book.Entries())
	}
	turn(&b, &g, s.book.Entries(), e)
	p.Head, p.Main = template.HTML(head.String()), template.HTML(b.String())
	s.write(w, r, p)
}

// blocks writes the text of an entry in blocks that a script can replace one by one.
func (s *visit) blocks(b *bytes.Buffer, g *glance, e *notebook.Entry, p notebook.Page) {
	if len(g.trials) > 0 {
		p.Tried, _ = s.book.Session.EntryIf(g.values(), e.Key, g.style)
	}
	b.WriteString(`<article class="entry" data-entry="` + html.EscapeString(e.Key) + `">`)
	for _, x := range s.book.RenderEntry(e, p) {
		b.WriteString(`<div class="b">` + x + `</div>`)
	}
	b.WriteString(`</article>`)
}

// number is an entry's place in the journal, from 1.
func (s *visit) number(e *notebook.Entry) int { return s.book.Order(e.Key) + 1 }

// style is how the live page shows an entry.
func (s *visit) style(g *glance, e *notebook.Entry) notebook.Page {
	dir := path.Dir(e.File.Path)
	p := g.page()
	p.WithoutTitle = true
	p.Image = func(dest string) string {
		if strings.Contains(dest, ":") {
			return ""
		}
		return "/files/" + path.Join(dir, dest)
	}
	p.Link = s.link(g, dir)
	return p
}

// link turns a link to another file of the journal into one to its page.
func (s *visit) link(g *glance, dir string) func(string) string {
	return func(dest string) string {
		u, err := url.Parse(dest)
		if err != nil || u.IsAbs() || u.Host != "" || u.Path == "" || strings.HasPrefix(u.Path, "/") {
			return dest
		}
		p := path.Join(dir, u.Path)
		if _, ok := s.book.File(p); ok && strings.HasSuffix(p, ".md") {
			u.Path = "/entry/" + strings.TrimSuffix(p, ".md")
			return g.To(u.String())
		}
		u.Path = "/files/" + p
		return u.String()
	}
}

// contents lists the entries, and offers to begin another.
func contents(b *bytes.Buffer, g *glance, entries []*notebook.Entry) {
	b.WriteString(`<h2 class="contents-head">Entries</h2><ol class="contents">`)
	none := true
	for i, e := range entries {
		if e.Front || g.Number > 0 && i >= g.Number {
			continue
		}
		none = false
		b.WriteString(`<li><span class="day">` + html.EscapeString(notebook.Day(e.Date)) + `</span><a href="` + html.EscapeString(g.To(href(e))) + `">` + html.EscapeString(e.Title) + `</a></li>`)
	}
	b.WriteString(`</ol>`)
	if none {
		b.WriteString(`<p class="none">There is no entry yet.</p>`)
	}
	if g.Writes && g.Number == 0 {
		b.WriteString(`<p class="acts on-screen"><a class="act" href="/today">New entry</a></p>`)
	}
}

func href(e *notebook.Entry) string {
	if e.Front {
		return "/"
	}
	return (&url.URL{Path: "/entry/" + e.Slug}).EscapedPath()
}

// turn leads to the entries before and after.
func turn(b *bytes.Buffer, g *glance, entries []*notebook.Entry, e *notebook.Entry) {
	for i, x := range entries {
		if x.Key != e.Key {
			continue
		}
		b.WriteString(`<nav class="turn" aria-label="Entries before and after"><span>`)
		if i > 0 {
			b.WriteString(`<a rel="prev" href="` + html.EscapeString(g.To(href(entries[i-1]))) + `">← ` + html.EscapeString(entries[i-1].Title) + `</a>`)
		}
		b.WriteString(`</span><span>`)
		if i+1 < len(entries) && !(g.Number > 0 && i+1 >= g.Number) {
			b.WriteString(`<a rel="next" href="` + html.EscapeString(g.To(href(entries[i+1]))) + `">` + html.EscapeString(entries[i+1].Title) + ` →</a>`)
		}
		b.WriteString(`</span></nav>`)
	}
}

func (s *visit) write(w http.ResponseWriter, r *http.Request, p page) {
	s.writeStatus(w, r, http.StatusOK, p)
}

// writeStatus fills the template: the stick with the entry's mark, the lists.
func (s *visit) writeStatus(w http.ResponseWriter, r *http.Request, status int, p page) {
	g := s.glance(r)
	set := s.book.Settings()
	p.Glance, p.Boat, p.Language = g, set.Boat, set.Language
	if p.Boat == "" {
		p.Boat = s.book.Title()
	}
	if p.Language == "" {
		p.Language = "en"
	}
	p.Home, p.Sheet = g.To("/"), s.hub.place(asked(r))
	p.Stick = s.stick(&g, p.Here)
	if p.Modules = modules; p.Bare {
		p.Modules = writeModules
	}
	for _, l := range lists {
		p.Lists = append(p.Lists, mark{Href: g.To("/list/" + l.name), Label: l.label, Here: p.Here == "list:"+l.name})
	}
	p.OtherUnits = "metric"
	if g.Units() == "metric" {
		p.OtherUnits = "feet-inches"
	}
	p.Remarks = s.remarks(&g, p.Here, asked(r))
	p.IsHere, p.Shared = s.isHere(r), s.address != nil
	if g.Writes {
		p.Key, p.Undo = s.door.key, s.book.UndoLabel()
	}
	p.Notice = s.notice(r, &g)
	if r.URL.Path != "/rescued" {
		p.Rescued = len(s.rescues.all(s.book))
	}
	w.Header().Set("Content-Type", "text/html; charset=utf-8")
	w.Header().Set("Cache-Control", "no-store")
	var b bytes.Buffer
	if err := pages.ExecuteTemplate(&b, "workshop.html", p); err != nil {
		http.Error(w, "the page could not be made", http.StatusInternalServerError)
		return
	}
	w.WriteHeader(status)
	_, _ = w.Write(b.Bytes())
}

// notice fills in what the page has to say when it does not show the journal as it
// stands.
func (s *visit) notice(r *http.Request, g *glance) notice {
	q := r.URL.Query()
	for _, k := range []string{"as-of", "try", "part"} {
		q.Del(k)
	}
	n := notice{Back: (&url.URL{Path: r.URL.Path, RawQuery: q.Encode()}).String()}
	if g.Number > 0 {
		for _, e := range s.book.Session.Entries() {
			if e.Number == g.Number {
				n.AsOf = dayOf(e)
			}
		}
	}
	if len(g.trials) > 0 {
		n.Trials = s.trySheet(g)
	}
	return n
}

// raised lifts the headings of a sheet that is a page of its own.
var raised = strings.NewReplacer("<h2 ", "<h1 ", "</h2>", "</h1>", "<h3>", "<h2>", "</h3>", "</h2>")

// sheetPage answers with a page that one template fills.
func (s *visit) sheetPage(w http.ResponseWriter, r *http.Request, name, title string, data any) {
	var b bytes.Buffer
	if err := pages.ExecuteTemplate(&b, name, data); err != nil {
		http.Error(w, "the page could not be made", http.StatusInternalServerError)
		return
	}
	s.write(w, r, page{Title: title + " · " + s.book.Title(), Main: template.HTML(b.String())})
}

// sheet answers with a sheet that lies on the page: alone for a script that asks for
// ?part, else on a page of its own.
func (s *visit) sheet(w http.ResponseWriter, r *http.Request, name, title string, data any) {
	var b bytes.Buffer
	if err := pages.ExecuteTemplate(&b, name, data); err != nil {
		http.Error(w, "the sheet could not be made", http.StatusInternalServerError)
		return
	}
	if r.URL.Query().Has("part") {
		w.Header().Set("Content-Type", "text/html; charset=utf-8")
		w.Header().Set("Cache-Control", "no-store")
		_, _ = w.Write(b.Bytes())
		return
	}
	body := raised.Replace(b.String())
	s.write(w, r, page{Title: title + " · " + s.book.Title(), Main: template.HTML(`<section class="sheet-page">` + body + `</section>`)})
}
