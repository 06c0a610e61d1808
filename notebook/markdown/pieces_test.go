package markdown

import (
	"bytes"
	"encoding/json"
	"fmt"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"scarph/calc"
)

// all tells all that can be seen of what was found in a file.
func all(t testing.TB, d *Document) string {
	t.Helper()
	for _, s := range d.Sections {
		for _, tab := range s.Tables {
			for _, row := range tab.Cells {
				for _, c := range row {
					if c.Slot != nil && s.Slots[c.Slot.Index] != c.Slot {
						t.Error("the slot of a cell is none of its section")
					}
				}
			}
		}
	}
	b, err := json.MarshalIndent([]any{d.FrontMatter, d.Sections, d.Problems}, "", " ")
	if err != nil {
		t.Fatal(err)
	}
	return strings.ReplaceAll(string(b), "[]", "null")
}

// outside tells what was found before from and from to on, moved.
func outside(d *Document, from, to, moved int) string {
	var b strings.Builder
	tell := func(s calc.Span, what any) {
		if s.Start < from {
			fmt.Fprintln(&b, s, what)
		} else if s.Start >= to {
			fmt.Fprintln(&b, s.Shift(moved), what)
		}
	}
	for _, s := range d.Sections {
		for _, x := range s.Blocks {
			tell(x.Span, x.Info)
			for _, l := range x.Lines {
				tell(l.Span, l.Text)
			}
		}
		for _, x := range s.Slots {
			tell(x.Span, []any{x.Text, x.InHeading, x.InLink, x.InAlt})
		}
		for _, x := range s.Tables {
			tell(x.Span, []any{x.Name, x.Kind, x.Unit})
		}
		if s.Date != "" {
			tell(calc.Span{Start: s.Span.Start, End: s.Span.Start}, s.Date)
		}
	}
	told := strings.Split(b.String(), "\n")
	slices.Sort(told)
	return strings.Join(told, "\n")
}

func ends(d *Document) (list []int) {
	at := d.base
	for _, p := range d.pieces {
		at += p.length
		list = append(list, at)
	}
	return list
}

// edited is a text with a change made at random: something typed, taken out, doubled or
// put elsewhere.
func edited(r *rand.Rand, src []byte) []byte {
	a, b := r.IntN(len(src)+1), r.IntN(len(src)+1)
	if r.IntN(4) > 0 {
		b = min(len(src), a+r.IntN(20))
	}
	a, b = min(a, b), max(a, b)
	with := ""
	switch r.IntN(6) {
	case 0:
		with = string(src[a:b]) + string(src[a:b])
	case 1, 2:
		b = a
		fallthrough
	case 3, 4:
		with = morsels[r.IntN(len(morsels))]
		if r.IntN(3) == 0 {
			with = lines[r.IntN(len(lines))]
		}
		if r.IntN(3) == 0 {
			with = string(randomDocument(r))
		}
	}
	if r.IntN(8) > 0 { // of a whole file; one that has any is read whole
		with = strings.ReplaceAll(with, "]:", "]")
	}
	return slices.Concat(src[:a], []byte(with), src[b:])
}

// manyPieces is a random text with many places where it may be cut.
func manyPieces(r *rand.Rand) []byte {
	var b bytes.Buffer
	if r.IntN(3) == 0 {
		b.WriteString("---\ntitle: a\n---\n")
	}
	for range 1 + r.IntN(8) {
		b.Write(bytes.ReplaceAll(randomDocument(r), []byte("]:"), nil))
		b.WriteString([]string{"\n# h {a}\n", "\n## 2027-05-02 b\n\n", "\n```calc\na = 1\nb = 2\n```\n", "\n~~~calc\nc\n~~~\n", "\n\n# h\n", "\n- x\n\n  ```calc\n  a\n  ```\n", "\n"}[r.IntN(7)])
	}
	return b.Bytes()
}

// checkReparse reads a text through a series of changes and compares what was found each
// time with what is found in the text by itself; it returns how often pieces were taken
// over.
func checkReparse(t *testing.T, r *rand.Rand, src []byte, changes int) (taken int) {
	t.Helper()
	before := Parse(src)
	for range changes {
		was := src
		src = edited(r, src)
		d, c, ok := before.reparse(src, 1+r.IntN(40))
		fresh := Parse(src)
		if !ok {
			before = fresh
			continue
		}
		if got, want := all(t, d), all(t, fresh); got != want {
			t.Fatalf("of\n%q\nto\n%q\nwas found\n%s\nwant\n%s\nin pieces that end at %v", was, src, got, want, ends(d))
		}
		if got, want := outside(d, c.From, c.To, 0), outside(before, c.From, c.To-c.Moved, c.Moved); got != want {
			t.Fatalf("of\n%q\nto\n%q\n%+v: outside of it is\n%s\nwas\n%s", was, src, c, got, want)
		}
		if c.From > fresh.base || c.To < len(src) {
			taken++
		}
		s := r.IntN(len(d.Sections))
		if got, want := d.Render(d.Sections[s], loud{}, Options{}), fresh.Render(fresh.Sections[s], loud{}, Options{}); !slices.Equal(got, want) {
			t.Fatalf("%q is shown as %q, want %q", src, got, want)
		}
		before = d
	}
	return taken
}

func TestReparse(t *testing.T) {
	n, taken := *randomDocuments/2, 0
	if testing.Short() || raceEnabled {
		n /= 10
	}
	for seed := range n {
		r := rand.New(rand.NewPCG(uint64(seed), 2))
		if taken += checkReparse(t, r, manyPieces(r), 6); t.Failed() {
			t.Fatalf("seed %d", seed)
		}
	}
	if taken < n {
		t.Errorf("pieces were taken over %d times in %d documents", taken, n)
	}
	t.Logf("pieces were taken over %d times", taken)
}

// TestReparseReadsLittle types in the middle of a long file and counts what was read.
func TestReparseReadsLittle(t *testing.T) {
	var b strings.Builder
	for i := range 500 {
		fmt.Fprintf(&b, "\nIt measures {a_%d} now, and that was not to be seen from where we stood.\n\n```calc\na_%d = 4 in\nb_%d = a_%d * 2\n```\n", i, i, i, i)
	}
	src := []byte(b.String())
	d, _ := Parse(src).Reparse(src)
	for _, typed := range []string{"1", "\n", "word", "", "{a", "}"} {
		at := len(src) / 2
		src = slices.Concat(src[:at], []byte(typed), src[at:])
		next, c := d.Reparse(src)
		if c.To-c.From > 3*leastPiece {
			t.Errorf("%q typed: read from %d to %d of %d", typed, c.From, c.To, len(src))
		}
		d = next
	}
}

func FuzzReparse(f *testing.F) {
	for i, s := range seeds(f) {
		f.Add([]byte(s), uint64(i))
	}
	f.Fuzz(func(t *testing.T, src []byte, seed uint64) {
		if len(src) > 1<<14 {
			t.Skip()
		}
		checkReparse(t, rand.New(rand.NewPCG(seed, 3)), src, 4)
	})
}
