package live

import (
	"context"
	"net/http"
	"strings"
	"sync"
	"time"

	"scarph/kernel"
	"scarph/notebook"
)

// draftDesk is a second notebook over the same files, in which a text that is being
// written counts before it is saved. The journal that others look at never sees it.
type draftDesk struct {
	mu   sync.Mutex
	book *notebook.Notebook
	path string // the file whose text is a draft
	idle *time.Timer
}

// deskTime is how long the desk is kept when nobody writes.
const deskTime = 10 * time.Minute

// preview is what a text looks like before it is saved.
type preview struct {
	Title    string    `json:"title"`
	Date     string    `json:"date"`
	Entry    string    `json:"entry"`
	Blocks   []string  `json:"blocks"`
	Problems []problem `json:"problems"`
}

// problem is something wrong, or worth a look, in a text that is being written.
type problem struct {
	Line    int    `json:"line"`
	Message string `json:"message"`
	Hint    string `json:"hint,omitempty"`
	Source  string `json:"source"`
	Caret   string `json:"caret"`
	// From and To are offsets in the text, in the units of a script.
	From int  `json:"from"`
	To   int  `json:"to"`
	Note bool `json:"note,omitempty"` // no error, but worth a look
}

// preview renders a text without saving it, and places its errors.
func (s *visit) preview(w http.ResponseWriter, r *http.Request) {
	var q struct {
		Path  string `json:"path"`
		Text  string `json:"text"`
		Caret int    `json:"caret"`
	}
	if !receive(w, r, &q) {
		return
	}
	f, ok := s.book.File(q.Path)
	if !ok {
		refuse(w, http.StatusNotFound, "gone", "the file is not there")
		return
	}
	g := s.glance(r)
	g.Number, g.trials = 0, nil
	s.leave() // a draft may take long to work out
	p, err := s.desk.look(r.Context(), s, &g, f, q.Text, byteOffset(q.Text, q.Caret))
	if err != nil {
		refuse(w, http.StatusInternalServerError, "preview", "the text cannot be shown: "+plainError(err))
		return
	}
	answer(w, p)
}

// look renders the entry of a draft in which the caret stands.
func (d *draftDesk) look(ctx context.Context, s *visit, g *glance, f *notebook.File, text string, caret int) (*preview, error) {
	d.mu.Lock()
	defer d.mu.Unlock()
	if d.book == nil {
		book, err := notebook.Open(s.book.Path)
		if err != nil {
			return nil, err
		}
		d.book = book
		d.idle = time.AfterFunc(deskTime, d.clear)
	}
	d.idle.Reset(deskTime)
	if d.path != "" && d.path != f.Path {
		if _, err := d.book.SetOverlay(ctx, d.path, nil); err != nil {
			return nil, err
		}
	}
	d.path = f.Path
	if _, err := d.book.SetOverlay(ctx, f.Path, unshown(f.Src, text)); err != nil {
		return nil, err
	}
	z := &preview{Blocks: []string{}, Problems: []problem{}}
	if e := d.entryAt(f.Path, caret); e != nil {
		z.Title, z.Date, z.Entry = e.Title, notebook.Day(e.Date), e.Key
		z.Blocks = append(z.Blocks, d.book.RenderEntry(e, s.style(g, e))...)
	}
	starts := lineStarts(text)
	for _, x := range d.book.Problems(kernel.Now) {
		if x.File == f.Path {
			z.Problems = append(z.Problems, placed(x, text, starts, false))
		}
	}
	for _, x := range d.book.Notes(kernel.Now) {
		if x.File == f.Path {
			z.Problems = append(z.Problems, placed(x, text, starts, true))
		}
	}
	return z, nil
}

func (d *draftDesk) clear() {
	d.mu.Lock()
	defer d.mu.Unlock()
	d.book, d.path = nil, ""
}

// entryAt is the entry of a file in which an offset lies.
func (d *draftDesk) entryAt(path string, at int) *notebook.Entry {
	var found *notebook.Entry
	for _, e := range d.book.Entries() {
		if e.File.Path == path && (found == nil || e.Section.Span.Start <= at && e.Section.Span.Start >= found.Section.Span.Start) {
			found = e
		}
	}
	return found
}

func lineStarts(text string) []int {
	starts := []int{0}
	for i := range len(text) {
		if text[i] == '\n' {
			starts = append(starts, i+1)
		}
	}
	return starts
}

// placed puts a problem where it stands in the text as it is written.
func placed(x notebook.Diagnostic, text string, starts []int, note bool) problem {
	z := problem{Line: x.Line, Message: x.Message, Hint: x.Hint, Source: x.Source, Note: note}
	if x.Line < 1 || x.Line > len(starts) {
		return z
	}
	z.Caret = notebook.Caret(x.Source, x.Column, x.Width)
	from := starts[x.Line-1]
	line, _, _ := strings.Cut(text[from:], "\n")
	z.From = unitOffset(text, from+runeOffset(line, x.Column-1))
	z.To = unitOffset(text, from+runeOffset(line, x.Column-1+x.Width))
	return z
}

// runeOffset turns a count of runes into bytes.
func runeOffset(s string, runes int) int {
	for i := range s {
		if runes <= 0 {
			return i
		}
		runes--
	}
	return len(s)
}
