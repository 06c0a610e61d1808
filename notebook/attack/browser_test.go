package attack_test

import (
	"context"
	"fmt"
	"io"
	"net"
	"net/http"
	"net/http/httptest"
	"os"
	"os/exec"
	"slices"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/chromedp/cdproto/page"
	"github.com/chromedp/chromedp"
)

// snare is a Chromium in which trap() and the dialogs keep what called them, and whose
// every connection to another machine ends at a door of ours, where it is noted.
type snare struct {
	t    *testing.T
	ctx  context.Context
	door net.Listener
	mu   sync.Mutex
	came []string
}

// trap is put into every page and frame before anything of its own.
const trap = `(() => {
	const calls = [];
	const caught = (how) => (...what) => { calls.push(how + " " + what.join()); return false; };
	for (const name of ["trap", "alert", "confirm", "prompt", "print", "open"]) {
		Object.defineProperty(window, name, { value: caught(name), writable: false, configurable: false });
	}
	Object.defineProperty(window, "caught", { value: calls, writable: false, configurable: false });
	addEventListener("securitypolicyviolation", (e) => { if (e.effectiveDirective.startsWith("script")) calls.push("policy stopped " + e.blockedURI + " " + e.sample); });
})()`

// newSnare starts the browser; lax leaves out the policies of pages, so that what they
// would have stopped runs.
func newSnare(t *testing.T, lax bool) *snare {
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
		t.Skip("no chromium is installed; this test opens pages in a browser")
	}
	b := &snare{t: t}
	var err error
	if b.door, err = net.Listen("tcp", "127.0.0.1:0"); err != nil {
		t.Fatal(err)
	}
	go b.watch()
	alloc, stopAlloc := chromedp.NewExecAllocator(context.Background(), chromedp.ExecPath(path), chromedp.NoSandbox, chromedp.Headless, chromedp.DisableGPU,
		chromedp.Flag("disable-background-networking", true), chromedp.Flag("disable-component-update", true), chromedp.Flag("disable-sync", true),
		chromedp.Flag("no-pings", true), chromedp.Flag("disable-dev-shm-usage", true),
		chromedp.Flag("host-resolver-rules", fmt.Sprintf("MAP * 127.0.0.1:%d, EXCLUDE 127.0.0.1", b.door.Addr().(*net.TCPAddr).Port)))
	ctx, stop := chromedp.NewContext(alloc)
	b.ctx = ctx
	t.Cleanup(func() { stop(); stopAlloc(); b.door.Close() })
	if _, err := chromedp.Run(ctx, chromedp.Navigate("about:blank")); err != nil {
		t.Fatal(err)
	}
	if _, err := chromedp.Call(ctx, page.Enable, page.EnableParams{}); err != nil {
		t.Fatal(err)
	}
	if _, err := chromedp.Call(ctx, page.AddScriptToEvaluateOnNewDocument, page.AddScriptToEvaluateOnNewDocumentParams{Source: trap}); err != nil {
		t.Fatal(err)
	}
	if _, err := chromedp.Call(ctx, page.SetBypassCSP, page.SetBypassCSPParams{Enabled: lax}); err != nil {
		t.Fatal(err)
	}
	return b
}

// watch notes who comes to the door: the name stands in the first bytes, also of TLS.
func (b *snare) watch() {
	for {
		c, err := b.door.Accept()
		if err != nil {
			return
		}
		go func() {
			defer c.Close()
			_ = c.SetReadDeadline(time.Now().Add(5 * time.Second))
			buf := make([]byte, 4<<10)
			n, _ := c.Read(buf)
			b.mu.Lock()
			b.came = append(b.came, string(buf[:n]))
			b.mu.Unlock()
		}()
	}
}

// visitors are those at the door who speak of a host of the attacks; the browser's own
// calls home are no page's doing.
func (b *snare) visitors() []string {
	b.mu.Lock()
	defer b.mu.Unlock()
	return slices.DeleteFunc(slices.Clone(b.came), func(s string) bool { return !strings.Contains(s, ".test") })
}

// open opens a page, in which nothing may be caught.
func (b *snare) open(address string) {
	b.t.Helper()
	for _, how := range b.caught(address) {
		b.t.Errorf("%s: %s", address, how)
	}
}

// caught opens a page, does in it what a reader's hand may set off, and says what ran.
func (b *snare) caught(address string) []string {
	b.t.Helper()
	ctx, cancel := context.WithTimeout(b.ctx, 2*time.Minute)
	defer cancel()
	if _, err := chromedp.Run(ctx, chromedp.Navigate(address)); err != nil {
		b.t.Fatalf("%s: %v", address, err)
	}
	got, err := chromedp.Run(ctx, chromedp.Evaluate[[]string](touch, chromedp.EvalAwaitPromise))
	if err != nil {
		b.t.Fatalf("%s: %v", address, err)
	}
	return got
}

// touch sets off every handler that stands in the page, follows no link, and gives what
// was caught. Of what takes the focus the first 500 get it: each has the whole page laid
// out again, and a handler for the focus has been set off as every other.
const touch = `(async () => {
	const found = [];
	for (const e of document.querySelectorAll("*")) {
		for (const a of e.attributes) {
			if (a.name.startsWith("on")) { found.push("a handler: " + e.outerHTML.slice(0, 200)); e.dispatchEvent(new Event(a.name.slice(2))); }
		}
		for (const u of [e.href, e.src, e.action, e.formAction, e.data]) {
			const where = typeof u === "object" && u ? u.baseVal : u;
			if (typeof where === "string" && /^(javascript|vbscript|data:text|blob|filesystem)/i.test(where)) found.push("an address: " + e.outerHTML.slice(0, 200));
		}
	}
	for (const x of document.querySelectorAll("details")) x.open = true;
	for (const x of [...document.querySelectorAll("a[href], button, input, summary, [tabindex]")].slice(0, 500)) x.focus?.({ preventScroll: true });
	await new Promise((done) => setTimeout(done, 30));
	return found.concat(window.caught ?? ["no trap was laid"]);
})()`

// close asks at the door who came.
func (b *snare) close() {
	b.t.Helper()
	for _, who := range b.visitors() {
		b.t.Errorf("a page asked another machine: %.200q", who)
	}
}

// TestSnareCatches shows the snare a page that runs what it should not and asks another
// machine: a browser in which nothing is caught would let every test of this folder pass.
func TestSnareCatches(t *testing.T) {
	server := httptest.NewServer(http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		if r.URL.Path == "/strict" {
			w.Header().Set("Content-Security-Policy", "default-src 'none'")
		}
		w.Header().Set("Content-Type", "text/html")
		_, _ = io.WriteString(w, `<img src="http://evil.test/x.png"><script>trap("ran")</script><p onfocus="alert(1)">Here</p>`)
	}))
	defer server.Close()
	for _, c := range []struct {
		lax         bool
		path        string
		wants, asks bool
	}{{false, "/", true, true}, {true, "/strict", true, true}, {false, "/strict", false, false}} {
		b := newSnare(t, c.lax)
		all := strings.Join(b.caught(server.URL+c.path), "\n")
		if ran := strings.Contains(all, "trap ran") && strings.Contains(all, "alert 1"); ran != c.wants || !strings.Contains(all, "a handler") {
			t.Errorf("%s, lax %v: caught %q", c.path, c.lax, all)
		}
		if !c.wants && !strings.Contains(all, "policy stopped") {
			t.Errorf("%s: the policy is not seen at work: %q", c.path, all)
		}
		if came := b.visitors(); (len(came) > 0) != c.asks {
			t.Errorf("%s, lax %v: at the door %q", c.path, c.lax, came)
		}
	}
}
