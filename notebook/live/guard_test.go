package live

import (
	"bytes"
	"context"
	"encoding/json"
	"io"
	"net"
	"net/http"
	"net/http/httptest"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"scarph/notebook"
)

// gate is a server that is asked without a network.
type gate struct {
	t   *testing.T
	s   *Server
	h   http.Handler
	dir string
}

// newGate serves a small journal on an address.
func newGate(t *testing.T, address string, o Options) *gate {
	t.Helper()
	dir := t.TempDir()
	for name, text := range map[string]string{
		"journal.md":       "# Tern\n\n```calc\nbeam = 4 ft\n```\n",
		"2027-01-02.md":    "Beam {beam}.\n",
		"boat.jpg":         "\xff\xd8 not much of a picture",
		"plan.svg":         `<svg xmlns="http://www.w3.org/2000/svg"><script>alert(1)</script></svg>`,
		"notes.txt":        "private",
		".hidden/key.jpg":  "hidden",
		"_out/old.jpg":     "out",
		"sub/2027-01-3.md": "x\n",
	} {
		p := filepath.Join(dir, name)
		if err := os.MkdirAll(filepath.Dir(p), 0o755); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(p, []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	book, err := notebook.Open(dir)
	if err != nil {
		t.Fatal(err)
	}
	o.Now = func() time.Time { return time.Date(2027, 5, 16, 9, 0, 0, 0, time.UTC) }
	s := New(book, o)
	a, err := net.ResolveTCPAddr("tcp", address)
	if err != nil {
		t.Fatal(err)
	}
	s.On(a)
	return &gate{t, s, s.Handler(), dir}
}

// ask sends a request from an address of the network.
func (g *gate) ask(method, target, from string, body []byte, header ...string) *http.Response {
	g.t.Helper()
	r := httptest.NewRequest(method, target, bytes.NewReader(body))
	r.RemoteAddr = from
	for i := 0; i+1 < len(header); i += 2 {
		if header[i] == "Host" {
			r.Host = header[i+1]
		}
		r.Header.Set(header[i], header[i+1])
	}
	w := httptest.NewRecorder()
	g.h.ServeHTTP(w, r)
	return w.Result()
}

const (
	here = "127.0.0.1:50123"
	away = "192.168.1.77:50123"
	home = "http://127.0.0.1:7433"
)

func (g *gate) status(want int, r *http.Response, what string) {
	g.t.Helper()
	if r.StatusCode != want {
		b, _ := io.ReadAll(r.Body)
		g.t.Errorf("%s: %d, want %d: %.200s", what, r.StatusCode, want, b)
	}
}

// TestHost refuses names that are not the server's own: a page that has its name point
// here (rebinding) speaks to a wall.
func TestHost(t *testing.T) {
	g := newGate(t, "127.0.0.1:7433", Options{})
	for host, want := range map[string]int{
		"127.0.0.1:7433": 200, "localhost:7433": 200, "[::1]:7433": 200, "boat.localhost:7433": 200, "LOCALHOST:7433": 200,
		"evil.example:7433": 421, "127.0.0.1:80": 421, "127.0.0.1": 421, "192.168.1.5:7433": 421, "127.0.0.1.evil.example:7433": 421, "": 421, "localhost.evil.example:7433": 421, "0.0.0.0:7433": 421,
	} {
		r := httptest.NewRequest("GET", "/", nil)
		r.Host, r.RemoteAddr = host, here
		w := httptest.NewRecorder()
		g.h.ServeHTTP(w, r)
		if w.Code != want {
			t.Errorf("Host %q: %d, want %d", host, w.Code, want)
		}
	}
}

// TestHeaders holds every answer to the policies.
func TestHeaders(t *testing.T) {
	g := newGate(t, "127.0.0.1:7433", Options{})
	for _, path := range []string{"/", "/entry/2027-01-02", "/list/rework", "/wall/rework", "/write/2027-01-02", "/nothing", "/files/boat.jpg", "/assets/workshop.js", "/events-not", "/card?name=beam"} {
		r := g.ask("GET", home+path, here, nil)
		csp := r.Header.Get("Content-Security-Policy")
		if strings.Contains(csp, "unsafe") || !strings.Contains(csp, "default-src 'none'") || !strings.Contains(csp, "frame-ancestors 'none'") {
			t.Errorf("%s: policy %q", path, csp)
		}
		for name, want := range map[string]string{"X-Content-Type-Options": "nosniff", "X-Frame-Options": "DENY", "Referrer-Policy": "no-referrer", "Cross-Origin-Resource-Policy": "same-origin"} {
			if got := r.Header.Get(name); got != want {
				t.Errorf("%s: %s is %q", path, name, got)
			}
		}
	}
	if csp := g.ask("GET", home+"/files/plan.svg", here, nil).Header.Get("Content-Security-Policy"); !strings.Contains(csp, "sandbox") {
		t.Errorf("a drawing of the journal may run: %q", csp)
	}
	if w := g.ask("GET", home+"/assets/workshop.html", here, nil); w.StatusCode != 404 {
		t.Errorf("a template is served: %d", w.StatusCode)
	}
}

// changes are all requests that write.
var changes = []struct{ path, body string }{
	{"/keep", `{"name":"beam","value":"5 ft","kind":"found"}`}, {"/settle", `{"thing":"x","how":"left"}`}, {"/undo", `{}`},
	{"/begin", `{"title":"x"}`}, {"/save", `{"path":"2027-01-02.md","base":"Beam {beam}.\n","text":"x"}`}, {"/preview", `{"path":"2027-01-02.md","text":"x"}`},
	{"/grid", `{"text":"a 1-2-3"}`}, {"/photo?path=2027-01-02.md", "x"}, {"/rescue", `{"id":"x"}`},
}

// TestChangesNeedTheKey posts every change without the key, from another site and from
// another machine, and finds the folder as it was.
func TestChangesNeedTheKey(t *testing.T) {
	g := newGate(t, "0.0.0.0:7433", Options{})
	before := g.folder()
	pass := (&http.Cookie{Name: g.s.passName(), Value: g.s.door.pass()}).String()
	for _, c := range changes {
		body := []byte(c.body)
		g.status(403, g.ask("POST", home+c.path, here, body), c.path+" without the key")
		g.status(403, g.ask("POST", home+c.path, here, body, keyHeader, "guess"), c.path+" with a guess")
		g.status(403, g.ask("POST", home+c.path, here, body, keyHeader, g.s.door.key, "Origin", "https://evil.example"), c.path+" from another site")
		g.status(403, g.ask("POST", home+c.path, here, body, keyHeader, g.s.door.key, "Sec-Fetch-Site", "cross-site"), c.path+" across sites")
		g.status(403, g.ask("POST", home+c.path, away, body, keyHeader, g.s.door.key), c.path+" from away")
		g.status(403, g.ask("POST", home+c.path, away, body, keyHeader, g.s.door.key, "Cookie", pass), c.path+" from a reader")
		g.status(404, g.ask("GET", home+c.path, here, nil, keyHeader, g.s.door.key), c.path+" by GET")
	}
	if g.folder() != before {
		t.Error("something was written")
	}
	g.status(200, g.ask("POST", home+"/keep", here, []byte(changes[0].body), keyHeader, g.s.door.key, "Sec-Fetch-Site", "same-origin"), "the page itself")
	if g.folder() == before {
		t.Error("nothing was written")
	}
}

// folder is all that lies in the journal.
func (g *gate) folder() string {
	var b strings.Builder
	_ = filepath.WalkDir(g.dir, func(p string, d os.DirEntry, err error) error {
		if err == nil && !d.IsDir() {
			text, _ := os.ReadFile(p)
			b.WriteString(p + "\n" + string(text) + "\n")
		}
		return nil
	})
	return b.String()
}

// TestGetChangesNothing asks for every page and finds the folder as it was.
func TestGetChangesNothing(t *testing.T) {
	g := newGate(t, "127.0.0.1:7433", Options{})
	before := g.folder()
	for _, path := range []string{"/", "/today", "/write/2027-01-02", "/card?name=beam", "/ripple?try=beam=5+ft", "/?try=beam=5+ft", "/?as-of=1", "/read?name=beam&value=5+ft", "/search?q=beam", "/phone", "/rescued", "/vocabulary", "/text?path=2027-01-02.md", "/key", "/list/history", "/wall/cutlist"} {
		g.status(200, g.ask("GET", home+path, here, nil), path)
	}
	if g.folder() != before {
		t.Error("something was written")
	}
}

// TestTheDoor lets in from away only with the token, which becomes a cookie, and lets
// readers write only where that was asked for.
func TestTheDoor(t *testing.T) {
	g := newGate(t, "0.0.0.0:7433", Options{})
	out := "http://192.168.1.5:7433"
	paths := []string{"/", "/entry/2027-01-02", "/events", "/files/boat.jpg", "/assets/workshop.js", "/key", "/text?path=2027-01-02.md", "/card?name=beam", "/wall/rework", "/phone"}
	for _, p := range paths {
		g.status(403, g.ask("GET", out+p, away, nil), p)
		g.status(403, g.ask("GET", out+p, away, nil, "Cookie", g.s.passName()+"="+g.s.door.token), p+" with the token for the pass")
	}
	for _, guess := range []string{"", "x", g.s.door.token[:len(g.s.door.token)-1], g.s.door.token + "x", strings.ToUpper(g.s.door.token), g.s.door.key} {
		g.status(403, g.ask("GET", out+"/?token="+guess, away, nil), "the token "+guess)
	}
	r := g.ask("GET", out+"/list/rework?token="+g.s.door.token+"&as-of=1", away, nil)
	g.status(303, r, "the token")
	if loc := r.Header.Get("Location"); loc != "/list/rework?as-of=1" {
		t.Errorf("it leads to %q", loc)
	}
	c := r.Cookies()
	if len(c) != 1 || !c[0].HttpOnly || c[0].SameSite != http.SameSiteLaxMode || strings.Contains(c[0].Value, g.s.door.token) {
		t.Fatalf("the cookie is %v", c)
	}
	pass := c[0].Name + "=" + c[0].Value
	r = g.ask("GET", out+"/", away, nil, "Cookie", pass)
	g.status(200, r, "with the pass")
	page, _ := io.ReadAll(r.Body)
	if bytes.Contains(page, []byte(g.s.door.key)) || bytes.Contains(page, []byte(g.s.door.token)) {
		t.Error("a reader is told the key")
	}
	for _, p := range []string{"/key", "/text?path=2027-01-02.md"} {
		if r := g.ask("GET", out+p, away, nil, "Cookie", pass); r.StatusCode == 200 {
			t.Errorf("a reader got %s", p)
		}
	}
	for _, p := range []string{"/write/2027-01-02", "/today", "/rescued", "/phone"} {
		g.status(404, g.ask("GET", out+p, away, nil, "Cookie", pass), p)
	}
	if r := g.ask("GET", out+"/%2e%2e//evil.example/?token="+g.s.door.token, away, nil); strings.HasPrefix(r.Header.Get("Location"), "//") {
		t.Errorf("the door leads out: %s", r.Header.Get("Location"))
	}

	w := newGate(t, "0.0.0.0:7433", Options{OthersWrite: true})
	pass = w.s.passName() + "=" + w.s.door.pass()
	w.status(403, w.ask("POST", out+"/keep", away, []byte(changes[0].body), keyHeader, w.s.door.key), "without the pass")
	w.status(200, w.ask("POST", out+"/keep", away, []byte(changes[0].body), keyHeader, w.s.door.key, "Cookie", pass), "a writer from away")
	if g.s.door.token == w.s.door.token || g.s.door.key == w.s.door.key {
		t.Error("two runs share a secret")
	}
}

// TestFilesStayInside asks for what is no picture of the journal in every spelling.
func TestFilesStayInside(t *testing.T) {
	g := newGate(t, "127.0.0.1:7433", Options{})
	outside := t.TempDir()
	if err := os.WriteFile(filepath.Join(outside, "secret.jpg"), []byte("secret"), 0o644); err != nil {
		t.Fatal(err)
	}
	for link, to := range map[string]string{"out.jpg": filepath.Join(outside, "secret.jpg"), "folder": outside, "up.jpg": "../" + filepath.Base(outside) + "/secret.jpg"} {
		if err := os.Symlink(to, filepath.Join(g.dir, link)); err != nil {
			t.Skip(err)
		}
	}
	if err := os.Mkdir(filepath.Join(g.dir, "dir.jpg"), 0o755); err != nil {
		t.Fatal(err)
	}
	g.status(200, g.ask("GET", home+"/files/boat.jpg", here, nil), "a picture")
	for _, p := range []string{
		"journal.md", "notes.txt", ".hidden/key.jpg", "_out/old.jpg", "out.jpg", "up.jpg", "folder/secret.jpg", "dir.jpg", "no.jpg",
		"../" + filepath.Base(outside) + "/secret.jpg", "%2e%2e/secret.jpg", "..%2fsecret.jpg", "%2e%2e%2f%2e%2e%2fetc%2fpasswd", "..%5c..%5csecret.jpg", "//etc/passwd", "/etc/hostname.jpg", "C:/secret.jpg", "C%3a%5csecret.jpg", "boat.jpg%00.md", "boat.jpg/", "sub/../boat.jpg/../../x.jpg", "CON.jpg", "NUL", "nul.jpg", "./.hidden/key.jpg", "sub/%2e%2e/.hidden/key.jpg", "%252e%252e/secret.jpg",
	} {
		r := httptest.NewRequest("GET", home+"/", nil)
		r.URL.Path = "/files/" + p
		if u, err := r.URL.Parse("/files/" + p); err == nil {
			r.URL = u
		}
		r.RemoteAddr, r.Host = here, "127.0.0.1:7433"
		w := httptest.NewRecorder()
		g.h.ServeHTTP(w, r)
		if w.Code == 200 || strings.Contains(w.Body.String(), "secret") {
			t.Errorf("%s: %d %q", p, w.Code, w.Body.String())
		}
	}
}

// TestTooLarge sends more than is taken, and bodies that are no requests.
func TestTooLarge(t *testing.T) {
	g := newGate(t, "127.0.0.1:7433", Options{})
	before := g.folder()
	k := []string{keyHeader, g.s.door.key}
	g.status(413, g.ask("POST", home+"/keep", here, []byte(`{"note":"`+strings.Repeat("x", maxChange)+`"}`), k...), "a long note")
	g.status(413, g.ask("POST", home+"/save", here, []byte(`{"text":"`+strings.Repeat("x", maxText)+`"}`), k...), "a long text")
	g.status(413, g.ask("POST", home+"/photo?path=2027-01-02.md", here, make([]byte, 41<<20), k...), "a large photo")
	g.status(422, g.ask("POST", home+"/photo?path=2027-01-02.md", here, []byte("<svg onload=alert(1)>"), k...), "a photo that is none")
	g.status(404, g.ask("POST", home+"/photo?path=../x.md", here, []byte("x"), k...), "a photo elsewhere")
	g.status(404, g.ask("POST", home+"/photo?path=", here, []byte("x"), k...), "a photo nowhere")
	for _, body := range []string{"", "x", "[]", `{"name":1}`, `{"what":"?"}`, "{}\x00"} {
		if r := g.ask("POST", home+"/keep", here, []byte(body), k...); r.StatusCode < 400 || r.StatusCode >= 500 {
			t.Errorf("%q: %d", body, r.StatusCode)
		}
	}
	for _, c := range []struct{ path, body string }{
		{"/save", `{"path":"../evil.md","base":"","text":"x"}`}, {"/save", `{"path":"/etc/passwd","base":"","text":"x"}`}, {"/save", `{"path":"new.md","base":"","text":"x"}`},
		{"/preview", `{"path":"../evil.md","text":"x"}`},
		{"/keep", `{"name":"beam","value":"5 ft\nmore = 1","kind":"found"}`}, {"/keep", `{"name":"beam","value":"5 ft","kind":"found","note":"a\nb"}`}, {"/keep", `{"name":"beam","value":"5 ft","kind":"work"}`}, {"/keep", `{"name":"beam","value":"5 ft # x","kind":"found"}`},
		{"/keep", `{"name":"beam","value":"5 kg","kind":"found"}`}, {"/keep", `{"name":"beam","value":"19","kind":"found"}`}, {"/keep", `{"name":"nobody","value":"19 in","kind":"found"}`},
		{"/keep", `{"name":"beam","value":"19","at":"journal.md|0"}`}, {"/keep", `{"name":"beam","value":"19 in","at":"journal.md|99"}`}, {"/keep", `{"name":"beam","value":"19 in","at":"nowhere|0"}`},
		{"/settle", `{"thing":"thwart\nbeam = 1 ft","how":"left"}`}, {"/settle", `{"thing":"thwart","how":"burned"}`},
	} {
		if r := g.ask("POST", home+c.path, here, []byte(c.body), k...); r.StatusCode < 400 || r.StatusCode >= 500 {
			b, _ := io.ReadAll(r.Body)
			t.Errorf("%s %s: %d %s", c.path, c.body, r.StatusCode, b)
		}
	}
	if g.folder() != before {
		t.Error("something was written")
	}
}

// TestManyListeners opens a thousand streams; all hear a ripple, and the server ends
// with them open.
func TestManyListeners(t *testing.T) {
	g := newGate(t, "127.0.0.1:0", Options{})
	l, err := net.Listen("tcp", "127.0.0.1:0")
	if err != nil {
		t.Fatal(err)
	}
	ctx, stop := context.WithCancel(context.Background())
	done := make(chan error, 1)
	go func() { done <- g.s.Serve(ctx, l) }()
	const n = 1000
	heard := make(chan bool, n)
	ready := make(chan bool, n)
	client := &http.Client{Transport: &http.Transport{MaxConnsPerHost: 0}}
	for i := 0; i < n; i++ {
		go func() {
			r, err := client.Get("http://" + l.Addr().String() + "/events")
			if err != nil {
				ready <- false
				heard <- false
				return
			}
			defer r.Body.Close()
			buf := make([]byte, 512)
			_, _ = r.Body.Read(buf)
			ready <- true
			m, _ := r.Body.Read(buf)
			heard <- strings.Contains(string(buf[:m]), "beam")
		}()
	}
	for i := 0; i < n; i++ {
		if !<-ready {
			stop()
			t.Skip("this machine does not open a thousand connections")
		}
	}
	if err := os.WriteFile(filepath.Join(g.dir, "2027-01-04.md"), []byte("```calc\nfound beam = 4' 1\"\n```\n"), 0o644); err != nil {
		t.Fatal(err)
	}
	for i := 0; i < n; i++ {
		select {
		case ok := <-heard:
			if !ok {
				t.Fatal("a page did not hear of the ripple")
			}
		case <-time.After(20 * time.Second):
			t.Fatalf("%d pages heard nothing", n-i)
		}
	}
	stop()
	select {
	case err := <-done:
		if err != nil {
			t.Error(err)
		}
	case <-time.After(10 * time.Second):
		t.Error("the server did not end")
	}
}

// TestOffsetsAreKeptAsExpressions keeps a table's cell in the notation of the table.
func TestOffsetsAreKeptAsExpressions(t *testing.T) {
	g := newGate(t, "127.0.0.1:7433", Options{})
	if err := os.WriteFile(filepath.Join(g.dir, "2027-01-02.md"), []byte("| drawn offsets: | st_1 |\n|---|---|\n| sheer | 1-2-3 |\n"), 0o644); err != nil {
		t.Fatal(err)
	}
	g.s.Refresh(context.Background())
	r := g.ask("POST", home+"/keep", here, []byte(`{"name":"offsets.sheer.st_1","value":"1-2-4","kind":"found","note":"read again"}`), keyHeader, g.s.door.key)
	g.status(200, r, "keeping a cell")
	var d done
	if err := json.NewDecoder(r.Body).Decode(&d); err != nil || d.Where != "/entry/2027-05-16" {
		t.Errorf("%+v %v", d, err)
	}
	text, _ := os.ReadFile(filepath.Join(g.dir, "2027-05-16.md"))
	if want := "found offsets.sheer.st_1 = offset(\"1-2-4\")   # read again\n"; !strings.Contains(string(text), want) {
		t.Errorf("the entry is %s", text)
	}
	if v, ok := g.s.sides.book().Session.Value("offsets.sheer.st_1", 1<<30); !ok || !v.OK() {
		t.Errorf("%+v", v)
	}
}
