package markdown

import (
	"bytes"
	"fmt"
	"io"
	"os"
	"runtime"
	"strings"
	"testing"
	"time"

	"github.com/yuin/goldmark"
	"github.com/yuin/goldmark/extension"
	"github.com/yuin/goldmark/parser"
	"github.com/yuin/goldmark/renderer/html"
)

// plainGoldmark is the library as it comes, with the extensions of a journal
// that it has and its own ids of headings.
func plainGoldmark() goldmark.Markdown {
	return goldmark.New(
		goldmark.WithExtensions(extension.Table, extension.Strikethrough, extension.TaskList, extension.Footnote, extension.DefinitionList),
		goldmark.WithParserOptions(parser.WithAutoHeadingID()),
		goldmark.WithRendererOptions(html.WithXHTML()),
	)
}

// journalText is a journal of some 20 entries, slots, blocks and tables in it.
func journalText(t testing.TB) []byte {
	src, err := os.ReadFile("testdata/pieces/entry.md")
	if err != nil {
		t.Fatal(err)
	}
	var b bytes.Buffer
	for day := range 20 {
		b.WriteString(strings.Replace(string(src), "2027-05-02", fmt.Sprintf("2027-05-%02d", day+1), 1) + "\n")
	}
	return b.Bytes()
}

func renderAll(src []byte) {
	d := Parse(src)
	for _, s := range d.Sections {
		d.Render(s, loud{}, Options{})
	}
}

func BenchmarkPage(b *testing.B) {
	src := journalText(b)
	b.SetBytes(int64(len(src)))
	b.ReportAllocs()
	for b.Loop() {
		renderAll(src)
	}
}

func BenchmarkPlainGoldmark(b *testing.B) {
	src := journalText(b)
	m := plainGoldmark()
	b.SetBytes(int64(len(src)))
	b.ReportAllocs()
	for b.Loop() {
		if err := m.Convert(src, io.Discard); err != nil {
			b.Fatal(err)
		}
	}
}

// BenchmarkCostOverGoldmark reports the cost of a page with slots, blocks, tables and
// filtered HTML over plain goldmark on the same text, measured in turn, the best of
// each (metric "over-goldmark"; the budget is 1.5).
func BenchmarkCostOverGoldmark(b *testing.B) {
	src := journalText(b)
	m := plainGoldmark()
	ours, theirs := time.Hour, time.Hour
	for b.Loop() {
		ours = min(ours, timed(func() { renderAll(src) }))
		theirs = min(theirs, timed(func() { _ = m.Convert(src, io.Discard) }))
	}
	b.ReportMetric(float64(ours)/float64(theirs), "over-goldmark")
}

func timed(f func()) time.Duration {
	runtime.GC()
	start := time.Now()
	f()
	return time.Since(start)
}

// BenchmarkReparse types a digit in the middle of a long file and takes it back.
func BenchmarkReparse(b *testing.B) {
	src := bytes.ReplaceAll(bytes.Repeat(journalText(b), 20), []byte("]:"), nil)
	at := len(src) / 2
	typed := append(append(append([]byte(nil), src[:at]...), '1'), src[at:]...)
	d, _ := Parse(src).Reparse(src)
	b.SetBytes(int64(len(src)))
	b.ReportAllocs()
	for i := 0; b.Loop(); i++ {
		if i%2 == 0 {
			d, _ = d.Reparse(typed)
		} else {
			d, _ = d.Reparse(src)
		}
	}
}
