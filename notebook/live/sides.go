package live

import (
	"context"
	"io"
	"net/http"
	"runtime"
	"sync"
	"sync/atomic"

	"scarph/notebook"
)

// sides hold the journal twice. Pages read the side that is shown, which does not change
// while anybody reads it. A change is worked out on the other side, however long that
// takes; then the other is shown, and the first follows when its readers have left.
type sides struct {
	shown atomic.Pointer[side]

	mu    sync.Mutex   // held while a change is worked out and until both sides have it
	other *side        // nil until it is wanted
	turn  atomic.Int64 // counts changes

	aside aside
}

// aside is the journal a third time, for one reader at a time who looks at an earlier day
// or tries a number: what that takes to work out, nobody else waits for.
type aside struct {
	mu   sync.Mutex
	book *notebook.Notebook // nil until it is wanted
	turn int64              // of the sides that it follows
}

// side is one of the two.
type side struct {
	book    *notebook.Notebook
	readers sync.RWMutex
}

func newSides(book *notebook.Notebook) *sides {
	z := &sides{}
	z.shown.Store(&side{book: book})
	return z
}

// book is the journal as it is shown.
func (z *sides) book() *notebook.Notebook { return z.shown.Load().book }

// enter gives the side that is shown; it stays as it is until leave.
func (z *sides) enter() *side {
	for {
		s := z.shown.Load()
		if s.readers.TryRLock() {
			if s == z.shown.Load() {
				return s
			}
			s.readers.RUnlock()
		}
		runtime.Gosched() // the other is shown by now
	}
}

func (s *side) leave() { s.readers.RUnlock() }

// lookAside gives the journal aside, as it is shown now, until done.
func (z *sides) lookAside() (book *notebook.Notebook, done func()) {
	a := &z.aside
	a.mu.Lock()
	s, turn := z.enter(), z.turn.Load()
	defer s.leave()
	switch {
	case a.book == nil:
		a.book = s.book.Twin()
	case a.turn != turn:
		a.book.Follows(s.book)
	}
	a.turn = turn
	return a.book, a.mu.Unlock
}

// prepare makes the other side, so that the first change need not.
func (z *sides) prepare() {
	z.mu.Lock()
	defer z.mu.Unlock()
	z.hidden()
}

func (z *sides) hidden() *side {
	if z.other == nil {
		z.other = &side{book: z.book().Twin()}
	}
	return z.other
}

// change works out a change on the side that is not shown, and shows it. Who calls it
// must have left.
func (z *sides) change(do func(*notebook.Notebook) (notebook.Change, error)) (notebook.Change, error) {
	z.mu.Lock()
	handedOn := false
	defer func() {
		if !handedOn {
			z.mu.Unlock()
		}
	}()
	s := z.hidden()
	c, err := do(s.book)
	if len(c.Files) == 0 {
		return c, err
	}
	z.other = z.shown.Swap(s)
	z.turn.Add(1)
	handedOn = true
	go func() {
		defer z.mu.Unlock()
		z.other.readers.Lock()
		defer z.other.readers.Unlock()
		z.other.book.Follows(s.book)
	}()
	return c, err
}

// visit is one request: what it reads of the journal is all of one state.
type visit struct {
	*Server
	book *notebook.Notebook
	done func() // nil when it has left
}

// leave ends the reading: nothing is waited for that this visit may still do.
func (s *visit) leave() {
	if s.done != nil {
		s.done()
		s.done = nil
	}
}

func (s *visit) enter() {
	side := s.sides.enter()
	s.book, s.done = side.book, side.leave
}

// enterFor enters where a request is answered, which ends when who asked has gone.
func (s *visit) enterFor(r *http.Request) {
	if q := r.URL.Query(); !q.Has("as-of") && !q.Has("try") && r.URL.Path != "/read" {
		s.enter()
		return
	}
	book, done := s.sides.lookAside()
	answered := book.Session.Asks(r.Context())
	s.book, s.done = book, func() { answered(); done() }
}

// change works out a change that the visit asks for; afterwards it reads the journal
// with the change.
func (s *visit) change(do func(*notebook.Notebook) (notebook.Change, error)) (notebook.Change, error) {
	s.leave()
	defer s.enter()
	return s.sides.change(do)
}

// refresh reads again what changed on disk, and tells the open pages.
func (s *visit) refresh(ctx context.Context) {
	s.leave()
	defer s.enter()
	s.Refresh(ctx)
}

// on answers a request by a visit. It enters when all of the request is there, and
// leaves before the first byte of the answer goes out: nobody's slow line holds up a
// change.
func (s *Server) on(h func(*visit, http.ResponseWriter, *http.Request)) http.HandlerFunc {
	return func(w http.ResponseWriter, r *http.Request) {
		if r.Method == http.MethodPost {
			r.Body = received(r.Body)
		}
		v := &visit{Server: s}
		v.enterFor(r)
		defer v.leave()
		h(v, leaving{w, v}, r)
	}
}

// leaving is the answer to a visit.
type leaving struct {
	http.ResponseWriter
	visit *visit
}

func (l leaving) WriteHeader(status int) {
	l.visit.leave()
	l.ResponseWriter.WriteHeader(status)
}

func (l leaving) Write(b []byte) (int, error) {
	l.visit.leave()
	return l.ResponseWriter.Write(b)
}

// received reads a body to its end, and gives it with the error that it ended with.
func received(body io.ReadCloser) io.ReadCloser {
	b, err := io.ReadAll(body)
	return &sent{b: b, err: err}
}

// sent is a body that has been read.
type sent struct {
	b   []byte
	err error // instead of the end
}

func (s *sent) Read(p []byte) (int, error) {
	if len(s.b) == 0 {
		if s.err != nil {
			return 0, s.err
		}
		return 0, io.EOF
	}
	n := copy(p, s.b)
	s.b = s.b[n:]
	return n, nil
}

func (s *sent) Close() error { return nil }
