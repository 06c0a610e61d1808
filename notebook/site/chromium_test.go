package site_test

import (
	"context"
	"encoding/json"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/chromedp/chromedp"
)

// shared is the one Chromium of this package's tests.
var shared struct {
	sync.Once
	ctx  context.Context
	stop []func()
}

func TestMain(m *testing.M) {
	if job := os.Getenv(asChild); job != "" {
		os.Exit(publishAsChild(job))
	}
	code := m.Run()
	for _, f := range shared.stop {
		f()
	}
	os.Exit(code)
}

// chromium starts the browser; without one a test is skipped, or fails where
// SCARPH_NEEDS_BROWSER says that there must be one.
func chromium(t *testing.T) context.Context {
	t.Helper()
	path := ""
	for _, name := range []string{"chromium-headless-shell", "chromium", "chromium-browser", "google-chrome"} {
		if p, err := exec.LookPath(name); err == nil && path == "" {
			path = p
		}
	}
	if path == "" {
		if os.Getenv("SCARPH_NEEDS_BROWSER") != "" {
			t.Fatal("no chromium is installed")
		}
		t.Skip("no chromium is installed; this test drives a browser")
	}
	shared.Do(func() {
		alloc, stopAlloc := chromedp.NewExecAllocator(context.Background(), chromedp.ExecPath(path), chromedp.NoSandbox, chromedp.Headless, chromedp.DisableGPU,
			chromedp.Flag("disable-background-networking", true), chromedp.Flag("disable-component-update", true), chromedp.Flag("disable-sync", true),
			chromedp.Flag("no-pings", true), chromedp.Flag("disable-dev-shm-usage", true), chromedp.Flag("hide-scrollbars", true))
		ctx, stop := chromedp.NewContext(alloc)
		shared.ctx, shared.stop = ctx, []func(){stop, stopAlloc}
		if _, err := chromedp.Run(ctx, chromedp.Navigate("about:blank")); err != nil {
			t.Fatal(err)
		}
	})
	return shared.ctx
}

// patience is how long a busy machine may take for anything.
const patience = 2 * time.Minute

// tab is a page that a test looks at.
type tab struct {
	t   *testing.T
	ctx context.Context
	mu  sync.Mutex
	bad []string // what the console complained of
}

func newTab(t *testing.T, width, height int64) *tab {
	t.Helper()
	b := &tab{t: t}
	ctx, cancel := chromedp.NewContext(chromium(t), chromedp.WithNewBrowserContext())
	b.ctx = ctx
	t.Cleanup(func() {
		cancel()
		b.mu.Lock()
		defer b.mu.Unlock()
		for _, x := range b.bad {
			t.Error("console:", x)
		}
	})
	if _, err := chromedp.Run(ctx, chromedp.EmulateViewport(width, height)); err != nil {
		t.Fatal(err)
	}
	go func() {
		for m, err := range chromedp.Console(ctx) {
			if err != nil {
				return
			}
			if m.Type == chromedp.ConsoleError || m.Type == chromedp.ConsoleException || strings.Contains(m.Text, "Content Security Policy") {
				b.mu.Lock()
				b.bad = append(b.bad, m.Text)
				b.mu.Unlock()
			}
		}
	}()
	return b
}

func (b *tab) goTo(url string) {
	b.t.Helper()
	ctx, cancel := context.WithTimeout(b.ctx, patience)
	defer cancel()
	if _, err := chromedp.Run(ctx, chromedp.Navigate(url)); err != nil {
		b.t.Fatal(url, err)
	}
	b.wait(`document.readyState === "complete"`)
}

// eval gives what a script comes to.
func eval[T any](b *tab, js string) T {
	b.t.Helper()
	ctx, cancel := context.WithTimeout(b.ctx, patience)
	defer cancel()
	v, err := chromedp.Run(ctx, chromedp.Evaluate[T](js, chromedp.EvalAwaitPromise))
	if err != nil {
		b.t.Fatalf("%s: %v", js, err)
	}
	return v
}

// do runs a script for what it does.
func (b *tab) do(js string) {
	b.t.Helper()
	eval[bool](b, "(() => { "+js+"; return true; })()")
}

// wait waits until a script says true.
func (b *tab) wait(js string) {
	b.t.Helper()
	for deadline := time.Now().Add(patience); ; time.Sleep(10 * time.Millisecond) {
		ctx, cancel := context.WithTimeout(b.ctx, patience)
		ok, err := chromedp.Run(ctx, chromedp.Evaluate[bool]("!!("+js+")"))
		cancel()
		if err == nil && ok {
			return
		}
		if time.Now().After(deadline) {
			b.t.Fatalf("in vain waited for %s (%v)\nthe page says: %.1500s", js, err, eval[string](b, `document.body.innerText`))
		}
	}
}

// text is the visible text of the first element that a selector finds.
func (b *tab) text(sel string) string {
	b.t.Helper()
	return eval[string](b, fmt.Sprintf(`(document.querySelector(%s)?.innerText ?? "").replace(/\s+/g, " ").trim()`, quoted(sel)))
}

func quoted(s string) string {
	j, _ := json.Marshal(s)
	return string(j)
}

// tries puts a number in place of a value as a reader does: by its card.
func (b *tab) tries(name, text string) {
	b.t.Helper()
	b.do(`document.querySelector('a.v[data-name="` + name + `"]').click()`)
	b.wait(`document.getElementById("try").open`)
	b.do(`document.getElementById("try-text").value = ` + quoted(text) + `; document.querySelector("#try .go").click()`)
}

// shoot keeps a picture of the page where SCARPH_SHOTS names a folder.
func (b *tab) shoot(name string) {
	b.t.Helper()
	dir := os.Getenv("SCARPH_SHOTS")
	if dir == "" {
		return
	}
	png, err := chromedp.Run(b.ctx, chromedp.FullScreenshot(100))
	if err != nil {
		b.t.Log(err)
		return
	}
	if err := os.WriteFile(filepath.Join(dir, name+".png"), png, 0o644); err != nil {
		b.t.Log(err)
	}
}
