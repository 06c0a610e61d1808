package live

import (
	"math/rand"
	"strings"
	"testing"
)

// TestUntouchedLinesKeepTheirBytes edits what a text field shows of files that it
// cannot show as they are, and holds every untouched line to its bytes.
func TestUntouchedLinesKeepTheirBytes(t *testing.T) {
	for _, c := range []struct{ file, from, to, want string }{
		{"a\r\nb\r\nc\r\n", "b", "B", "a\r\nB\r\nc\r\n"},
		{"a\r\nb\nc\rd", "c", "C", "a\r\nb\nC\nd"},
		{"\ufeffa\nb\n", "a", "A", "\ufeffA\nb\n"},
		{"a\xff\nb\nc\x00\n", "b", "B", "a\xff\nB\nc\x00\n"},
		{"a\nb", "b", "b\nc", "a\nb\nc"},
		{"a\r\nb\r\nc", "b\n", "", "a\r\nc"},
		{"a\r\nb\r\nlast", "last", "last\nmore", "a\r\nb\r\nlast\r\nmore"},
		{"", "", "first\n", "first\n"},
		{"x\r\ny\r\nx\ny\n", "x\ny\nx", "x\nx", "x\r\nx\ny\n"},
	} {
		text := strings.Replace(shownText([]byte(c.file)), c.from, c.to, 1)
		if got := string(unshown([]byte(c.file), text)); got != c.want {
			t.Errorf("%q with %q for %q is %q, want %q", c.file, c.to, c.from, got, c.want)
		}
	}
}

// TestUnshownIsTheInverse saves random files unchanged, and with one line added.
func TestUnshownIsTheInverse(t *testing.T) {
	rng := rand.New(rand.NewSource(11))
	pieces := []string{"a", "b", "drawn beam = 4'", "\r\n", "\n", "\r", "\xff", "\x00", "é", "½", "\ufeff", "  ", "😀"}
	for n := 0; n < 20000; n++ {
		var b strings.Builder
		for i := rng.Intn(12); i > 0; i-- {
			b.WriteString(pieces[rng.Intn(len(pieces))])
		}
		src := []byte(b.String())
		text := shownText(src)
		if got := unshown(src, text); string(got) != string(src) {
			t.Fatalf("%q came back as %q", src, got)
		}
		more := "new\n" + text
		got := string(unshown(src, more))
		if rest := strings.TrimPrefix(string(src), byteOrderMark); !strings.HasSuffix(got, rest) && !strings.Contains(got, "new\r\n\n") {
			t.Fatalf("%q with a line before it is %q", src, got)
		}
		if shownText([]byte(got)) != more {
			t.Fatalf("%q is shown as %q, want %q", got, shownText([]byte(got)), more)
		}
	}
}

// TestMatchingIsACommonSubsequence holds the comparison to what it promises, against a
// slow table of the longest common subsequence.
func TestMatchingIsACommonSubsequence(t *testing.T) {
	rng := rand.New(rand.NewSource(3))
	text := func() []string {
		list := make([]string, rng.Intn(9))
		for i := range list {
			list[i] = string(rune('a' + rng.Intn(4)))
		}
		return list
	}
	for n := 0; n < 20000; n++ {
		a, b := text(), text()
		last, count := -1, 0
		for i, k := range matching(a, b) {
			if k < 0 {
				continue
			}
			if a[k] != b[i] || k <= last {
				t.Fatalf("%v and %v: %v", a, b, matching(a, b))
			}
			last = k
			count++
		}
		if want := longest(a, b); count != want {
			t.Fatalf("%v and %v share %d lines, found %d", a, b, want, count)
		}
	}
}

func longest(a, b []string) int {
	row := make([]int, len(b)+1)
	for i := range a {
		corner := 0
		for j := range b {
			up := row[j+1]
			if a[i] == b[j] {
				row[j+1] = corner + 1
			} else {
				row[j+1] = max(up, row[j])
			}
			corner = up
		}
	}
	return row[len(b)]
}

func TestSideBySide(t *testing.T) {
	rows := sideBySide("a\nb\nc\nd\ne\nf\ng\nh", "a\nb\nc\nd\ne\nF\ng\nh\ni")
	if len(rows) != 7 || rows[0].Skipped != 3 || rows[3].Mine != "f" || rows[3].Theirs != "F" || rows[6].HasMine || rows[6].Theirs != "i" {
		t.Errorf("%+v", rows)
	}
}
