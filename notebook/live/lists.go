package live

import (
	"bytes"
	"crypto/sha256"
	"encoding/base32"
	"html/template"
	"net/http"
	"strings"

	"scarph/notebook"
)

// listSheet is one of the lists, for a page and for the wall of the shop.
type listSheet struct {
	Name, Label, Boat string
	Body              template.HTML
	Letter, Since     string // its revision, and the day of it
	Mark              string // four letters that change with any figure of the sheet
	AsOf, Today       string
	Wall, Back        string
	Language, Style   string
}

// list writes one of the lists.
func (s *visit) list(w http.ResponseWriter, r *http.Request) {
	g := s.glance(r)
	z, ok := s.listSheet(&g, r.PathValue("name"))
	if !ok {
		s.missing(w, r, "There is no such list.")
		return
	}
	body := ""
	if len(g.trials) > 0 && s.whatIf(&g).err == nil {
		body, _ = s.book.RenderListTrying(z.Name, g.values(), g.page())
	}
	if body == "" {
		body = s.book.RenderList(z.Name, g.page())
	}
	z.Body = template.HTML(body)
	var b bytes.Buffer
	if err := pages.ExecuteTemplate(&b, "list", z); err != nil {
		http.Error(w, "the list could not be made", http.StatusInternalServerError)
		return
	}
	s.write(w, r, page{Title: z.Label + " · " + s.book.Title(), Here: "list:" + z.Name, Main: template.HTML(b.String())})
}

// wall writes a list as a sheet for the wall of the shop: one table, large, black on
// white, with page, date and revision letter.
func (s *visit) wall(w http.ResponseWriter, r *http.Request) {
	g := s.glance(r)
	z, ok := s.listSheet(&g, r.PathValue("name"))
	if !ok {
		s.missing(w, r, "There is no such list.")
		return
	}
	var b bytes.Buffer
	if err := pages.ExecuteTemplate(&b, "wall", z); err != nil {
		http.Error(w, "the sheet could not be made", http.StatusInternalServerError)
		return
	}
	w.Header().Set("Content-Type", "text/html; charset=utf-8")
	w.Header().Set("Cache-Control", "no-store")
	_, _ = w.Write(b.Bytes())
}

func (s *visit) listSheet(g *glance, name string) (*listSheet, bool) {
	for _, l := range lists {
		if l.name != name {
			continue
		}
		z := &listSheet{Name: name, Label: l.label, Boat: s.book.Settings().Boat, Today: notebook.Day(s.today()), Wall: g.To("/wall/" + name), Back: g.To("/list/" + name), Language: s.book.Settings().Language}
		if z.Boat == "" {
			z.Boat = s.book.Title()
		}
		if z.Language == "" {
			z.Language = "en"
		}
		var since string
		z.Letter, since = s.book.Revision(g.at())
		z.Since = notebook.Day(since)
		if g.Number > 0 {
			z.AsOf = dayOf(s.book.Session.Entries()[g.Number-1])
		}
		p := notebook.Page{AsOf: g.at(), Style: &g.style}
		body := s.book.RenderList(name, p)
		z.Body, z.Mark = template.HTML(body), mark4(body)
		z.Style = g.To("/wall/" + name + "/page.css")
		return z, true
	}
	return nil, false
}

// mark4 is a short mark of a text: two sheets with one mark say the same.
func mark4(text string) string {
	sum := sha256.Sum256([]byte(text))
	return base32.StdEncoding.EncodeToString(sum[:])[:4]
}

// wallStyle gives every printed page of a sheet its head and foot: the list, the
// revision, the day and the page's number.
func (s *visit) wallStyle(w http.ResponseWriter, r *http.Request) {
	g := s.glance(r)
	z, ok := s.listSheet(&g, r.PathValue("name"))
	if !ok {
		http.NotFound(w, r)
		return
	}
	w.Header().Set("Content-Type", "text/css; charset=utf-8")
	w.Header().Set("Cache-Control", "no-store")
	day := z.Today
	if z.AsOf != "" {
		day = "as of " + z.AsOf
	}
	_, _ = w.Write([]byte(`@page { margin: 18mm 12mm 18mm; @top-left { content: ` + cssString(z.Boat+" · "+z.Label) + `; font: 600 11pt serif; } @top-right { content: ` + cssString("Revision "+z.Letter+" · "+z.Mark) + `; font: 600 11pt serif; } @bottom-left { content: ` + cssString(day) + `; font: 11pt serif; } @bottom-right { content: "page " counter(page) " of " counter(pages); font: 11pt serif; } }`))
}

// cssString writes a text as a string of a style sheet.
func cssString(s string) string {
	var b strings.Builder
	b.WriteByte('"')
	for _, r := range s {
		switch {
		case r == '"' || r == '\\':
			b.WriteByte('\\')
			b.WriteRune(r)
		case r < ' ' || r == '<' || r == 0x7f:
			b.WriteByte(' ')
		default:
			b.WriteRune(r)
		}
	}
	b.WriteByte('"')
	return b.String()
}
