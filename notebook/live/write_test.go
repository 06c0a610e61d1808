package live_test

import (
	"bytes"
	"image"
	"image/color"
	"image/jpeg"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"

	"scarph/notebook/live"
)

const entry = "2027-05-02-measured.md"

// TestWriteOn types into an entry, sees it worked out before it is saved, and finds
// exactly the typed line in the file.
func TestWriteOn(t *testing.T) {
	for _, z := range screen {
		t.Run(z.name, func(t *testing.T) {
			s := open(t, wren)
			before := s.read(entry)
			b := newTab(t, z)
			b.goTo(s.url + "/write/2027-05-02-measured")
			b.waitText(".proof", "Off the moulds she is")
			b.caretAt("check beam")
			b.typeText("gap = 3/8+ inside # o\n")
			b.waitText(".want", "cannot be added")
			b.shoot("caret")
			if got := eval[string](b, `document.querySelector(".want pre").textContent`); !strings.Contains(got, "^") {
				t.Errorf("no caret: %q", got)
			}
			b.click(".want")
			if got := eval[string](b, `(() => { const f = document.querySelector("#text"); return f.value.slice(f.selectionStart, f.selectionEnd) })()`); got != "+" {
				t.Errorf("the place is %q", got)
			}
			b.typeText(`" +`) // in the place of the sign that is selected
			b.typeText("")
			b.wait(`!document.querySelector(".want:not(.note)")`)
			b.waitText(".proof", `4' 1 3/8"`)
			s.holds(entry, strings.Replace(before, "check beam", "gap = 3/8\" + inside # o\ncheck beam", 1))
			b.waitText(".state", "Saved")
			b.shoot("saved")
		})
	}
}

// TestKeysAndWordsThatFit writes with the row of keys and takes an offered name.
func TestKeysAndWordsThatFit(t *testing.T) {
	for _, z := range screen {
		t.Run(z.name, func(t *testing.T) {
			s := open(t, wren)
			before := s.read(entry)
			b := newTab(t, z)
			b.goTo(s.url + "/write/2027-05-02-measured")
			b.waitText(".proof", "Off the moulds")
			b.caretAt("check beam")
			b.typeText("gap = insi")
			b.waitText(".fit", "inside")
			b.shoot("offered")
			b.keys(kb.Tab)
			b.typeText(" / fra")
			b.waitText(".fit", "frames")
			b.click(".fit")
			b.typeText("\nlean = 12")
			b.click(`.under .key[aria-label^="½"]`)
			b.click(`.under .key[aria-label^="°"]`)
			b.typeText("\nd = frame_spac")
			b.waitText(".fit", "frame_spacing")
			b.keys(kb.Tab)
			b.waitText(".call", "frame_spacing(")
			b.typeText("run, frames)\n")
			s.holds(entry, strings.Replace(before, "check beam", "gap = inside / frames\nlean = 12½°\nd = frame_spacing(run, frames)\ncheck beam", 1))
			b.waitText(".proof", "12.5°")
		})
	}
}

// TestNewEntry begins an entry for today from the title page, and takes another back.
func TestNewEntry(t *testing.T) {
	for _, z := range screen {
		t.Run(z.name, func(t *testing.T) {
			s := open(t, wren)
			b := newTab(t, z)
			b.goTo(s.url + "/")
			b.click(`.tools a[href="/today"]`)
			b.wait(`document.querySelector("#entry-day")?.value === "2027-05-16"`)
			if len(s.files()) != 3 {
				t.Fatal("looking made an entry")
			}
			b.shoot("today")
			b.fill("#entry-title", "First coat: grey")
			b.click("[data-new-entry] [type=submit]")
			b.wait(`location.pathname === "/write/2027-05-16-first-coat-grey"`)
			if got, want := s.read("2027-05-16-first-coat-grey.md"), "---\ntitle: \"First coat: grey\"\ndate: 2027-05-16\n---\n"; got != want {
				t.Errorf("the entry is %q", got)
			}
			b.wait(`document.querySelector("#text")`)
			b.typeAtEnd("\nTwo coats.\n")
			s.holds("2027-05-16-first-coat-grey.md", "---\ntitle: \"First coat: grey\"\ndate: 2027-05-16\n---\n\nTwo coats.\n")
			b.goTo(s.url + "/today")
			b.fill("#entry-title", "Second coat")
			b.keys(kb.Enter)
			b.waitText(".said", "the new entry")
			b.click(".bar .act")
			b.waitText("main", "There is no such entry")
			if len(s.files()) != 4 {
				t.Errorf("the entry was not taken back: %q", s.files())
			}
		})
	}
}

// TestConflictWithAnEditor has an editor save the file while the page holds words that
// are not saved: both are shown, and joined when the reader says so.
func TestConflictWithAnEditor(t *testing.T) {
	for _, z := range screen {
		for _, way := range []string{"join", "mine", "theirs"} {
			t.Run(z.name+"/"+way, func(t *testing.T) {
				s := open(t, wren)
				before := s.read(entry)
				b := newTab(t, z)
				b.goTo(s.url + "/write/2027-05-02-measured")
				b.waitText(".proof", "Off the moulds")
				b.typeAtEnd("\nMine, at the end.\n")
				theirs := strings.Replace(before, "Off the moulds", "Theirs: off the moulds", 1)
				s.save(entry, theirs)
				b.waitText(".clash h2", "Two texts")
				b.waitText(".clash", "do not touch the same lines")
				b.shoot("clash")
				if got := s.read(entry); got != theirs {
					t.Errorf("the editor's save was overwritten:\n%s", got)
				}
				b.click(".clash [value=" + way + "]")
				if way == "join" {
					b.waitText(".clash .joined", "Mine, at the end.")
					b.shoot("joined")
					b.click(".clash [value=yes]")
				}
				want := map[string]string{"join": theirs + "\nMine, at the end.\n", "mine": before + "\nMine, at the end.\n", "theirs": theirs}[way]
				s.holds(entry, want)
				if got := eval[string](b, `document.querySelector("#text").value`); got != want {
					t.Errorf("the field is\n%s", got)
				}
			})
		}
	}
}

// TestOneTapOnAPrivateEntry taps a key without touching the text first, and writes above
// its head: the one lands at the end, the other is asked about.
func TestOneTapOnAPrivateEntry(t *testing.T) {
	const before = "---\ntitle: Diary\nprivate: true\n---\nMine alone.\n"
	s := open(t, wren)
	s.save("2027-05-05-diary.md", before)
	b := newTab(t, phone)
	b.goTo(s.url + "/write/2027-05-05-diary")
	b.waitText(".proof", "Mine alone")
	b.click(`.under .key[aria-label^="calc"]`)
	s.holds("2027-05-05-diary.md", before+"\n```calc\n\n```\n")
	eval[bool](b, `(() => { const f = document.querySelector("#text"); f.focus(); f.setSelectionRange(0, 0); return true })()`)
	b.typeText("Above. ")
	b.waitText(".state", "the entry is private no longer")
	b.click("[data-save]")
	b.waitText(".clash", "would be published")
	b.shoot("asked")
	if got := s.read("2027-05-05-diary.md"); !strings.HasPrefix(got, before) {
		t.Fatalf("the file is\n%s", got)
	}
	b.click(".clash [value=mend]")
	s.holds("2027-05-05-diary.md", strings.Replace(before, "Mine", "Above. \nMine", 1)+"\n```calc\n\n```\n")
}

// TestServerGoneWhileWriting stops the server under the writer's hands: what is typed
// stays on the device, over a reload too, and is saved when the server is back.
func TestServerGoneWhileWriting(t *testing.T) {
	s := open(t, wren)
	address := strings.TrimPrefix(s.url, "http://")
	before := s.read(entry)
	b := newTab(t, phone)
	b.goTo(s.url + "/write/2027-05-02-measured")
	b.waitText(".proof", "Off the moulds")
	s.stop()
	b.typeAtEnd("\nTyped into the void.\n")
	b.waitText(".state", "No connection")
	b.shoot("void")
	if s.read(entry) != before {
		t.Fatal("who saved this?")
	}
	b.wait(`Object.keys(localStorage).length === 1`)
	s.serve(address, live.Options{Now: func() time.Time { return day }})
	b.waitText(".state", "Saved")
	if got := s.read(entry); got != before+"\nTyped into the void.\n" {
		t.Errorf("the file is\n%s", got)
	}
	s.stop()
	b.typeAtEnd("\nAnd again.\n")
	b.waitText(".state", "No connection")
	b.goTo("about:blank")
	s.serve(address, live.Options{Now: func() time.Time { return day }})
	b.goTo(s.url + "/write/2027-05-02-measured")
	b.waitText(".state", "Saved")
	if got := s.read(entry); got != before+"\nTyped into the void.\n\nAnd again.\n" {
		t.Errorf("the file is\n%s", got)
	}
	if n := eval[int](b, `Object.keys(localStorage).length`); n != 0 {
		t.Errorf("%d drafts are left", n)
	}
}

// TestTwoPagesAndAnEditor writes one file from two pages and an editor by turns; each
// sees what the others did.
func TestTwoPagesAndAnEditor(t *testing.T) {
	s := open(t, wren)
	a, b := newTab(t, desk), newTab(t, phone)
	text := s.read(entry)
	for _, x := range []*tab{a, b} {
		x.goTo(s.url + "/write/2027-05-02-measured")
		x.waitText(".proof", "Off the moulds")
	}
	a.typeAtEnd("\nFrom the bench.\n")
	a.waitText(".state", "Saved")
	b.wait(`document.querySelector("#text").value.endsWith("From the bench.\n")`)
	b.typeAtEnd("\nFrom the boat.\n")
	a.wait(`document.querySelector("#text").value.endsWith("From the boat.\n")`)
	text += "\nFrom the bench.\n\nFrom the boat.\n"
	if got := s.read(entry); got != text {
		t.Fatalf("the file is\n%s", got)
	}
	text = strings.Replace(text, "found beam = 4' 1 3/4\"", "found beam = 4' 2 3/4\"", 1)
	s.save(entry, text)
	for _, x := range []*tab{a, b} {
		x.wait(`document.querySelector("#text").value.includes("4' 2 3/4")`)
		x.waitText(".proof", `4' 2 3/4" ± 1/16"`)
	}
	// both at once, at two places
	a.caretAt("Off the moulds")
	b.caretAt("check beam")
	eval[bool](a, `(document.execCommand("insertText", false, "A: "), true)`)
	eval[bool](b, `(document.execCommand("insertText", false, "# B\n"), true)`)
	deadline := time.Now().Add(15 * time.Second)
	for {
		for _, x := range []*tab{a, b} {
			if eval[bool](x, `!!document.querySelector(".clash[open] [value=join]")`) {
				x.click(".clash [value=join]")
				x.click(".clash [value=yes]")
			}
		}
		if got := s.read(entry); strings.Contains(got, "A: Off") && strings.Contains(got, "# B\ncheck") {
			break
		}
		if time.Now().After(deadline) {
			t.Fatalf("the file is\n%s", s.read(entry))
		}
		time.Sleep(50 * time.Millisecond)
	}
}

// TestOffsetsGrid pastes a printed table, mends a slip that is read back, and finds it
// in the text.
func TestOffsetsGrid(t *testing.T) {
	for _, z := range screen {
		t.Run(z.name, func(t *testing.T) {
			s := open(t, wren)
			before := s.read(entry)
			b := newTab(t, z)
			b.goTo(s.url + "/write/2027-05-02-measured")
			b.waitText(".proof", "Off the moulds")
			b.typeAtEnd("")
			b.click("[data-grid]")
			b.fill(`dialog.grid [name=name]`, "lines")
			b.fill("#grid-paste", "\t0\t1\t2\nSheer height\t2-2-0\t1-11-2\t1-13-1\nChine half-breadth\t0-0-5\t0-7-6+\t\n")
			b.click("[data-read]")
			b.waitText(".back", "13 inches is a foot or more")
			b.waitText(".back", "one foot, eleven inches and two eighths")
			b.waitText(".back", "590.6 mm")
			b.waitText(".back", "no feet, seven inches and six eighths, a sixteenth more")
			b.shoot("read-back")
			b.fill(`.cells tbody tr:first-child td:last-child input`, "1-9-1")
			b.wait(`!document.querySelector(".cells [aria-invalid]")`)
			b.click("[data-put]")
			const want = `
| drawn lines:       | st_0  | st_1   | st_2  |
|--------------------|-------|--------|-------|
| sheer_height       | 2-2-0 | 1-11-2 | 1-9-1 |
| chine_half_breadth | 0-0-5 | 0-7-6+ |       |
`
			s.holds(entry, before+"\n"+want+"\n")
			b.waitText(".proof", "chine_half_breadth")
		})
	}
}

// TestAFailedReadLeavesNoTable reads a table and then a text that holds none: nothing of
// the first can be put in under the second's name.
func TestAFailedReadLeavesNoTable(t *testing.T) {
	s := open(t, wren)
	before := s.read(entry)
	b := newTab(t, phone)
	b.goTo(s.url + "/write/2027-05-02-measured")
	b.click("[data-grid]")
	b.fill("#grid-paste", "station;port\n1;461,5\n2;734")
	b.run(chromedp.SetValue(`dialog.grid [name=unit]`, "mm"))
	b.click("[data-read]")
	b.waitText(".asks", "The first column, station, names the rows")
	b.waitText(".asks", "461,5 is 461.5")
	b.shoot("asked")
	b.click(".asks button")
	b.wait(`document.querySelector("[data-put]:not([hidden])")?.textContent === "Put it into the text"`)
	b.fill(`dialog.grid [name=name]`, "second")
	b.fill("#grid-paste", "nothing")
	b.wait(`document.querySelector("[data-put]").hidden`)
	b.click("[data-read]")
	b.waitText("dialog.grid .wrong", "No table was found")
	b.wait(`document.querySelector("[data-put]").hidden && !document.querySelector(".cells").firstChild && !document.querySelector(".back").firstChild`)
	if s.read(entry) != before {
		t.Error("something was put in")
	}
}

// TestPhoto puts a picture from a camera held sideways beside the entry.
func TestPhoto(t *testing.T) {
	im := image.NewRGBA(image.Rect(0, 0, 60, 40))
	for i := range im.Pix {
		im.Pix[i] = 200
	}
	im.Set(1, 1, color.RGBA{255, 0, 0, 255})
	var raw bytes.Buffer
	_ = jpeg.Encode(&raw, im, nil)
	exif := "\xff\xe1\x00\x34Exif\x00\x00MM\x00\x2a\x00\x00\x00\x08\x00\x01\x01\x12\x00\x03\x00\x00\x00\x01\x00\x06\x00\x00\x00\x00\x00\x00SECRET-PLACE-54N"
	src := append([]byte("\xff\xd8"+exif), raw.Bytes()[2:]...)
	file := filepath.Join(t.TempDir(), "IMG_1.jpg")
	if err := os.WriteFile(file, src, 0o644); err != nil {
		t.Fatal(err)
	}
	for _, z := range screen {
		t.Run(z.name, func(t *testing.T) {
			s := open(t, wren)
			b := newTab(t, z)
			b.goTo(s.url + "/write/2027-05-02-measured")
			b.waitText(".proof", "Off the moulds")
			b.typeAtEnd("")
			before := s.read(entry)
			b.click("[data-photo]")
			b.run(chromedp.SetUploadFiles("dialog.photo input[type=file]", []string{file}))
			b.click("dialog.photo [type=submit]")
			if len(s.files()) != 3 {
				t.Fatal("a photo was taken without alt text")
			}
			b.fill("dialog.photo [name=alt]", "The beam, {measured} with a [stick]")
			b.wait(`document.querySelector(".shows img")?.complete`)
			b.shoot("asking")
			b.click("dialog.photo [type=submit]")
			s.holds(entry, before+"\n\n![The beam, \\{measured\\} with a \\[stick\\]](2027-05-02-measured-1.jpg)\n\n")
			got := s.read("2027-05-02-measured-1.jpg")
			c, err := jpeg.DecodeConfig(strings.NewReader(got))
			if err != nil || c.Width != 40 || c.Height != 60 || strings.Contains(got, "SECRET") {
				t.Errorf("the picture is %d × %d, %v", c.Width, c.Height, err)
			}
			b.wait(`document.querySelector(".proof img")?.naturalHeight === 60`)
			if alt := eval[string](b, `document.querySelector(".proof img").alt`); alt != "The beam, {measured} with a [stick]" {
				t.Errorf("the alt text is %q", alt)
			}
		})
	}
}
