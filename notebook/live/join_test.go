package live

import (
	"math/rand"
	"slices"
	"strconv"
	"strings"
	"testing"
)

func TestJoin(t *testing.T) {
	const base = "one\ntwo\nthree\nfour\nfive\n"
	for _, c := range []struct {
		mine, theirs, want string
		clean              bool
	}{
		{"ONE\ntwo\nthree\nfour\nfive\n", "one\ntwo\nthree\nfour\nFIVE\n", "ONE\ntwo\nthree\nfour\nFIVE\n", true},
		{"one\ntwo\nthree\nfour\nfive\nsix\n", "zero\none\ntwo\nthree\nfour\nfive\n", "zero\none\ntwo\nthree\nfour\nfive\nsix\n", true},
		{"one\nthree\nfour\nfive\n", base, "one\nthree\nfour\nfive\n", true},
		{"one\nTWO\nthree\nfour\nfive\n", "one\n2\nthree\nfour\nfive\n", "one\n" + oneWrote + "\nTWO\n" + otherWrote + "\n2\n" + endOfBoth + "\nthree\nfour\nfive\n", false},
		{"one\nthree\nfour\nfive\n", "one\n2\nthree\nfour\nfive\n", "one\n" + oneWrote + "\n" + otherWrote + "\n2\n" + endOfBoth + "\nthree\nfour\nfive\n", false},
		{base + "six\n", base + "seven\n", base + "six\nseven\n", true},
		{base + "six\n", base + "six\n", base + "six\n", true},
		{"one\ntwo\nthree\nfour\nFIVE\n", base + "six\n", "one\ntwo\nthree\nfour\nFIVE\nsix\n", true},
		{base, base, base, true},
		{"one", base, "one", true},
	} {
		got, clean := join(base, c.mine, c.theirs)
		if got != c.want || clean != c.clean {
			t.Errorf("%q and %q join as %q (%v), want %q (%v)", c.mine, c.theirs, got, clean, c.want, c.clean)
		}
	}
}

// TestJoinTwoReadings joins two readings that two people wrote down at one place: at the
// end of the file, and at the end of one block.
func TestJoinTwoReadings(t *testing.T) {
	const base = "---\ntitle: Back\n---\nText.\n\n```calc\nbeam = 4 ft\n```\n"
	block := func(line string) string { return "\n```calc\n" + line + "\n```\n" }
	const ines, pieter = "found ines_reading = 101 mm ± 1 mm", "found pieter_reading = 202 mm ± 1 mm"
	if got, clean := join(base, base+block(ines), base+block(pieter)); got != base+block(ines)+block(pieter) || !clean {
		t.Errorf("at the end: %s", got)
	}
	in := func(line string) string { return strings.Replace(base, "4 ft\n", "4 ft\n"+line+"\n", 1) }
	if got, clean := join(base, in(ines), in(pieter)); got != in(ines+"\n"+pieter) || !clean {
		t.Errorf("in a block: %s", got)
	}
}

// TestJoinHeads joins settings so that they stay settings.
func TestJoinHeads(t *testing.T) {
	head := func(lines string) string { return "---\n" + lines + "---\nText.\n" }
	for _, c := range []struct {
		base, mine, theirs, want string
		clean                    bool
	}{
		{head("title: A\n"), head("title: A\nprivate: true\n"), head("title: A\nsummary: x\n"), head("title: A\nprivate: true\nsummary: x\n"), true},
		{head("title: A\n"), head("title: B\n"), head("title: C\n"), head("title: B\n# the other wrote: title: C\n"), false},
		{head("title: A\n"), head("title: A\nprivate: true\n"), head("title: A\nprivate: true\ndraft: true\n"), head("title: A\nprivate: true\n# the other wrote: draft: true\n"), false},
		{head("title: A\n"), "Text.\n", head("title: B\n"), head("title: B\n"), false},
		{head("title: A\n"), "Text.\n", head("title: A\n"), "Text.\n", true},
		{"Text.\n", head("title: A\n"), "Text.\nMore.\n", head("title: A\n") + "More.\n", true},
	} {
		got, clean := join(c.base, c.mine, c.theirs)
		if got != c.want || clean != c.clean {
			t.Errorf("%q and %q join as %q (%v), want %q (%v)", c.mine, c.theirs, got, clean, c.want, c.clean)
		}
	}
}

// TestJoinLosesNoLine holds joining to its promise for any three texts: the lines that
// either side added stand in what comes out, in their order, and so do those that
// neither took out.
func TestJoinLosesNoLine(t *testing.T) {
	rng := rand.New(rand.NewSource(19))
	pieces := []string{"", "a", "b", "c", "d", "```calc", "```", "beam = 4 ft", "---", "title: A", "private: true"}
	text := func(most int) []string {
		list := make([]string, 1+rng.Intn(most))
		for i := range list {
			list[i] = pieces[rng.Intn(len(pieces))]
		}
		return list
	}
	count := 0
	// changed is a text with some lines taken out and some put in, all of them other
	// than what was there, or of the same few
	changed := func(base []string, other bool) []string {
		more := func(most int) []string {
			list := text(most)
			for i := range list {
				if count++; other {
					list[i] += " " + strconv.Itoa(count)
				}
			}
			return list
		}
		var list []string
		for _, l := range base {
			if rng.Intn(5) > 0 {
				list = append(list, l)
			}
			if rng.Intn(5) == 0 {
				list = append(list, more(3)...)
			}
		}
		return append(list, more(2)...)
	}
	for n := 0; n < 20000; n++ {
		base := text(9)
		other := n%2 == 0
		mine, theirs := changed(base, other), changed(base, other)
		got, clean := join(strings.Join(base, "\n"), strings.Join(mine, "\n"), strings.Join(theirs, "\n"))
		out := strings.Split(got, "\n")
		what := func() string {
			return strings.Join(base, "|") + " with " + strings.Join(mine, "|") + " and " + strings.Join(theirs, "|") + " is " + strings.Join(out, "|")
		}
		for _, side := range [][]string{mine, theirs} {
			for _, l := range added(base, side) {
				if !strings.Contains(got, l) {
					t.Fatalf("%q is lost: %s", l, what())
				}
			}
			if other && !isWithin(added(base, side), out) {
				t.Fatalf("the order of %q is lost: %s", added(base, side), what())
			}
		}
		if !clean && !strings.Contains(got, oneWrote) && !strings.Contains(got, "---") {
			t.Fatalf("no mark: %s", what())
		}
	}
}

// added lists the lines of a text that base has not, in order.
func added(base, text []string) (list []string) {
	for i, k := range matching(base, text) {
		if k < 0 {
			list = append(list, text[i])
		}
	}
	return list
}

// isWithin reports whether the lines of one list stand in another in their order, some
// as notes of a head.
func isWithin(list, in []string) bool {
	for _, l := range list {
		i := slices.IndexFunc(in, func(x string) bool { return strings.TrimPrefix(x, "# the other wrote: ") == l })
		if i < 0 {
			return false
		}
		in = in[i+1:]
	}
	return true
}
