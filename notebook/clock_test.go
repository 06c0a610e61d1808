package notebook

import (
	"context"
	"os"
	"path/filepath"
	"testing"
	"time"

	"scarph/kernel"
)

// isValue reports what a name stands for.
func isValue(n *Notebook, name string) string {
	r, ok := n.Session.Value(name, kernel.Now)
	if !ok || !r.OK() {
		return "nothing"
	}
	return n.Session.Style().Text(r.Value)
}

// TestClockRunsBackwards changes a file while its time says otherwise: older than before,
// the same as before, far in the future. Its size stays.
func TestClockRunsBackwards(t *testing.T) {
	dir := t.TempDir()
	p := filepath.Join(dir, "a.md")
	write := func(text string, when time.Time) {
		t.Helper()
		if err := os.WriteFile(p, []byte("```calc\nbeam = "+text+"\n```\n"), 0o644); err != nil {
			t.Fatal(err)
		}
		if err := os.Chtimes(p, when, when); err != nil {
			t.Fatal(err)
		}
	}
	noon := time.Date(2027, 5, 16, 12, 0, 0, 0, time.UTC)
	write("1 in", noon)
	n, err := Open(dir)
	if err != nil {
		t.Fatal(err)
	}
	for i, c := range []struct {
		text string
		when time.Time
	}{{"2 in", noon.Add(-72 * time.Hour)}, {"3 in", noon.Add(-72 * time.Hour)}, {"4 in", time.Unix(0, 0)}, {"5 in", noon.AddDate(80, 0, 0)}, {"6 in", noon}} {
		write(c.text, c.when)
		if _, err := n.Refresh(context.Background()); err != nil {
			t.Fatal(err)
		}
		if got, want := isValue(n, "beam"), c.text[:1]+`"`; got != want {
			t.Errorf("change %d: beam is %s, want %s", i, got, want)
		}
	}
}

// TestLostEvents changes a file by a name that lies outside of the journal, of which the
// system tells nobody who watches the journal's folder. The slow look round finds it.
func TestLostEvents(t *testing.T) {
	dir, out := t.TempDir(), filepath.Join(t.TempDir(), "twin.md")
	p := filepath.Join(dir, "a.md")
	put := func(name, text string) {
		t.Helper()
		f, err := os.OpenFile(name, os.O_WRONLY|os.O_CREATE, 0o644)
		if err != nil {
			t.Fatal(err)
		}
		defer f.Close()
		if _, err := f.WriteString("```calc\nbeam = " + text + "\n```\n"); err != nil {
			t.Fatal(err)
		}
	}
	put(p, "1 in")
	if err := os.Link(p, out); err != nil {
		t.Skip("this file system has no hard links")
	}
	n, err := Open(dir)
	if err != nil {
		t.Fatal(err)
	}
	ctx, stop := context.WithCancel(context.Background())
	defer stop()
	done := make(chan error, 1)
	looked := make(chan bool, 1000)
	go func() { done <- n.Follow(ctx, func(Change) { looked <- true }) }()
	<-looked // the first look round, after which only events and the slow look tell
	put(out, "2 in")
	for deadline := time.Now().Add(time.Minute); isValue(n, "beam") != `2"`; time.Sleep(20 * time.Millisecond) {
		if time.Now().After(deadline) {
			t.Fatalf("beam is still %s", isValue(n, "beam"))
		}
	}
	stop()
	if err := <-done; err != nil {
		t.Error(err)
	}
}
