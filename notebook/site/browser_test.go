package site_test

import (
	"net/http"
	"net/http/httptest"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"scarph/kernel"
	"scarph/notebook"
	"scarph/notebook/site"
)

// sorrel is the journal that most tests publish.
const sorrel = "../../examples/sorrel"

// publish writes a journal's site to a folder of its own.
func publish(t *testing.T, journal string) string {
	t.Helper()
	out := filepath.Join(t.TempDir(), "site")
	publishTo(t, journal, out)
	return out
}

func publishTo(t *testing.T, journal, out string) site.Report {
	t.Helper()
	n, err := notebook.Open(journal)
	if err != nil {
		t.Fatal(err)
	}
	r, err := site.Publish(n, out, site.Options{AsOf: kernel.Now, Anyway: true})
	if err != nil {
		t.Fatal(err)
	}
	return r
}

func needEngine(t *testing.T) {
	t.Helper()
	if _, _, ok := site.Engine(); !ok {
		if os.Getenv("SCARPH_NEEDS_BROWSER") != "" {
			t.Fatal("the browser build is absent: make page")
		}
		t.Skip("the browser build is absent; make page makes it")
	}
}

// carriers are the ways a site reaches a reader: from a memory stick, and from a plain
// file server under a path of its own.
func carriers(t *testing.T, out string) map[string]string {
	mux := http.NewServeMux()
	mux.Handle("/boats/2027/sorrel/", http.StripPrefix("/boats/2027/sorrel/", http.FileServer(http.Dir(out))))
	server := httptest.NewServer(mux)
	t.Cleanup(server.Close)
	return map[string]string{"stick": "file://" + filepath.ToSlash(out) + "/", "server": server.URL + "/boats/2027/sorrel/"}
}

// drawings are those of the face that is shown.
const drawings = `[...document.querySelectorAll("article svg")].map((x) => x.outerHTML).join("")`

func TestReaderTriesNumbers(t *testing.T) {
	needEngine(t)
	out := publish(t, sorrel)
	for name, base := range carriers(t, out) {
		t.Run(name, func(t *testing.T) {
			b := newTab(t, 1280, 900)
			b.goTo(base + "2027-02-07-frames.html")
			if n := eval[int](b, `performance.getEntriesByType("resource").filter((x) => /engine|cargo|wasm/.test(x.name)).length`); n != 0 {
				t.Error("the engine is loaded before a reader asks for it")
			}
			// it is made ready when a number is looked at, before one is tried
			b.do(`document.querySelector('a.v[data-name="frame_count"]').click()`)
			b.wait(`typeof scarph !== "undefined"`)
			b.do(`document.querySelector("#try .close").click()`)
			before := b.published("article")
			drawing := eval[string](b, drawings)
			const row = `document.querySelector("#value-frame_spacing .is .v").textContent`
			was := eval[string](b, row)
			start := time.Now()
			b.tries("frame_count", "10")
			b.wait(`!document.getElementById("yours").hidden`)
			t.Logf("first answer after %v", time.Since(start).Round(time.Millisecond))
			if is := eval[string](b, row); is == was || is != "1' 5 1/2\"" {
				t.Errorf("the frames stand %s apart, %s before", is, was)
			}
			if n := eval[int](b, `document.querySelectorAll("article .v.tried").length`); n < 3 {
				t.Errorf("%d values are marked as following", n)
			}
			if !strings.Contains(b.text("#yours"), "frame count 10") {
				t.Errorf("the bar says %q", b.text("#yours"))
			}
			if marks := b.text("#value-frame_marks"); strings.Contains(marks, "was 0") || !strings.Contains(marks, "the journal says 12 values") {
				t.Errorf("of the marks it says %q", marks)
			}
			b.shoot(name + "-tried")
			link := eval[string](b, `location.href`)
			if !strings.Contains(link, "#yours:frame_count=10") {
				t.Errorf("the link is %s", link)
			}

			// the other units, with the reader's number in them, in the drawings too
			tried := eval[string](b, drawings)
			if tried == drawing || strings.Contains(tried, " mm<") {
				t.Error("the drawings do not follow in feet and inches")
			}
			b.do(`document.querySelector("button.units").click()`)
			b.wait(row + ` === "444.5 mm"`)
			if metric := eval[string](b, drawings); !strings.Contains(metric, " mm<") || strings.Contains(metric, "&quot;<") || strings.Contains(metric, `"</text>`) {
				t.Errorf("the drawings do not follow in millimetres: %s", metric)
			}
			b.do(`document.querySelector("button.units").click()`)
			b.wait(row + ` === "1' 5 1/2\""`)
			if now := eval[string](b, drawings); now != tried {
				t.Error("the drawings do not come back into feet and inches")
			}

			// the way back leaves the page as it was published
			b.do(`[...document.querySelectorAll("#yours .act")].find((x) => x.textContent.startsWith("The journal")).click()`)
			b.wait(`document.getElementById("yours").hidden`)
			if after := b.published("article"); after != before {
				t.Errorf("the page is not as it was published:\n%s", firstDifference(before, after))
			}
			if now := eval[string](b, drawings); now != drawing {
				t.Error("a drawing is not as it was")
			}

			// the link carries the number to another page of the site, and to another reader
			other := newTab(t, 390, 844)
			other.goTo(link)
			other.wait(`!document.getElementById("yours").hidden`)
			other.wait(row + ` === "1' 5 1/2\""`)
			other.shoot(name + "-phone-tried")
			other.do(`document.querySelector(".turn a[rel=next]").click()`)
			other.wait(`location.pathname.includes("chine-logs") && !document.getElementById("yours").hidden`)
			other.goTo(base + "dimensions.html" + link[strings.IndexByte(link, '#'):])
			other.wait(`document.querySelector(".yours-list #value-frame_spacing .v")?.textContent === "1' 5 1/2\""`)
		})
	}
}

// published is a part of the page, both of its faces, without what the script tells
// screen readers of the values on the face that is shown.
func (b *tab) published(sel string) string {
	b.t.Helper()
	return eval[string](b, `(() => {
		const plain = (n) => { for (const v of n.querySelectorAll("*")) { if (v.matches("a.v")) { v.removeAttribute("role"); v.removeAttribute("aria-haspopup"); } if (v.content) plain(v.content); } return n; };
		return plain(document.querySelector(`+quoted(sel)+`).cloneNode(true)).innerHTML;
	})()`)
}

// firstDifference shows where two texts part.
func firstDifference(a, b string) string {
	i := 0
	for i < len(a) && i < len(b) && a[i] == b[i] {
		i++
	}
	from := max(0, i-80)
	return a[from:min(len(a), i+120)] + "\n---\n" + b[from:min(len(b), i+120)]
}

func TestReaderIsToldWhatIsWrong(t *testing.T) {
	needEngine(t)
	out := publish(t, sorrel)
	b := newTab(t, 1280, 900)
	b.goTo("file://" + filepath.ToSlash(out) + "/2027-02-07-frames.html")
	for text, words := range map[string]string{"19 kg": "mass", "beam +": "stops short", "": "Write a number", "nonsense": "nothing is named", `2" # note`: "note"} {
		b.tries("frame.sided", text)
		b.wait(`document.getElementById("try-fault").textContent.includes(` + quoted(words) + `)`)
		b.do(`document.querySelector("#try .close").click()`)
		if !eval[bool](b, `document.getElementById("yours").hidden`) {
			t.Errorf("%q is tried", text)
		}
	}
	// what a stranger's link carries is worked out or refused, never believed
	b.goTo("file://" + filepath.ToSlash(out) + "/2027-02-07-frames.html#yours:frame.sided=%3Cimg+src%3Dx+onerror%3Dalert(1)%3E")
	b.wait(`document.querySelector(".said").textContent !== ""`)
	if !eval[bool](b, `document.getElementById("yours").hidden && !document.querySelector("img[src=x]")`) {
		t.Error("a link put something into the page")
	}
}

// TestUnitsNeedNoEngine switches every page to the other units and back.
func TestUnitsNeedNoEngine(t *testing.T) {
	out := publish(t, sorrel)
	b := newTab(t, 1280, 900)
	one := filepath.Join(t.TempDir(), "one.html")
	n, err := notebook.Open(sorrel)
	if err != nil {
		t.Fatal(err)
	}
	if _, err := site.PublishOne(n, one, "", site.Options{AsOf: kernel.Now}); err != nil {
		t.Fatal(err)
	}
	for _, at := range []string{out + "/2027-01-16-offsets.html", out + "/dimensions.html", out + "/index.html", one} {
		b.goTo("file://" + filepath.ToSlash(at))
		before, drawn := b.published("main"), eval[string](b, drawings)
		b.do(`document.querySelector("button.units").click()`)
		if now := eval[string](b, drawings); drawn != "" && (now == drawn || !strings.Contains(now, " mm<") || strings.Contains(drawn, " mm<")) {
			t.Errorf("%s: the drawings stay in feet and inches", at)
		}
		if text := b.text("main"); !strings.Contains(text, " mm") || strings.HasSuffix(at, "dimensions.html") && !strings.Contains(text, "4572 mm") {
			t.Errorf("%s: no metric length in %.300s", at, text)
		}
		b.do(`document.querySelector("button.units").click()`)
		if after := b.published("main"); after != before {
			t.Errorf("%s is not as it was:\n%s", at, firstDifference(before, after))
		}
		if eval[int](b, `performance.getEntriesByType("resource").filter((x) => /engine|cargo|wasm/.test(x.name)).length`) != 0 {
			t.Error("the engine is loaded for the units")
		}
	}
}

func TestSearch(t *testing.T) {
	out := publish(t, sorrel)
	for name, base := range carriers(t, out) {
		b := newTab(t, 1280, 900)
		b.goTo(base + "search.html")
		for words, title := range map[string]string{"raisin": "", "vinyl kitchen": "Offsets off the floor", "saw_bevel": "saw bevel", "THIRTEEN": "The saw at thirteen degrees"} {
			b.do(`const w = document.getElementById("words"); w.value = ` + quoted(words) + `; w.dispatchEvent(new Event("input"))`)
			if title == "" {
				b.wait(`document.querySelector(".counted").textContent === "0 finds"`)
				continue
			}
			b.wait(`document.querySelector(".finds")?.innerText.includes(` + quoted(title) + `)`)
			to := eval[string](b, `document.querySelector(".finds a").href`)
			if !strings.HasPrefix(to, base) {
				t.Errorf("%s: %s leads to %s", name, words, to)
			}
		}
	}
}
