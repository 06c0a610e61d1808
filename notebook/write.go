package notebook

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"runtime"
	"syscall"
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
	return e.Path + " was saved elsewhere meanwhile; nothing was written"
}

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
	real, err := n.realPath(full)
	if err != nil {
		return gone(path, err)
	}
	defer lockFolder(filepath.Dir(real))()
	if err := unchanged(path, real, before); err != nil || bytes.Equal(before, text) {
		return err
	}
	// a file that its owner has closed for writing is not replaced behind his back
	f, err := os.OpenFile(real, os.O_WRONLY|syscall.O_NONBLOCK, 0)
	if err != nil {
		return gone(path, err)
	}
	defer f.Close()
	info, err := f.Stat()
	if err != nil {
		return err
	}
	c, err := n.keepCopy(path, text)
	if err != nil {
		return fmt.Errorf("nothing was written: %w", err)
	}
	defer n.saved()
	err = errInPlace
	if links(info) == 1 {
		err = c.replace(real, before, text, info)
	}
	if errors.Is(err, errInPlace) {
		err = c.overwrite(f, before, text)
	}
	if err != nil {
		return err // the copy stays, and is offered on the next start
	}
	c.drop()
	return nil
}

// gone turns the error of a file that is not there into a conflict.
func gone(path string, err error) error {
	if errors.Is(err, fs.ErrNotExist) {
		return &ConflictError{Path: path}
	}
	return err
}

// realPath follows the links of a path, which may not lead out of the journal.
func (n *Notebook) realPath(full string) (string, error) {
	if err := n.inside(full); err != nil {
		return "", err
	}
	return filepath.EvalSymlinks(full)
}

// create makes a file, and the folders it stands in, but never the journal's own.
func (n *Notebook) create(path, full string, text []byte) error {
	if _, err := os.Stat(n.Root()); err != nil {
		return fmt.Errorf("the journal's folder cannot be written in: %w", err)
	}
	dir := filepath.Dir(full)
	if err := os.MkdirAll(dir, 0o755); err != nil {
		return err
	}
	if err := n.inside(dir); err != nil {
		return err
	}
	if _, err := os.Lstat(full); err == nil {
		now, _ := readRegular(full)
		return &ConflictError{Path: path, Current: now}
	}
	c, err := n.keepCopy(path, text)
	if err != nil {
		return fmt.Errorf("nothing was written: %w", err)
	}
	defer n.saved()
	temp, err := c.temp(dir, text, 0o644, nil)
	if err != nil {
		return err
	}
	defer os.Remove(temp)
	if err := place(temp, full, text); err != nil {
		if errors.Is(err, fs.ErrExist) {
			now, _ := readRegular(full)
			return &ConflictError{Path: path, Current: now}
		}
		return err
	}
	c.drop()
	return syncFolder(dir)
}

// place gives a file its name, which must be free. Unlike a rename, a link never
// displaces what came there meanwhile; where there are no links, a new file is written.
func place(temp, full string, text []byte) error {
	err := os.Link(temp, full)
	if err == nil || errors.Is(err, fs.ErrExist) {
		return err
	}
	f, err := os.OpenFile(full, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o644)
	if err != nil {
		return err
	}
	if err := finish(f, text); err != nil {
		os.Remove(full)
		return err
	}
	return nil
}

// remove takes away a file that holds text. It is moved aside first and looked at
// there: what somebody else saved in that moment is put back.
func (n *Notebook) remove(path string, text []byte) error {
	real, err := n.realPath(filepath.Join(n.Root(), filepath.FromSlash(path)))
	if err != nil {
		return gone(path, err)
	}
	if err := unchanged(path, real, text); err != nil {
		return err
	}
	c, err := n.keepCopy(path, text)
	if err != nil {
		return err
	}
	defer n.saved()
	aside := c.aside(filepath.Dir(real))
	if err := os.Rename(real, aside); err != nil {
		c.drop()
		return gone(path, err)
	}
	if err := unchanged(path, aside, text); err != nil {
		if os.Link(aside, real) == nil {
			os.Remove(aside)
		}
		return err
	}
	os.Remove(aside)
	c.drop()
	return syncFolder(filepath.Dir(real))
}

// unchanged gives a conflict if a file is not what it was.
func unchanged(path, real string, before []byte) error {
	now, err := readRegular(real)
	if err != nil {
		return gone(path, err)
	}
	if !bytes.Equal(now, before) {
		return &ConflictError{Path: path, Current: now}
	}
	return nil
}

// readRegular reads a plain file of bounded size. It is asked what it is after it
// is open, without waiting for a pipe's other end: it may be swapped at any moment.
func readRegular(full string) ([]byte, error) {
	f, err := os.OpenFile(full, os.O_RDONLY|syscall.O_NONBLOCK, 0)
	if err != nil {
		return nil, err
	}
	defer f.Close()
	info, err := f.Stat()
	if err != nil {
		return nil, err
	}
	if !info.Mode().IsRegular() {
		return nil, fmt.Errorf("%s is no plain file", filepath.Base(full))
	}
	if info.Size() > MaxFile {
		return nil, fmt.Errorf("the file is %d MB long; the limit is %d MB", info.Size()>>20, MaxFile>>20)
	}
	text, err := io.ReadAll(io.LimitReader(f, MaxFile+1))
	if err == nil && len(text) > MaxFile {
		err = fmt.Errorf("the file grows beyond %d MB", MaxFile>>20)
	}
	return text, err
}

// errInPlace says that a file cannot be replaced without becoming another's.
var errInPlace = errors.New("the file must be written in place")

// replace puts a new file in the place of an old one. Where the system can exchange
// two files in one step, what was displaced is looked at afterwards: if it is not what it
// should have been, somebody saved in that very moment, and gets it back.
func (c kept) replace(real string, before, text []byte, info fs.FileInfo) error {
	temp, err := c.temp(filepath.Dir(real), text, info.Mode().Perm(), info)
	if err != nil {
		return err
	}
	defer os.Remove(temp)
	err = exchange(temp, real)
	switch {
	case errors.Is(err, errNoExchange):
		if err := unchanged(c.path, real, before); err != nil {
			return err
		}
		if err := os.Rename(temp, real); err != nil {
			return err
		}
	case err != nil:
		return gone(c.path, err)
	default:
		if err := unchanged(c.path, temp, before); err != nil {
			return c.giveBack(temp, real, text, err)
		}
	}
	return syncFolder(filepath.Dir(real))
}

// giveBack puts back what replace displaced though it was not what had been read, and
// goes on until nobody has saved between two looks: the latest save stays in the place.
func (c kept) giveBack(temp, real string, ours []byte, conflict error) error {
	put := ours
	for {
		back, err := readRegular(temp)
		if err == nil {
			err = exchange(temp, real)
		}
		if err != nil { // the place is gone or closed: theirs too is kept
			return errors.Join(conflict, os.Rename(temp, c.beside()))
		}
		if out, err := readRegular(temp); err == nil && bytes.Equal(out, put) {
			return conflict
		}
		put = back
	}
}

// finish writes all of a new file and makes it durable.
func finish(f *os.File, text []byte) error {
	_, err := f.Write(text)
	if err == nil {
		err = f.Sync()
	}
	if e := f.Close(); err == nil {
		err = e
	}
	return err
}

// inPlace makes an open file hold a text.
func inPlace(f *os.File, text []byte) error {
	_, err := f.WriteAt(text, 0)
	if err == nil {
		err = f.Truncate(int64(len(text)))
	}
	if err == nil {
		err = f.Sync()
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
