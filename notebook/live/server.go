// Package live is the workshop page: a server on this machine that shows a journal,
// follows its files, and pushes what moved to every open page.
package live

import (
	"context"
	"fmt"
	"net"
	"net/http"
	"path"
	"strings"
	"sync"
	"time"

	"scarph/calc"
	"scarph/kernel"
	"scarph/notebook"
	"scarph/notebook/assets"
	"scarph/notebook/photo"
)

// Server shows one journal.
type Server struct {
	sides   *sides
	options Options
	door    door
	hub     *hub
	address net.IP // what it listens on, when that is no loopback address
	port    string
	ripples ripples
	// standings keeps what of the journal wants a look.
	standings standings
	// telling is held while a ripple gets its number and is sent, so that pages hear of
	// ripples in their order.
	telling sync.Mutex
	desk    draftDesk
	rescues *rescues
	// darkroom is held while a picture is worked on.
	darkroom darkroom
}

// Options say what a server allows.
type Options struct {
	// OthersWrite lets those write who come from another machine with the token.
	OthersWrite bool
	// Now is the clock; nil is that of the machine.
	Now func() time.Time
}

// New returns a server for a journal; it serves after Serve.
func New(book *notebook.Notebook, o Options) *Server {
	if o.Now == nil {
		o.Now = time.Now
	}
	return &Server{sides: newSides(book), options: o, door: newDoor(), hub: newHub(), rescues: newRescues(book)}
}

// On tells the server the address it will serve on, for Invitations; Serve does so
// itself.
func (s *Server) On(a net.Addr) {
	if a, ok := a.(*net.TCPAddr); ok {
		s.port = fmt.Sprint(a.Port)
		if !a.IP.IsLoopback() {
			s.address = a.IP
		}
	}
}

// Serve answers on the listener until ctx ends, and follows the files meanwhile.
func (s *Server) Serve(ctx context.Context, l net.Listener) error {
	s.On(l.Addr())
	srv := &http.Server{Handler: s.Handler(), ReadHeaderTimeout: 10 * time.Second, ReadTimeout: time.Minute, IdleTimeout: 2 * time.Minute, MaxHeaderBytes: 32 << 10}
	ctx, cancel := context.WithCancel(ctx)
	defer cancel()
	failed := make(chan error, 2)
	go s.sides.prepare()
	go func() { failed <- s.follow(ctx) }()
	go func() { failed <- srv.Serve(l) }()
	var err error
	select {
	case <-ctx.Done():
	case err = <-failed:
	}
	close(s.hub.done)
	stop, done := context.WithTimeout(context.Background(), 3*time.Second)
	defer done()
	if e := srv.Shutdown(stop); err == nil && e != nil {
		err = srv.Close()
	}
	return err
}

// follow follows the files until ctx ends.
func (s *Server) follow(ctx context.Context) error {
	return s.sides.book().Watch(ctx, func(read notebook.Reading) {
		c, err := s.sides.change(func(n *notebook.Notebook) (notebook.Change, error) { return read(ctx, n) })
		if err == nil {
			s.tell(c, "")
		}
	})
}

// Handler is the server as an http.Handler, with its guard.
func (s *Server) Handler() http.Handler {
	mux := http.NewServeMux()
	mux.HandleFunc("GET /{$}", s.on((*visit).index))
	mux.HandleFunc("GET /", s.on(func(v *visit, w http.ResponseWriter, r *http.Request) { v.missing(w, r, "There is no such page.") }))
	mux.HandleFunc("GET /entry/{slug...}", s.on((*visit).entry))
	mux.HandleFunc("GET /list/{name}", s.on((*visit).list))
	mux.HandleFunc("GET /wall/{name}", s.on((*visit).wall))
	mux.HandleFunc("GET /wall/{name}/page.css", s.on((*visit).wallStyle))
	mux.HandleFunc("GET /wrong", s.on((*visit).nextWrong))
	mux.HandleFunc("GET /search", s.on((*visit).search))
	mux.HandleFunc("GET /card", s.on((*visit).showCard))
	mux.HandleFunc("GET /ripple", s.on((*visit).showRipple))
	mux.HandleFunc("GET /read", s.on((*visit).readBack))
	mux.HandleFunc("GET /key", s.giveKey)
	mux.HandleFunc("GET /phone", s.on((*visit).phone))
	mux.HandleFunc("GET /rescued", s.on((*visit).rescued))
	mux.HandleFunc("POST /rescue", s.byWriters(maxChange, s.on((*visit).rescue)))
	mux.HandleFunc("GET /write/{slug...}", s.on((*visit).writePage))
	mux.HandleFunc("GET /today", s.on((*visit).todayPage))
	mux.HandleFunc("GET /text", s.on((*visit).text))
	mux.HandleFunc("GET /vocabulary", s.on((*visit).vocabulary))
	mux.HandleFunc("POST /begin", s.byWriters(maxChange, s.on((*visit).newEntry)))
	mux.HandleFunc("POST /preview", s.byWriters(maxText, s.on((*visit).preview)))
	mux.HandleFunc("POST /photo", s.byWriters(photo.MaxBytes, s.on((*visit).takePhoto)))
	mux.HandleFunc("POST /grid", s.byWriters(maxText, s.on((*visit).readGrid)))
	mux.HandleFunc("POST /save", s.byWriters(maxText, s.on((*visit).save)))
	mux.HandleFunc("POST /keep", s.byWriters(maxChange, s.on((*visit).keep)))
	mux.HandleFunc("POST /settle", s.byWriters(maxChange, s.on((*visit).settle)))
	mux.HandleFunc("POST /undo", s.byWriters(maxChange, s.on((*visit).undo)))
	mux.HandleFunc("GET /events", s.events)
	mux.HandleFunc("GET /files/{path...}", s.file)
	mux.Handle("GET /assets/", http.StripPrefix("/assets/", cacheless(served(http.FileServerFS(assets.Files)))))
	return s.guard(s.admit(s.noted(mux)))
}

// served lets through what pages load; the templates are none of it.
func served(h http.Handler) http.Handler {
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		switch path.Ext(r.URL.Path) {
		case ".css", ".js", ".svg":
			h.ServeHTTP(w, r)
		default:
			http.NotFound(w, r)
		}
	})
}

func cacheless(h http.Handler) http.Handler {
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		w.Header().Set("Cache-Control", "no-cache")
		h.ServeHTTP(w, r)
	})
}

// Refresh reads again what changed on disk and tells the open pages.
func (s *Server) Refresh(ctx context.Context) {
	c, err := s.sides.change(func(n *notebook.Notebook) (notebook.Change, error) { return n.Refresh(ctx) })
	if err != nil || len(c.Files) == 0 {
		return
	}
	s.tell(c, "")
}

// tell sends the event of a change to the open pages; undo is what a page can take back.
func (s *Server) tell(c notebook.Change, undo string) Event {
	if len(c.Files) == 0 { // the watch was quicker, and has told it
		return Event{Sheet: s.ripples.latest()}
	}
	book := s.sides.book()
	e := Event{Undo: undo, Structure: c.Structure, Words: words(c.Ripple, book.Session.Style())}
	seen := map[string]bool{}
	add := func(key string) {
		if !seen[key] {
			seen[key] = true
			e.Entries = append(e.Entries, key)
		}
	}
	for _, l := range c.Ripple.Lines {
		add(l.Entry)
	}
	for _, x := range book.Entries() {
		for _, f := range c.Files {
			if x.File.Path == f {
				add(x.Key)
			}
		}
	}
	for _, m := range c.Ripple.Made {
		add(m.Ref.Entry)
	}
	for _, x := range c.Ripple.Recast {
		add(x.Ref.Entry)
	}
	s.telling.Lock()
	defer s.telling.Unlock()
	e.Sheet = s.ripples.keep(c.Ripple)
	s.hub.send(e)
	return e
}

// words says in a sentence what a ripple moved.
func words(r kernel.Ripple, style calc.Style) string {
	return strings.TrimSpace(recastWords(r, style) + " " + movedWords(r, style))
}

// recastWords says that the record of what was made changed; "" when it did not.
func recastWords(r kernel.Ripple, style calc.Style) string {
	if len(r.Recast) == 0 {
		return ""
	}
	text := "The record of what was made changed: " + r.Recast[0].Words(style)
	if n := len(r.Recast) - 1; n > 0 {
		text += fmt.Sprintf("; %d more", n)
	}
	return text + "."
}

func movedWords(r kernel.Ripple, style calc.Style) string {
	var parts []string
	unseen := 0
	for _, m := range r.Moved {
		if m.From == nil || m.To == nil || !m.From.OK() || !m.To.OK() || !m.To.Value.IsQuantity() || strings.Count(m.Name, ".") > 1 {
			continue
		}
		if len(parts) == 3 {
			break
		}
		from, to := style.Text(m.From.Value), style.Text(m.To.Value)
		if from == to { // nothing that can be seen
			unseen++
			continue
		}
		parts = append(parts, calc.Words(m.Name)+" "+from+" → "+to)
	}
	if len(parts) == 0 {
		return ""
	}
	text := strings.Join(parts, "; ")
	if n := len(r.Moved) - len(parts) - unseen; n > 0 {
		text += fmt.Sprintf("; %d more moved", n)
	}
	off := 0
	for _, m := range r.Made {
		if m.Off {
			off++
		}
	}
	if off > 0 {
		text += fmt.Sprintf("; %d made before the change is now off", off)
	}
	return text
}
