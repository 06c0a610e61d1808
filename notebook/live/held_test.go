package live_test

import (
	"context"
	"net/http"
	"net/http/httptest"
	"os"
	"strings"
	"sync/atomic"
	"testing"
	"time"

	"github.com/chromedp/cdproto/page"
	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"

	"scarph/notebook"
	"scarph/notebook/live"
)

// openHeld serves a journal, but holds back what a path begins with until it is let go.
func openHeld(t *testing.T, path string) (s *shop, server *live.Server, letGo func()) {
	t.Helper()
	s = &shop{t: t, dir: t.TempDir()}
	if err := os.CopyFS(s.dir, os.DirFS(wren)); err != nil {
		t.Fatal(err)
	}
	book, err := notebook.Open(s.dir)
	if err != nil {
		t.Fatal(err)
	}
	server = live.New(book, live.Options{Now: func() time.Time { return day }})
	held := make(chan struct{})
	inner := server.Handler()
	h := httptest.NewServer(http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		if strings.HasPrefix(r.URL.Path, path) {
			select {
			case <-held:
			case <-r.Context().Done():
			}
		}
		inner.ServeHTTP(w, r)
	}))
	server.On(h.Listener.Addr())
	s.url = h.URL
	t.Cleanup(func() { h.CloseClientConnections(); h.Close() })
	return s, server, func() { close(held) }
}

// goToHeld goes to a page without waiting until all of it is there.
func (b *tab) goToHeld(url string) {
	b.t.Helper()
	if _, err := chromedp.Call(b.ctx, page.Navigate, page.NavigateParams{URL: url}); err != nil {
		b.t.Fatal(err)
	}
}

// TestAPageThatMissedAChangeIsTold has a file saved twice between the making of a page and
// its listening: the page follows, and says what moved last, in whichever order the answers
// come that it fetches for the two.
func TestAPageThatMissedAChangeIsTold(t *testing.T) {
	for name, first := range map[string]string{"in their order": "0", "the first last": "800"} {
		t.Run(name, func(t *testing.T) {
			s, server, letGo := openHeld(t, "/events")
			b := newTab(t, phone)
			b.goTo(s.url + "/")
			b.waitText(`button.v[data-name=spacing]`, `1' 1 1/4"`)
			s.save(title, strings.Replace(s.read(title), "frames = 9", "frames = 11", 1))
			server.Refresh(context.Background())
			s.save(title, strings.Replace(s.read(title), "frames = 11", "frames = 12", 1))
			server.Refresh(context.Background())
			if got := b.text(`button.v[data-name=spacing]`); got != `1' 1 1/4"` {
				t.Fatalf("who told it of %s?", got)
			}
			eval[bool](b, `(() => {
				const ask = fetch;
				let asked = 0, came = 0;
				window.allCame = () => asked > 1 && came === asked;
				window.fetch = async (...a) => {
					const wait = asked++ ? 0 : `+first+`;
					await new Promise((r) => setTimeout(r, wait));
					const answer = await ask(...a);
					came++;
					return answer;
				};
				return true;
			})()`)
			letGo()
			b.waitText(`button.v[data-name=frames]`, "12")
			b.waitText(".bar .said", "frames 11 → 12")
			b.wait(`window.allCame()`)
			if got := eval[string](b, `new Promise((done) => setTimeout(() => done(document.querySelector(".bar .said").textContent), 100))`); !strings.Contains(got, "frames 11 → 12") {
				t.Errorf("at last the bar says %q", got)
			}
		})
	}
}

// TestATapBeforeTheScripts taps a value while the page's modules are held up on their
// way: the card opens when they are there.
func TestATapBeforeTheScripts(t *testing.T) {
	s, _, letGo := openHeld(t, "/assets/workshop-page.js")
	b := newTab(t, phone)
	b.goToHeld(s.url + "/")
	b.click("button.v[data-name=beam]")
	if eval[bool](b, `"ready" in document.documentElement.dataset`) {
		t.Fatal("the scripts were not held")
	}
	letGo()
	b.waitText("#dock h2", "Beam")
}

// TestAFormSentBeforeTheScripts begins an entry while the modules are held up.
func TestAFormSentBeforeTheScripts(t *testing.T) {
	s, _, letGo := openHeld(t, "/assets/workshop-write.js")
	b := newTab(t, desk)
	b.goToHeld(s.url + "/today")
	b.fill("#entry-title", "Paint")
	b.click("[data-new-entry] [type=submit]")
	if got := eval[string](b, `location.pathname + location.search`); got != "/today" {
		t.Fatalf("the form went its own way, to %s", got)
	}
	letGo()
	b.wait(`location.pathname === "/write/2027-05-16-paint"`)
	s.holds("2027-05-16-paint.md", "---\ntitle: \"Paint\"\ndate: 2027-05-16\n---\n")
}

// TestTheAnswerToASaveIsLost cuts the connection after the file was written and before the
// page heard of it: what stands in the file is the page's own, and no clash.
func TestTheAnswerToASaveIsLost(t *testing.T) {
	s, server, letGo := openHeld(t, "/nothing")
	letGo()
	before := s.read(entry)
	var cuts atomic.Int32
	inner := server.Handler()
	h := httptest.NewServer(http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		if r.URL.Path == "/save" && cuts.Add(1) <= 1 {
			inner.ServeHTTP(httptest.NewRecorder(), r)
			panic(http.ErrAbortHandler)
		}
		inner.ServeHTTP(w, r)
	}))
	server.On(h.Listener.Addr())
	t.Cleanup(func() { h.CloseClientConnections(); h.Close() })
	b := newTab(t, phone)
	b.goTo(h.URL + "/write/2027-05-02-measured")
	b.waitText(".proof", "Off the moulds")
	b.typeAtEnd("\nHeard of by nobody.\n")
	s.holds(entry, before+"\nHeard of by nobody.\n")
	b.typeText("And more.\n")
	s.holds(entry, before+"\nHeard of by nobody.\nAnd more.\n")
	if eval[bool](b, `document.querySelector(".clash").open`) {
		t.Error("the page clashes with itself")
	}
}

// TestWhatMovedStays keeps a number while the answer that shows what moved is held up
// until the page has heard of its own ripple: the sheet comes and is not covered by the
// card that lay there before.
func TestWhatMovedStays(t *testing.T) {
	s, _, letGo := openHeld(t, "/ripple")
	b := newTab(t, desk)
	b.goTo(s.url + "/")
	eval[bool](b, `(() => {
		const ask = fetch;
		let asked = 0, came = 0;
		window.allCame = () => came === asked;
		window.fetch = async (...a) => { asked++; try { return await ask(...a); } finally { came++; } };
		document.addEventListener("ripple", () => { window.heard = true; });
		return true;
	})()`)
	b.click("button.v[data-name=beam]")
	b.waitText("#dock h2", "Beam")
	b.click("#dock .keep > summary")
	b.fill("#try-value", `4' 3"`)
	b.fill(".keep [name=note]", "as planked")
	b.keys(kb.Enter)
	b.wait(`window.heard`)
	letGo()
	b.waitText("#dock h2", "What moved")
	b.focused("#dock h2")
	if got := eval[string](b, `new Promise((done) => { const look = () => (window.allCame() ? done(document.querySelector("#dock h2").textContent) : setTimeout(look, 50)); setTimeout(look, 300); })`); got != "What moved" {
		t.Errorf("at last the dock shows %q", got)
	}
}

// holdBack has the page wait with the next answer to a request for what an address has in
// it, until window.letGo() is called; window.came is set when the page has had that answer
// for a while, window.second when it has had another.
func (b *tab) holdBack(part string) {
	b.t.Helper()
	eval[bool](b, `(() => {
		const ask = fetch;
		let held = false;
		window.fetch = async (...a) => {
			const answer = await ask(...a);
			if (!String(a[0]).includes(`+quote(part)+`)) return answer;
			const after = (what) => setTimeout(() => { window[what] = true; }, 300);
			if (held) { after("second"); return answer; }
			held = true;
			await new Promise((go) => { window.letGo = () => { go(); return true; }; });
			after("came");
			return answer;
		};
		return true;
	})()`)
}

// TestWhatIsClosedStaysClosed closes a card while it is fetched again because the journal
// moved: it does not come back, and the focus stays on the value.
func TestWhatIsClosedStaysClosed(t *testing.T) {
	s := open(t, wren)
	b := newTab(t, desk)
	b.goTo(s.url + "/")
	b.click("button.v[data-name=beam]")
	b.waitText("#dock h2", "Beam")
	b.holdBack("/card?")
	s.save(title, strings.Replace(s.read(title), "frames = 9", "frames = 11", 1))
	b.wait(`window.letGo`)
	b.keys(kb.Escape)
	b.focused("button.v[data-name=beam]")
	eval[bool](b, `window.letGo()`)
	b.wait(`window.came`)
	b.focused("button.v[data-name=beam]")
	if eval[bool](b, `document.getElementById("dock").open`) {
		t.Error("the card came back")
	}
}

// TestALateLookAtTheFile has the page look at its file because another file was saved, and
// holds the answer back until what is typed meanwhile has been saved: the text that was
// typed stays in the field.
func TestALateLookAtTheFile(t *testing.T) {
	s := open(t, wren)
	b := newTab(t, desk)
	b.goTo(s.url + "/write/2027-05-02-measured")
	b.waitText(".state", "Saved")
	b.holdBack("/text?")
	s.save(title, strings.Replace(s.read(title), "frames = 9", "frames = 11", 1))
	b.wait(`window.letGo`)
	b.typeAtEnd("\nThe late tide.\n")
	b.click("[data-save]")
	b.wait(`/^Saved \d/.test(document.querySelector(".state").textContent)`)
	b.wait(`window.second`) // and the page has looked again, for it heard of its own save
	eval[bool](b, `window.letGo()`)
	b.wait(`window.came`)
	if text := eval[string](b, `document.querySelector("#text").value`); !strings.HasSuffix(text, "\nThe late tide.\n") {
		t.Errorf("what was typed and saved is gone from the field:\n%s", text)
	}
	if !strings.HasSuffix(s.read("2027-05-02-measured.md"), "\nThe late tide.\n") {
		t.Error("it was not saved")
	}
}
