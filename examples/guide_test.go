package examples

import (
	"context"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"scarph/kernel"
	"scarph/notebook"
)

// TestGuideErrors: the errors that the guide shows are what the program says.
func TestGuideErrors(t *testing.T) {
	n := open(t, "guide")
	files, err := filepath.Glob("guide/*.md")
	if err != nil {
		t.Fatal(err)
	}
	shown := 0
	for _, path := range files {
		b, err := os.ReadFile(path)
		if err != nil {
			t.Fatal(err)
		}
		for _, block := range strings.Split(string(b), "\n```error\n")[1:] {
			block, _, _ = strings.Cut(block, "\n```")
			statement, want, _ := strings.Cut(block, "\n")
			shown++
			if got := errorOf(t, n, statement); got != want {
				t.Errorf("%s: %s\n%s\nthe guide has\n%s", path, statement, got, want)
			}
		}
	}
	if shown < 10 {
		t.Errorf("only %d errors are shown", shown)
	}
}

// errorOf writes a statement into an entry of its own and returns what is wrong with it.
func errorOf(t *testing.T, n *notebook.Notebook, statement string) string {
	t.Helper()
	const file = "99-trial.md"
	if _, err := n.SetOverlay(context.Background(), file, []byte("```calc\n"+statement+"\n```\n")); err != nil {
		t.Fatal(err)
	}
	defer func() {
		if _, err := n.SetOverlay(context.Background(), file, nil); err != nil {
			t.Fatal(err)
		}
	}()
	for _, d := range n.Problems(kernel.Now) {
		if d.File == file {
			return d.Message + "\nhint: " + d.Hint
		}
	}
	return "nothing is wrong"
}
