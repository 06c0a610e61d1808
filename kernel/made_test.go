package kernel

import (
	"context"
	"fmt"
	"math"
	"math/rand/v2"
	"strconv"
	"strings"
	"testing"

	"scarph/calc"
)

var bench = calc.Style{Nearest: 0.0254 / 16}

// told is a journal in feet and inches, on which Update can be called again.
func told(entries ...Entry) *Session {
	s := New(bench)
	s.Update(context.Background(), entries)
	return s
}

const thwarts = `side = 3 ft
	part thwart: 2 of 7/8" by 8" by side in white_pine, within 1/16"
	made thwart: 2`

// TestCorrectionTellsOfRecords: a number that is written anew on the day of a made line
// changes the record of what was made, which nobody but the maker can judge.
func TestCorrectionTellsOfRecords(t *testing.T) {
	later := entryOf("b", "2027-04-01", `revise side = 3' 2"
		settle thwart: replaced`)
	for name, step := range map[string]struct {
		text   string
		now    string // size as recorded afterwards, "" when no record changed
		beside []Entry
	}{
		"a correction":                    {text: strings.Replace(thwarts, "3 ft", `3' 1"`, 1), now: `3' 1"`},
		"within the tolerance":            {text: strings.Replace(thwarts, "3 ft", `3' 0 1/32"`, 1)},
		"another line is edited":          {text: thwarts + "\nwork 1 h on thwarts"},
		"edits before and behind":         {text: "# noted\n" + strings.Replace(thwarts, "3 ft", `3' 1"`, 1) + "\nwork 1 h on thwarts", now: `3' 1"`},
		"the part line itself":            {text: strings.Replace(thwarts, "by side", `by side + 1"`, 1), now: `3' 1"`},
		"a reading of the same day":       {text: thwarts + "\nfound side = 3' 1\"", now: `3' 1"`},
		"a correction of what is revised": {text: strings.Replace(thwarts, "3 ft", `3' 1"`, 1), now: `3' 1"`, beside: []Entry{later}},
	} {
		s := told(append([]Entry{entryOf("a", "2027-03-01", thwarts)}, step.beside...)...)
		r := s.Update(context.Background(), append([]Entry{entryOf("a", "2027-03-01", step.text)}, step.beside...))
		if step.now == "" {
			if len(r.Recast) != 0 {
				t.Errorf("%s: %+v", name, r.Recast)
			}
			continue
		}
		if len(r.Recast) != 1 || r.Empty() {
			t.Errorf("%s: %+v", name, r.Recast)
			continue
		}
		x := r.Recast[0]
		if x.Thing != "thwart" || x.How != "made" || x.Count != 2 || len(x.Sizes) != 1 || x.Sizes[0].Name != "length" ||
			bench.Text(x.Sizes[0].Was) != `3'` || bench.Text(x.Sizes[0].Is) != step.now {
			t.Errorf("%s: %+v", name, x)
		}
	}
}

// TestRevisionIsNoRecast: a later reading leaves the record of what was made alone, and so
// does taking a correction back tell both ways.
func TestRevisionIsNoRecast(t *testing.T) {
	a := entryOf("a", "2027-03-01", thwarts)
	s := told(a)
	log := s.NewLog(nil)
	defer log.Close()
	r := s.Update(context.Background(), []Entry{a, entryOf("b", "2027-04-01", `revise side = 3' 1"`)})
	if len(r.Recast) != 0 || len(r.Made) != 1 || !r.Made[0].Off {
		t.Errorf("a revision: %+v", r)
	}
	s.Update(context.Background(), []Entry{entryOf("a", "2027-03-01", strings.Replace(thwarts, "3 ft", "4 ft", 1))})
	r = s.Update(context.Background(), []Entry{a})
	if len(r.Recast) != 1 || bench.Text(r.Recast[0].Sizes[0].Is) != "3'" {
		t.Errorf("taken back: %+v", r.Recast)
	}
	if all, _, _ := log.Since(0); len(all.Recast) != 0 {
		t.Errorf("there and back again: %+v", all.Recast)
	}
	// what a settle line records can be recast as well
	b := entryOf("b", "2027-04-01", "revise side = 2' 11\"\nsettle thwart: trimmed")
	s = told(a, b)
	r = s.Update(context.Background(), []Entry{a, entryOf("b", "2027-04-01", "revise side = 2' 10\"\nsettle thwart: trimmed")})
	if len(r.Recast) != 1 || r.Recast[0].How != "trimmed" || bench.Text(r.Recast[0].Sizes[0].Was) != `2' 11"` {
		t.Errorf("a trimmed size: %+v", r.Recast)
	}
}

// TestRecordsFrom: what a correction of a reading would recast is known before it is kept.
func TestRecordsFrom(t *testing.T) {
	s := told(entryOf("a", "2027-03-01", "number = 2\nside = 3 ft\npart thwart: number of 7/8\" by 8\" by side in white_pine\nmade thwart: 2\ntable o: c0 c1\n+ r0 0-0-1 0-0-2\npart shim: 2 of 1/4\" by o.r0.c1 by sum(o.r0) in white_pine"),
		entryOf("b", "2027-04-01", "revise side = 3' 1\"\nmade shim: 1"))
	for name, want := range map[string]string{"side": "a 1: thwart", "number": "", "o.r0.c0": "a 4: shim", "o.c1.r0": "a 5: shim", "thwart": "a 2: thwart", "none": ""} {
		var got []string
		for ref, list := range s.RecordsFrom(name) {
			for _, m := range list {
				got = append(got, fmt.Sprintf("%s %d: %s", ref.Entry, ref.Index, m.Thing))
			}
		}
		if got := strings.Join(got, " "); got != want {
			t.Errorf("%s: %q, want %q", name, got, want)
		}
	}
}

// TestReadingsOfParts: the sizes of a part stand in its part line and nowhere else.
func TestReadingsOfParts(t *testing.T) {
	first := "rib_cut = 6'\npart rib: 24 of 3/8\" by 1\" by rib_cut in white_oak, within 1/16\"\nrib.spacing = 9\"\n"
	for _, line := range []string{"revise rib = 3 ft", "found rib = 3 ft", "built rib = 3 ft", "rib = 3 ft", "revise rib.length = 6' 2\"", "rib.width = 1/2\"", "built rib.length = 6'", "guess rib.count = 2"} {
		for _, entries := range [][]Entry{
			{entryOf("a", "", first), entryOf("b", "2027-01-01", line)},
			{entryOf("a", "", first+line)},
		} {
			s := told(entries...)
			list := s.Outcomes(entries[len(entries)-1].Key, Now)
			e := list[len(list)-1].Result.Err
			if e == nil || !strings.Contains(e.Message, "part line") && e.Code != calc.CodeTwice || e.Span.End == 0 {
				t.Errorf("%s: %+v", line, e)
			}
			if p := s.Parts(Now); !p[0].Result.OK() {
				t.Errorf("%s: the part: %+v", line, p[0].Result)
			}
		}
	}
	s := told(entryOf("a", "", first), entryOf("b", "", `rib.width = 1/2"`))
	refused := func() bool { return s.Outcomes("b", Now)[0].Result.Err != nil }
	for _, step := range []struct {
		first string
		want  bool
	}{
		{first, true},
		{strings.Replace(first, `by 1" by`, "by rib.width by", 1), false}, // the part takes its width from there
		{first, true},
		{strings.Replace(first, `of 3/8" by 1" by`, "of", 1), false}, // it has no width
		{strings.Replace(first, "part rib", "part timber", 1), false},
		{first, true},
	} {
		s.Update(context.Background(), []Entry{entryOf("a", "", step.first), entryOf("b", "", `rib.width = 1/2"`)})
		if refused() != step.want {
			t.Errorf("beside\n%s\nrib.width is refused: %v", step.first, refused())
		}
	}
}

const ribs = `rib_cut = 6' 5/8"
	part rib: 24 of 3/8" by 1" by rib_cut in white_oak, within 1/16"
	made rib: 24`

// TestSettledInPart: some of a batch can be settled, and the rest stays to be seen to.
func TestSettledInPart(t *testing.T) {
	for line, want := range map[string]string{
		"settle rib: replaced":                   "24 replaced",
		"settle rib: 20 replaced":                "20 replaced, 4 off",
		"settle rib: 20 left":                    "20 left, 4 off",
		"settle rib: 25 replaced":                "error: more than the 24 made",
		"settle rib: 2.5 replaced":               "error: whole number",
		"settle rib: 20 replced":                 "error: replaced?",
		"settle rib: trimmed":                    "error: trimming takes wood away",
		"settle rib: 4 trimmed":                  "error: trimming takes wood away",
		"settle rib: trimmed to 6' 2 1/4\"":      "24 trimmed",
		"settle rib: trimmed to width = 15/16\"": "error: trimming takes wood away",
	} {
		s := told(entryOf("a", "2027-01-01", ribs), entryOf("b", "2027-02-01", "revise rib_cut = 6' 2 1/4\"\n"+line))
		var got []string
		if e := s.Outcomes("b", Now)[1].Result.Err; e != nil {
			if !strings.HasPrefix(want, "error: ") || !strings.Contains(e.Message+e.Hint, strings.TrimPrefix(want, "error: ")) {
				t.Errorf("%s: %v %s, want %s", line, e, e.Hint, want)
			}
			if !strings.Contains(line, "rep") && len(s.Rework(Now)) != 1 {
				t.Errorf("%s: taken for settled", line)
			}
			continue
		}
		for _, m := range s.MadeList(Now) {
			word := "off"
			if !m.Off {
				word = m.Settled.How
			}
			got = append(got, bench.Text(calc.Number(m.Count))+" "+word)
		}
		if text := strings.Join(got, ", "); text != want {
			t.Errorf("%s: %s, want %s", line, text, want)
		}
	}
}

// TestCountsAreChecked: what is made after a replacement takes the place of the replaced;
// more than the part line asks for are remarked on.
func TestCountsAreChecked(t *testing.T) {
	for text, want := range map[string]struct {
		made, off float64
		remark    string
	}{
		"made rib: 30":                                            {54, 24, "that makes 54, and the part line asks for 24"},
		"settle rib: replaced\nmade rib: 24":                      {24, 0, "24 of these take the place"},
		"settle rib: 20 replaced\nmade rib: 20":                   {24, 4, "20 of these take the place"},
		"settle rib: replaced\nmade rib: 4":                       {24, 0, "4 of these take the place"},
		"settle rib: replaced\nmade rib: 24\nmade rib: 1":         {25, 0, "that makes 25"},
		"settle rib: left\nmade rib: 1":                           {25, 0, "that makes 25"},
		"settle rib: 1 replaced\nmade rib: 1\nsettle rib: left\n": {24, 0, ""},
	} {
		s := told(entryOf("a", "2027-01-01", ribs), entryOf("b", "2027-02-01", "revise rib_cut = 6' 2 1/4\"\n"+text))
		p := s.Parts(Now)[0]
		if p.Made != want.made || p.Off != want.off {
			t.Errorf("%s: %v made, %v off, want %v", text, p.Made, p.Off, want)
		}
		list := s.Outcomes("b", Now)
		last := list[len(list)-1]
		if got := strings.Join(last.Remarks, "; "); want.remark == "" != (got == "") || !strings.HasPrefix(got, want.remark) || len(last.Remarks) != len(last.Result.Warnings) {
			t.Errorf("%s: remarks %q %q, want %q", text, got, last.Result.Warnings, want.remark)
		}
	}
	// pieces that are gone are off no more
	s := told(entryOf("a", "2027-01-01", ribs), entryOf("b", "2027-02-01", "revise rib_cut = 6' 2 1/4\"\nsettle rib: replaced\nmade rib: 24"), entryOf("c", "2027-03-01", "revise rib_cut = 6' 3\""))
	if p := s.Parts(Now)[0]; p.Made != 24 || p.Off != 24 {
		t.Errorf("revised again: %v made, %v off", p.Made, p.Off)
	}
}

// TestWoodMeant: a wood that is a letter or two from a known one is likely that.
func TestWoodMeant(t *testing.T) {
	for wood, want := range map[string]string{
		"white_oka": "white_oak", "western_red_ceder": "western_red_cedar", "mahogony": "mahogany", "silverbol": "silverball",
		"white_oak": "", "oak": "", "apple": "", "plywood": "", "okoume": "", "silverball": "", "wych_elm": "",
	} {
		s := told(entryOf("a", "", "part knee: 4 of 1\" by 5\" by 1' in "+wood+"\nstock 2 of 1\" by 8\" by 8' in silverball"))
		got := strings.Join(s.Outcomes("a", Now)[0].Remarks, "")
		if want == "" != (got == "") || !strings.Contains(got, "did you mean "+want+"?") && want != "" {
			t.Errorf("%s: %q, want %q", wood, got, want)
		}
	}
}

// TestTwoSizes: a part of two sizes says which they are.
func TestTwoSizes(t *testing.T) {
	for sizes, want := range map[string]string{
		`1" by 5"`: `1" wide, 5" long`, `1" by 5", thickness = 3/8"`: "", `5 ft`: "", `3/8" by 1" by 5"`: "",
	} {
		of, further, _ := strings.Cut(sizes, ",")
		if further != "" {
			further = "," + further
		}
		s := told(entryOf("a", "", "part knee: 4 of "+of+" in apple"+further))
		if got := strings.Join(s.Outcomes("a", Now)[0].Remarks, ""); want == "" != (got == "") || !strings.Contains(got, want) {
			t.Errorf("%s: %q, want %q", sizes, got, want)
		}
	}
}

// TestMadeAsOfAnyDay asks what was made as of days in any order: it is what a session that
// was asked of nothing else says.
func TestMadeAsOfAnyDay(t *testing.T) {
	list := []Entry{entryOf("journal", "", "bay = 40 in\npart rib: 400 of 1 in by 2 in by bay in oak")}
	how := []string{"1 trimmed to length = 39 in", "left", "2 replaced", "1 packed"}
	for i := range 160 {
		list = append(list, entryOf(strconv.Itoa(i), "", fmt.Sprintf("made rib: %d\nrevise bay = %d in\nsettle rib: %s", 1+i%3, 38+i*7%5, how[i%len(how)])))
	}
	told := func(s *Session, asOf int) string {
		text := ""
		for _, m := range s.MadeList(asOf) {
			text += fmt.Sprintf("%s %v %v %v %s\n", m.Ref.Entry, m.Count, m.Replaced, m.Off, m.Sizes[2].Words)
			if m.Settled != nil {
				text += m.Settled.How + " " + m.Settled.Entry.Key + "\n"
			}
		}
		return text
	}
	want := make([]string, len(list))
	s := open(list...)
	for i := range want {
		want[i] = told(s, i)
		s.Update(context.Background(), append(list[:0:0], list...)) // forgets what it was asked
	}
	s = open(list...)
	chance := rand.New(rand.NewPCG(1, 2))
	for range 400 {
		i := chance.IntN(len(list))
		if got := told(s, i); got != want[i] {
			t.Fatalf("as of entry %d:\n%s\nwant\n%s", i, got, want[i])
		}
	}
	if n := len(s.chronicles["rib"].tallies); n > maxTallies {
		t.Errorf("%d tallies are kept", n)
	}
}

// TestNoSecondLook settles at random, and has the same lines gone through by a tally that
// looks at all pieces each time.
func TestNoSecondLook(t *testing.T) {
	chance := rand.New(rand.NewPCG(3, 4))
	one := func(list ...string) string { return list[chance.IntN(len(list))] }
	for round := range 300 {
		list := []Entry{entryOf("journal", "", "bay = 40 in\n"+one("part rib: 9 of 1 in by 2 in by bay in oak", "made rib to length = bay", "made rib: 2"))}
		for i := range 30 {
			text := one("made rib: 1", "made rib: 2", "made rib: 2", "made rib: 1, within 2 in", "made rib: 1.5", "made rib: x", "revise bay = 39 in", "revise bay = 40 in", "revise bay = 41 in", "made rib to length = bay",
				"settle rib: left", "settle rib: 1 left", "settle rib: 1 trimmed to length = 39 in", "settle rib: trimmed", "settle rib: 2 replaced", "settle rib: replaced", "settle rib: 1 packed", "settle rib: 3 left")
			if i == 12 {
				text += one("", "\npart rib: 9 of 1 in by 2 in by bay in oak", "\nx = 2")
			}
			list = append(list, entryOf(strconv.Itoa(i), "", text))
		}
		s := open(list...)
		s.MadeList(Now)
		s.Rework(chance.IntN(len(list)))
		s.mu.Lock()
		c := s.chronicle("rib")
		is, plain := c.first(len(c.lines)), &tally{s: s, thing: "rib"}
		for n := range c.lines {
			plain.alike, plain.right, plain.owed = nil, 0, math.Inf(1)
			for _, b := range plain.batches {
				b.judged = nil
			}
			c.goOn(plain, n+1)
		}
		told := func(z *tally) (text string, count float64) {
			for _, b := range z.batches {
				text += fmt.Sprintf("%d.%d %v %v %v %v %v %v\n", b.from.entry.order, b.from.index, b.count, b.gone, b.instead, b.owed, b.sizes.sizes, b.accepted.sizes)
				if b.settled != nil {
					text += fmt.Sprintf("%s %v\n", b.settled.How, b.settled.Entry)
				}
				count += b.count
			}
			return text, count
		}
		a, count := told(is)
		if b, _ := told(plain); a != b || count != is.count {
			t.Fatalf("round %d: %v\n%s\nwant\n%s", round, list, a, b)
		}
		s.mu.Unlock()
	}
}
