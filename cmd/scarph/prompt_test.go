package main

import (
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
	"time"
)

// terminal is a real terminal that a program runs in.
type terminal struct {
	t   *testing.T
	env []string
}

// inTerminal starts a command line in a terminal of 80 by 40.
func inTerminal(t *testing.T, state, line string) *terminal {
	t.Helper()
	need(t, "tmux", "SCARPH_NEEDS_TMUX")
	socket, err := os.MkdirTemp("", "scarph") // a socket's path must be short
	if err != nil {
		t.Fatal(err)
	}
	x := &terminal{t: t}
	for _, v := range os.Environ() {
		if !strings.HasPrefix(v, "TMUX") && !strings.HasPrefix(v, "LC_") && !strings.HasPrefix(v, "XDG_STATE_HOME=") {
			x.env = append(x.env, v)
		}
	}
	x.env = append(x.env, "TMUX_TMPDIR="+socket, "LC_ALL=C.UTF-8", "TERM=xterm", "XDG_STATE_HOME="+state)
	t.Cleanup(func() {
		x.tmux("kill-server")
		os.RemoveAll(socket)
	})
	// the shell stays until the test ends, so that the last screen can be read
	x.tmux("-f", os.DevNull, "new-session", "-d", "-x", "80", "-y", "40", line+"; echo status $?; cat")
	return x
}

func (x *terminal) tmux(args ...string) string {
	cmd := exec.Command("tmux", append([]string{"-u"}, args...)...)
	cmd.Env = x.env
	out, _ := cmd.CombinedOutput()
	return string(out)
}

// types sends text as it is; keys by their names.
func (x *terminal) types(text string) { x.tmux("send-keys", "-l", "--", text) }

func (x *terminal) press(keys ...string) { x.tmux(append([]string{"send-keys"}, keys...)...) }

// shows waits until the screen has a text, and returns the screen.
func (x *terminal) shows(want string) string {
	x.t.Helper()
	deadline := time.Now().Add(60 * time.Second)
	for {
		screen := x.tmux("capture-pane", "-p")
		if strings.Contains(screen, want) {
			return screen
		}
		if time.Now().After(deadline) {
			x.t.Fatalf("the terminal does not show %q but\n%s", want, screen)
		}
		time.Sleep(20 * time.Millisecond)
	}
}

// TestPrompt works at the prompt in a real terminal.
func TestPrompt(t *testing.T) {
	dir, state := wren(t), t.TempDir()
	x := inTerminal(t, state, "scarph calc -j '"+dir+"'")
	x.shows("Scratch paper beside Wren.")
	for _, c := range []struct{ line, want string }{
		{"inside", "\n  4' 0 7/8\" ± 1/16\"   (1241.4 mm)\n"},
		{"it + 1/8\"", "\n  4' 1\" ± 1/16\"   (1244.6 mm)\n"},
		{"gap = 30 mm", "\n  1 3/16\"   (30 mm)\n"},
		{"gap * 2 to mm", "\n  60 mm"},
		{"hopper_miter(4, 16°)", "\n  cross cut  15.4°"},
		{"3 in + 19", "\n  | 3 in + 19\n  |      ^\nhint: 19 what?"},
		{"check beam < 4 ft", "✗ does not hold (4' 1 3/4\" ± 1/16\", 4')"},
		{"scarf_length(5/8 in, 8)", "\ncaution: A bench figure"},
		{"made thwart: 2", "scratch paper keeps none"},
	} {
		x.types(c.line)
		x.press("Enter")
		x.shows(c.want)
	}
	for _, line := range strings.Split(strings.TrimRight(x.tmux("capture-pane", "-p"), "\n"), "\n") {
		if n := runes(line); n > 79 {
			t.Errorf("%d wide: %s", n, line)
		}
	}

	// several lines
	x.types("sum([1 in,")
	x.press("Enter")
	x.shows("\n·")
	x.types("  gap,")
	x.press("Enter")
	x.types("2 in])")
	x.press("Enter")
	x.shows("\n  4 3/16\"")

	// completion: one word at once, several after a second key
	x.types("insi")
	x.press("Tab")
	x.shows("> inside")
	x.press("C-u")
	x.types("plan")
	x.press("Tab", "Tab")
	x.shows("planking")
	x.shows("plank_width")
	x.press("C-u")
	x.types("frame_spac")
	x.press("Tab")
	x.shows("> frame_spacing(")

	// Ctrl-C throws the line away, the arrow keys bring lines back
	x.press("C-c")
	x.press("Up", "Up", "Up")
	x.shows("> scarf_length(5/8 in, 8)")
	x.press("C-u", "C-d")
	x.shows("status 0")

	// on another day
	x = inTerminal(t, state, "scarph calc")
	x.shows("Tab completes")
	x.press("Up")
	x.shows("> sum([1 in,   gap, 2 in])")
	x.press("C-c")
	x.types("quit")
	x.press("Enter")
	x.shows("status 0")
	kept, err := os.ReadFile(filepath.Join(state, "scarph", "calc-history"))
	if err != nil || !strings.HasPrefix(string(kept), "inside\nit + 1/8\"\ngap = 30 mm\n") {
		t.Errorf("%v %q", err, kept)
	}
}

// TestPromptFollowsTheJournal saves a file of the journal while the prompt waits.
func TestPromptFollowsTheJournal(t *testing.T) {
	dir := wren(t)
	x := inTerminal(t, t.TempDir(), "scarph calc -j '"+dir+"'")
	x.shows("Ctrl-D ends")
	x.types("planking")
	x.press("Enter")
	x.shows("  7/16\"   (11.1 mm)")
	name := filepath.Join(dir, "journal.md")
	text, err := os.ReadFile(name)
	if err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(name, []byte(strings.Replace(string(text), "7/16", "3/8", 1)), 0o644); err != nil {
		t.Fatal(err)
	}
	for i := 0; ; i++ { // until the change has been read
		x.types("planking")
		x.press("Enter")
		if i == 0 {
			x.shows("> planking\n  ")
		}
		time.Sleep(50 * time.Millisecond)
		if strings.Contains(x.tmux("capture-pane", "-p"), "  3/8\"   (9.5 mm)") {
			break
		}
		if i > 600 {
			t.Fatal("the prompt does not follow the journal")
		}
	}
	x.press("C-d")
	x.shows("status 0")
}

// TestPastIsCut keeps the last lines when there are too many.
func TestPastIsCut(t *testing.T) {
	state := t.TempDir()
	t.Setenv("XDG_STATE_HOME", state)
	p := openPast()
	for range 2*keptLines + 1 {
		p.add("1 in")
	}
	p.add("2 in")
	p.close()
	p = openPast()
	if n := len(p.lines); n != keptLines || p.lines[n-1] != "2 in" {
		t.Errorf("%d lines", n)
	}
	p.close()
	if b, _ := os.ReadFile(filepath.Join(state, "scarph", "calc-history")); strings.Count(string(b), "\n") != keptLines {
		t.Error("the file was not cut")
	}
}
