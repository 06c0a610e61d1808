package notebook

import (
	"context"
	"errors"
	"fmt"
	"io/fs"
	"maps"
	"os"
	"path/filepath"
	"slices"
	"sort"
	"strings"
	"sync"
	"sync/atomic"
	"time"

	"scarph/calc"
	"scarph/kernel"
)

// Limits of a journal.
const (
	MaxFiles = 20_000
	MaxFile  = 8 << 20 // bytes
	// MaxWork is how long one change is worked on; what is not reached by then says so,
	// and is taken up again with the next change.
	MaxWork = kernel.MaxWork
)

// TitlePage is the file whose front matter carries the settings.
const TitlePage = "journal.md"

// Notebook is an open journal: its files as they lie on disk, and the session over
// them. It may be used by several goroutines.
type Notebook struct {
	Session *kernel.Session
	// Path is the folder, or the one file.
	Path string
	// Single is set for a journal in one file.
	Single bool

	mu       sync.RWMutex
	settings Settings
	files    map[string]*File
	entries  []*Entry
	places   map[string]int // of the entries, by their keys
	overlay  map[string][]byte
	// published marks a notebook that holds only what readers may know.
	published bool

	// hand is what writes in the files; a twin has the same.
	hand *hand
}

// hand writes in the files of a journal, one change at a time.
type hand struct {
	one    sync.Mutex   // held while a file is written and read again
	mu     sync.Mutex   // guards undo
	undo   []undoStep   // oldest first
	saving atomic.Value // the name of the recovery copy that is on its way, "" for none
}

// Open reads a journal: a folder with journal.md and entries, or one file.
func Open(path string) (*Notebook, error) {
	info, err := os.Stat(path)
	if err != nil {
		if errors.Is(err, fs.ErrNotExist) {
			return nil, fmt.Errorf("there is no journal at %s; make one with: scarph new %s", path, path)
		}
		return nil, err
	}
	n := &Notebook{Path: path, Single: !info.IsDir(), files: map[string]*File{}, overlay: map[string][]byte{}, hand: &hand{}, Session: kernel.New(calc.Style{})}
	if n.Single && filepath.Ext(path) != ".md" {
		return nil, fmt.Errorf("%s is no Markdown file: a journal is a folder or a file that ends in .md", path)
	}
	n.mend()
	if _, err := n.Refresh(context.Background()); err != nil {
		return nil, err
	}
	return n, nil
}

// Root is the folder that all paths of the journal are below.
func (n *Notebook) Root() string {
	if n.Single {
		return filepath.Dir(n.Path)
	}
	return n.Path
}

// Settings are the journal's settings.
func (n *Notebook) Settings() Settings {
	n.mu.RLock()
	defer n.mu.RUnlock()
	return n.settings
}

// Title is the journal's title, for a page's head.
func (n *Notebook) Title() string {
	s := n.Settings()
	switch {
	case s.Title != "":
		return s.Title
	case s.Boat != "":
		return s.Boat
	}
	for _, e := range n.Entries() {
		if e.Front && e.Title != "" {
			return e.Title
		}
	}
	return strings.TrimSuffix(filepath.Base(n.Path), ".md")
}

// Entries lists the entries in the journal's order.
func (n *Notebook) Entries() []*Entry {
	n.mu.RLock()
	defer n.mu.RUnlock()
	return n.entries
}

// Entry finds an entry by its key.
func (n *Notebook) Entry(key string) (*Entry, bool) {
	n.mu.RLock()
	defer n.mu.RUnlock()
	i, ok := n.places[key]
	if !ok {
		return nil, false
	}
	return n.entries[i], true
}

// Order is an entry's place in the journal, from 0; −1 for one that is not in it.
func (n *Notebook) Order(key string) int {
	n.mu.RLock()
	defer n.mu.RUnlock()
	if i, ok := n.places[key]; ok {
		return i
	}
	return -1
}

// File finds a file by its path below the journal.
func (n *Notebook) File(path string) (*File, bool) {
	n.mu.RLock()
	defer n.mu.RUnlock()
	f, ok := n.files[path]
	return f, ok
}

// Change is what a refresh did.
type Change struct {
	Ripple kernel.Ripple
	// Files lists the paths that were read again, came or went.
	Files []string
	// Structure is set when entries came, went or changed places, or a setting changed.
	Structure bool
}

// Refresh reads again what has changed on disk since the last time, and works out
// what hangs on it.
func (n *Notebook) Refresh(ctx context.Context) (Change, error) {
	paths, err := n.list()
	if err != nil {
		return Change{}, err
	}
	n.mu.Lock()
	defer n.mu.Unlock()
	return n.refresh(ctx, paths)
}

// RefreshFiles is Refresh for files that are known to have changed, come or gone;
// no other is looked at, so that its cost does not grow with the journal.
func (n *Notebook) RefreshFiles(ctx context.Context, paths ...string) (Change, error) {
	n.mu.Lock()
	defer n.mu.Unlock()
	return n.refreshFiles(ctx, paths)
}

// SetOverlay gives a file an unsaved text that counts in place of what lies on
// disk; nil takes it away.
func (n *Notebook) SetOverlay(ctx context.Context, path string, text []byte) (Change, error) {
	n.mu.Lock()
	defer n.mu.Unlock()
	if text == nil {
		delete(n.overlay, path)
	} else {
		n.overlay[path] = text
	}
	return n.refreshFiles(ctx, []string{path})
}

// list finds the Markdown files of the journal, sorted by path.
func (n *Notebook) list() ([]string, error) {
	if n.Single {
		return []string{filepath.Base(n.Path)}, nil
	}
	var paths []string
	err := filepath.WalkDir(n.Path, func(p string, d fs.DirEntry, err error) error {
		if err != nil {
			if p == n.Path {
				return err
			}
			return nil // a folder that went away or may not be read: the rest goes on
		}
		name := d.Name()
		if p != n.Path && (strings.HasPrefix(name, "_") || strings.HasPrefix(name, ".")) {
			if d.IsDir() {
				return filepath.SkipDir
			}
			return nil
		}
		if d.IsDir() || !strings.EqualFold(filepath.Ext(name), ".md") {
			return nil
		}
		rel, err := filepath.Rel(n.Path, p)
		if err != nil {
			return err
		}
		if paths = append(paths, filepath.ToSlash(rel)); len(paths) > MaxFiles {
			return fmt.Errorf("the journal has more than %d files", MaxFiles)
		}
		return nil
	})
	sort.Strings(paths)
	return paths, err
}

// refresh looks at every file of the journal.
func (n *Notebook) refresh(ctx context.Context, paths []string) (Change, error) {
	var c Change
	seen := map[string]bool{}
	for _, p := range paths {
		seen[p] = true
	}
	for p := range n.overlay {
		if !seen[p] {
			seen[p] = true
			paths = append(paths, p)
		}
	}
	for p := range n.files {
		if !seen[p] {
			paths = append(paths, p)
		}
	}
	c.Files = n.readFiles(paths, false)
	return n.follow(ctx, c)
}

func (n *Notebook) refreshFiles(ctx context.Context, paths []string) (Change, error) {
	var own []string
	for _, p := range paths {
		if n.belongs(p) && !slices.Contains(own, p) {
			own = append(own, p)
		}
	}
	return n.follow(ctx, Change{Files: n.readFiles(own, true)})
}

// belongs reports whether a path can be one of the journal's files.
func (n *Notebook) belongs(p string) bool {
	if n.Single {
		return p == filepath.Base(n.Path)
	}
	for _, part := range strings.Split(p, "/") {
		if part == "" || strings.HasPrefix(part, "_") || strings.HasPrefix(part, ".") {
			return false
		}
	}
	return strings.EqualFold(filepath.Ext(p), ".md") && filepath.IsLocal(filepath.FromSlash(p))
}

// carriesSettings reports whether a file is the title page, or the whole journal.
func (n *Notebook) carriesSettings(p string) bool { return n.Single || p == TitlePage }

// stamp is what tells on disk that a file has not changed.
type stamp struct {
	time    int64 // of its last change, in nanoseconds
	changed int64 // the same, by the file system's own count, where it has one
	size    int64
}

func stampOf(info fs.FileInfo, err error) stamp {
	if err != nil {
		return stamp{}
	}
	return stamp{time: info.ModTime().UnixNano(), changed: changeTime(info), size: info.Size()}
}

// settled reports whether the file was last changed so long before this process could
// have read it that a second change would show in its time: clocks of file systems tick
// slowly.
func (s stamp) settled() bool {
	return s.time != 0 && time.Since(time.Unix(0, max(s.time, s.changed))) > 3*time.Second
}

// follow works out what hangs on the files that changed.
func (n *Notebook) follow(ctx context.Context, c Change) (Change, error) {
	if len(c.Files) == 0 && n.entries != nil {
		return c, nil
	}
	c.Structure = n.gather(c.Files)
	c.Ripple = n.work(ctx)
	return c, nil
}

// work hands the entries to the session.
func (n *Notebook) work(ctx context.Context) kernel.Ripple {
	n.Session.SetStyle(n.settings.Style())
	ctx, done := context.WithTimeout(ctx, MaxWork)
	defer done()
	return n.Session.Update(ctx, n.kernelEntries())
}

// kernelEntries are the entries as a session takes them.
func (n *Notebook) kernelEntries() []kernel.Entry {
	list := make([]kernel.Entry, len(n.entries))
	for i, e := range n.entries {
		list[i] = kernel.Entry{Key: e.Key, Title: e.said, Date: e.Date, Draft: e.Draft, Lines: e.lines, Tables: e.tables}
	}
	return list
}

func (n *Notebook) read(path string) ([]byte, error) {
	if text, ok := n.overlay[path]; ok {
		return text, nil
	}
	full := filepath.Join(n.Root(), filepath.FromSlash(path))
	if err := n.inside(full); err != nil {
		return nil, err
	}
	return readRegular(full)
}

// inside refuses a path whose links lead out of the journal.
func (n *Notebook) inside(full string) error {
	root, err := filepath.EvalSymlinks(n.Root())
	if err != nil {
		return err
	}
	real, err := filepath.EvalSymlinks(full)
	if err != nil {
		return err
	}
	if rel, err := filepath.Rel(root, real); err != nil || rel == ".." || strings.HasPrefix(rel, ".."+string(filepath.Separator)) {
		return fmt.Errorf("%s leads out of the journal", filepath.Base(full))
	}
	return nil
}

// Problems lists all that is wrong with the journal, in its order: files, settings,
// tables and statements. What only waits for another fault is not listed.
func (n *Notebook) Problems(asOf int) []Diagnostic {
	n.mu.RLock()
	defer n.mu.RUnlock()
	list := n.problemsUpTo(asOf)
	for k, e := range n.entries {
		if k > asOf {
			break // not yet written on that day
		}
		for i, o := range n.Session.Outcomes(e.Key, asOf) {
			if d, ok := e.problem(i, o); ok {
				list = append(list, d)
			}
		}
	}
	order := map[string]int{}
	for i, e := range n.entries {
		if _, ok := order[e.File.Path]; !ok {
			order[e.File.Path] = i
		}
	}
	sort.SliceStable(list, func(i, j int) bool {
		a, b := list[i], list[j]
		if a.File != b.File {
			return order[a.File] < order[b.File]
		}
		return a.Line < b.Line || a.Line == b.Line && a.Column < b.Column
	})
	return list
}

// problemsUpTo lists the problems of files, without those of which no entry had been
// written by then.
func (n *Notebook) problemsUpTo(asOf int) []Diagnostic {
	later := map[string]bool{}
	for k, e := range n.entries {
		first, seen := later[e.File.Path]
		later[e.File.Path] = k > asOf && (first || !seen)
	}
	var list []Diagnostic
	for _, p := range slices.Sorted(maps.Keys(n.files)) {
		if !later[p] {
			list = append(list, n.files[p].allProblems()...)
		}
	}
	return list
}

// problem is the diagnostic of a line whose result is an error of its own.
func (e *Entry) problem(line int, o kernel.Outcome) (Diagnostic, bool) {
	err := o.Result.Err
	if err == nil || line >= len(e.spans) {
		return Diagnostic{}, false
	}
	at := e.spans[line]
	span := err.Span.Shift(at.Start)
	if span.End > at.End {
		span.End = at.End
	}
	if span.Start >= span.End {
		span = calc.Span{Start: max(at.Start, min(span.Start, at.End-1)), End: at.End}
	}
	d := e.File.diagnose(span, err.Code, err.Message, err.Hint)
	if o.First != nil {
		p := o.First.Place
		d.Related = append(d.Related, Related{File: p.File, Line: p.Line, Column: p.Column, Text: o.Name + " is first named here"})
	}
	return d, true
}
