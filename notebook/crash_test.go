//go:build unix

package notebook

import (
	"bufio"
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
	"time"
)

// savingFiles are the files that the crash test saves in turn: plain, in a folder,
// one with two hard links, one that is a symbolic link.
var savingFiles = []string{"plain.md", "sub/deep.md", "hard.md", "link.md"}

// version is the text number k of the crash test: it tells its number at both ends,
// so that a torn one shows, and its length differs from its neighbours'.
func version(k int) []byte {
	size := rand.New(rand.NewSource(int64(k))).Intn(24 << 10)
	line := fmt.Sprintf("%d stays %d\n", k, k)
	return []byte(fmt.Sprintf("first %d\n%slast %d\n", k, strings.Repeat(line, size/len(line)), k))
}

// versionOf reads the number of a text, −1 for one that is not whole.
func versionOf(text []byte) int {
	var k int
	if _, err := fmt.Sscanf(string(text[:min(len(text), 40)]), "first %d\n", &k); err != nil || !bytes.Equal(text, version(k)) {
		return -1
	}
	return k
}

// TestSavingChild is the process that the crash test kills: it saves until it dies
// and says on stdout what it begins and what it has done.
func TestSavingChild(t *testing.T) {
	dir := os.Getenv("SCARPH_SAVING_CHILD")
	if dir == "" {
		t.Skip("runs only as the child of TestKilledWhileSaving")
	}
	n, err := Open(dir)
	if err != nil {
		t.Fatal(err)
	}
	var k int
	fmt.Sscan(os.Getenv("SCARPH_SAVING_FROM"), &k)
	for end := k + 1000; k < end; k++ {
		path := savingFiles[k%len(savingFiles)]
		before, err := os.ReadFile(filepath.Join(dir, path))
		if err != nil {
			t.Fatal(err)
		}
		if k%23 == 0 {
			path, before = fmt.Sprintf("new/%d.md", k), nil
		}
		fmt.Printf("begin %d %s\n", k, path)
		if _, err := n.SaveText(context.Background(), "a save", path, before, version(k)); err != nil {
			t.Fatalf("save %d: %v", k, err)
		}
		fmt.Printf("done %d %s\n", k, path)
	}
}

// crashCount is what the crash test found.
type crashCount struct {
	saves, kills, inSave, old, fresh, kept, unkept, mended int
}

// TestKilledWhileSaving kills a saving process by SIGKILL at random moments. After
// each death every file is wholly old or wholly new, what was reported as saved is there,
// and a text that did not reach its file is offered, unless the process died before it had
// been kept: then who sent it never got an answer.
func TestKilledWhileSaving(t *testing.T) {
	want := 300
	if os.Getenv("SCARPH_LONG") != "" {
		want = 10_000
	}
	seed := time.Now().UnixNano()
	rnd := rand.New(rand.NewSource(seed))
	dir := t.TempDir()
	write := func(name string, text []byte) {
		p := filepath.Join(dir, name)
		if err := os.MkdirAll(filepath.Dir(p), 0o755); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(p, text, 0o640); err != nil {
			t.Fatal(err)
		}
	}
	for _, name := range []string{"plain.md", "sub/deep.md", "hard.md", "sub/real.md"} {
		write(name, version(0))
	}
	outside := filepath.Join(t.TempDir(), "twin.md")
	if err := os.Link(filepath.Join(dir, "hard.md"), outside); err != nil {
		t.Skip("this file system has no hard links")
	}
	if err := os.Symlink("sub/real.md", filepath.Join(dir, "link.md")); err != nil {
		t.Fatal(err)
	}
	var c crashCount
	last := map[string]int{} // the newest version that a file is known to hold
	for k := 1; c.saves < want; {
		lines, killed := saveAndKill(t, dir, k, rnd)
		begun, path := 0, ""
		for _, l := range lines {
			var what, p string
			var i int
			if _, err := fmt.Sscanf(l, "%s %d %s", &what, &i, &p); err != nil {
				continue
			}
			if what == "begin" {
				begun, path = i, p
				c.saves++
				k = i + 1
			} else if what == "done" {
				last[p] = i
				begun = 0
			} else {
				t.Fatalf("seed %d: the child says %q", seed, lines)
			}
		}
		if !killed {
			continue
		}
		c.kills++
		if begun > 0 {
			c.inSave++
		}
		c.judge(t, dir, outside, last, begun, path)
		if t.Failed() {
			t.Fatalf("seed %d, after save %d of %s", seed, begun, path)
		}
	}
	t.Logf("%d saves, %d processes killed, %d of them in a save: the file was old %d times and new %d times; %d texts were offered, %d had not been kept yet, %d files were overwritten to the end on the next start",
		c.saves, c.kills, c.inSave, c.old, c.fresh, c.kept, c.unkept, c.mended)
}

// saveAndKill runs the saving child and kills it while a save runs or shortly after.
func saveAndKill(t *testing.T, dir string, k int, rnd *rand.Rand) (lines []string, killed bool) {
	t.Helper()
	cmd := exec.Command(os.Args[0], "-test.run=^TestSavingChild$")
	cmd.Env = append(os.Environ(), "SCARPH_SAVING_CHILD="+dir, fmt.Sprintf("SCARPH_SAVING_FROM=%d", k))
	cmd.Stderr = os.Stderr
	out, err := cmd.StdoutPipe()
	if err != nil {
		t.Fatal(err)
	}
	if err := cmd.Start(); err != nil {
		t.Fatal(err)
	}
	after := 1 + rnd.Intn(25)
	in := bufio.NewScanner(out)
	for in.Scan() {
		lines = append(lines, in.Text())
		if strings.HasPrefix(in.Text(), "begin ") && !killed {
			if after--; after == 0 {
				time.Sleep(time.Duration(rnd.Intn(2500)) * time.Microsecond)
				_ = cmd.Process.Signal(syscall.SIGKILL)
				killed = true
			}
		}
	}
	err = cmd.Wait()
	if !killed && err != nil {
		t.Fatalf("the child failed: %v\n%s", err, strings.Join(lines, "\n"))
	}
	return lines, killed
}

// judge looks at the journal after a death, opens it, and looks again.
func (c *crashCount) judge(t *testing.T, dir, outside string, last map[string]int, begun int, path string) {
	t.Helper()
	torn := ""
	for _, name := range savingFiles {
		text, err := os.ReadFile(filepath.Join(dir, name))
		if err != nil {
			t.Errorf("%s: %v", name, err)
			return
		}
		if versionOf(text) < 0 {
			torn = name
		}
	}
	if torn != "" && (torn != "hard.md" || path != "hard.md") {
		t.Errorf("%s is torn", torn)
		return
	}
	n, err := Open(dir)
	if err != nil {
		t.Error(err)
		return
	}
	if torn != "" {
		c.mended++
	}
	offered := n.Recoveries()
	for _, name := range append(savingFiles, path) {
		text, err := os.ReadFile(filepath.Join(dir, name))
		now := versionOf(text)
		if err != nil && strings.HasPrefix(name, "new/") && begun > 0 {
			now = 0
		} else if err != nil || now < 0 || now < last[name] || now > last[name] && (now != begun || name != path) {
			t.Errorf("%s holds version %d (%v), last saved %d, begun %d", name, now, err, last[name], begun)
			continue
		}
		if name != path || begun == 0 {
			continue
		}
		switch {
		case now == begun:
			c.fresh++
			last[name] = begun
			path = ""
		case len(offered) == 1 && offered[0].Path == path && versionOf(offered[0].Text) == begun:
			c.old++
			c.kept++
			path = ""
		case len(offered) == 0:
			c.old++
			c.unkept++
			path = ""
		default:
			t.Errorf("%d texts are offered: %+v", len(offered), offered)
		}
	}
	if a, _ := os.ReadFile(outside); versionOf(a) != last["hard.md"] {
		t.Errorf("the twin of hard.md is parted from it")
	}
	for _, r := range offered {
		if versionOf(r.Text) < 0 {
			t.Errorf("a torn text is offered for %s", r.Path)
		}
		if err := n.DropRecovery(r.ID); err != nil {
			t.Error(err)
		}
	}
	os.RemoveAll(filepath.Join(dir, "new"))
	litter, _ := filepath.Glob(filepath.Join(dir, ".scarph-*"))
	deep, _ := filepath.Glob(filepath.Join(dir, "*", ".scarph-*"))
	if len(litter)+len(deep) > 0 {
		t.Errorf("left in the journal: %v %v", litter, deep)
	}
}
