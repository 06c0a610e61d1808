package notebook

import (
	"bytes"
	"crypto/rand"
	"encoding/hex"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"runtime"
	"strings"
)

// ConflictError says that a file is not what it was when an edit was thought out:
// someone else saved it. Nothing was written.
type ConflictError struct {
	Path    string
	Current []byte // what lies on disk now, nil when the file is gone
}

func (e *ConflictError) Error() string {
	if e.Current == nil {
		return e.Path + " is gone; nothing was written"
	}
	return e.Path + " was changed by someone else; nothing was written"
}

// RecoveryFolder is where a text is kept while it is being saved. It begins with a
// point, so that it is no part of the journal.
const RecoveryFolder = ".scarph"

// save makes a file hold text, if it holds before now (nil: if it does not exist). The
// file is at every moment wholly old or wholly new: a copy is written beside it, made
// durable, and put in its place. Links are followed and may not lead out of the journal; a
// file with several hard links is written in place, since a new file would part them.
func (n *Notebook) save(path string, before, text []byte) error {
	if !filepath.IsLocal(filepath.FromSlash(path)) {
		return fmt.Errorf("%s lies outside the journal", path)
	}
	full := filepath.Join(n.Root(), filepath.FromSlash(path))
	if before == nil {
		return n.create(path, full, text)
	}
	if err := n.inside(full); err != nil {
		if errors.Is(err, fs.ErrNotExist) {
			return &ConflictError{Path: path}
		}
		return err
	}
	real, err := filepath.EvalSymlinks(full)
	if err != nil {
		return err
	}
	if err := unchanged(path, real, before); err != nil {
		return err
	}
	info, err := os.Stat(real)
	if err != nil {
		return err
	}
	keep, err := n.keepCopy(path, text)
	if err != nil {
		return fmt.Errorf("nothing was written: %w", err)
	}
	if links(info) > 1 {
		err = inPlace(real, text)
	} else {
		err = replace(path, real, before, text, info.Mode().Perm())
	}
	if err != nil {
		return err // the copy stays, and is offered on the next start
	}
	keep.drop()
	return nil
}

func (n *Notebook) create(path, full string, text []byte) error {
	if err := os.MkdirAll(filepath.Dir(full), 0o755); err != nil {
		return err
	}
	if err := n.inside(filepath.Dir(full)); err != nil && filepath.Clean(filepath.Dir(full)) != filepath.Clean(n.Root()) {
		return err
	}
	if now, err := os.ReadFile(full); err == nil {
		return &ConflictError{Path: path, Current: now}
	}
	temp, err := writeTemp(filepath.Dir(full), text, 0o644)
	if err != nil {
		return err
	}
	defer os.Remove(temp)
	if err := os.Link(temp, full); err != nil { // unlike a rename, this never displaces a file
		if errors.Is(err, fs.ErrExist) {
			now, _ := os.ReadFile(full)
			return &ConflictError{Path: path, Current: now}
		}
		if err := os.Rename(temp, full); err != nil {
			return err
		}
	}
	return syncFolder(filepath.Dir(full))
}

func unchanged(path, real string, before []byte) error {
	now, err := os.ReadFile(real)
	if errors.Is(err, fs.ErrNotExist) {
		return &ConflictError{Path: path}
	}
	if err != nil {
		return err
	}
	if !bytes.Equal(now, before) {
		return &ConflictError{Path: path, Current: now}
	}
	return nil
}

// replace puts a new file in the place of an old one.
func replace(path, real string, before, text []byte, mode fs.FileMode) error {
	temp, err := writeTemp(filepath.Dir(real), text, mode)
	if err != nil {
		return err
	}
	// between the first look and now the file may have been saved by an editor
	if err := unchanged(path, real, before); err != nil {
		os.Remove(temp)
		return err
	}
	if err := os.Rename(temp, real); err != nil {
		os.Remove(temp)
		return err
	}
	return syncFolder(filepath.Dir(real))
}

func writeTemp(dir string, text []byte, mode fs.FileMode) (string, error) {
	f, err := os.CreateTemp(dir, ".scarph-*")
	if err != nil {
		return "", err
	}
	_, err = f.Write(text)
	if err == nil {
		err = f.Chmod(mode)
	}
	if err == nil {
		err = f.Sync()
	}
	if e := f.Close(); err == nil {
		err = e
	}
	if err != nil {
		os.Remove(f.Name())
		return "", err
	}
	return f.Name(), nil
}

// inPlace overwrites a file; the copy that save keeps covers a break in between.
func inPlace(real string, text []byte) error {
	f, err := os.OpenFile(real, os.O_WRONLY, 0)
	if err != nil {
		return err
	}
	_, err = f.WriteAt(text, 0)
	if err == nil {
		err = f.Truncate(int64(len(text)))
	}
	if err == nil {
		err = f.Sync()
	}
	if e := f.Close(); err == nil {
		err = e
	}
	return err
}

func syncFolder(dir string) error {
	if runtime.GOOS == "windows" {
		return nil
	}
	d, err := os.Open(dir)
	if err != nil {
		return err
	}
	defer d.Close()
	return d.Sync()
}

// kept is a copy of a text that is on its way to its file.
type kept struct{ path string }

func (k kept) drop() {
	os.Remove(k.path)
	os.Remove(filepath.Dir(k.path)) // when it is empty
}

// keepCopy writes a text to the recovery folder, made durable.
func (n *Notebook) keepCopy(path string, text []byte) (kept, error) {
	dir := filepath.Join(n.Root(), RecoveryFolder)
	if err := os.MkdirAll(dir, 0o755); err != nil {
		return kept{}, err
	}
	var id [6]byte
	rand.Read(id[:])
	name := filepath.Join(dir, strings.ReplaceAll(path, "/", "%2F")+"."+hex.EncodeToString(id[:]))
	f, err := os.OpenFile(name, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o600)
	if err != nil {
		return kept{}, err
	}
	_, err = f.Write(text)
	if err == nil {
		err = f.Sync()
	}
	if e := f.Close(); err == nil {
		err = e
	}
	if err != nil {
		os.Remove(name)
		return kept{}, err
	}
	return kept{name}, nil
}

// Recovery is a text that a save did not bring to its file.
type Recovery struct {
	ID   string
	Path string // the file it was meant for
	Text []byte
}

// Recoveries lists the texts that were being saved when the program broke off.
// Those that did reach their file are cleared away.
func (n *Notebook) Recoveries() []Recovery {
	dir := filepath.Join(n.Root(), RecoveryFolder)
	list, err := os.ReadDir(dir)
	if err != nil {
		return nil
	}
	var out []Recovery
	for _, d := range list {
		i := strings.LastIndexByte(d.Name(), '.')
		if i < 0 || !d.Type().IsRegular() {
			continue
		}
		path := strings.ReplaceAll(d.Name()[:i], "%2F", "/")
		text, err := os.ReadFile(filepath.Join(dir, d.Name()))
		if err != nil || !filepath.IsLocal(filepath.FromSlash(path)) {
			continue
		}
		if now, err := os.ReadFile(filepath.Join(n.Root(), filepath.FromSlash(path))); err == nil && bytes.Equal(now, text) {
			kept{filepath.Join(dir, d.Name())}.drop()
			continue
		}
		out = append(out, Recovery{ID: d.Name(), Path: path, Text: text})
	}
	return out
}

// DropRecovery forgets a text that was being saved.
func (n *Notebook) DropRecovery(id string) error {
	if id != filepath.Base(id) || strings.HasPrefix(id, ".") {
		return fs.ErrNotExist
	}
	return os.Remove(filepath.Join(n.Root(), RecoveryFolder, id))
}
