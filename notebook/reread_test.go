package notebook

import (
	"bytes"
	"fmt"
	"math/rand"
	"slices"
	"strings"
	"testing"
)

// toldOf tells all that the kernel and a reader are told of a file.
func toldOf(f *File) string {
	var b strings.Builder
	for _, e := range f.entries {
		fmt.Fprintln(&b, e.Key, e.Slug, e.Title, e.Date, e.Section.Span, e.Section.Date, len(e.spans), e.tables)
		for i, l := range e.lines {
			fmt.Fprintf(&b, "%v %q %v %v %v %v %v %v", e.spans[i], l.Text, l.Place, l.Slot, l.Cell, l.Empty, l.Private, l.Err)
			if st := l.Stmt; st != nil {
				fmt.Fprintf(&b, " %q %v %q", st.Text, st.Kind, st.Name)
			}
			b.WriteByte('\n')
		}
		for _, t := range e.Section.Tables {
			for row := range t.Cells {
				for col := range t.Cells[row] {
					i, ok := e.cellLine(t, row, col)
					fmt.Fprint(&b, i, ok, " ")
				}
			}
		}
	}
	fmt.Fprintln(&b, f.problems, f.starts)
	return b.String()
}

// TestReread changes long files at random, and reads them anew and by what changed.
func TestReread(t *testing.T) {
	files, changes := 4, 40
	if testing.Short() {
		files = 1
	}
	for seed := range files {
		rnd := rand.New(rand.NewSource(int64(seed)))
		var src []byte
		for day := 0; len(src) < 24<<10; day++ {
			src = append(src, bytes.ReplaceAll(randomDocument(rnd), []byte("]:"), nil)...)
			if rnd.Intn(3) == 0 {
				src = fmt.Appendf(src, "\n\n## 2027-05-%02d day {a}\n", 1+day%28)
			}
			src = fmt.Appendf(src, "\n\n```calc\na_%d = %d in\nb = a_%d * 2\n\n# a note\n```\n", day, day, day)
			if rnd.Intn(4) == 0 {
				src = append(src, "\n| drawn x (mm): | a | b |\n|---|---|---|\n| c | 1 | {a} |\n| d |\n\n"...)
			}
		}
		f := newFile("x.md", src, true, nil)
		for range changes {
			at := rnd.Intn(len(src))
			end := min(len(src), at+rnd.Intn(8))
			with := []string{"", "1", "\n", "{a}", "```\n", "\n## 2027-01-01 new\n", "a = 1\n", "\n\n```calc\nc = 3\n", "|", "#", "---\n"}[rnd.Intn(11)]
			if rnd.Intn(10) == 0 {
				at, end = 0, rnd.Intn(3)
			}
			src = slices.Concat(src[:at], []byte(with), src[end:])
			was := f
			f = newFile("x.md", src, true, was)
			if got, want := toldOf(f), toldOf(newFile("x.md", src, true, nil)); got != want {
				t.Fatalf("seed %d: after %q at %d in place of %q: %s", seed, with, at, was.Src[at:end], firstDifference(got, want))
			}
		}
	}
}
