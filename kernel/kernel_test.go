package kernel

import (
	"context"
	"fmt"
	"math"
	"math/rand"
	"os"
	"strconv"
	"strings"
	"testing"

	"scarph/calc"
	"scarph/calc/lang"
)

// entryOf makes an entry of statements, one a line; a line that begins with | is a
// slot; a line "table NAME: col col" begins a data table whose rows follow with a +.
func entryOf(key, date, text string) Entry {
	e := Entry{Key: key, Date: date, Title: key}
	for i, src := range strings.Split(text, "\n") {
		src = strings.TrimSpace(src)
		place := Place{File: key, Line: i + 1, Column: 1}
		if head, cols, ok := strings.Cut(src, ": "); ok && strings.HasPrefix(head, "table ") {
			e.Tables = append(e.Tables, Table{Name: strings.TrimPrefix(head, "table "), Columns: strings.Fields(cols), Place: place})
			continue
		}
		if strings.HasPrefix(src, "+ ") {
			t := &e.Tables[len(e.Tables)-1]
			f := strings.Fields(src[2:])
			t.Rows = append(t.Rows, f[0])
			for k, c := range f[1:] {
				name := t.Name + "." + f[0] + "." + t.Columns[k]
				l := Line{Text: c, Cell: true, Place: place}
				if c == "_" {
					l.Empty, l.Stmt = true, &lang.Stmt{Kind: lang.DrawnAs, Name: name}
				} else {
					l.Stmt, l.Err = lang.Parse("drawn " + name + " = " + c)
				}
				e.Lines = append(e.Lines, l)
			}
			continue
		}
		l := Line{Text: src, Place: place}
		if s, ok := strings.CutPrefix(src, "|"); ok {
			l.Slot = true
			l.Stmt, l.Err = lang.ParseSlot(s)
		} else {
			l.Stmt, l.Err = lang.Parse(src)
		}
		if l.Stmt == nil && l.Err == nil {
			continue
		}
		e.Lines = append(e.Lines, l)
	}
	return e
}

func open(entries ...Entry) *Session {
	s := New(calc.Style{})
	s.Update(context.Background(), entries)
	return s
}

func inches(t *testing.T, s *Session, name string, asOf int) float64 {
	t.Helper()
	r, ok := s.Value(name, asOf)
	if !ok || !r.OK() {
		t.Fatalf("%s: %+v %v", name, r, ok)
	}
	return r.Value.V / 0.0254
}

func near(t *testing.T, what string, got, want float64) {
	t.Helper()
	if math.Abs(got-want) > 1e-6*math.Max(1, math.Abs(want)) {
		t.Errorf("%s is %v, want %v", what, got, want)
	}
}

var wren = []Entry{
	entryOf("journal", "", `
		drawn beam = 4' 1 1/2"
		planking = 7/16"
		frames = 9
		run = 8' 10"
		spacing = run / (frames - 1)
		inside = beam - 2 * planking
		part thwart: 2 of 3/4" by 7" by inside - 1/8" in larch, within 1/16"
		table offsets: st_1 st_2
		+ sheer_half 1-2-4 2-0-3+
		+ chine_half 0-9-1 _
		|beam`),
	entryOf("april", "2027-04-18", `
		made thwart: 2
		work 2.5 h on thwarts
		spend 31.40 EUR on larch
		sawn = then(planking)`),
	entryOf("may", "2027-05-02", `
		found beam = 4' 1 3/4" ± 1/16"
		revise planking = 3/8"
		check beam < 4' 2"
		revise offsets.chine_half.st_1 = 0-10-1
		fuller = beam - drawn(beam)
		was = inside as of entry 1
		difference = beam - beam`),
	entryOf("june", "2027-06-01", `settle thwart: trimmed to 4' 3/4"  # and shimmed`),
}

func TestReadingsHaveMemory(t *testing.T) {
	s := open(wren...)
	near(t, "beam now", inches(t, s, "beam", Now), 49.75)
	near(t, "beam as of entry 1", inches(t, s, "beam", 0), 49.5)
	near(t, "inside now", inches(t, s, "inside", Now), 49)
	near(t, "inside as of entry 2", inches(t, s, "inside", 1), 48.625)
	near(t, "then(planking) in April", inches(t, s, "sawn", Now), 7.0/16)
	near(t, "found over drawn", inches(t, s, "fuller", Now), 0.25)
	near(t, "inside as of entry 1, by name", inches(t, s, "was", Now), 48.625)
	near(t, "a revised cell", inches(t, s, "offsets.chine_half.st_1", Now), 10.125)
	near(t, "the same cell, column first", inches(t, s, "offsets.st_1.chine_half", Now), 10.125)
	near(t, "the same cell in April", inches(t, s, "offsets.chine_half.st_1", 1), 9.125)
	if r, _ := s.Value("difference", Now); r.Value.Likely() != 0 || r.Value.V != 0 {
		t.Errorf("beam − beam is %v ± %v, want 0 ± 0", r.Value.V, r.Value.Likely())
	}
	if r, _ := s.Value("offsets.chine_half", Now); !r.OK() || r.Value.Items()[1].Kind() != calc.Missing {
		t.Errorf("an empty cell is not missing: %+v", r)
	}
	h, ok := s.History("beam", Now)
	if !ok || len(h.Readings) != 2 || h.Readings[0].Kind != "drawn" || h.Readings[0].Until == nil || h.Readings[0].Until.Date != "2027-05-02" || !h.Readings[1].Counts {
		t.Errorf("history of beam: %+v", h)
	}
	if r, _ := s.Value("thwart", Now); !r.OK() || r.Value.Kind() != calc.Record {
		t.Errorf("a part is a record: %+v", r)
	}
	near(t, "the length of a part", inches(t, s, "thwart.length", Now), 48.875)
}

func TestMadeIsFrozen(t *testing.T) {
	s := open(wren[:3]...)
	list := s.MadeList(Now)
	if len(list) != 1 || !list[0].Off {
		t.Fatalf("made: %+v", list)
	}
	length := list[0].Sizes[2]
	near(t, "made length", length.Made.V/0.0254, 48.5)
	near(t, "length now", length.Now.V/0.0254, 48.875)
	if length.Words != `3/8" short` || list[0].Since == nil || list[0].Since.Entry.Date != "2027-05-02" {
		t.Errorf("words %q since %+v", length.Words, list[0].Since)
	}
	if now := s.MadeList(1); now[0].Off {
		t.Errorf("off already in April: %+v", now)
	}
	s = open(wren...)
	m := s.MadeList(Now)[0]
	near(t, "the size after trimming", m.Sizes[2].Made.V/0.0254, 48.75)
	if !m.Off || m.Sizes[2].Words != `1/8" short` || m.Settled == nil || m.Settled.Note != "and shimmed" {
		t.Errorf("after trimming short: %+v", m)
	}
	if p := s.Parts(Now); len(p) != 1 || p[0].Made != 2 || p[0].Wood != "larch" {
		t.Errorf("parts: %+v", p)
	}
}

func TestRippleTellsWhatMoved(t *testing.T) {
	s := open(wren[:2]...)
	r := s.Update(context.Background(), wren[:3])
	var names []string
	for _, m := range r.Moved {
		names = append(names, m.Name)
	}
	for _, want := range []string{"beam", "planking", "inside", "thwart", "offsets.chine_half.st_1", "offsets.chine_half", "offsets.st_1"} {
		if !contains(names, want) {
			t.Errorf("%s moved and the ripple does not say so: %v", want, names)
		}
	}
	if contains(names, "spacing") || contains(names, "sawn") {
		t.Errorf("the ripple names what did not move: %v", names)
	}
	if len(r.Made) != 1 || r.Made[0].Sizes[2].Words != `3/8" short` {
		t.Errorf("made: %+v", r.Made)
	}
	if still := s.UnmovedBy(r); !contains(still, "spacing") || contains(still, "beam") {
		t.Errorf("unmoved: %v", still)
	}
	w, err := s.WhatIf(map[string]string{"beam": `4' 3"`})
	if err != nil || len(w.Moved) < 3 || w.Moved[0].Name != "beam" || len(w.Checks) != 1 || w.Checks[0].Holds {
		t.Fatalf("what-if: %+v %v", w, err)
	}
	near(t, "beam after a what-if", inches(t, s, "beam", Now), 49.75)
	if _, err := s.WhatIf(map[string]string{"beam": "51"}); err == nil || err.Code != calc.CodeBareNumber {
		t.Errorf("a bare number in a what-if: %v", err)
	}
	if _, err := s.WhatIf(map[string]string{"beem": `51"`}); err == nil || err.Code != calc.CodeUnknownName {
		t.Errorf("an unknown name in a what-if: %v", err)
	}
}

func TestRefusals(t *testing.T) {
	s := open(entryOf("a", "2027-01-01", `
		beam = 4'
		beam = 5'
		revise depth = 2'
		x = y + 1 in
		y = z
		z = x
		w = x + beam
		u = nothing * 2
		v = u + u
		made oar: 2
		found(beam) + 1 in
		spend 3 h on glue
		part p: 1.5 of 1" by 2" by 3"`))
	want := map[string]calc.Code{"beam = 5'": calc.CodeTwice, "revise depth = 2'": calc.CodeNoReading, "x = y + 1 in": calc.CodeCircle, "u = nothing * 2": calc.CodeUnknownName, "made oar: 2": calc.CodePart, "found(beam) + 1 in": calc.CodeNoReading, "spend 3 h on glue": calc.CodeDimension, `part p: 1.5 of 1" by 2" by 3"`: calc.CodePart}
	for _, o := range s.Outcomes("a", Now) {
		if code, ok := want[o.Line.Text]; ok {
			if o.Result.Err == nil || o.Result.Err.Code != code || o.Result.Err.Span.End == 0 {
				t.Errorf("%s: %+v, want %s", o.Line.Text, o.Result.Err, code)
			}
			delete(want, o.Line.Text)
		}
		switch o.Line.Text {
		case "x = y + 1 in":
			if !strings.Contains(o.Result.Err.Message, "x needs y needs z needs x: a circle") {
				t.Errorf("the circle is named %q", o.Result.Err.Message)
			}
		case "w = x + beam", "v = u + u":
			if o.Result.Err != nil || len(o.Result.Waits) == 0 {
				t.Errorf("%s does not wait: %+v", o.Line.Text, o.Result)
			}
		}
	}
	if len(want) > 0 {
		t.Errorf("not met: %v", want)
	}
	near(t, "beam stands", inches(t, s, "beam", Now), 48)
}

// TestWorkFollowsWhatMoved asserts that a revision works out only what hangs on it.
func TestWorkFollowsWhatMoved(t *testing.T) {
	var a, b strings.Builder
	for i := 0; i < 500; i++ {
		fmt.Fprintf(&a, "base_%d = %d in\n", i, i+1)
		fmt.Fprintf(&b, "top_%d = base_%d * 2 + flag * 0 in\n", i, i)
	}
	b.WriteString("flag = base_7 > 0 in ? 1 : 0\nlast = top_7 + 1 in\n")
	mk := func(text string) []Entry { return []Entry{entryOf("a", "", text), entryOf("b", "", b.String())} }
	s := open(mk(a.String())...)
	before := s.Work()
	s.Update(context.Background(), mk(strings.Replace(a.String(), "base_7 = 8 in", "base_7 = 9 in", 1)))
	w := s.Work()
	// base_7, flag (same value, so its 500 users are kept), top_7 and last
	if n := w.Evaluated - before.Evaluated; n != 4 {
		t.Errorf("worked out %d statements, want 4", n)
	}
	near(t, "last", inches(t, s, "last", Now), 19)
	before = s.Work()
	s.Update(context.Background(), mk(strings.Replace(a.String(), "base_7 = 8 in", "base_7 = 9 in", 1)))
	if w := s.Work(); w != before {
		t.Errorf("an update without a change did work: %+v, %+v", before, w)
	}
}

// TestRandomEdits compares a session that followed a script of edits, and one that works
// things out when they are asked for, with a fresh one over the same text.
func TestRandomEdits(t *testing.T) {
	seeds := 60
	if testing.Short() {
		seeds = 10
	}
	if n, err := strconv.Atoi(os.Getenv("SCARPH_SEEDS")); err == nil {
		seeds = n // a longer run, now and then
	}
	for seed := 0; seed < seeds; seed++ {
		rnd := rand.New(rand.NewSource(int64(seed)))
		texts := make([][]string, 4)
		line := func() string {
			n := func() string { return string(rune('a'+rnd.Intn(8))) + "x" }
			switch rnd.Intn(26) {
			case 23:
				return fmt.Sprintf("%sp%s%s = %d in", []string{"", "revise ", "found "}[rnd.Intn(3)], n(), []string{"", ".length", ".heel", ".width"}[rnd.Intn(4)], rnd.Intn(9)+1)
			case 24:
				x := n()
				return fmt.Sprintf("part p%s: 3 of 1\" by p%s.width by %s, heel = %s", x, x, n(), n())
			case 25:
				return fmt.Sprintf("settle p%s: 1 %s", n(), []string{"replaced", "left", "trimmed"}[rnd.Intn(3)])
			case 20: // names that a table has too
				return fmt.Sprintf("o = %d in", rnd.Intn(9)+1)
			case 21:
				return fmt.Sprintf("%so.r%d = %d in", []string{"", "revise ", "found "}[rnd.Intn(3)], rnd.Intn(3), rnd.Intn(9)+1)
			case 22:
				return fmt.Sprintf("%s = %s", n(), []string{"o", "o.r1", "o.c0"}[rnd.Intn(3)])
			case 18:
				return fmt.Sprintf("found o.c%d.r%d = 2-1-%d", rnd.Intn(3), rnd.Intn(3), rnd.Intn(8))
			case 19:
				return "table o: c1 c2\n+ r2 0-2-1 _"
			case 16:
				return fmt.Sprintf("revise %s = %d", n(), rnd.Intn(9))
			case 17:
				return fmt.Sprintf("found %s = %s * 1 lb", n(), n())
			case 0, 1, 2:
				return fmt.Sprintf("%s = %d in", n(), rnd.Intn(40)+1)
			case 3, 4:
				return fmt.Sprintf("%s = %s + %s", n(), n(), n())
			case 5:
				return fmt.Sprintf("found %s = %d in ± 1/16 in", n(), rnd.Intn(40)+1)
			case 6:
				return fmt.Sprintf("revise %s = %s + 1 in", n(), n())
			case 7:
				return fmt.Sprintf("check %s < %s", n(), n())
			case 8:
				return fmt.Sprintf("|%s * 2", n())
			case 9:
				return fmt.Sprintf("%s = then(%s) + %s as of entry %d", n(), n(), n(), rnd.Intn(4)+1)
			case 10:
				return fmt.Sprintf("part p%s: 2 of 1\" by 2\" by %s", n(), n())
			case 11:
				return fmt.Sprintf("made p%s: 1", n())
			case 12:
				return fmt.Sprintf("revise o.r%d.c%d = 1-2-%d", rnd.Intn(2), rnd.Intn(2), rnd.Intn(8))
			case 13:
				return fmt.Sprintf("%s = o.r%d.c%d + sum(o.r1)", n(), rnd.Intn(2), rnd.Intn(2))
			case 14:
				return fmt.Sprintf("settle p%s: trimmed to %d in", n(), rnd.Intn(9)+1)
			}
			return fmt.Sprintf("drawn(%s) + found(%s)", n(), n())
		}
		table := "table o: c0 c1\n+ r0 0-0-1 0-0-2\n+ r1 0-1-0 _"
		for i := range texts {
			for j := 0; j < 4; j++ {
				texts[i] = append(texts[i], line())
			}
		}
		texts[0] = append(texts[0], table)
		order := []int{0, 1, 2, 3}
		build := func() []Entry {
			var list []Entry
			for _, i := range order {
				list = append(list, entryOf(fmt.Sprint(i), fmt.Sprintf("2027-01-%02d", i+1), strings.Join(texts[i], "\n")))
			}
			return list
		}
		s, asked := open(build()...), NewOnDemand(calc.Style{})
		asked.Update(context.Background(), build())
		for step := 0; step < 25; step++ {
			i := rnd.Intn(4)
			switch k := rnd.Intn(8); {
			case k < 3:
				texts[i] = append(texts[i], line())
			case k < 5 && len(texts[i]) > 1:
				j := rnd.Intn(len(texts[i]))
				texts[i] = append(texts[i][:j:j], texts[i][j+1:]...)
			case k == 5 && len(order) > 1:
				rnd.Shuffle(len(order), func(a, b int) { order[a], order[b] = order[b], order[a] })
			case k == 6:
				order = rnd.Perm(4)[:rnd.Intn(4)+1]
			default:
				if len(texts[i]) > 0 {
					texts[i][rnd.Intn(len(texts[i]))] = line()
				}
			}
			entries := build()
			s.Update(context.Background(), entries)
			asked.Update(context.Background(), entries)
			fresh := open(entries...)
			diff := compare(s, fresh, entries)
			switch step % 3 { // the session on demand is asked for all, for something, for nothing
			case 0:
				if d := compare(asked, fresh, entries); d != "" {
					diff += "\non demand: " + d
				}
			case 1:
				asked.Value(string(rune('a'+seed%8))+"x", Now)
			}
			if diff != "" {
				for _, e := range entries {
					for _, l := range e.Lines {
						t.Logf("%s: %s", e.Key, l.Text)
					}
				}
				t.Fatalf("seed %d step %d: %s", seed, step, diff)
			}
		}
	}
}

// compare tells the first difference between two sessions over the same entries.
func compare(a, b *Session, entries []Entry) string {
	for _, asOf := range []int{Now, 0, len(entries) / 2} {
		for _, e := range entries {
			x, y := a.Outcomes(e.Key, asOf), b.Outcomes(e.Key, asOf)
			if len(x) != len(y) {
				return fmt.Sprintf("entry %s has %d and %d lines", e.Key, len(x), len(y))
			}
			for i := range x {
				if d := describe(x[i]); d != describe(y[i]) {
					return fmt.Sprintf("as of %d, entry %s line %d %q:\n  followed: %s\n  fresh:    %s", asOf, e.Key, i, x[i].Line.Text, d, describe(y[i]))
				}
			}
		}
		if x, y := fmt.Sprint(dims(a, asOf)), fmt.Sprint(dims(b, asOf)); x != y {
			return fmt.Sprintf("as of %d, dimensions:\n  followed: %s\n  fresh:    %s", asOf, x, y)
		}
	}
	return ""
}

func describe(o Outcome) string {
	r := o.Result
	s := fmt.Sprintf("%s %s %v %v ±%.12g %v", o.Name, o.Kind, calc.Style{}.Text(r.Value), r.Value.V, r.Value.Likely(), r.Waits)
	if r.Err != nil {
		s += " " + string(r.Err.Code) + " " + r.Err.Message
	}
	if o.Displaced != nil {
		s += " displaced by " + o.Displaced.Text
	}
	for _, m := range o.Made {
		for _, z := range m.Sizes {
			s += fmt.Sprintf(" made %s %v now %v %s", z.Name, z.Made.V, z.Now.V, z.Words)
		}
		s += fmt.Sprint(m.Off, m.Err, m.Count, m.Replaced)
	}
	s += strings.Join(o.Remarks, "; ")
	return s
}

func dims(s *Session, asOf int) []string {
	var list []string
	for _, d := range s.Dimensions(asOf) {
		list = append(list, fmt.Sprintf("%s %s %v %v", d.Name, d.Kind, d.Result.Value.V, d.Result.Waits))
	}
	return list
}
