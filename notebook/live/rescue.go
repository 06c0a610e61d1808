package live

import (
	"bytes"
	"net/http"
	"slices"
	"strings"
	"sync"

	"scarph/notebook"
)

// rescues are the texts that were being saved when an earlier run of the program
// stopped. They are looked for once, at the start: later ones are saves under way.
type rescues struct {
	mu   sync.Mutex
	list []notebook.Recovery
	was  map[string][]byte // what their files held at the start
}

func newRescues(book *notebook.Notebook) *rescues {
	r := &rescues{list: book.Recoveries(), was: map[string][]byte{}}
	for _, x := range r.list {
		if f, ok := book.File(x.Path); ok {
			r.was[x.Path] = f.Src
		}
	}
	return r
}

// all lists those that still lack something in their file: a page that was open when the
// program stopped saves its text again.
func (r *rescues) all(book *notebook.Notebook) []notebook.Recovery {
	r.mu.Lock()
	defer r.mu.Unlock()
	r.list = slices.DeleteFunc(r.list, func(x notebook.Recovery) bool {
		f, ok := book.File(x.Path)
		if !ok || bytes.Equal(f.Src, r.was[x.Path]) || !holdsLines(f.Src, x.Text) {
			return false
		}
		_ = book.DropRecovery(x.ID)
		return true
	})
	return slices.Clone(r.list)
}

// holdsLines reports whether all lines of a text stand in a file, in their order.
func holdsLines(file, text []byte) bool {
	in := strings.Split(shownText(file), "\n")
	for _, k := range matching(in, strings.Split(shownText(text), "\n")) {
		if k < 0 {
			return false
		}
	}
	return true
}

// take gives one and forgets it.
func (r *rescues) take(id string) (notebook.Recovery, bool) {
	r.mu.Lock()
	defer r.mu.Unlock()
	for i, x := range r.list {
		if x.ID == id {
			r.list = append(r.list[:i:i], r.list[i+1:]...)
			return x, true
		}
	}
	return notebook.Recovery{}, false
}

func (r *rescues) put(x notebook.Recovery) {
	r.mu.Lock()
	defer r.mu.Unlock()
	r.list = append(r.list, x)
}

// rescuedText is a rescued text beside what its file holds.
type rescuedText struct {
	ID, Path string
	Gone     bool
	Beside   besides
}

// rescued shows the texts that a save did not bring to their files.
func (s *visit) rescued(w http.ResponseWriter, r *http.Request) {
	if !s.mayWrite(r) {
		s.missing(w, r, "This device reads the journal; it may not write in it.")
		return
	}
	var list []rescuedText
	for _, x := range s.rescues.all(s.book) {
		z := rescuedText{ID: x.ID, Path: x.Path, Gone: true}
		now := ""
		if f, ok := s.book.File(x.Path); ok {
			z.Gone, now = false, shownText(f.Src)
		}
		z.Beside = besides{Rows: sideBySide(shownText(x.Text), now), Mine: "rescued", Theirs: "in the file"}
		list = append(list, z)
	}
	s.sheetPage(w, r, "rescued", "Rescued", list)
}

// rescue puts a rescued text into its file, or forgets it.
func (s *visit) rescue(w http.ResponseWriter, r *http.Request) {
	var q struct {
		ID   string `json:"id"`
		Keep bool   `json:"keep"`
	}
	if !receive(w, r, &q) {
		return
	}
	x, ok := s.rescues.take(q.ID)
	if !ok {
		refuse(w, http.StatusNotFound, "gone", "that text is no longer there")
		return
	}
	said := "Forgotten."
	if q.Keep {
		var before []byte
		if f, ok := s.book.File(x.Path); ok {
			before = f.Src
		}
		c, err := s.change(func(n *notebook.Notebook) (notebook.Change, error) {
			return n.SaveText(r.Context(), "the rescued text of "+x.Path, x.Path, before, x.Text)
		})
		if err != nil {
			s.rescues.put(x)
			s.failed(w, err)
			return
		}
		s.tell(c, s.book.UndoLabel())
		said = "The rescued text is in its file."
	}
	_ = s.book.DropRecovery(x.ID)
	answer(w, done{Sheet: s.ripples.latest(), Said: said, Undo: s.book.UndoLabel()})
}
