package notebook

import (
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"sort"
	"strings"
	"time"
)

// RecoveryFolder is where a text is kept while it is being saved. It begins with a
// point, so that it is no part of the journal. For the copy of a save with the name ID
// it holds
//
//	ID/path/of/the/file.md   the text
//	ID.new                   the file that is about to take the place of the old one
//	ID.before                the old text, while a file with several links is overwritten
//
// An ID is the time and the beginning of the text's SHA-256, by which a copy whose
// writing broke off is known.
const RecoveryFolder = ".scarph"

// kept is a copy of a text that is on its way to its file.
type kept struct {
	n    *Notebook
	id   string
	path string // of the file, below the journal
}

func (c kept) at(name string) string { return filepath.Join(c.n.recoveryFolder(), name) }

// text is where the copy lies.
func (c kept) text() string { return filepath.Join(c.at(c.id), filepath.FromSlash(c.path)) }

// beside is a place in the copy's folder for a second text of the same file.
func (c kept) beside() string {
	p := c.text()
	return filepath.Join(filepath.Dir(p), theirs+filepath.Base(p))
}

// theirs begins the name of a second text.
const theirs = "theirs-"

func (c kept) drop() {
	os.RemoveAll(c.at(c.id))
	os.Remove(c.at(c.id + ".new"))
	os.Remove(c.at(c.id + ".before"))
	os.Remove(c.n.recoveryFolder()) // when it is empty
}

func (n *Notebook) recoveryFolder() string { return filepath.Join(n.Root(), RecoveryFolder) }

// saved ends what keepCopy began.
func (n *Notebook) saved() { n.hand.saving.Store("") }

// keepCopy writes a text to the recovery folder, made durable.
func (n *Notebook) keepCopy(path string, text []byte) (kept, error) {
	c := kept{n: n, path: path}
	var err error
	for range 20 {
		c.id = time.Now().UTC().Format("20060102-150405.000000") + "-" + mark(text)
		n.hand.saving.Store(c.id)
		err = c.write(text)
		_, gone := os.Stat(n.Root())
		// another program may just have cleared the empty folder away, or keep the same text
		if again := errors.Is(err, fs.ErrNotExist) || errors.Is(err, fs.ErrExist); !again || gone != nil {
			break
		}
	}
	if err != nil {
		if !errors.Is(err, fs.ErrExist) {
			c.drop()
		}
		n.saved()
	}
	return c, err
}

func (c kept) write(text []byte) error {
	dir := c.n.recoveryFolder()
	if err := os.Mkdir(dir, 0o755); err != nil && !errors.Is(err, fs.ErrExist) {
		return err
	}
	if info, err := os.Lstat(dir); err != nil || !info.IsDir() {
		return errors.Join(fmt.Errorf("%s is no folder", RecoveryFolder), err)
	}
	if err := os.MkdirAll(filepath.Dir(c.text()), 0o755); err != nil {
		return err
	}
	return writeNew(c.text(), text)
}

// mark is the beginning of a text's SHA-256.
func mark(text []byte) string {
	sum := sha256.Sum256(text)
	return hex.EncodeToString(sum[:6])
}

// writeNew makes a file that only its owner reads, and makes it durable.
func writeNew(name string, text []byte) error {
	f, err := os.OpenFile(name, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o600)
	if err != nil {
		return err
	}
	if err := finish(f, text); err != nil {
		os.Remove(name)
		return err
	}
	return nil
}

// aside is a name beside a place in dir: in the recovery folder, so that nothing is
// left in the journal if the program breaks off, unless that is another file system.
func (c kept) aside(dir string) string {
	if sameDevice(c.n.recoveryFolder(), dir) {
		return c.at(c.id + ".new")
	}
	return filepath.Join(dir, ".scarph-"+c.id)
}

// temp makes the file that is to take a place in dir, with the mode and the owner of
// the one it displaces. It is the copy under a second name, which is durable already, or
// written anew where files have one name only.
func (c kept) temp(dir string, text []byte, mode fs.FileMode, like fs.FileInfo) (string, error) {
	name := c.aside(dir)
	if os.Link(c.text(), name) != nil {
		if err := writeNew(name, text); err != nil {
			return "", err
		}
	}
	err := os.Chmod(name, mode)
	if err == nil && like != nil && !keepOwner(name, like) {
		err = errInPlace
	}
	if err != nil {
		os.Remove(name)
		return "", err
	}
	return name, nil
}

// overwrite writes a file in place. If it breaks off in between, mend goes on with it.
func (c kept) overwrite(f *os.File, before, text []byte) error {
	if err := writeNew(c.at(c.id+".before"), before); err != nil {
		return fmt.Errorf("nothing was written: %w", err)
	}
	for _, dir := range []string{filepath.Dir(c.text()), c.n.recoveryFolder(), c.n.Root()} {
		if err := syncFolder(dir); err != nil {
			return fmt.Errorf("nothing was written: %w", err)
		}
	}
	err := inPlace(f, text)
	if err != nil {
		if back := inPlace(f, before); back == nil {
			os.Remove(c.at(c.id + ".before"))
			return fmt.Errorf("nothing was written: %w", err)
		}
	}
	return err
}

// Recovery is a text that a save did not bring to its file.
type Recovery struct {
	ID   string
	Path string // the file it was meant for
	Text []byte
	Time time.Time // when it was kept
}

// Recoveries lists the texts that were being saved when the program broke off, oldest
// first. Those that did reach their file are cleared away, and so is what a broken
// save left of its own.
func (n *Notebook) Recoveries() []Recovery {
	busy, _ := n.hand.saving.Load().(string)
	var out []Recovery
	for _, d := range n.copies() {
		id := d.Name()
		c := kept{n: n, id: strings.TrimSuffix(id, ".new")}
		if c.id == busy && busy != "" {
			continue
		}
		if !d.IsDir() {
			if c.id != id && isOld(d) {
				os.Remove(c.at(id))
			}
			continue
		}
		reached, found := true, 0
		for _, r := range n.copy(id) {
			found++
			now, err := readRegular(filepath.Join(n.Root(), filepath.FromSlash(r.Path)))
			if err != nil || !bytes.Equal(now, r.Text) {
				reached = false
				out = append(out, r)
			}
		}
		if reached && (found > 0 || isOld(d)) {
			c.drop()
		}
	}
	return out
}

// isOld tells what a broken save left from what another program is just writing.
func isOld(d fs.DirEntry) bool {
	info, err := d.Info()
	return err == nil && time.Since(info.ModTime()) > time.Hour
}

// copies lists what lies in the recovery folder, if that is a folder.
func (n *Notebook) copies() []fs.DirEntry {
	info, err := os.Lstat(n.recoveryFolder())
	if err != nil || !info.IsDir() {
		return nil
	}
	list, _ := os.ReadDir(n.recoveryFolder())
	sort.Slice(list, func(i, j int) bool { return list[i].Name() < list[j].Name() })
	return list
}

// copy reads the texts that are kept under one name.
func (n *Notebook) copy(id string) []Recovery {
	var out []Recovery
	root := filepath.Join(n.recoveryFolder(), id)
	_ = filepath.WalkDir(root, func(p string, d fs.DirEntry, err error) error {
		if err != nil || !d.Type().IsRegular() {
			return nil
		}
		rel, err := filepath.Rel(root, p)
		if err != nil || !filepath.IsLocal(rel) {
			return nil
		}
		text, err := readRegular(p)
		info, e := d.Info()
		whole := strings.HasSuffix(id, "-"+mark(text)) || strings.HasPrefix(filepath.Base(p), theirs)
		if err == nil && e == nil && whole {
			out = append(out, Recovery{ID: id, Path: filepath.ToSlash(rel), Text: text, Time: info.ModTime()})
		}
		return nil
	})
	return out
}

// DropRecovery forgets a text that was being saved.
func (n *Notebook) DropRecovery(id string) error {
	for _, d := range n.copies() {
		if d.Name() == id && d.IsDir() {
			kept{n: n, id: id}.drop()
			return nil
		}
	}
	return fs.ErrNotExist
}

// mend goes on with the overwriting of files that broke off in between: those which
// are neither what they were nor what they were to be, but the new text up to some point
// and the old one from there.
func (n *Notebook) mend() {
	for _, d := range n.copies() {
		id, ok := strings.CutSuffix(d.Name(), ".before")
		if !ok || !d.Type().IsRegular() {
			continue
		}
		c := kept{n: n, id: id}
		before, err := readRegular(c.at(d.Name()))
		list := n.copy(id)
		if err != nil || len(list) != 1 {
			continue
		}
		real, err := n.realPath(filepath.Join(n.Root(), filepath.FromSlash(list[0].Path)))
		if err != nil {
			continue
		}
		now, err := readRegular(real)
		if err != nil || !isTorn(now, before, list[0].Text) {
			continue
		}
		if f, err := os.OpenFile(real, os.O_WRONLY, 0); err == nil {
			err = inPlace(f, list[0].Text)
			if f.Close() == nil && err == nil {
				c.drop()
			}
		}
	}
}

// isTorn reports whether a file is text up to some point and before from there on.
func isTorn(now, before, text []byte) bool {
	if bytes.Equal(now, before) || bytes.Equal(now, text) {
		return false
	}
	k := 0
	for k < len(now) && k < len(text) && now[k] == text[k] {
		k++
	}
	return k <= len(before) && bytes.Equal(now[k:], before[k:]) || k == len(now) && k >= len(before)
}
