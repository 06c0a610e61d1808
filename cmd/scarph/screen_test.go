package main

import (
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
)

func TestVisible(t *testing.T) {
	for in, want := range map[string]string{
		"beam 4' 1 1/2\" ± 1/16\"\t½\n": "beam 4' 1 1/2\" ± 1/16\"\t½\n",
		"a\x1b[2Jb":                     "a�[2Jb",
		"a\x1b]0;title\ab":              "a�]0;title�b",
		"a\rb\bc\x7fd":                  "a�b�c�d",
		"a\u009b31mb\u202ec\u2066":      "a�31mb�c�",
		"a\xffb":                        "a�b",
		"a�b":                           "a�b",
	} {
		if got := string(visible([]byte(in))); got != want {
			t.Errorf("%q is shown as %q, want %q", in, got, want)
		}
	}
}

// TestTerminalIsLeftAlone shows a journal with control signs on a real terminal.
func TestTerminalIsLeftAlone(t *testing.T) {
	script, err := exec.LookPath("script")
	if err != nil {
		t.Skip("script, which keeps what a terminal is sent, is not installed")
	}
	dir := t.TempDir()
	text := "# T\n\n```calc\nx\x1b]0;owned\a = 3 in\nz = \"\x1b[2Jtext\"\npart p: 1 of 1\" by 1\" by 1\" in \x1b[31mwood\n```\n"
	if err := os.WriteFile(filepath.Join(dir, "2027-01-02.md"), []byte(text), 0o644); err != nil {
		t.Fatal(err)
	}
	scarph := program(t)
	for _, verb := range []string{"check", "dimensions", "cutlist"} {
		out, _ := exec.Command(script, "-q", "-e", "-c", scarph+" "+verb+" "+dir, "/dev/null").CombinedOutput()
		if len(out) == 0 {
			t.Skip("no terminal is to be had here")
		}
		if strings.ContainsAny(string(out), "\x1b\a\x7f") {
			t.Errorf("%s sends %q", verb, out)
		}
	}
}
