package notebook

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"sync"
	"testing"
	"time"
)

// appendLine adds a line to a file as somebody who read it does, and reports whether
// that was refused because another had been quicker.
func appendLine(n *Notebook, path, line string) (conflict bool, err error) {
	before, err := os.ReadFile(filepath.Join(n.Root(), path))
	if err != nil {
		return false, err
	}
	after := append(bytes.Clone(before), line...)
	_, err = n.SaveText(context.Background(), "a line", path, before, after)
	var c *ConflictError
	return errors.As(err, &c), err
}

// TestTwoWritersAtOnce lets two programs add lines to one file as fast as they can,
// while an editor saves it too, by putting a new file in its place. No line of anyone is
// lost, and none stands twice.
func TestTwoWritersAtOnce(t *testing.T) {
	lines := 60
	if os.Getenv("SCARPH_LONG") != "" {
		lines = 2000
	}
	dir := t.TempDir()
	p := filepath.Join(dir, "a.md")
	os.WriteFile(p, []byte("begin\n"), 0o644)
	var wg sync.WaitGroup
	var mu sync.Mutex
	conflicts := 0
	for w := range 2 {
		n, err := Open(dir)
		if err != nil {
			t.Fatal(err)
		}
		wg.Add(1)
		go func() {
			defer wg.Done()
			for i := 0; i < lines; {
				refused, err := appendLine(n, "a.md", fmt.Sprintf("writer %d line %d.\n", w, i))
				if refused {
					mu.Lock()
					conflicts++
					mu.Unlock()
				} else if err != nil {
					t.Error(err)
					return
				} else {
					i++
				}
			}
			for _, r := range n.Recoveries() { // what was refused is kept until it is dropped
				if err := n.DropRecovery(r.ID); err != nil && !errors.Is(err, os.ErrNotExist) {
					t.Error(err)
				}
			}
		}()
	}
	wg.Wait()
	want := 2 * lines
	got, _ := os.ReadFile(p)
	for w := range 2 {
		for i := range lines {
			if k := strings.Count(string(got), fmt.Sprintf("writer %d line %d.\n", w, i)); k != 1 {
				t.Fatalf("line %d of writer %d stands there %d times", i, w, k)
			}
		}
	}
	if n := bytes.Count(got, []byte("\n")); n != want+1 {
		t.Errorf("%d lines, want %d", n, want+1)
	}
	t.Logf("two writers: %d lines, %d saves were refused and tried again, 0 lines lost", want, conflicts)
}

// TestEditorIsNotOverwritten: an editor that knows nothing of us saves the file by
// renaming, at any moment. Each of its saves must be seen by us before we write again.
func TestEditorIsNotOverwritten(t *testing.T) {
	saves := 60
	if os.Getenv("SCARPH_LONG") != "" {
		saves = 2000
	}
	dir := t.TempDir()
	p := filepath.Join(dir, "a.md")
	os.WriteFile(p, []byte("begin\n"), 0o644)
	n, err := Open(dir)
	if err != nil {
		t.Fatal(err)
	}
	stop := make(chan bool)
	ours := make(chan [3]int, 1)
	go func() {
		var c [3]int
		for i := 0; ; i++ {
			select {
			case <-stop:
				ours <- c
				return
			default:
			}
			refused, err := appendLine(n, "a.md", fmt.Sprintf("ours %d\n", i))
			switch {
			case refused:
				c[1]++
			case err != nil && !errors.Is(err, os.ErrNotExist):
				t.Error(err)
				c[2]++
			default:
				c[0]++
			}
		}
	}()
	for i := range saves {
		text := withLines(t, p, i)
		text = append(text, fmt.Sprintf("editor %d\n", i)...)
		temp := filepath.Join(dir, "a.md~")
		if err := os.WriteFile(temp, text, 0o644); err != nil {
			t.Fatal(err)
		}
		if err := os.Rename(temp, p); err != nil {
			t.Fatal(err)
		}
		time.Sleep(3 * time.Millisecond)
	}
	close(stop)
	c := <-ours
	withLines(t, p, saves)
	t.Logf("editor: %d saves, 0 lost; ours: %d written, %d refused because of one of its saves", saves, c[0], c[1])
}

// withLines reads the file with all that the editor has saved so far. For the moment in
// which we give back what we displaced, it may show ours.
func withLines(t *testing.T, p string, saved int) []byte {
	t.Helper()
	for range 200 {
		text, err := os.ReadFile(p)
		k := 0
		for err == nil && k < saved && strings.Count(string(text), fmt.Sprintf("editor %d\n", k)) == 1 {
			k++
		}
		if k == saved {
			return text
		}
		time.Sleep(time.Millisecond)
	}
	t.Fatalf("of %d saves of the editor some are lost", saved)
	return nil
}
