package live_test

import (
	"context"
	"encoding/json"
	"fmt"
	"net"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/chromedp"

	"scarph/notebook"
	"scarph/notebook/live"
)

// chromium finds the browser; without one the test is skipped, or fails where
// SCARPH_NEEDS_BROWSER says that there must be one.
func chromium(t *testing.T) string {
	t.Helper()
	for _, name := range []string{"chromium-headless-shell", "chromium", "chromium-browser", "google-chrome"} {
		if p, err := exec.LookPath(name); err == nil {
			return p
		}
	}
	if os.Getenv("SCARPH_NEEDS_BROWSER") != "" {
		t.Fatal("no chromium is installed")
	}
	t.Skip("no chromium is installed; these tests drive a browser")
	return ""
}

// browser is one Chromium for the tests of this package.
var browser struct {
	sync.Once
	ctx  context.Context
	stop func()
}

func TestMain(m *testing.M) {
	if dir := os.Getenv(serveInstead); dir != "" {
		serveAsAProcess(dir)
		return
	}
	code := m.Run()
	if browser.stop != nil {
		browser.stop()
	}
	os.Exit(code)
}

func startBrowser(t *testing.T) context.Context {
	path := chromium(t)
	browser.Do(func() {
		alloc, stopAlloc := chromedp.NewExecAllocator(context.Background(), chromedp.ExecPath(path), chromedp.NoSandbox, chromedp.Headless,
			chromedp.Flag("disable-background-networking", true), chromedp.Flag("disable-component-update", true),
			chromedp.Flag("disable-sync", true), chromedp.Flag("no-pings", true), chromedp.Flag("disable-dev-shm-usage", true), chromedp.DisableGPU)
		ctx, stop := chromedp.NewContext(alloc)
		browser.ctx, browser.stop = ctx, func() { stop(); stopAlloc() }
		if _, err := chromedp.Run(ctx, chromedp.Navigate("about:blank")); err != nil {
			t.Fatal(err)
		}
	})
	return browser.ctx
}

// day is today in these tests.
var day = time.Date(2027, 5, 16, 9, 30, 0, 0, time.UTC)

// shop is a journal that is being served.
type shop struct {
	t    *testing.T
	dir  string
	url  string
	stop func()
}

// open serves a copy of a journal.
func open(t *testing.T, journal string) *shop {
	t.Helper()
	s := &shop{t: t, dir: t.TempDir()}
	if err := os.CopyFS(s.dir, os.DirFS(journal)); err != nil {
		t.Fatal(err)
	}
	s.serve("127.0.0.1:0", live.Options{Now: func() time.Time { return day }})
	return s
}

func (s *shop) serve(address string, o live.Options) {
	s.t.Helper()
	s.serveOn(listener(s.t, address), o)
}

// listener listens on an address, which a server that has just ended may hold a little.
func listener(t *testing.T, address string) net.Listener {
	t.Helper()
	for n := 0; ; n++ {
		l, err := net.Listen("tcp", address)
		if err == nil {
			return l
		}
		if n == 100 {
			t.Fatal(err)
		}
		time.Sleep(50 * time.Millisecond)
	}
}

// serveOn serves the journal on a listener until stop.
func (s *shop) serveOn(l net.Listener, o live.Options) {
	s.t.Helper()
	book, err := notebook.Open(s.dir)
	if err != nil {
		s.t.Fatal(err)
	}
	ctx, cancel := context.WithCancel(context.Background())
	done := make(chan error, 1)
	go func() { done <- live.New(book, o).Serve(ctx, l) }()
	s.url = "http://" + l.Addr().String()
	s.stop = sync.OnceFunc(func() {
		cancel()
		if err := <-done; err != nil {
			s.t.Error(err)
		}
	})
	s.t.Cleanup(s.stop)
}

func (s *shop) read(path string) string {
	s.t.Helper()
	b, err := os.ReadFile(filepath.Join(s.dir, path))
	if err != nil {
		s.t.Fatal(err)
	}
	return string(b)
}

// save writes a file as many editors do: a new file, put in the place of the old one.
func (s *shop) save(path, text string) {
	s.t.Helper()
	full := filepath.Join(s.dir, path)
	if err := os.WriteFile(full+"~", []byte(text), 0o644); err != nil {
		s.t.Fatal(err)
	}
	if err := os.Rename(full+"~", full); err != nil {
		s.t.Fatal(err)
	}
}

// tab is an open page.
type tab struct {
	t   *testing.T
	ctx context.Context
	mu  sync.Mutex
	bad []string // what the console complained of
}

// size is a screen.
type size struct {
	name          string
	width, height int64
	touch         bool
}

var (
	desk   = size{"desk", 1280, 900, false}
	phone  = size{"phone", 390, 844, true}
	screen = []size{desk, phone}
)

func newTab(t *testing.T, z size) *tab {
	t.Helper()
	parent := startBrowser(t)
	b := &tab{t: t}
	ctx, cancel := chromedp.NewContext(parent, chromedp.WithNewBrowserContext())
	b.ctx = ctx
	t.Cleanup(func() {
		cancel()
		b.mu.Lock()
		defer b.mu.Unlock()
		for _, x := range b.bad {
			t.Error("console:", x)
		}
	})
	opts := []chromedp.EmulateViewportOption{}
	if z.touch {
		opts = append(opts, chromedp.EmulateMobile, chromedp.EmulateTouch)
	}
	// the first call makes the page; a deadline on it would be one on the page
	if _, err := chromedp.Run(ctx, chromedp.EmulateViewport(z.width, z.height, opts...)); err != nil {
		t.Fatal(err)
	}
	go b.listen()
	return b
}

// listen keeps what the console complains of; lost connections are part of some tests.
func (b *tab) listen() {
	for m, err := range chromedp.Console(b.ctx) {
		if err != nil {
			return
		}
		if (m.Type == chromedp.ConsoleError || m.Type == chromedp.ConsoleException || strings.Contains(m.Text, "Content Security Policy")) && !strings.Contains(m.Text, "Failed to load resource") && !strings.Contains(m.Text, "ERR_") {
			b.mu.Lock()
			b.bad = append(b.bad, m.Text)
			b.mu.Unlock()
		}
	}
}

func (b *tab) run(a ...chromedp.Action[chromedp.Void]) {
	b.t.Helper()
	ctx, cancel := context.WithTimeout(b.ctx, 60*time.Second)
	defer cancel()
	for _, x := range a {
		if _, err := chromedp.Run(ctx, x); err != nil {
			b.t.Fatal(err)
		}
	}
}

// goTo opens a page, and waits for its scripts where it has any.
func (b *tab) goTo(url string) {
	b.t.Helper()
	b.run(chromedp.Navigate(url))
	b.wait(`document.readyState === "complete" && ("ready" in document.documentElement.dataset || !document.querySelector('script[src$="/workshop.js"]'))`)
}

// eval gives what a script comes to.
func eval[T any](b *tab, js string) T {
	b.t.Helper()
	ctx, cancel := context.WithTimeout(b.ctx, 60*time.Second)
	defer cancel()
	v, err := chromedp.Run(ctx, chromedp.Evaluate[T](js, chromedp.EvalAwaitPromise))
	if err != nil {
		b.t.Fatalf("%s: %v", js, err)
	}
	return v
}

// wait waits until a script says true.
func (b *tab) wait(js string) {
	b.t.Helper()
	deadline := time.Now().Add(60 * time.Second)
	for {
		ctx, cancel := context.WithTimeout(b.ctx, 20*time.Second)
		ok, err := chromedp.Run(ctx, chromedp.Evaluate[bool]("!!("+js+")"))
		cancel()
		if err == nil && ok {
			return
		}
		if time.Now().After(deadline) {
			b.shoot("failed")
			b.t.Fatalf("in vain waited for %s (%v)\nthe page says: %.1500s", js, err, eval[string](b, `document.body.innerText`))
		}
		time.Sleep(15 * time.Millisecond)
	}
}

// text is the visible text of the first element that a selector finds.
func (b *tab) text(sel string) string {
	b.t.Helper()
	return eval[string](b, fmt.Sprintf(`(document.querySelector(%s)?.innerText ?? "").replace(/\s+/g, " ").trim()`, quote(sel)))
}

func quote(s string) string {
	j, _ := json.Marshal(s)
	return string(j)
}

// waitText waits until an element's text holds some words.
func (b *tab) waitText(sel, words string) {
	b.t.Helper()
	b.wait(fmt.Sprintf(`[...document.querySelectorAll(%s)].some((x) => x.textContent.replace(/\s+/g, " ").includes(%s))`, quote(sel), quote(words)))
}

func (b *tab) click(sel string) {
	b.t.Helper()
	for n := 0; ; n++ {
		b.wait(fmt.Sprintf(`document.querySelector(%s)`, quote(sel)))
		ctx, cancel := context.WithTimeout(b.ctx, 60*time.Second)
		_, err := chromedp.Run(ctx, chromedp.Click(sel))
		cancel()
		if err == nil {
			return
		}
		if n == 2 || !strings.Contains(err.Error(), "Could not find node") { // it was replaced meanwhile
			b.shoot("failed")
			b.t.Fatalf("click %s: %v", sel, err)
		}
	}
}

// fill puts a text into a field, as typing would.
func (b *tab) fill(sel, text string) {
	b.t.Helper()
	b.wait(fmt.Sprintf(`document.querySelector(%s)`, quote(sel)))
	eval[bool](b, fmt.Sprintf(`(() => { const f = document.querySelector(%s); f.focus(); f.select(); document.execCommand("insertText", false, %s); return true })()`, quote(sel), quote(text)))
}

func (b *tab) keys(text string, o ...chromedp.KeyOption) {
	b.t.Helper()
	b.run(chromedp.KeyEvent(text, o...))
}

// dark switches the page to the dark of the evening.
func (b *tab) dark(on bool) {
	b.t.Helper()
	value := "light"
	if on {
		value = "dark"
	}
	_, err := chromedp.Call(b.ctx, emulation.SetEmulatedMedia, emulation.SetEmulatedMediaParams{Features: []*emulation.MediaFeature{{Name: "prefers-color-scheme", Value: value}}})
	if err != nil {
		b.t.Fatal(err)
	}
}

// shoot keeps a picture of the page where SCARPH_PICTURES names a folder.
func (b *tab) shoot(name string) {
	b.t.Helper()
	dir := os.Getenv("SCARPH_PICTURES")
	if dir == "" {
		return
	}
	ctx, cancel := context.WithTimeout(b.ctx, 60*time.Second)
	defer cancel()
	png, err := chromedp.Run(ctx, chromedp.CaptureScreenshot())
	if err != nil {
		b.t.Log(err)
		return
	}
	name = strings.NewReplacer("/", "-", " ", "_").Replace(b.t.Name() + "-" + name)
	if err := os.WriteFile(filepath.Join(dir, name+".png"), png, 0o644); err != nil {
		b.t.Fatal(err)
	}
}

// files lists what lies in the journal's folder.
func (s *shop) files() []string {
	s.t.Helper()
	list, err := os.ReadDir(s.dir)
	if err != nil {
		s.t.Fatal(err)
	}
	var names []string
	for _, d := range list {
		names = append(names, d.Name())
	}
	return names
}

// caretAt puts the caret before some words of the text.
func (b *tab) caretAt(words string) {
	b.t.Helper()
	b.wait(`document.querySelector("#text")`)
	eval[bool](b, fmt.Sprintf(`(() => { const f = document.querySelector("#text"), i = f.value.indexOf(%s); f.focus(); f.setSelectionRange(i, i); return i >= 0 })()`, quote(words)))
}

// typeText types at the caret of what has the focus.
func (b *tab) typeText(text string) {
	b.t.Helper()
	for i, line := range strings.Split(text, "\n") {
		if i > 0 {
			eval[bool](b, `(document.execCommand("insertLineBreak"), true)`)
		}
		if line != "" {
			eval[bool](b, fmt.Sprintf(`(document.execCommand("insertText", false, %s), true)`, quote(line)))
		}
	}
}

// typeAtEnd types at the end of the text.
func (b *tab) typeAtEnd(text string) {
	b.t.Helper()
	b.wait(`document.querySelector("#text")`)
	eval[bool](b, `(() => { const f = document.querySelector("#text"); f.focus(); f.setSelectionRange(f.value.length, f.value.length); return true })()`)
	if text != "" {
		b.typeText(text)
	}
}

// holds waits until a file holds a text, as after a save.
func (s *shop) holds(path, want string) {
	s.t.Helper()
	deadline := time.Now().Add(60 * time.Second)
	for {
		got, _ := os.ReadFile(filepath.Join(s.dir, path)) // it may be made by and by
		if string(got) == want {
			return
		}
		if time.Now().After(deadline) {
			s.t.Errorf("%s is\n%s\nwant\n%s", path, got, want)
			return
		}
		time.Sleep(20 * time.Millisecond)
	}
}
