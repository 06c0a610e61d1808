//go:build linux

package notebook

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"math/rand"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"syscall"
	"testing"
	"time"
)

func put(t *testing.T, dir, name string, text []byte) {
	t.Helper()
	p := filepath.Join(dir, name)
	if err := os.MkdirAll(filepath.Dir(p), 0o755); err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(p, text, 0o640); err != nil {
		t.Fatal(err)
	}
}

func mustOpen(t *testing.T, dir string) *Notebook {
	t.Helper()
	n, err := Open(dir)
	if err != nil {
		t.Fatal(err)
	}
	return n
}

// TestDiskFull saves on a disk of half a megabyte that is filled so far that the save
// breaks off at one place or another: in the copy, in the new file, in the old text that is
// kept beside a hard-linked file, in that file itself.
func TestDiskFull(t *testing.T) {
	dir := t.TempDir()
	if err := syscall.Mount("tmpfs", dir, "tmpfs", 0, "size=512k"); err != nil {
		t.Skipf("only root can mount a small disk: %v", err)
	}
	defer syscall.Unmount(dir, syscall.MNT_DETACH)
	put(t, dir, "plain.md", version(1))
	put(t, dir, "hard.md", version(1))
	if err := os.Link(filepath.Join(dir, "hard.md"), filepath.Join(dir, "twin.txt")); err != nil {
		t.Fatal(err)
	}
	rnd := rand.New(rand.NewSource(7))
	ballast := filepath.Join(dir, "ballast")
	full, well, offered := 0, 0, 0
	for k := 2; k < 300; k++ {
		n := mustOpen(t, dir)
		path := []string{"plain.md", "hard.md", fmt.Sprintf("new-%d.md", k)}[k%3]
		before, _ := os.ReadFile(filepath.Join(dir, path))
		fillExcept(t, ballast, rnd.Intn(80<<10))
		text := version(k)
		_, err := n.SaveText(context.Background(), "a save", path, before, text)
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
		os.Remove(ballast)
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
		if _, err := os.Stat(filepath.Join(dir, RecoveryFolder)); err == nil {
			t.Fatalf("save %d leaves %s behind", k, RecoveryFolder)
		}
	}
	t.Logf("%d saves found the disk full and left the file old, %d texts of theirs are offered; %d saves went well", full, offered, well)
	if full < 50 || well < 50 {
		t.Error("the disk was not filled as the test means to")
	}
}

// fillExcept fills the disk with one file and leaves some bytes free.
func fillExcept(t *testing.T, ballast string, free int) {
	t.Helper()
	os.WriteFile(ballast, make([]byte, 512<<10), 0o600) // as much of it as there is room for
	info, err := os.Stat(ballast)
	if err != nil {
		t.Fatal(err)
	}
	if err := os.Truncate(ballast, max(0, info.Size()-int64(free))); err != nil {
		t.Fatal(err)
	}
}

// TestWithoutPermission runs as somebody who may not write, since root may all.
func TestWithoutPermission(t *testing.T) {
	if dir := os.Getenv("SCARPH_NO_PERMISSION"); dir != "" {
		saveWithoutPermission(t, dir)
		return
	}
	dir := t.TempDir()
	for _, name := range []string{"closed.md", "folder/a.md", "open/a.md"} {
		put(t, dir, name, version(1))
	}
	if err := os.Chmod(filepath.Join(dir, "closed.md"), 0o444); err != nil {
		t.Fatal(err)
	}
	cmd := exec.Command(os.Args[0], "-test.run=^TestWithoutPermission$")
	cmd.Env = append(os.Environ(), "SCARPH_NO_PERMISSION="+dir)
	if os.Getuid() == 0 {
		cmd.SysProcAttr = &syscall.SysProcAttr{Credential: &syscall.Credential{Uid: 65534, Gid: 65534}}
		for p := dir; len(p) > len(os.TempDir()); p = filepath.Dir(p) {
			os.Chmod(p, 0o755)
		}
		_ = filepath.WalkDir(dir, func(p string, _ os.DirEntry, _ error) error { return os.Chown(p, 65534, 65534) })
		copied := filepath.Join(filepath.Dir(dir), "notebook.test")
		if b, err := os.ReadFile(os.Args[0]); err == nil && os.WriteFile(copied, b, 0o755) == nil {
			cmd.Path = copied
		}
	}
	if out, err := cmd.CombinedOutput(); err != nil {
		t.Fatalf("%v\n%s", err, out)
	}
}

func saveWithoutPermission(t *testing.T, dir string) {
	save := func(path string) error {
		n := mustOpen(t, dir)
		before, _ := os.ReadFile(filepath.Join(dir, path))
		_, err := n.SaveText(context.Background(), "a save", path, before, version(2))
		return err
	}
	is := func(path string, k int) {
		t.Helper()
		if b, _ := os.ReadFile(filepath.Join(dir, path)); versionOf(b) != k {
			t.Errorf("%s is version %d, want %d", path, versionOf(b), k)
		}
	}
	if err := save("closed.md"); !errors.Is(err, os.ErrPermission) {
		t.Errorf("a file that is closed for writing: %v", err)
	}
	is("closed.md", 1)
	os.Chmod(filepath.Join(dir, "folder"), 0o555)
	if err := save("folder/a.md"); !errors.Is(err, os.ErrPermission) {
		t.Errorf("a folder that is closed for writing: %v", err)
	}
	is("folder/a.md", 1)
	list := mustOpen(t, dir).Recoveries()
	if len(list) != 1 || list[0].Path != "folder/a.md" || versionOf(list[0].Text) != 2 {
		t.Errorf("offered: %+v", list)
	}
	os.Chmod(filepath.Join(dir, "folder"), 0o755)
	os.Chmod(dir, 0o555)
	if err := save("new.md"); !errors.Is(err, os.ErrPermission) {
		t.Errorf("a journal that is closed for writing: %v", err)
	}
	os.RemoveAll(filepath.Join(dir, RecoveryFolder, list[0].ID))
	if err := save("open/a.md"); err != nil {
		t.Errorf("a folder that is open in a journal that is closed: %v", err)
	}
	os.Chmod(dir, 0o755)
	is("open/a.md", 2)
}

func TestFolderTakenAway(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "journal")
	put(t, dir, "a.md", version(1))
	n := mustOpen(t, dir)
	if err := os.Rename(dir, dir+"-moved"); err != nil {
		t.Fatal(err)
	}
	var c *ConflictError
	if _, err := n.SaveText(context.Background(), "x", "a.md", version(1), version(2)); !errors.As(err, &c) || c.Current != nil {
		t.Errorf("a save into a journal that is gone: %v", err)
	}
	if _, err := n.SaveText(context.Background(), "x", "b.md", nil, version(2)); err == nil {
		t.Error("an entry was made in a journal that is gone")
	}
	if _, err := os.Stat(dir); err == nil {
		t.Error("the journal's folder was made anew")
	}
	if err := os.Rename(dir+"-moved", dir); err != nil {
		t.Fatal(err)
	}
	if _, err := n.SaveText(context.Background(), "x", "a.md", version(1), version(2)); err != nil {
		t.Errorf("a save after the folder came back: %v", err)
	}
}

// TestFileSwapped puts other things in the place of a file between reading and saving.
func TestFileSwapped(t *testing.T) {
	secret := filepath.Join(t.TempDir(), "secret")
	os.WriteFile(secret, version(1), 0o600)
	for what, swap := range map[string]func(p string) error{
		"another text":       func(p string) error { return os.WriteFile(p, []byte("theirs"), 0o644) },
		"a folder":           func(p string) error { os.Remove(p); return os.Mkdir(p, 0o755) },
		"a pipe":             func(p string) error { os.Remove(p); return syscall.Mkfifo(p, 0o644) },
		"nothing":            os.Remove,
		"a link out of here": func(p string) error { os.Remove(p); return os.Symlink(secret, p) },
		"a link to itself":   func(p string) error { os.Remove(p); return os.Symlink(p, p) },
		"a device":           func(p string) error { os.Remove(p); return os.Symlink("/dev/zero", p) },
	} {
		dir := t.TempDir()
		put(t, dir, "a.md", version(1))
		n := mustOpen(t, dir)
		p := filepath.Join(dir, "a.md")
		if err := swap(p); err != nil {
			t.Fatal(err)
		}
		was, _ := os.Lstat(p)
		done := make(chan error, 1)
		go func() {
			_, err := n.SaveText(context.Background(), "x", "a.md", version(1), version(2))
			done <- err
		}()
		select {
		case err := <-done:
			if err == nil {
				t.Errorf("%s in the place of the file was overwritten", what)
			}
		case <-time.After(10 * time.Second):
			t.Fatalf("%s in the place of the file: the save waits", what)
		}
		if is, _ := os.Lstat(p); (was == nil) != (is == nil) || was != nil && was.Mode() != is.Mode() {
			t.Errorf("%s is now %v", what, is)
		}
		if b, _ := os.ReadFile(secret); versionOf(b) != 1 {
			t.Fatalf("%s: a file outside was written", what)
		}
		if _, err := n.Refresh(context.Background()); err != nil {
			t.Errorf("%s: %v", what, err)
		}
	}
}

// TestRecoveryFolderLeadsOut: a journal from elsewhere may bring a link as its .scarph.
func TestRecoveryFolderLeadsOut(t *testing.T) {
	out := t.TempDir()
	os.MkdirAll(filepath.Join(out, "id"), 0o755)
	os.WriteFile(filepath.Join(out, "id", "a.md"), version(3), 0o644)
	dir := t.TempDir()
	put(t, dir, "a.md", version(1))
	if err := os.Symlink(out, filepath.Join(dir, RecoveryFolder)); err != nil {
		t.Fatal(err)
	}
	n := mustOpen(t, dir)
	if _, err := n.SaveText(context.Background(), "x", "a.md", version(1), version(2)); err == nil {
		t.Error("a copy was kept outside of the journal")
	}
	if list := n.Recoveries(); len(list) > 0 {
		t.Errorf("offered from outside: %v", list)
	}
	if n.DropRecovery("id") == nil || n.DropRecovery("../id") == nil || n.DropRecovery("") == nil {
		t.Error("a file outside was dropped")
	}
	if list, _ := os.ReadDir(out); len(list) != 1 {
		t.Errorf("outside there is %v", list)
	}
}

// TestTornFileIsMended breaks off the overwriting of a hard-linked file at every
// sort of place, as a kill or a power cut would, and opens the journal again.
func TestTornFileIsMended(t *testing.T) {
	for _, size := range [][2]int{{4000, 9000}, {9000, 4000}, {5000, 5000}, {10, 0}, {0, 10}} {
		before, text := []byte(strings.Repeat("b", size[0])), []byte(strings.Repeat("t", size[1]))
		for _, at := range []int{0, 1, 3, 9, 3999, 4000, 4001, 4096, 8999, 9000} {
			if at > len(text) {
				continue
			}
			dir := t.TempDir()
			put(t, dir, "a.md", before)
			n := mustOpen(t, dir)
			c, err := n.keepCopy("a.md", text)
			if err != nil {
				t.Fatal(err)
			}
			if err := writeNew(c.at(c.id+".before"), before); err != nil {
				t.Fatal(err)
			}
			f, _ := os.OpenFile(filepath.Join(dir, "a.md"), os.O_WRONLY, 0)
			f.WriteAt(text[:at], 0)
			f.Close()
			list := mustOpen(t, dir).Recoveries()
			now, _ := os.ReadFile(filepath.Join(dir, "a.md"))
			switch {
			case at == 0 && bytes.Equal(now, before) && (len(list) == 1 || bytes.Equal(before, text)):
			case at > 0 && bytes.Equal(now, text) && len(list) == 0:
			default:
				t.Errorf("%d bytes over %d, broken off at %d: %d bytes, %d offered", len(text), len(before), at, len(now), len(list))
			}
		}
	}
}
