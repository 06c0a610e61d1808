package main

import (
	"bufio"
	"bytes"
	"context"
	"encoding/json"
	"fmt"
	"io"
	"math/rand"
	"net"
	"net/http"
	"net/url"
	"os"
	"path/filepath"
	"strings"
	"sync"
	"sync/atomic"
	"testing"
	"time"

	"scarph/calc"
	"scarph/kernel"
	"scarph/notebook"
	"scarph/notebook/live"
	"scarph/notebook/site"
)

// soak is a journal that everybody works on at once.
type soak struct {
	t    *testing.T
	dir  string
	url  string
	key  string
	book *notebook.Notebook
	stop chan struct{}  // closed when it is enough
	work sync.WaitGroup // of those that do something
	wait sync.WaitGroup // of those that listen
	// what was done
	saves, kept, clashes, pages, ripples, trials, publishes atomic.Int64
}

func (s *soak) over() bool {
	select {
	case <-s.stop:
		return true
	default:
		return false
	}
}

// do runs a worker until it is enough.
func (s *soak) do(seed int64, step func(rnd *rand.Rand, turn int)) {
	s.work.Add(1)
	go func() {
		defer s.work.Done()
		rnd := rand.New(rand.NewSource(seed))
		for turn := 0; !s.over(); turn++ {
			step(rnd, turn)
		}
	}()
}

// get fetches a page; while the server is being ended nothing is asked of it.
func (s *soak) get(path string) string {
	r, err := http.Get(s.url + path)
	if err != nil {
		s.t.Errorf("%s: %v", path, err)
		return ""
	}
	defer r.Body.Close()
	text, err := io.ReadAll(r.Body)
	if err != nil || r.StatusCode >= 500 {
		s.t.Errorf("%s: %d, %v", path, r.StatusCode, err)
	}
	return string(text)
}

// post sends a change and gives the status.
func (s *soak) post(path string, body any) int {
	text, _ := json.Marshal(body)
	r, _ := http.NewRequest("POST", s.url+path, bytes.NewReader(text))
	r.Header.Set("Scarph-Key", s.key)
	w, err := http.DefaultClient.Do(r)
	if err != nil {
		s.t.Errorf("%s: %v", path, err)
		return 0
	}
	defer w.Body.Close()
	_, _ = io.Copy(io.Discard, w.Body)
	if w.StatusCode >= 500 {
		s.t.Errorf("%s: %d", path, w.StatusCode)
	}
	return w.StatusCode
}

// listen is a page that waits for ripples.
func (s *soak) listen(ctx context.Context) {
	s.wait.Add(1)
	go func() {
		defer s.wait.Done()
		r, _ := http.NewRequestWithContext(ctx, "GET", s.url+"/events", nil)
		w, err := http.DefaultClient.Do(r)
		if err != nil {
			return
		}
		defer w.Body.Close()
		for in := bufio.NewScanner(w.Body); in.Scan(); {
			if strings.HasPrefix(in.Text(), "event: ripple") {
				s.ripples.Add(1)
			}
		}
	}()
}

// TestSoak lets editors, pages, what-ifs, changes from pages and publishes work on one
// journal at once. At the end every line that somebody was told is saved stands there once,
// and the journal that was followed all the while is the one that is opened anew.
// SCARPH_LONG soaks it for two minutes, SCARPH_SOAK for as long as it says (10m); it is
// meant to run under -race.
func TestSoak(t *testing.T) {
	long := 3 * time.Second
	if os.Getenv("SCARPH_LONG") != "" {
		long = 2 * time.Minute
	}
	if d, err := time.ParseDuration(os.Getenv("SCARPH_SOAK")); err == nil {
		long = d
	}
	s := &soak{t: t, dir: t.TempDir(), stop: make(chan struct{})}
	if err := os.CopyFS(s.dir, os.DirFS("../../examples/guide")); err != nil {
		t.Fatal(err)
	}
	first := "---\ntitle: Soaked\n---\n\n```calc\nsoak_beam = 4 ft\nsoak_inside = soak_beam - 2 in\npart soak_thwart: 2 of 3/4\" by 7\" by soak_inside in larch\nmade soak_thwart: 1\n```\n\nIt is {soak_inside}.\n"
	if err := os.WriteFile(filepath.Join(s.dir, "2027-03-01-soak.md"), []byte(first), 0o644); err != nil {
		t.Fatal(err)
	}
	var err error
	if s.book, err = notebook.Open(s.dir); err != nil {
		t.Fatal(err)
	}
	l, err := net.Listen("tcp", "127.0.0.1:0")
	if err != nil {
		t.Fatal(err)
	}
	var clock atomic.Int64 // runs backwards now and then
	clock.Store(time.Date(2027, 5, 16, 12, 0, 0, 0, time.UTC).Unix())
	server := live.New(s.book, live.Options{Now: func() time.Time { return time.Unix(clock.Load(), 0).UTC() }})
	ctx, cancel := context.WithCancel(context.Background())
	served := make(chan error, 1)
	go func() { served <- server.Serve(ctx, l) }()
	s.url = "http://" + l.Addr().String()
	var key struct{ Key string }
	if err := json.Unmarshal([]byte(s.get("/key")), &key); err != nil {
		t.Fatal(err)
	}
	s.key = key.Key

	var ours [2]atomic.Int64 // lines that each editor has saved
	for i := range ours {
		path := filepath.Join(s.dir, fmt.Sprintf("2027-04-0%d-editor.md", i+1))
		text := "# Editor\n\n"
		s.do(int64(i), func(rnd *rand.Rand, turn int) { // as editors save: beside it, and then in its place
			text += fmt.Sprintf("Line %d of editor %d.\n\n```calc\nfound soak_%d_%d = %d in ± 1/16 in\n```\n\n", turn, i, i, turn, turn+1)
			if err := os.WriteFile(path+"~", []byte(text), 0o644); err != nil {
				t.Error(err)
			}
			if err := os.Rename(path+"~", path); err != nil {
				t.Error(err)
			}
			old := time.Unix(clock.Load()-int64(rnd.Intn(1e6)), 0)
			_ = os.Chtimes(path, old, old) // a clock that was put back
			ours[i].Store(int64(turn + 1))
			s.saves.Add(1)
			time.Sleep(time.Duration(20+rnd.Intn(60)) * time.Millisecond)
		})
	}
	s.do(10, func(rnd *rand.Rand, turn int) { // a page that keeps numbers
		clock.Add(int64(rnd.Intn(400_000) - 200_000))
		switch s.post("/keep", map[string]string{"name": "soak_beam", "value": fmt.Sprintf("%d in", 40+turn%20), "kind": "revise", "note": fmt.Sprintf("kept %d", turn)}) {
		case 200:
			s.kept.Add(1)
		case 409:
			s.clashes.Add(1)
		}
		if turn%5 == 4 {
			s.post("/undo", map[string]string{})
		}
		time.Sleep(time.Duration(rnd.Intn(40)) * time.Millisecond)
	})
	paths := []string{"/", "/entry/2027-03-01-soak", "/list/dimensions", "/list/history", "/list/rework", "/wall/cutlist", "/search?q=soak", "/card?name=soak_inside", "/?as-of=2", "/entry/2027-04-01-editor"}
	for i := range 2 {
		s.do(20+int64(i), func(rnd *rand.Rand, _ int) {
			s.get(paths[rnd.Intn(len(paths))])
			s.pages.Add(1)
		})
	}
	s.do(30, func(rnd *rand.Rand, _ int) { // a hand on a number
		v := url.QueryEscape(fmt.Sprintf("soak_beam=%d in", 30+rnd.Intn(30)))
		s.get([]string{"/entry/2027-03-01-soak?try=", "/ripple?try=", "/list/rework?try="}[rnd.Intn(3)] + v)
		s.trials.Add(1)
	})
	s.do(40, func(rnd *rand.Rand, _ int) { // a text that is proofed while it is written
		s.post("/preview", map[string]any{"path": "2027-03-01-soak.md", "text": first + fmt.Sprintf("\n{soak_inside + %d in}\n", rnd.Intn(9))})
	})
	s.do(50, func(rnd *rand.Rand, _ int) {
		n, err := notebook.Open(s.dir)
		if err == nil {
			_, err = site.Publish(n, filepath.Join(filepath.Dir(s.dir), "site"), site.Options{AsOf: kernel.Now, Anyway: true})
		}
		if err != nil && !strings.Contains(err.Error(), "no such file") { // a file that an editor is just exchanging
			t.Error(err)
		}
		s.publishes.Add(1)
	})
	for range 20 {
		s.listen(ctx)
	}
	time.Sleep(long)
	close(s.stop)
	s.work.Wait() // each ends what it has begun, before the server is ended
	settled(t, s, &ours)
	cancel()
	select {
	case err := <-served:
		if err != nil {
			t.Error(err)
		}
	case <-time.After(30 * time.Second):
		t.Fatal("the server does not end")
	}
	s.wait.Wait()
	t.Logf("%v: %d saves by editors, %d numbers kept, %d refused as clashes, %d pages, %d what-ifs, %d publishes, %d ripples heard by 20 pages; 0 lost", long, s.saves.Load(), s.kept.Load(), s.clashes.Load(), s.pages.Load(), s.trials.Load(), s.publishes.Load(), s.ripples.Load())
}

// settled waits until the journal that is followed knows the last saves, and compares it
// with one that is opened anew.
func settled(t *testing.T, s *soak, ours *[2]atomic.Int64) {
	t.Helper()
	var cold *notebook.Notebook
	for deadline := time.Now().Add(time.Minute); ; time.Sleep(50 * time.Millisecond) {
		var err error
		if cold, err = notebook.Open(s.dir); err != nil {
			t.Fatal(err)
		}
		if values(cold) == values(s.book) {
			break
		}
		if time.Now().After(deadline) {
			t.Fatalf("followed, the journal is\n%s\nopened anew\n%s", values(s.book), values(cold))
		}
	}
	for i := range ours {
		text, err := os.ReadFile(filepath.Join(s.dir, fmt.Sprintf("2027-04-0%d-editor.md", i+1)))
		if err != nil {
			t.Fatal(err)
		}
		for k := range int(ours[i].Load()) {
			if n := strings.Count(string(text), fmt.Sprintf("Line %d of editor %d.\n", k, i)); n != 1 {
				t.Errorf("line %d of editor %d stands there %d times", k, i, n)
			}
		}
	}
}

// values writes what every name of a journal stands for.
func values(n *notebook.Notebook) string {
	var b strings.Builder
	for _, d := range n.Session.Dimensions(kernel.Now) {
		text := d.Result.Trouble()
		if d.Result.OK() {
			text = calc.Style{}.Text(d.Result.Value)
		}
		b.WriteString(d.Name + " = " + text + "\n")
	}
	return b.String()
}
