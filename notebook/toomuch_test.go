package notebook

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"scarph/calc"
	"scarph/kernel"
)

// TestFileTooLarge opens a journal with a file of 50 MB: the rest is read, and the file is
// a problem with words.
func TestFileTooLarge(t *testing.T) {
	dir := t.TempDir()
	if err := os.WriteFile(filepath.Join(dir, "a.md"), []byte("{1 in + 1 in}\n"), 0o644); err != nil {
		t.Fatal(err)
	}
	f, err := os.Create(filepath.Join(dir, "large.md"))
	if err != nil {
		t.Fatal(err)
	}
	if err := f.Truncate(50 << 20); err != nil {
		t.Fatal(err)
	}
	f.Close()
	n := mustOpen(t, dir)
	list := n.Problems(kernel.Now)
	if len(list) != 1 || list[0].Code != calc.CodeFile || !strings.Contains(list[0].Message, "50 MB long; the limit is 8 MB") {
		t.Errorf("%+v", list)
	}
	if len(n.Entries()) < 1 {
		t.Error("the other file is not read")
	}
}

// TestTooManyFiles opens a folder with more files than a journal has. They are counted
// before any is read.
func TestTooManyFiles(t *testing.T) {
	files := MaxFiles + 1
	if os.Getenv("SCARPH_LONG") != "" {
		files = 100_000
	}
	dir := t.TempDir()
	for i := range files {
		f, err := os.Create(filepath.Join(dir, fmt.Sprintf("%06d.md", i)))
		if err != nil {
			t.Fatal(err)
		}
		f.Close()
	}
	start := time.Now()
	if _, err := Open(dir); err == nil || !strings.Contains(err.Error(), "more than 20000 files") {
		t.Errorf("%d files: %v", files, err)
	}
	t.Logf("%d files refused after %d ms", files, time.Since(start).Milliseconds())
}

// TestMillionCells opens a data table of a million cells (short, of ninety thousand), which
// stays a table of text, and one of ten thousand, which is taken.
func TestMillionCells(t *testing.T) {
	large := 300
	if os.Getenv("SCARPH_LONG") != "" {
		large = 1000
	}
	for side, taken := range map[int]bool{100: true, large: false} {
		var b strings.Builder
		b.WriteString("|t (m):|")
		for c := range side {
			fmt.Fprintf(&b, "c_%d|", c)
		}
		b.WriteString("\n|" + strings.Repeat("-|", side+1) + "\n")
		for r := range side {
			fmt.Fprintf(&b, "|r_%d|", r)
			b.WriteString(strings.Repeat("1|", side) + "\n")
		}
		dir := t.TempDir()
		if err := os.WriteFile(filepath.Join(dir, TitlePage), []byte(b.String()), 0o644); err != nil {
			t.Fatal(err)
		}
		start := time.Now()
		n := mustOpen(t, dir)
		opened := time.Since(start)
		if got := isValue(n, "t.r_0.c_0") != "nothing"; got != taken {
			t.Errorf("%d cells: taken is %v", side*side, got)
		}
		list := n.Problems(kernel.Now)
		if !taken && (len(list) != 1 || list[0].Code != calc.CodeLimit) {
			t.Errorf("%d cells: %.300s", side*side, fmt.Sprint(list))
		}
		size := 0
		for _, e := range n.Entries() {
			for _, x := range n.RenderEntry(e, Page{AsOf: kernel.Now}) {
				size += len(x)
			}
		}
		t.Logf("%d cells, %d kB: open after %d ms, shown after %d ms, %d kB of page", side*side, b.Len()/1000, opened.Milliseconds(), time.Since(start).Milliseconds(), size/1000)
	}
}
