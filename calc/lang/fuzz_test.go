package lang

import (
	"testing"
)

// FuzzCell reads anything as a cell of a data table, as a slot, and as a slot in a
// cell: a refusal says why and lies inside of the text.
func FuzzCell(f *testing.F) {
	for _, c := range [][2]string{{"1-10-5", ""}, {"12", "mm"}, {"1-10-5 ± 1/16\"", ""}, {"\"ash\"", ""}, {"–", ""}, {"68", "°F"}, {"3 ± 1", "mm"}, {"beam - 2 in to mm", ""}, {"x as of entry 3", "nothing"}} {
		f.Add(c[0], c[1])
	}
	found, _ := KindOf("found")
	f.Fuzz(func(t *testing.T, text, unit string) {
		if s, err := ParseCell(found, "offsets.sheer.st_1", text, unit); (s == nil) == (err == nil) || err != nil && (err.Message == "" || err.Span.Start < 0 || err.Span.End < err.Span.Start || err.Span.End > len(text)+1) {
			t.Errorf("the cell %q in %q: %+v, %+v", text, unit, s, err)
		}
		if s, err := ParseSlot(text); s == nil && err == nil || err != nil && (err.Span.Start < 0 || err.Span.End < err.Span.Start || err.Span.End > len(text)+1) {
			t.Errorf("the slot %q: %+v, %+v", text, s, err)
		}
		new(Parser).ParseSlotCell(found, "offsets.sheer.st_1", text)
	})
}

// FuzzTokens cuts anything into pieces: they lie in their order, each is the text at its
// place, and what a call or a name is asked for at any place has an answer.
func FuzzTokens(f *testing.F) {
	for _, s := range []string{`part a: 2 of 3/4" by 7" by x in larch, within 1/16" # note`, `map(1..3, it*2)`, `f(a, g(b, [1, 2]`, `"open`, `revise o.a.b = 1-10-5`, `x.y[1].z as of entry 3`, "\xff(\xfe, 1' ", `²³½¼`} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, src string) {
		at := 0
		for _, k := range Tokens(src) {
			if k.Span.Start < at || k.Span.End > len(src) || k.Span.End <= k.Span.Start || src[k.Span.Start:k.Span.End] != k.Text {
				t.Fatalf("%q: the piece %+v", src, k)
			}
			at = k.Span.End
		}
		Unclosed(src)
		step := 1 + len(src)/16
		for i := 0; i <= len(src); i += step {
			if name, n, ok := CallAt(src, i); ok && (name == "" || n < 0) {
				t.Errorf("%q at %d: %q, argument %d", src, i, name, n)
			}
		}
		if s, err := Parse(src); err == nil && s != nil {
			for _, m := range Mentions(src, s) {
				if m.Span.Start < 0 || m.Span.End > len(src) || m.Span.Start >= m.Span.End {
					t.Errorf("%q mentions %+v", src, m)
				}
			}
		}
	})
}
