package attack_test

import (
	"bytes"
	"context"
	"encoding/json"
	"io"
	"maps"
	"net"
	"net/http"
	"net/url"
	"os"
	"regexp"
	"slices"
	"strings"
	"testing"

	"scarph/notebook"
	"scarph/notebook/live"
)

// serve serves a journal on this machine and returns its address.
func serve(t *testing.T, dir string) string {
	t.Helper()
	n, err := notebook.Open(dir)
	if err != nil {
		t.Fatal(err)
	}
	l, err := net.Listen("tcp", "127.0.0.1:0")
	if err != nil {
		t.Fatal(err)
	}
	ctx, stop := context.WithCancel(context.Background())
	done := make(chan error, 1)
	go func() { done <- live.New(n, live.Options{}).Serve(ctx, l) }()
	t.Cleanup(func() {
		stop()
		if err := <-done; err != nil {
			t.Error(err)
		}
	})
	return "http://" + l.Addr().String()
}

// workshopScript reports whether a script is one of the workshop page's own.
func workshopScript(src, text string) bool {
	return strings.TrimSpace(text) == "" && strings.HasPrefix(src, "/assets/") && !strings.Contains(src, "..")
}

// pageOf fetches a page and holds its headers to the policy.
func pageOf(t *testing.T, address string) (string, string) {
	t.Helper()
	r, err := http.Get(address)
	if err != nil {
		t.Fatal(err)
	}
	defer r.Body.Close()
	body, err := io.ReadAll(r.Body)
	if err != nil {
		t.Fatal(err)
	}
	csp := r.Header.Get("Content-Security-Policy")
	if strings.Contains(csp, "unsafe") || !strings.Contains(csp, "default-src 'none'") || r.Header.Get("X-Content-Type-Options") != "nosniff" {
		t.Errorf("%s: policy %q", address, csp)
	}
	return string(body), r.Header.Get("Content-Type")
}

var internal = regexp.MustCompile(`href="(/[^"#]*)`)

// crawl gathers the addresses that the pages lead to, without those that try numbers or
// turn back the journal one by one.
func crawl(t *testing.T, base string) map[string]string {
	t.Helper()
	pages := map[string]string{}
	wait := []string{"/", "/today", "/rescued", "/phone"}
	for len(wait) > 0 {
		at := wait[0]
		wait = wait[1:]
		if _, ok := pages[at]; ok {
			continue
		}
		body, kind := pageOf(t, base+at)
		if !strings.HasPrefix(kind, "text/html") {
			continue
		}
		pages[at] = body
		for _, m := range internal.FindAllStringSubmatch(body, -1) {
			to := strings.ReplaceAll(m[1], "&amp;", "&")
			path, query, _ := strings.Cut(to, "?")
			if strings.HasPrefix(path, "/card") && len(to)%8 != 0 && os.Getenv("SCARPH_LONG") == "" {
				continue // cards are many, and of one make
			}
			if query != "" && !strings.HasPrefix(path, "/card") || strings.HasPrefix(path, "/assets/") || strings.HasPrefix(path, "/files/") {
				continue
			}
			if _, ok := pages[to]; !ok && !slices.Contains(wait, to) && !strings.HasPrefix(to, "//") {
				wait = append(wait, to)
			}
		}
	}
	return pages
}

// asking are the pages that show what is asked for.
var asking = []string{"/search?q=", "/card?name=", "/read?name=length_1&value=", "/read?value=1+in&name=", "/?try=", "/?as-of=", "/ripple?try=length_1=", "/entry/", "/list/", "/wall/", "/write/", "/text?path=", "/?units=", "/?token=", "/assets/"}

// TestServed reads every page of a hostile journal as it is served, asks for pages with
// hostile words, and sends hostile texts to be proofed. No page holds anything that runs.
//
// The short form takes every sixth attack, eight to an entry, and asks with every sixth of
// those. SCARPH_LONG takes and asks with all, in some ten thousand requests and in two
// browsers, and is run without the race detector: what that looks for, two at once, does
// not come of more attacks, which are asked one after another. TestSoak of cmd/scarph is
// there for it.
func TestServed(t *testing.T) {
	list := some(attacks(t))
	dir := hostile(t, list, together())
	base := serve(t, dir)
	pages := crawl(t, base)
	shown := 0
	look := func(at, body string) {
		shown++
		for _, f := range audit(body, workshopScript) {
			t.Errorf("%s: %s", at, f)
		}
	}
	for at, body := range pages {
		look(at, body)
	}
	entries := len(pages)
	if entries < len(list)/together() {
		t.Errorf("only %d pages were found", entries)
	}
	for i, s := range list {
		if os.Getenv("SCARPH_LONG") == "" && i%6 != 0 {
			continue
		}
		for _, a := range asking {
			if strings.HasSuffix(a, "/") {
				s = strings.Trim(s, "/.")
			}
			if body, kind := pageOf(t, base+a+url.QueryEscape(s)); strings.HasPrefix(kind, "text/html") {
				look(a+s, body)
			}
		}
	}
	look("proofs", proofs(t, base, list))
	t.Logf("%d attacks, %d pages of the journal, %d more that were asked for", len(list), entries, shown-entries)
	b := newSnare(t, false)
	lax := newSnare(t, true)
	opened := 0
	for i, at := range slices.Sorted(maps.Keys(pages)) {
		if os.Getenv("SCARPH_LONG") != "" || i%4 == 0 || !strings.HasPrefix(at, "/card") && !strings.HasPrefix(at, "/write/") && !strings.HasPrefix(at, "/entry/") {
			b.open(base + at)
			lax.open(base + at)
			opened++
		}
	}
	b.close()
	t.Logf("%d pages were opened in a browser, with the policy and without", opened)
}

// proofs sends texts to the page that shows them while they are written, and tables to the
// one that reads them back.
func proofs(t *testing.T, base string, list []string) string {
	t.Helper()
	var key struct{ Key string }
	get, err := http.Get(base + "/key")
	if err != nil {
		t.Fatal(err)
	}
	defer get.Body.Close()
	if err := json.NewDecoder(get.Body).Decode(&key); err != nil || key.Key == "" {
		t.Fatal("no key", err)
	}
	var all strings.Builder
	post := func(path string, body any) {
		text, _ := json.Marshal(body)
		r, _ := http.NewRequest("POST", base+path, bytes.NewReader(text))
		r.Header.Set("Scarph-Key", key.Key)
		w, err := http.DefaultClient.Do(r)
		if err != nil {
			t.Fatal(err)
		}
		defer w.Body.Close()
		answer, _ := io.ReadAll(w.Body)
		if kind := w.Header.Get("Content-Type"); strings.HasPrefix(kind, "text/html") {
			all.Write(answer)
		} else if !strings.HasPrefix(kind, "application/json") {
			t.Errorf("%s answers with %s", path, kind)
		}
		var z struct {
			Blocks []string
			HTML   string
		}
		if json.Unmarshal(answer, &z) == nil {
			all.WriteString(strings.Join(z.Blocks, "") + z.HTML)
		}
	}
	for i, s := range list {
		if os.Getenv("SCARPH_LONG") == "" && i%3 != 0 {
			continue
		}
		post("/preview", map[string]string{"path": "other.md", "text": s + "\n\n```calc\nx = 3 in # " + s + "\n" + s + "\n```\n"})
		post("/save", map[string]string{"path": "other.md", "base": "what was there before", "text": s})
		post("/grid", map[string]string{"text": s + "\tst_1\n" + s + "\t1-2-3\n", "name": s})
		post("/begin", map[string]string{"title": "\x00" + s, "day": s})
		post("/keep", map[string]string{"name": s, "value": "1 in " + s, "kind": "found"})
		post("/settle", map[string]string{"thing": s, "how": "left"})
	}
	return all.String()
}
