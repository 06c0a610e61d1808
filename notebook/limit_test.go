//go:build linux

package notebook

import (
	"bytes"
	"context"
	"fmt"
	"math/rand"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"syscall"
	"testing"
)

// TestNoRoomForAFile saves where files may not grow beyond a bound, which breaks a save
// off in the middle of a write as a full disk does, and which anybody may set: TestDiskFull
// needs a disk of its own. The saving is done by a child, for the bound is a process's.
func TestNoRoomForAFile(t *testing.T) {
	if dir := os.Getenv("SCARPH_NO_ROOM"); dir != "" {
		saveWithoutRoom(t, dir)
		return
	}
	dir := t.TempDir()
	put(t, dir, "plain.md", version(1))
	put(t, dir, "hard.md", version(1))
	if err := os.Link(filepath.Join(dir, "hard.md"), filepath.Join(dir, "twin.txt")); err != nil {
		t.Skip(err)
	}
	cmd := exec.Command(os.Args[0], "-test.run=^TestNoRoomForAFile$", "-test.v")
	cmd.Env = append(os.Environ(), "SCARPH_NO_ROOM="+dir)
	out, err := cmd.CombinedOutput()
	if err != nil {
		t.Fatalf("%v\n%s", err, out)
	}
	for _, line := range strings.Split(string(out), "\n") {
		if strings.Contains(line, "saves") {
			t.Log(strings.TrimSpace(line))
		}
	}
}

func saveWithoutRoom(t *testing.T, dir string) {
	var was syscall.Rlimit
	if err := syscall.Getrlimit(syscall.RLIMIT_FSIZE, &was); err != nil {
		t.Skip(err)
	}
	bound := func(n uint64) {
		if err := syscall.Setrlimit(syscall.RLIMIT_FSIZE, &syscall.Rlimit{Cur: n, Max: was.Max}); err != nil {
			t.Fatal(err)
		}
	}
	rnd := rand.New(rand.NewSource(11))
	full, well, offered := 0, 0, 0
	for k := 2; k < 400; k++ {
		n := mustOpen(t, dir)
		path := []string{"plain.md", "hard.md", fmt.Sprintf("new-%d.md", k)}[k%3]
		before, _ := os.ReadFile(filepath.Join(dir, path))
		text := version(k)
		bound(uint64(rnd.Intn(30 << 10)))
		_, err := n.SaveText(context.Background(), "a save", path, before, text)
		bound(was.Cur)
		now, _ := os.ReadFile(filepath.Join(dir, path))
		switch {
		case err == nil && bytes.Equal(now, text):
			well++
		case err != nil && bytes.Equal(now, before):
			full++
		default:
			t.Fatalf("save %d of %s: %v, and the file is version %d", k, path, err, versionOf(now))
		}
		if twin, _ := os.ReadFile(filepath.Join(dir, "twin.txt")); path == "hard.md" && !bytes.Equal(twin, now) {
			t.Fatalf("save %d: the twin is parted", k)
		}
		os.Remove(filepath.Join(dir, fmt.Sprintf("new-%d.md", k)))
		for _, r := range mustOpen(t, dir).Recoveries() {
			offered++
			if r.Path != path || !bytes.Equal(r.Text, text) {
				t.Fatalf("save %d: a text of %d bytes is offered for %s", k, len(r.Text), r.Path)
			}
			if err := n.DropRecovery(r.ID); err != nil {
				t.Fatal(err)
			}
		}
	}
	t.Logf("%d saves found no room and left the file old, %d texts of theirs are offered; %d saves went well", full, offered, well)
	if full < 50 || well < 50 {
		t.Error("the bound was not met as the test means to")
	}
}
