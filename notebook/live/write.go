package live

import (
	"errors"
	"net/http"
	"net/url"
	"strings"
	"time"

	"scarph/kernel"
	"scarph/notebook"
)

// maxText bounds a text that is written on in the page, twice: it is sent with the
// text it began from.
const maxText = 12 << 20

// writing is the page on which an entry is written.
type writing struct {
	Path, Slug, Title, Back string
	Text                    string
	Tail                    int // how much of the text stands behind the entry, in UTF-16 units
}

// writePage shows an entry's Markdown to be written on.
func (s *visit) writePage(w http.ResponseWriter, r *http.Request) {
	e := s.bySlug(r.PathValue("slug"))
	switch {
	case e == nil:
		s.missing(w, r, "There is no such entry.")
		return
	case !s.mayWrite(r):
		s.missing(w, r, "This device reads the journal; it may not write in it.")
		return
	}
	z := writing{Path: e.File.Path, Slug: e.Slug, Title: e.Title, Back: href(e), Text: shownText(e.File.Src)}
	z.Tail = unitOffset(shownText(e.File.Src[e.Section.Span.End:]), len(e.File.Src))
	s.writeWith(w, r, "write", "Writing: "+e.Title, z)
}

// todayPage leads to the entry of today, or offers to make one; looking makes nothing.
func (s *visit) todayPage(w http.ResponseWriter, r *http.Request) {
	if !s.mayWrite(r) {
		s.missing(w, r, "This device reads the journal; it may not write in it.")
		return
	}
	var z struct {
		Today   string // as a field of a form takes it
		Entries []mark
	}
	z.Today = s.today()
	for _, e := range s.book.Entries() {
		if e.Date == s.today() && !e.Front {
			z.Entries = append(z.Entries, mark{Href: "/write/" + (&url.URL{Path: e.Slug}).EscapedPath(), Label: e.Title})
		}
	}
	s.writeWith(w, r, "today", "New entry", z)
}

func (s *visit) writeWith(w http.ResponseWriter, r *http.Request, name, title string, data any) {
	var b strings.Builder
	if err := pages.ExecuteTemplate(&b, name, data); err != nil {
		http.Error(w, "the page could not be made", http.StatusInternalServerError)
		return
	}
	s.write(w, r, page{Title: title + " · " + s.book.Title(), Main: asHTML(b.String()), Bare: name == "write"})
}

// newEntry makes an entry, for today where no other day is given.
func (s *visit) newEntry(w http.ResponseWriter, r *http.Request) {
	var q struct {
		Title string `json:"title"`
		Day   string `json:"day"`
	}
	if !receive(w, r, &q) {
		return
	}
	if q.Day == "" {
		q.Day = s.today()
	}
	if _, err := time.Parse(time.DateOnly, q.Day); err != nil {
		refuse(w, http.StatusUnprocessableEntity, "day", "the day is a date: "+s.today())
		return
	}
	title := strings.Join(strings.Fields(q.Title), " ")
	if len(title) > 200 {
		refuse(w, http.StatusUnprocessableEntity, "title", "a title has 200 letters at most")
		return
	}
	s.apply(w, r, "the new entry", s.book.NewEntry(q.Day, title))
}

// text gives what a file holds now, as a text field shows it.
func (s *visit) text(w http.ResponseWriter, r *http.Request) {
	f, ok := s.book.File(r.URL.Query().Get("path"))
	if !ok || !s.mayWrite(r) {
		refuse(w, http.StatusNotFound, "gone", "the file is not there")
		return
	}
	answer(w, map[string]string{"text": shownText(f.Src)})
}

// saved is the answer to a save: what the file holds now.
type saved struct {
	done
	Text string `json:"text"`
}

// clash is the refusal of a save that would undo someone else's.
type clash struct {
	kernel.Fault
	Theirs string `json:"theirs"`
	// Joined holds both; Clean is false where both changed the same lines, which then
	// stand there twice, between marks.
	Joined string `json:"joined"`
	Clean  bool   `json:"clean"`
	HTML   string `json:"html"`
}

// save writes a text that began as Base. All lines that were not touched keep their
// bytes; a file that someone else has saved since is not overwritten.
func (s *visit) save(w http.ResponseWriter, r *http.Request) {
	var q struct {
		Path string `json:"path"`
		Base string `json:"base"`
		Text string `json:"text"`
		// Sure says that what the head loses shall be lost.
		Sure bool `json:"sure"`
	}
	if !receive(w, r, &q) {
		return
	}
	s.refresh(r.Context())
	f, ok := s.book.File(q.Path)
	if !ok {
		s.clash(w, q.Base, q.Text, "", "the file is gone: it was renamed or deleted")
		return
	}
	now := shownText(f.Src)
	if now == q.Text { // someone else, or a save before this one, wrote the same
		answer(w, saved{done{Said: "Saved."}, now})
		return
	}
	if now != q.Base {
		s.clash(w, q.Base, q.Text, now, "this file was saved elsewhere meanwhile")
		return
	}
	after := unshown(f.Src, q.Text)
	if lost := notebook.HeadLost(f.Src, after); len(lost) > 0 && !q.Sure {
		askAboutHead(w, now, q.Text, lost)
		return
	}
	label := "the writing in " + s.titleOf(q.Path)
	c, err := s.change(func(n *notebook.Notebook) (notebook.Change, error) {
		return n.WriteOn(r.Context(), label, q.Path, f.Src, after)
	})
	var conflict *notebook.ConflictError
	if errors.As(err, &conflict) {
		s.clash(w, q.Base, q.Text, shownText(conflict.Current), "this file was saved elsewhere meanwhile")
		return
	}
	if err != nil {
		s.failed(w, err)
		return
	}
	e := s.tell(c, "") // every pause saves: nobody wants to be asked about each
	answer(w, saved{done{Sheet: e.Sheet, Said: "Saved.", Undo: s.book.UndoLabel()}, shownText(unshown(f.Src, q.Text))})
}

func (s *visit) titleOf(path string) string {
	for _, e := range s.book.Entries() {
		if e.File.Path == path {
			return "“" + e.Title + "”"
		}
	}
	return path
}

// clash answers with both texts side by side, and joined.
func (s *visit) clash(w http.ResponseWriter, base, mine, theirs, message string) {
	z := clash{Fault: kernel.Fault{Code: "conflict", Message: message}, Theirs: theirs}
	z.Joined, z.Clean = join(base, mine, theirs)
	var b strings.Builder
	if err := pages.ExecuteTemplate(&b, "beside", besides{Rows: sideBySide(mine, theirs), Mine: "yours", Theirs: "on disk now"}); err == nil {
		z.HTML = b.String()
	}
	send(w, http.StatusConflict, z)
}

// besides are two texts side by side under their headings.
type besides struct {
	Rows         []pair
	Mine, Theirs string
}
