package editor

import (
	"math/rand/v2"
	"slices"
	"strings"
	"testing"
	"unicode/utf8"

	"scarph/calc"
)

func TestPositions(t *testing.T) {
	x := newText("ab\n° 𝛼 x\r\nc\rd")
	for _, c := range []struct {
		offset int
		u16    position
		u8     position
	}{
		{0, position{0, 0}, position{0, 0}},
		{2, position{0, 2}, position{0, 2}},
		{3, position{1, 0}, position{1, 0}},
		{5, position{1, 1}, position{1, 2}},  // after °
		{10, position{1, 4}, position{1, 7}}, // after 𝛼, two units of UTF-16
		{12, position{1, 6}, position{1, 9}}, // the end of the line
		{14, position{2, 0}, position{2, 0}}, // after \r\n
		{16, position{3, 0}, position{3, 0}}, // after \r alone
		{17, position{3, 1}, position{3, 1}}, // the end
		{99, position{3, 1}, position{3, 1}}, // beyond it
		{-4, position{0, 0}, position{0, 0}}, // before the beginning
		{13, position{1, 6}, position{1, 9}}, // between \r and \n
		{8, position{1, 2}, position{1, 3}},  // inside 𝛼
	} {
		if got := x.position(c.offset, utf16); got != c.u16 {
			t.Errorf("%d in UTF-16: %v", c.offset, got)
		}
		if got := x.position(c.offset, utf8Bytes); got != c.u8 {
			t.Errorf("%d in UTF-8: %v", c.offset, got)
		}
	}
	for _, c := range []struct {
		p      position
		e      encoding
		offset int
	}{
		{position{1, 3}, utf16, 6}, // inside the pair of 𝛼
		{position{1, 99}, utf16, 12},
		{position{0, 99}, utf8Bytes, 2},
		{position{9, 0}, utf16, 17},
		{position{-1, 0}, utf16, 0},
		{position{1, -3}, utf16, 3},
	} {
		if got := x.offset(c.p, c.e); got != c.offset {
			t.Errorf("%v in %s: %d", c.p, c.e, got)
		}
	}
}

// FuzzPositions goes from each offset to its position and back.
func FuzzPositions(f *testing.F) {
	f.Add("ab\n° 𝛼 x\r\nc\rd")
	f.Add("\r\r\n\n\xff\xfe")
	f.Fuzz(func(t *testing.T, src string) {
		if len(src) > 4<<10 { // every offset is tried on every line
			t.Skip()
		}
		x := newText(src)
		for _, e := range []encoding{utf16, utf8Bytes} {
			for i := 0; i <= len(src); {
				at := x.offset(x.position(i, e), e)
				between := i > 0 && i < len(src) && src[i-1] == '\r' && src[i] == '\n'
				if at != i && !between {
					t.Fatalf("%q, %s: %d became %d", src, e, i, at)
				}
				_, w := utf8.DecodeRuneInString(src[i:])
				i += max(w, 1)
			}
		}
		if n := strings.Count(src, "\n"); len(x.starts) < n+1 {
			t.Fatalf("%q has %d lines", src, len(x.starts))
		}
	})
}

// TestEdited changes texts at random and compares the places of their lines with those of
// the same text read anew.
func TestEdited(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 1))
	pieces := []string{"a", "\n", "\r", "\r\n", "ab", "é", ""}
	random := func() (s string) {
		for range r.IntN(6) {
			s += pieces[r.IntN(len(pieces))]
		}
		return s
	}
	for range 20_000 {
		x := newText(random() + random())
		a, b := r.IntN(len(x.src)+1), r.IntN(len(x.src)+1)
		at, with := calc.Span{Start: min(a, b), End: max(a, b)}, random()
		got := x.edited(at, with)
		if want := newText(x.src[:at.Start] + with + x.src[at.End:]); got.src != want.src || !slices.Equal(got.starts, want.starts) {
			t.Fatalf("%q with %q at %v: lines begin at %v, want %v", x.src, with, at, got.starts, want.starts)
		}
	}
}
