package notebook

import (
	"context"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"
)

// TestFollow saves files in the ways that editors save them.
func TestFollow(t *testing.T) {
	dir := t.TempDir()
	write := func(name, text string) {
		t.Helper()
		full := filepath.Join(dir, name)
		if err := os.MkdirAll(filepath.Dir(full), 0o755); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(full, []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	write("journal.md", "```calc\na = 1 in\nb = a * 2\n```\n")
	n, err := Open(dir)
	if err != nil {
		t.Fatal(err)
	}
	ctx, cancel := context.WithCancel(context.Background())
	changes := make(chan Change, 100)
	ended := make(chan error)
	go func() { ended <- n.Follow(ctx, func(c Change) { changes <- c }) }()
	wait := func(file string) {
		t.Helper()
		for {
			select {
			case c := <-changes:
				if strings.Contains(strings.Join(c.Files, " "), file) {
					return
				}
			case <-time.After(10 * time.Second):
				t.Fatalf("no word of %s", file)
			}
		}
	}
	time.Sleep(50 * time.Millisecond)
	write("journal.md", "```calc\na = 2 in\nb = a * 2\n```\n")
	wait("journal.md")
	write("later/2027-01-01.md", "```calc\nc = a * 3\n```\n") // in a new folder
	wait("later/2027-01-01.md")
	write(".swap", "```calc\na = 3 in\nb = a * 2\n```\n")
	if err := os.Rename(filepath.Join(dir, ".swap"), filepath.Join(dir, "journal.md")); err != nil {
		t.Fatal(err)
	}
	wait("journal.md")
	if r, ok := n.Session.Value("c", 1<<30); !ok || !r.OK() || n.Session.Style().Text(r.Value) != `9"` {
		t.Errorf("c is %+v", r)
	}
	if err := os.Remove(filepath.Join(dir, "later/2027-01-01.md")); err != nil {
		t.Fatal(err)
	}
	wait("later/2027-01-01.md")
	cancel()
	if err := <-ended; err != nil {
		t.Error(err)
	}
}
