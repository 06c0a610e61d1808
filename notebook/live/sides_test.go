package live

import (
	"context"
	"io"
	"net/http"
	"net/http/httptest"
	"os"
	"path/filepath"
	"runtime"
	"strings"
	"testing"
	"time"

	"scarph/notebook"
)

// endless takes longer to work out than a change is worked on.
func endless() string {
	return "```calc\n" + strings.Repeat("sum(map(1..900, sum(map(1..1000, it * 2))))\n", 20_000) + "beam_twice = beam * 2\n```\n"
}

func (g *gate) page(path string) string {
	g.t.Helper()
	r := g.ask("GET", home+path, here, nil)
	b, err := io.ReadAll(r.Body)
	if err != nil || r.StatusCode != http.StatusOK {
		g.t.Errorf("%s: %d, %v", path, r.StatusCode, err)
	}
	return string(b)
}

func (g *gate) put(name, text string) {
	g.t.Helper()
	if err := os.WriteFile(filepath.Join(g.dir, name), []byte(text), 0o644); err != nil {
		g.t.Fatal(err)
	}
}

// TestPagesDoNotWaitForAChange begins a change that takes for ever, asks for pages of all
// kinds while it is worked on, and stops it then. Each page shows the journal before the
// change, whole; afterwards all show it with the change.
func TestPagesDoNotWaitForAChange(t *testing.T) {
	g := newGate(t, "127.0.0.1:7433", Options{})
	g.put("2027-01-09.md", endless())
	g.put("2027-01-02.md", "Beam is now {beam}.\n")
	ctx, stop := context.WithCancel(context.Background())
	defer stop()
	begun, ended := make(chan *notebook.Notebook, 1), make(chan notebook.Change, 1)
	go func() {
		c, _ := g.s.sides.change(func(n *notebook.Notebook) (notebook.Change, error) {
			begun <- n
			return n.Refresh(ctx)
		})
		ended <- c
	}()
	n := <-begun
	for working := false; !working; { // until the notebook is held by the work
		free := make(chan string, 1)
		go func() { free <- n.Title() }()
		select {
		case <-free:
		case <-time.After(50 * time.Millisecond):
			working = true
		}
	}
	for _, path := range []string{"/", "/entry/2027-01-02", "/list/dimensions", "/list/history", "/wall/cutlist", "/search?q=beam", "/card?name=beam", "/?as-of=1", "/?try=beam%3D5+ft", "/write/2027-01-02", "/read?name=beam&value=5+ft", "/text?path=2027-01-02.md", "/vocabulary"} {
		if text := g.page(path); strings.Contains(text, "beam_twice") || strings.Contains(text, "Beam is now") {
			t.Errorf("%s shows a change that is being worked on", path)
		}
	}
	select {
	case <-ended:
		t.Fatal("the change was over before the pages were asked for: nothing is shown")
	default:
	}
	stop()
	if c := <-ended; len(c.Files) != 2 {
		t.Errorf("the change is %v", c.Files)
	}
	if text := g.page("/entry/2027-01-02"); !strings.Contains(text, "Beam is now") {
		t.Error("afterwards the page is the old one")
	}
	if text := g.page("/entry/2027-01-09"); !strings.Contains(text, "interrupted") {
		t.Error("a line that was not reached does not say so")
	}
	if err := os.Remove(filepath.Join(g.dir, "2027-01-09.md")); err != nil {
		t.Fatal(err)
	}
	for _, turn := range []string{"3 ft", "2 ft", "1 ft"} { // both sides follow
		g.put("journal.md", "# Tern\n\n```calc\nbeam = "+turn+"\n```\n")
		g.s.Refresh(context.Background())
		if text := g.page("/entry/2027-01-02"); !strings.Contains(text, strings.Replace(turn, " ft", "&#39;", 1)) {
			t.Errorf("beam is not %s", turn)
		}
	}
}

// TestNobodyWaitsForALookBack asks for an earlier day that takes for ever to work out, as it
// stands and as a number is tried. Pages are answered and changes shown meanwhile, and the
// work ends when who asked goes away.
func TestNobodyWaitsForALookBack(t *testing.T) {
	g := newGate(t, "127.0.0.1:7433", Options{})
	g.put("2027-01-01.md", "```calc\nlong = 900\n"+strings.Repeat("sum(map(1..long, sum(map(1..1000, it * 2))))\n", 600)+"```\n")
	g.put("2027-01-09.md", "```calc\nrevise long = 1\n```\n")
	g.s.Refresh(context.Background())
	for i, path := range []string{"/entry/2027-01-01?as-of=3", "/entry/2027-01-01?try=long%3D900"} {
		ctx, leave := context.WithCancel(context.Background())
		answered := make(chan bool)
		go func() {
			r, _ := http.NewRequestWithContext(ctx, "GET", home+path, nil)
			r.RemoteAddr = here
			g.h.ServeHTTP(httptest.NewRecorder(), r)
			close(answered)
		}()
		for g.s.sides.aside.mu.TryLock() { // until it is asked
			g.s.sides.aside.mu.Unlock()
			runtime.Gosched()
		}
		for _, turn := range []string{"3 ft", "2 ft"} {
			g.put("journal.md", "# Tern\n\n```calc\nbeam = "+turn+"\n```\n")
			g.s.Refresh(context.Background())
			if text := g.page("/"); !strings.Contains(text, strings.Replace(turn, " ft", "&#39;", 1)) {
				t.Errorf("beam is not %s", turn)
			}
		}
		select {
		case <-answered:
			t.Fatalf("%d: the look back was over: nothing is shown", i)
		default:
		}
		leave()
		<-answered
	}
	if text := g.page("/?as-of=1"); !strings.Contains(text, "2&#39;") {
		t.Error("an earlier day is not the last state of it")
	}
}

// TestASlowLineHoldsNothingUp asks for a page and does not take the answer, and sends a
// change whose body does not end: changes go on.
func TestASlowLineHoldsNothingUp(t *testing.T) {
	g := newGate(t, "127.0.0.1:7433", Options{})
	stuck := make(chan struct{})
	defer close(stuck)
	writing := make(chan struct{})
	go func() {
		r, _ := http.NewRequest("GET", home+"/", nil)
		r.RemoteAddr = here
		g.h.ServeHTTP(&stuckAnswer{header: http.Header{}, writing: writing, until: stuck}, r)
	}()
	<-writing
	body, w := io.Pipe()
	defer w.Close()
	go func() {
		r, _ := http.NewRequest("POST", home+"/keep", body)
		r.RemoteAddr = here
		r.Header.Set(keyHeader, g.s.door.key)
		g.h.ServeHTTP(&stuckAnswer{header: http.Header{}, until: stuck}, r)
	}()
	if _, err := io.WriteString(w, `{"name":`); err != nil { // it is being read
		t.Fatal(err)
	}
	for _, turn := range []string{"3 ft", "2 ft", "1 ft"} {
		g.put("journal.md", "# Tern\n\n```calc\nbeam = "+turn+"\n```\n")
		g.s.Refresh(context.Background())
		if text := g.page("/"); !strings.Contains(text, strings.Replace(turn, " ft", "&#39;", 1)) {
			t.Errorf("beam is not %s", turn)
		}
	}
}

// stuckAnswer is an answer that nobody takes.
type stuckAnswer struct {
	header  http.Header
	writing chan struct{}
	until   chan struct{}
}

func (s *stuckAnswer) Header() http.Header { return s.header }
func (s *stuckAnswer) WriteHeader(int)     {}
func (s *stuckAnswer) Write(b []byte) (int, error) {
	if s.writing != nil {
		close(s.writing)
		s.writing = nil
	}
	<-s.until
	return len(b), nil
}
