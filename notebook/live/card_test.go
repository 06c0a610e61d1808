package live_test

import (
	"strings"
	"testing"

	"github.com/chromedp/chromedp/kb"
)

const (
	wren  = "testdata/wren"
	title = "journal.md"
)

// TestKeepANewReading tries a number on its card, sees the page follow without a byte
// written, keeps it under today, and takes it back.
func TestKeepANewReading(t *testing.T) {
	for _, z := range screen {
		t.Run(z.name, func(t *testing.T) {
			s := open(t, wren)
			b := newTab(t, z)
			b.goTo(s.url + "/")
			b.shoot("page")
			before := s.read(title)
			b.click(`button.v[data-name=beam]`)
			b.waitText("#dock h2", "Beam")
			b.shoot("card")
			b.fill("#try-value", `4' 3"`)
			b.waitText("#try-reads", "1295.4 mm")
			b.keys(kb.Enter)
			b.waitText("#notice", "Nothing is kept")
			b.waitText(`button.v.tried[data-name=spacing], button.v.tried[data-name=inside]`, `4' 2 1/4"`)
			b.waitText(".trial", "Off:")
			b.shoot("tried")
			if s.read(title) != before || len(s.files()) != 3 {
				t.Fatal("trying wrote something")
			}
			b.click(".keep > summary")
			b.fill(".keep .new input[name=note]", "between the rails, in the water")
			b.shoot("keeping")
			b.click(".keep [type=submit]")
			b.waitText("#dock h2", "What moved")
			b.waitText(".bar .said", "Kept in")
			b.shoot("kept")
			const want = "---\ntitle: \"16 May 2027\"\ndate: 2027-05-16\n---\n```calc\nfound beam = 4' 3\"   # between the rails, in the water\n```\n"
			if got := s.read("2027-05-16.md"); got != want {
				t.Errorf("today's entry is\n%s\nwant\n%s", got, want)
			}
			if s.read(title) != before {
				t.Error("another file was touched")
			}
			b.waitText(`button.v[data-name=beam]`, `4' 3"`)
			if got := eval[string](b, `location.search`); got != "" {
				t.Errorf("the address still says %s", got)
			}
			b.click(`.bar .act:nth-child(2)`)
			b.waitText(".bar .said", "Taken back")
			b.waitText(`button.v[data-name=beam]`, `4' 1 3/4" ± 1/16"`)
			if len(s.files()) != 3 {
				t.Error("the entry is still there")
			}
		})
	}
}

// TestCorrectAReading changes the bytes of one number where it stands, and no other.
func TestCorrectAReading(t *testing.T) {
	for _, z := range screen {
		t.Run(z.name, func(t *testing.T) {
			s := open(t, wren)
			b := newTab(t, z)
			b.goTo(s.url + "/")
			before := s.read(title)
			b.click(`button.v[data-name="offsets.chine_half.st_2"]`)
			b.waitText("#dock h2", "Offsets, chine half, st 2")
			b.fill("#try-value", "1-6-5")
			b.waitText("#try-reads", "less")
			b.click(".keep > summary")
			b.click(`.keep input[value=correct]`)
			b.shoot("correcting")
			b.click(".keep [type=submit]")
			b.waitText("#dock h2", "What moved")
			b.waitText("#dock .moved", "less")
			if got, want := s.read(title), strings.Replace(before, "1-6-7", "1-6-5", 1); got != want {
				t.Errorf("the file is\n%s", got)
			}
			b.waitText(`button.v[data-name="offsets.chine_half.st_2"]`, "1-6-5")
			b.click("#dock [data-undo]")
			b.waitText(`button.v[data-name="offsets.chine_half.st_2"]`, "1-6-7")
			if s.read(title) != before {
				t.Error("taking back did not give the file its bytes again")
			}
		})
	}
}

// TestCorrectionOfWhatWasMade corrects a number that thwarts were cut to: the choice says
// beforehand, and the sheet afterwards, that the record of them changes.
func TestCorrectionOfWhatWasMade(t *testing.T) {
	z := screen[len(screen)-1]
	s := open(t, wren)
	b := newTab(t, z)
	b.goTo(s.url + "/")
	before := s.read(title)
	b.click(`button.v[data-name=planking]`)
	b.waitText("#dock h2", "Planking")
	b.fill("#try-value", `1/2"`)
	b.waitText("#try-reads", "more")
	b.click(".keep > summary")
	b.click(`.keep input[value=correct]`)
	b.waitText(".ways", "held to have been cut to the new number: 2 thwart (18 April 2027)")
	b.click(`.keep .correct label:last-of-type input`)
	b.waitText(".keep .correct label:last-of-type", "changes the record of what was made: 2 thwart")
	b.shoot("recasting")
	b.click(".keep [type=submit]")
	b.waitText("#dock .recast", `2 thwart: length as made 4' 0 1/2" before, now read as 4' 0 3/8"`)
	b.waitText(".bar .said", "The record of what was made changed")
	if still := eval[string](b, `[...document.querySelectorAll("#dock h3")].map(h => h.textContent).join()`); strings.Contains(still, "still right") {
		t.Errorf("headings: %s", still)
	}
	b.shoot("recast")
	b.click("#dock [data-undo]")
	b.waitText(".bar .said", "Taken back")
	if s.read(title) != before {
		t.Error("taking back did not give the file its bytes again")
	}
}

// TestCardsOfEachKind opens a card of each kind of value, and holds each to be readable
// by everybody.
func TestCardsOfEachKind(t *testing.T) {
	axe := axeScript(t)
	for _, z := range screen {
		t.Run(z.name, func(t *testing.T) {
			s := open(t, wren)
			s.save("2027-05-04-marks.md", "---\ntitle: Marks\n---\n```calc\nstrip = tick_strip(marks)\nmaker = \"the yard at the bend\"\nmoisture = 12 %\n```\n")
			b := newTab(t, z)
			b.goTo(s.url + "/list/dimensions")
			for _, c := range []struct {
				name string
				says []string
			}{
				{"beam", []string{"three readings at the sheer", "counts", "until 2 May 2027", "from the plan, outside of planking", "thwart"}},
				{"inside", []string{"beam − 2 × planking", `4' 1 3/4" ± 1/16" − 2 × 3/8"`, "derived, Wren", "± 1/16"}},
				{"marks", []string{"9 values", "What it holds", "mark positions"}},
				{"thwart", []string{"5 values", "thickness", "part, Wren", "2 made 18 April 2027"}},
				{"thwart.length", []string{"part of thwart"}},
				{"strip", []string{"tick strip", "derived, 4 May 2027"}},
				{"offsets.sheer_half", []string{"3 values", "st 2", "2' 0 7/16\""}},
				{"offsets.sheer_half.st_2", []string{"620.7 mm", "drawn, Wren"}},
				{"maker", []string{"the yard at the bend", "chosen"}},
				{"moisture", []string{"12 %"}},
			} {
				b.goTo(s.url + "/card?name=" + c.name)
				for _, words := range c.says {
					b.waitText(".card", words)
				}
				if z.touch { // the one screen tells; the other looks alike to a reader
					b.accessible(axe, "the card of "+c.name)
				}
				b.shoot(c.name)
			}
			if !eval[bool](b, `fetch("/card?part=1&name=strip").then((r) => r.text()).then((t) => t.includes("<svg"))`) {
				t.Error("the drawing is not on its card")
			}
		})
	}
}

// TestQuickSteps presses a step button three times before the first answer has come: each
// press counts.
func TestQuickSteps(t *testing.T) {
	s := open(t, wren)
	b := newTab(t, desk)
	b.goTo(s.url + "/")
	b.click("button.v[data-name=beam]")
	b.waitText("#dock h2", "Beam")
	b.fill("#try-value", `4' 1"`)
	b.waitText(".reads", `reads 4' 1"`)
	eval[bool](b, `(() => { const more = document.querySelector("#dock button.step:not([data-down])"); more.click(); more.click(); more.click(); return true; })()`)
	b.waitText(".reads", `reads 4' 1 3/16"`)
	if got := eval[string](b, `document.querySelector("#try-value").value`); got != `4' 1 3/16"` {
		t.Errorf("three steps come to %q", got)
	}
}
