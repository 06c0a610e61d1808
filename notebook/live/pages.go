package live

import (
	"bytes"
	"encoding/json"
	"html"
	"html/template"
	"net/http"
	"net/url"
	"os"
	"path"
	"path/filepath"
	"strconv"
	"strings"

	"scarph/kernel"
	"scarph/notebook"
	"scarph/notebook/assets"
)

var pageTemplate = template.Must(template.ParseFS(assets.Files, "workshop.html"))

// page is what the template shows.
type page struct {
	Title, Boat, Language string
	Stick                 []mark
	Lists                 []mark
	Main                  template.HTML
}

// mark is a mark of the stick, or a place to go.
type mark struct {
	Href, Label, Class string
	Here               bool
}

// lists are the lists that can be looked at.
var lists = []struct{ name, label string }{{"dimensions", "Dimensions"}, {"cutlist", "Cut list"}, {"rework", "Rework"}, {"checks", "Checks"}, {"ledger", "Ledger"}, {"history", "History"}}

// asOf reads the day to which the stick is slid, from ?as-of=NUMBER.
func asOf(r *http.Request) int {
	n, err := strconv.Atoi(r.URL.Query().Get("as-of"))
	if err != nil || n < 1 {
		return kernel.Now
	}
	return n - 1
}

func (s *Server) index(w http.ResponseWriter, r *http.Request) {
	entries := s.book.Entries()
	for _, e := range entries {
		if e.Front {
			s.show(w, r, e)
			return
		}
	}
	var b bytes.Buffer
	b.WriteString("<h1>" + html.EscapeString(s.book.Title()) + "</h1>")
	contents(&b, s.book, entries)
	s.write(w, r, page{Title: s.book.Title(), Main: template.HTML(b.String())}, "")
}

func (s *Server) entry(w http.ResponseWriter, r *http.Request) {
	slug := r.PathValue("slug")
	for _, e := range s.book.Entries() {
		if e.Slug == slug {
			s.show(w, r, e)
			return
		}
	}
	s.missing(w, r, "There is no such entry.")
}

func (s *Server) missing(w http.ResponseWriter, r *http.Request, text string) {
	w.WriteHeader(http.StatusNotFound)
	s.write(w, r, page{Title: text, Main: template.HTML("<h1>" + html.EscapeString(text) + "</h1><p><a href=\"/\">To the title page</a></p>")}, "")
}

// show writes the page of an entry, or, asked for ?blocks, its blocks alone.
func (s *Server) show(w http.ResponseWriter, r *http.Request, e *notebook.Entry) {
	at := asOf(r)
	blocks := s.book.RenderEntry(e, s.style(e, at))
	if r.URL.Query().Has("blocks") {
		w.Header().Set("Content-Type", "application/json")
		w.Header().Set("Cache-Control", "no-store")
		_ = json.NewEncoder(w).Encode(map[string]any{"blocks": blocks})
		return
	}
	var b bytes.Buffer
	b.WriteString(`<h1>` + s.book.RenderTitle(e, s.style(e, at)) + `</h1>`)
	if d := notebook.Day(e.Date); d != "" {
		b.WriteString(`<p class="date">` + html.EscapeString(d))
		if e.Draft {
			b.WriteString(` · draft`)
		}
		b.WriteString(`</p>`)
	}
	b.WriteString(`<article class="entry" data-entry="` + html.EscapeString(e.Key) + `">`)
	for _, x := range blocks {
		b.WriteString(`<div class="b">` + x + `</div>`)
	}
	b.WriteString(`</article>`)
	if e.Front {
		contents(&b, s.book, s.book.Entries())
	}
	turn(&b, s.book.Entries(), e, r)
	s.write(w, r, page{Title: e.Title + " · " + s.book.Title(), Main: template.HTML(b.String())}, e.Key)
}

// style is how the live page shows an entry.
func (s *Server) style(e *notebook.Entry, at int) notebook.Page {
	dir := path.Dir(e.File.Path)
	return notebook.Page{AsOf: at, Live: true, WithoutTitle: true,
		Image: func(dest string) string {
			if strings.Contains(dest, ":") {
				return ""
			}
			return "/files/" + path.Join(dir, dest)
		},
		Link: s.link(dir)}
}

// link turns a link to another file of the journal into one to its page.
func (s *Server) link(dir string) func(string) string {
	return func(dest string) string {
		u, err := url.Parse(dest)
		if err != nil || u.IsAbs() || u.Host != "" || u.Path == "" || strings.HasPrefix(u.Path, "/") {
			return dest
		}
		p := path.Join(dir, u.Path)
		if _, ok := s.book.File(p); ok && strings.HasSuffix(p, ".md") {
			u.Path = "/entry/" + strings.TrimSuffix(p, ".md")
			return u.String()
		}
		u.Path = "/files/" + p
		return u.String()
	}
}

// contents lists the entries.
func contents(b *bytes.Buffer, book *notebook.Notebook, entries []*notebook.Entry) {
	b.WriteString(`<ol class="contents">`)
	for _, e := range entries {
		if e.Front {
			continue
		}
		b.WriteString(`<li><span class="day">` + html.EscapeString(notebook.Day(e.Date)) + `</span><a href="` + href(e) + `">` + html.EscapeString(e.Title) + `</a></li>`)
	}
	b.WriteString(`</ol>`)
}

func href(e *notebook.Entry) string {
	if e.Front {
		return "/"
	}
	return (&url.URL{Path: "/entry/" + e.Slug}).EscapedPath()
}

// turn leads to the entries before and after.
func turn(b *bytes.Buffer, entries []*notebook.Entry, e *notebook.Entry, r *http.Request) {
	for i, x := range entries {
		if x.Key != e.Key {
			continue
		}
		b.WriteString(`<nav class="turn" aria-label="Entries before and after"><span>`)
		if i > 0 {
			b.WriteString(`<a rel="prev" href="` + href(entries[i-1]) + `">← ` + html.EscapeString(entries[i-1].Title) + `</a>`)
		}
		b.WriteString(`</span><span>`)
		if i+1 < len(entries) {
			b.WriteString(`<a rel="next" href="` + href(entries[i+1]) + `">` + html.EscapeString(entries[i+1].Title) + ` →</a>`)
		}
		b.WriteString(`</span></nav>`)
	}
}

// write fills the template: the stick with the entry's mark, the lists.
func (s *Server) write(w http.ResponseWriter, r *http.Request, p page, here string) {
	set := s.book.Settings()
	p.Boat, p.Language = set.Boat, set.Language
	if p.Boat == "" {
		p.Boat = s.book.Title()
	}
	if p.Language == "" {
		p.Language = "en"
	}
	p.Stick = stick(s.book.Entries(), here)
	for _, l := range lists {
		p.Lists = append(p.Lists, mark{Href: "/list/" + l.name, Label: l.label, Here: here == "list:"+l.name})
	}
	w.Header().Set("Content-Type", "text/html; charset=utf-8")
	w.Header().Set("Cache-Control", "no-store")
	var b bytes.Buffer
	if err := pageTemplate.Execute(&b, p); err != nil {
		http.Error(w, "the page could not be made", http.StatusInternalServerError)
		return
	}
	_, _ = w.Write(b.Bytes())
}

// stick marks the entries on the batten; of many, labels stand at some only.
func stick(entries []*notebook.Entry, here string) []mark {
	var list []mark
	every := 1 + len(entries)/40
	month := ""
	for i, e := range entries {
		m := mark{Href: href(e), Label: shortDay(e), Here: e.Key == here}
		switch {
		case m.Here:
			m.Class = "here"
		case len(e.Date) == 10 && e.Date[:7] != month:
			m.Class = "long"
		}
		if len(e.Date) == 10 {
			month = e.Date[:7]
		}
		if i%every == 0 || m.Here {
			list = append(list, m)
		}
	}
	return list
}

func shortDay(e *notebook.Entry) string {
	f := strings.Fields(notebook.Day(e.Date))
	if len(f) == 3 && len(e.Date) == 10 {
		return f[0] + " " + f[1][:3]
	}
	if e.Front {
		return "title"
	}
	t := []rune(e.Title)
	if len(t) > 10 {
		return string(t[:9]) + "…"
	}
	return string(t)
}

// pictures are the kinds of files that are served from the journal.
var pictures = map[string]string{".jpg": "image/jpeg", ".jpeg": "image/jpeg", ".png": "image/png", ".gif": "image/gif", ".webp": "image/webp", ".avif": "image/avif", ".pdf": "application/pdf"}

// file serves a picture of the journal; nothing else of the disk is reachable.
func (s *Server) file(w http.ResponseWriter, r *http.Request) {
	p := r.PathValue("path")
	kind, ok := pictures[strings.ToLower(path.Ext(p))]
	if strings.EqualFold(path.Ext(p), ".svg") {
		kind, ok = "image/svg+xml", true
		w.Header().Set("Content-Security-Policy", "default-src 'none'; style-src 'unsafe-inline'; sandbox")
	}
	if !ok || !filepath.IsLocal(filepath.FromSlash(p)) || strings.Contains("/"+p, "/.") || strings.Contains("/"+p, "/_") {
		http.NotFound(w, r)
		return
	}
	root, err := os.OpenRoot(s.book.Root())
	if err != nil {
		http.NotFound(w, r)
		return
	}
	defer root.Close()
	f, err := root.Open(filepath.FromSlash(p))
	if err != nil {
		http.NotFound(w, r)
		return
	}
	defer f.Close()
	info, err := f.Stat()
	if err != nil || !info.Mode().IsRegular() {
		http.NotFound(w, r)
		return
	}
	w.Header().Set("Content-Type", kind)
	http.ServeContent(w, r, "", info.ModTime(), f)
}
