package main

import (
	"context"
	"fmt"
	"net/http"
	"net/http/httptest"
	"os/exec"
	"sort"

	"github.com/chromedp/cdproto/cdp"
	"github.com/chromedp/cdproto/css"
	"github.com/chromedp/cdproto/dom"
	"github.com/chromedp/cdproto/log"
	"github.com/chromedp/cdproto/network"
	"github.com/chromedp/chromedp"
)

// firsts is how many readers are followed.
const firsts = 7

// asked does as a reader does who has looked at the page: opens the card of a value, looks
// at it, types a number, and sends it. It gives the time from sending it to the page that
// has followed. A reader in a hurry sends it in the moment in which the card opens.
const asked = `new Promise((done, failed) => {
	const pause = (ms) => new Promise((r) => setTimeout(r, ms));
	const after = async (hurry) => {
		await pause(1000);
		document.querySelector('a.v[data-name="frame_count"]').click();
		const field = document.getElementById("try-text");
		if (!hurry) await pause(1000);
		for (const text of ["1", "10"]) {
			field.value = text;
			field.dispatchEvent(new Event("input", { bubbles: true }));
			if (!hurry) await pause(200);
		}
		const begun = performance.now();
		new MutationObserver(() => done(performance.now() - begun)).observe(document.getElementById("yours"), { attributes: true });
		document.querySelector("#try .go").click();
	};
	after(%v).catch(failed);
})`

// carried waits until a page has followed the numbers of the link that led to it, and
// gives the time since its text was there.
const carried = `new Promise((done) => {
	const bar = document.getElementById("yours");
	const read = () => done(performance.now() - performance.getEntriesByType("navigation")[0].domContentLoadedEventEnd);
	if (bar.hidden) new MutationObserver(read).observe(bar, { attributes: true }); else read();
})`

// firstAnswer measures in Chromium how long a reader of a published page waits for the
// first answer; the pages come from a plain file server on this machine.
func (b *bench) firstAnswer(site string) error {
	path, err := exec.LookPath("chromium")
	if err != nil {
		return fmt.Errorf("a reader’s wait wants chromium")
	}
	server := httptest.NewServer(http.FileServer(http.Dir(site)))
	defer server.Close()
	alloc, stopAlloc := chromedp.NewExecAllocator(context.Background(), chromedp.ExecPath(path), chromedp.NoSandbox, chromedp.Headless, chromedp.DisableGPU)
	defer stopAlloc()
	for _, x := range []struct{ what, hash, script, budget string }{
		{"first answer in Chromium, half of 7 readers: the card is opened, a number typed within a second and a half and sent", "", fmt.Sprintf(asked, false), "≤ 300 ms"},
		{"the same, sent in the moment in which the card opens, a second after the page: nothing has been loaded", "", fmt.Sprintf(asked, true), "≤ 300 ms"},
		{"the same by a link that carries the number, from the page’s text on: it is laid out meanwhile", "#yours:frame_count=10", carried, ""},
	} {
		var took []float64
		for range firsts {
			ms, err := readerWaits(alloc, server.URL+"/2027-02-07-frames.html"+x.hash, x.script)
			if err != nil {
				return err
			}
			took = append(took, ms*1e6)
		}
		sort.Float64s(took)
		if half := took[len(took)/2]; x.budget == "" {
			b.table.plain(x.what, span(half), "")
		} else {
			b.table.under(x.what, span(half), half, 300e6, x.budget)
		}
	}
	return nil
}

// readerWaits opens a page in a tab of its own and gives what a script says of it. What
// such a tab tells of all that it fetches and builds costs more than the page itself, and
// no reader has it: it is put off.
func readerWaits(alloc context.Context, url, script string) (float64, error) {
	tab, stop := chromedp.NewContext(alloc)
	defer stop()
	if _, err := chromedp.Run(tab, chromedp.Navigate("about:blank")); err != nil {
		return 0, err
	}
	for _, told := range []string{network.CommandDisable, css.CommandDisable, dom.CommandDisable, log.CommandDisable} {
		if err := chromedp.FromContext(tab).Target.Call(tab, told, cdp.Empty{}, nil); err != nil {
			return 0, err
		}
	}
	if _, err := chromedp.Run(tab, chromedp.Navigate(url)); err != nil {
		return 0, err
	}
	return chromedp.Run(tab, chromedp.Evaluate[float64](script, chromedp.EvalAwaitPromise))
}
