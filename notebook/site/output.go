package site

import (
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"sort"
	"strings"
	"sync"
)

// manifestName is the file by which publish knows a folder that it wrote, with what it
// wrote there.
const manifestName = ".scarph-site.json"

// manifest is what is remembered of a site: its files with the hashes of their
// contents, and what the making of it wants to know next time. It names no file of the
// journal.
type manifest struct {
	Version int               `json:"version"`
	Files   map[string]string `json:"files"`
	Notes   map[string]string `json:"notes"`
}

// output is a site while it is built in a folder beside the old one, which it displaces
// at the end in one step. Files that stay as they were are taken over as they are.
type output struct {
	dir, aside string
	before     manifest
	now        manifest
	beside     bool // aside stands beside dir, not in it
	done       bool

	mu                     sync.Mutex // guards now and what follows
	written, kept, removed int
	bytes                  int64
}

const (
	asideMark = ".scarph-new"
	oldMark   = ".scarph-old"
)

// openOutput makes ready to write a site to a folder. It refuses a folder that holds
// other things, and one that holds the journal.
func openOutput(dir, journal string) (*output, error) {
	dir, err := filepath.Abs(dir)
	if err != nil {
		return nil, err
	}
	if real, err := filepath.EvalSymlinks(dir); err == nil {
		dir = real
	}
	if from, err := filepath.Abs(journal); err == nil {
		if real, err := filepath.EvalSymlinks(from); err == nil {
			from = real
		}
		if rel, err := filepath.Rel(dir, from); err == nil && rel != ".." && !strings.HasPrefix(rel, ".."+string(filepath.Separator)) {
			return nil, fmt.Errorf("%s holds the journal itself; publish to another folder", dir)
		}
	}
	if err := recoverOld(dir); err != nil {
		return nil, err
	}
	o := &output{dir: dir, now: manifest{Version: 1, Files: map[string]string{}, Notes: map[string]string{}}}
	if err := o.readManifest(); err != nil {
		return nil, err
	}
	if err := os.MkdirAll(filepath.Dir(dir), 0o755); err != nil {
		return nil, err
	}
	o.aside, o.beside = dir+asideMark, true
	err = o.makeAside()
	if err == nil && !sameDisk(o.aside, dir) {
		err = errors.Join(errOtherDisk, os.RemoveAll(o.aside))
	}
	if err != nil { // a disk's top folder has no folder beside it
		if err := os.MkdirAll(dir, 0o755); err != nil {
			return nil, err
		}
		o.aside, o.beside = filepath.Join(dir, asideMark), false
		if err := o.makeAside(); err != nil {
			return nil, err
		}
	}
	return o, nil
}

var errOtherDisk = errors.New("the folder is a disk of its own")

func (o *output) makeAside() error {
	if err := os.RemoveAll(o.aside); err != nil { // of a publishing that was interrupted
		return err
	}
	return os.Mkdir(o.aside, 0o755)
}

// recoverOld puts a site back that was moved away when a publishing was interrupted
// between two steps.
func recoverOld(dir string) error {
	old := dir + oldMark
	if _, err := os.Stat(old); err != nil {
		return nil
	}
	if _, err := os.Stat(dir); errors.Is(err, fs.ErrNotExist) {
		return os.Rename(old, dir)
	}
	return os.RemoveAll(old)
}

// readManifest reads what is known of the site before. A folder with something in it
// and no manifest was written by someone else.
func (o *output) readManifest() error {
	data, err := os.ReadFile(filepath.Join(o.dir, manifestName))
	if err == nil {
		if json.Unmarshal(data, &o.before) != nil || o.before.Version != 1 {
			o.before = manifest{}
		}
		return nil
	}
	list, err := os.ReadDir(o.dir)
	if errors.Is(err, fs.ErrNotExist) {
		return nil
	}
	if err != nil {
		return err
	}
	for _, f := range list {
		if !strings.HasPrefix(f.Name(), ".") && f.Name() != "CNAME" {
			return fmt.Errorf("%s holds %s, which publish did not write; choose an empty folder", o.dir, f.Name())
		}
	}
	return nil
}

func hashOf(data []byte) string {
	sum := sha256.Sum256(data)
	return hex.EncodeToString(sum[:16])
}

// put writes a file, or keeps the one that is there with the same content.
func (o *output) put(name string, data []byte) error {
	hash := hashOf(data)
	if !o.claim(name, hash) {
		return nil
	}
	to := filepath.Join(o.aside, filepath.FromSlash(name))
	if err := os.MkdirAll(filepath.Dir(to), 0o755); err != nil {
		return err
	}
	if o.before.Files[name] == hash {
		from := filepath.Join(o.dir, filepath.FromSlash(name))
		if old, err := os.ReadFile(from); err == nil && bytes.Equal(old, data) && takeOver(from, to) == nil {
			o.count(&o.kept, len(data))
			return nil
		}
	}
	o.count(&o.written, len(data))
	return os.WriteFile(to, data, 0o644)
}

// claim makes a file part of the site; false when it is already.
func (o *output) claim(name, hash string) bool {
	o.mu.Lock()
	defer o.mu.Unlock()
	if _, twice := o.now.Files[name]; twice {
		return false
	}
	o.now.Files[name] = hash
	return true
}

// count counts a file among those written or kept.
func (o *output) count(among *int, size int) {
	o.mu.Lock()
	defer o.mu.Unlock()
	*among++
	o.bytes += int64(size)
}

// keep takes a file over from the site before; false when it is not there.
func (o *output) keep(name string) bool {
	hash, ok := o.before.Files[name]
	if !ok {
		return false
	}
	from, to := filepath.Join(o.dir, filepath.FromSlash(name)), filepath.Join(o.aside, filepath.FromSlash(name))
	info, err := os.Stat(from)
	if err != nil || !info.Mode().IsRegular() || info.Size() == 0 || os.MkdirAll(filepath.Dir(to), 0o755) != nil {
		return false
	}
	o.mu.Lock()
	defer o.mu.Unlock()
	if _, twice := o.now.Files[name]; twice {
		return true
	}
	if takeOver(from, to) != nil {
		return false
	}
	o.now.Files[name] = hash
	o.bytes += info.Size()
	o.kept++
	return true
}

// keepWhole takes files over from the site before, all or none; false when they are not
// all there as they were written.
func (o *output) keepWhole(names []string) bool {
	for _, name := range names {
		data, err := os.ReadFile(filepath.Join(o.dir, filepath.FromSlash(name)))
		if err != nil || hashOf(data) != o.before.Files[name] {
			return false
		}
	}
	for _, name := range names {
		if !o.keep(name) {
			return false
		}
	}
	return true
}

// pages counts the pages of the site.
func (o *output) pages() int {
	n := 0
	for name := range o.now.Files {
		if strings.HasSuffix(name, ".html") {
			n++
		}
	}
	return n
}

func (o *output) old(key string) ([]byte, bool) {
	s, ok := o.before.Notes[key]
	return []byte(s), ok
}

func (o *output) remember(key string, data []byte) {
	o.mu.Lock()
	defer o.mu.Unlock()
	o.now.Notes[key] = string(data)
}

// takeOver makes a file appear in a second place without copying it, where the disk
// can do that.
func takeOver(from, to string) error {
	if os.Link(from, to) == nil {
		return nil
	}
	in, err := os.Open(from)
	if err != nil {
		return err
	}
	defer func() { _ = in.Close() }()
	info, err := in.Stat()
	if err != nil {
		return err
	}
	out, err := os.OpenFile(to, os.O_CREATE|os.O_EXCL|os.O_WRONLY, info.Mode().Perm())
	if err != nil {
		return err
	}
	if _, err := io.Copy(out, in); err != nil {
		_ = out.Close()
		return err
	}
	if err := out.Close(); err != nil {
		return err
	}
	return os.Chtimes(to, info.ModTime(), info.ModTime())
}

// commit puts the new site in the place of the old one.
func (o *output) commit() error {
	for name := range o.before.Files {
		if _, still := o.now.Files[name]; !still {
			o.removed++
		}
	}
	data, err := json.MarshalIndent(o.now, "", " ")
	if err != nil {
		return err
	}
	if err := os.WriteFile(filepath.Join(o.aside, manifestName), append(data, '\n'), 0o644); err != nil {
		return err
	}
	if !o.beside {
		return o.moveIn()
	}
	if err := o.keepStrangers(); err != nil {
		return err
	}
	flush(o.aside)
	swapped, err := exchange(o.aside, o.dir)
	if err != nil {
		return err
	}
	o.done = true
	if swapped != "" {
		return os.RemoveAll(swapped)
	}
	return nil
}

// keepStrangers takes over what others put into the folder: a repository's own files, a
// domain's name.
func (o *output) keepStrangers() error {
	err := filepath.WalkDir(o.dir, func(p string, d fs.DirEntry, err error) error {
		if errors.Is(err, fs.ErrNotExist) && p == o.dir {
			return fs.SkipAll
		}
		if err != nil {
			return err
		}
		rel, err := filepath.Rel(o.dir, p)
		if err != nil || rel == "." {
			return err
		}
		name := filepath.ToSlash(rel)
		to := filepath.Join(o.aside, rel)
		if d.IsDir() {
			if o.ofTheSite(name) {
				return nil
			}
			return os.MkdirAll(to, 0o755)
		}
		if _, ours := o.before.Files[name]; ours || name == manifestName {
			return nil
		}
		if _, taken := o.now.Files[name]; taken {
			return fmt.Errorf("%s is not of this program's making, and a page of that name would take its place: move it, or name the entry otherwise", p)
		}
		if err := os.MkdirAll(filepath.Dir(to), 0o755); err != nil {
			return err
		}
		if d.Type()&fs.ModeSymlink != 0 {
			target, err := os.Readlink(p)
			if err != nil {
				return err
			}
			return os.Symlink(target, to)
		}
		if !d.Type().IsRegular() {
			return nil
		}
		return takeOver(p, to)
	})
	return err
}

// ofTheSite reports whether a folder held only what publish wrote; it comes back with
// the files that are still part of the site.
func (o *output) ofTheSite(dir string) bool {
	for name := range o.before.Files {
		if strings.HasPrefix(name, dir+"/") {
			return true
		}
	}
	return false
}

// moveIn moves the files of the new site one by one into the folder, pages last, and
// removes those that are no longer part of it. It is for a folder that cannot be
// displaced as a whole; a publishing that is interrupted in it is mended by the next.
func (o *output) moveIn() error {
	names := make([]string, 0, len(o.now.Files))
	for name := range o.now.Files {
		names = append(names, name)
	}
	sort.Slice(names, func(i, j int) bool {
		a, b := strings.HasSuffix(names[i], ".html"), strings.HasSuffix(names[j], ".html")
		if a != b {
			return b
		}
		return names[i] < names[j]
	})
	for _, name := range append(names, manifestName) {
		to := filepath.Join(o.dir, filepath.FromSlash(name))
		if err := os.MkdirAll(filepath.Dir(to), 0o755); err != nil {
			return err
		}
		if err := os.Rename(filepath.Join(o.aside, filepath.FromSlash(name)), to); err != nil {
			return err
		}
	}
	for name := range o.before.Files {
		if _, still := o.now.Files[name]; !still {
			p := filepath.Join(o.dir, filepath.FromSlash(name))
			if err := os.Remove(p); err != nil && !errors.Is(err, fs.ErrNotExist) {
				return err
			}
			_ = os.Remove(filepath.Dir(p)) // when it is empty
		}
	}
	o.done = true
	return os.RemoveAll(o.aside)
}

// abandon removes what was built, unless it became the site.
func (o *output) abandon() {
	if !o.done {
		_ = os.RemoveAll(o.aside) // the next publishing removes what is left of it
	}
}
