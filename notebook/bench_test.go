package notebook

import (
	"context"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"scarph/kernel"
)

// writeJournal writes a journal of so many entries of ten statements each, with
// text and slots around them.
func writeJournal(b *testing.B, entries int) string {
	dir := b.TempDir()
	write := func(name, text string) {
		if err := os.WriteFile(filepath.Join(dir, name), []byte(text), 0o644); err != nil {
			b.Fatal(err)
		}
	}
	write(TitlePage, "---\ntitle: Bench\n---\n# Bench\n\n```calc\nbeam = 4' 6\"\n```\n")
	for i := range entries {
		var s strings.Builder
		fmt.Fprintf(&s, "# Day %d\n\n%s The beam is {beam}, and the last sum {v_%d_9}.\n\n```calc\nv_%d_0 = %d in\n", i, strings.Repeat("Planed the plank and looked along its edge. ", 12), i, i, i+1)
		for k := 1; k < 10; k++ {
			fmt.Fprintf(&s, "v_%d_%d = v_%d_%d * 2 - v_%d_0   # doubled, less the first\n", i, k, i, k-1, i)
		}
		s.WriteString("```\n")
		write(fmt.Sprintf("%04d-01-01-day.md", 1000+i), s.String())
	}
	return dir
}

// BenchmarkOpen opens a journal from disk: read, parse, link, work out.
func BenchmarkOpen(b *testing.B) {
	for _, n := range []int{10, 100, 1000} {
		dir := writeJournal(b, n)
		b.Run(fmt.Sprintf("entries=%d", n), func(b *testing.B) {
			for b.Loop() {
				if _, err := Open(dir); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}

// BenchmarkEditOneLine saves one changed line and follows it to the HTML of its entry.
func BenchmarkEditOneLine(b *testing.B) {
	for _, n := range []int{10, 100, 1000} {
		dir := writeJournal(b, n)
		book, err := Open(dir)
		if err != nil {
			b.Fatal(err)
		}
		name := "1005-01-01-day.md"
		src, err := os.ReadFile(filepath.Join(dir, name))
		if err != nil {
			b.Fatal(err)
		}
		texts := [2]string{strings.Replace(string(src), "v_5_0 = 6 in", "v_5_0 = 7 in", 1), string(src)}
		e, _ := book.Entry(name)
		b.Run(fmt.Sprintf("entries=%d", n), func(b *testing.B) {
			before := book.Session.Work().Evaluated
			runs := 0
			for b.Loop() {
				if _, err := book.SetOverlay(context.Background(), name, []byte(texts[runs%2])); err != nil {
					b.Fatal(err)
				}
				e, _ = book.Entry(name)
				book.RenderEntry(e, Page{AsOf: kernel.Now, Live: true})
				runs++
			}
			b.ReportMetric(float64(book.Session.Work().Evaluated-before)/float64(runs), "evaluated/op")
		})
	}
}

// BenchmarkRenderPage makes the HTML of one entry.
func BenchmarkRenderPage(b *testing.B) {
	book, err := Open(writeJournal(b, 10))
	if err != nil {
		b.Fatal(err)
	}
	e := book.Entries()[5]
	for b.Loop() {
		book.RenderEntry(e, Page{AsOf: kernel.Now, Live: true})
	}
}
