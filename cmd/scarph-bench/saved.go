package main

import (
	"context"
	"fmt"
	"io"
	"net"
	"net/http"
	"os"
	"os/exec"
	"path/filepath"
	"sort"
	"strings"
	"time"

	"github.com/chromedp/chromedp"

	"scarph/kernel"
	"scarph/kernel/grown"
	"scarph/notebook"
	"scarph/notebook/live"
)

// saves is how many saves are followed.
const saves = 40

// saved saves a file of a journal that a browser shows, and waits until the number on
// the page has changed.
func saved(b *bench) error {
	shape := grown.Shape{Statements: 10_000, Entries: 1_000}
	dir, err := b.onDisk("saved", shape)
	if err != nil {
		return err
	}
	book, err := notebook.Open(dir)
	if err != nil {
		return err
	}
	day := grown.Journal(shape)[500]
	file := filepath.Join(dir, day.FileName())
	head, last := chainOf(day)
	text := day.Markdown()
	version := func(i int) []byte {
		return []byte(strings.Replace(text, "\n"+head+" = ", fmt.Sprintf("\n%s = %d in + ", head, i+1), 1))
	}

	// our work alone: read the file, follow the change, make the entry's HTML
	i := 0
	var e *notebook.Entry
	ns := b.race(func() {
		i++
		_, _ = book.SetOverlay(context.Background(), day.FileName(), version(i))
		e, _ = book.Entry(day.FileName())
		book.RenderEntry(e, notebook.Page{AsOf: kernel.Now, Live: true})
	})
	b.table.under("our work for one save, 10,000 statements: read, follow, make the entry’s HTML", span(ns[0]), ns[0], 16e6, "within a frame of 16 ms")
	if book, err = notebook.Open(dir); err != nil {
		return err
	}

	l, err := net.Listen("tcp", "127.0.0.1:0")
	if err != nil {
		return err
	}
	ctx, stop := context.WithCancel(context.Background())
	defer stop()
	go func() { _ = live.New(book, live.Options{}).Serve(ctx, l) }()
	url := "http://" + l.Addr().String() + "/entry/" + strings.TrimSuffix(day.FileName(), ".md")
	ns = b.race(func() {
		r, err := http.Get(url)
		if err != nil {
			return
		}
		_, _ = io.Copy(io.Discard, r.Body)
		_ = r.Body.Close()
	})
	b.table.plain("the server’s answer with that page", span(ns[0]), "")

	path, err := exec.LookPath("chromium")
	if err != nil {
		return fmt.Errorf("the rest wants chromium")
	}
	alloc, stopAlloc := chromedp.NewExecAllocator(ctx, chromedp.ExecPath(path), chromedp.NoSandbox, chromedp.Headless, chromedp.DisableGPU)
	defer stopAlloc()
	tab, stopTab := chromedp.NewContext(alloc)
	defer stopTab()
	if _, err := chromedp.Run(tab, chromedp.Navigate(url)); err != nil {
		return err
	}
	var took []float64
	for i := range saves {
		// the page notes when the number of the chain's last value has changed
		watch := fmt.Sprintf(`new Promise((done) => {
			const now = () => [...document.querySelectorAll('[data-name="%s"]')].map((x) => x.textContent).join();
			const was = now();
			const o = new MutationObserver(() => { if (now() !== was) { o.disconnect(); done(performance.timeOrigin + performance.now()); } });
			o.observe(document.body, { subtree: true, childList: true, characterData: true });
			window.watching = true;
		})`, last)
		if _, err := chromedp.Run(tab, chromedp.Evaluate[bool]("window.watching = false")); err != nil {
			return err
		}
		type seen struct {
			at  float64
			err error
		}
		answer := make(chan seen, 1)
		go func() {
			at, err := chromedp.Run(tab, chromedp.Evaluate[float64](watch, chromedp.EvalAwaitPromise))
			answer <- seen{at, err}
		}()
		for {
			ready, err := chromedp.Run(tab, chromedp.Evaluate[bool]("window.watching"))
			if err != nil {
				return err
			}
			if ready {
				break
			}
		}
		begin := time.Now()
		if err := os.WriteFile(file+"~", version(i+100), 0o644); err != nil {
			return err
		}
		if err := os.Rename(file+"~", file); err != nil {
			return err
		}
		select {
		case s := <-answer:
			if s.err != nil {
				return s.err
			}
			took = append(took, s.at*1e6-float64(begin.UnixNano()))
		case <-time.After(20 * time.Second):
			return fmt.Errorf("the page did not follow a save")
		}
	}
	sort.Float64s(took)
	b.table.plain(fmt.Sprintf("save to changed number in Chromium, half of %d saves (20 ms of it gather the events of one save)", saves), span(took[len(took)/2]), "")
	b.table.plain("the same, 95 of 100 saves", span(took[len(took)*95/100]), "")
	return nil
}

// chainOf names the first and the last value of a chain that lies in one day.
func chainOf(d grown.Day) (head, last string) {
	for i, text := range d.Statements {
		name, sum, _ := strings.Cut(text, " = ")
		if strings.HasPrefix(sum, "base_") && i+2 < len(d.Statements) {
			after, _, _ := strings.Cut(d.Statements[i+2], " = ")
			return name, after
		}
	}
	return "", ""
}
