package site_test

import (
	"bytes"
	"fmt"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"
	"time"
)

// largeJournal is a journal of many entries, each with a few numbers that hang on those
// before, and photos.
func largeJournal(t *testing.T, entries, photos int) string {
	t.Helper()
	dir := t.TempDir()
	save(t, filepath.Join(dir, "journal.md"), "---\ntitle: Years of it\ncanonical: https://boats.example.org/years/\n---\n# Years of it\n\n```calc\nlength = 20 ft\nstep_0 = 1 in\n```\n")
	// every photo is another picture, by what follows its end mark
	kinds := make([]string, 8)
	for i := range kinds {
		kinds[i] = snapshot(t, 640+40*i, 480, uint32(i), i%2 == 1, "a camera")
	}
	for i := range photos {
		save(t, filepath.Join(dir, "photos", fmt.Sprintf("p%04d.jpg", i)), kinds[i%len(kinds)]+strconv.Itoa(i))
	}
	day := time.Date(2020, 1, 1, 0, 0, 0, 0, time.UTC)
	for i := 1; i <= entries; i++ {
		date := day.AddDate(0, 0, i).Format(time.DateOnly)
		var b strings.Builder
		fmt.Fprintf(&b, "---\ntitle: Day %d\nsubjects: [subject %d]\n---\nToday {step_%d}, of {length} in all, and a few words of what was done in the shed.\n\n```calc\nstep_%d = step_%d + %d/16\"\nheight_%d = step_%d * 2   # at the mould\nheight_%d / 3\n```\n", i, i%20, i, i, i-1, 1+i%9, i, i, i)
		for k := (i - 1) * photos / entries; k < i*photos/entries; k++ {
			fmt.Fprintf(&b, "\n![The shed on day %d](photos/p%04d.jpg)\n", i, k)
		}
		save(t, filepath.Join(dir, date+".md"), b.String())
	}
	return dir
}

// TestLargeJournal publishes a journal of years in a process of its own, whose memory
// is measured. SCARPH_LARGE=1 takes 1,000 entries with 2,000 photos.
func TestLargeJournal(t *testing.T) {
	entries, photos := 80, 40
	if os.Getenv("SCARPH_LARGE") != "" {
		entries, photos = 1000, 2000
	}
	journal, out := largeJournal(t, entries, photos), filepath.Join(t.TempDir(), "site")
	run := func(what string) string {
		cmd := child(t, journal, out)
		var said bytes.Buffer
		cmd.Stderr = &said
		start := time.Now()
		if err := cmd.Run(); err != nil {
			t.Fatal(err, said.String())
		}
		took := time.Since(start)
		memory := peakMemory(cmd.ProcessState)
		t.Logf("%s: %v, %d MB at most", what, took.Round(time.Millisecond), memory>>20)
		if memory > 1<<30 {
			t.Errorf("%s: %d MB of memory", what, memory>>20)
		}
		if took > 10*time.Second && !strings.Contains(said.String(), " of ") {
			t.Errorf("%s: nothing was said in %v", what, took)
		}
		return said.String()
	}
	said := run("the first time")
	files := infos(t, out)
	pages, copies := 0, 0
	for name := range files {
		switch {
		case strings.HasPrefix(name, "photos/"):
			copies++
		case strings.HasSuffix(name, ".html"):
			pages++
		}
	}
	if pages < entries || copies < photos {
		t.Errorf("%d pages, %d copies of photos", pages, copies)
	}
	if os.Getenv("SCARPH_LARGE") != "" && !strings.Contains(said, "photos ") {
		t.Errorf("of the photos nothing was told: %s", said)
	}
	run("again")
	if written, removed := changed(files, infos(t, out)); written != nil || removed != nil {
		t.Errorf("the second time %d files are written and %d removed", len(written), len(removed))
	}
	name := filepath.Join(journal, "2020-01-31.md")
	text, err := os.ReadFile(name)
	if err != nil {
		t.Fatal(err)
	}
	save(t, name, strings.Replace(string(text), "a few words", "one word", 1))
	run("with one word changed")
	if written, _ := changed(files, infos(t, out)); len(written) > 3 {
		t.Errorf("for one word %q are written", written)
	}
}
