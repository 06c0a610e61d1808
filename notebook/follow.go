package notebook

import (
	"context"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"time"

	"github.com/fsnotify/fsnotify"
)

// Pauses of a follower.
const (
	debounce = 20 * time.Millisecond // gathers the several events of one save
	rescan   = 5 * time.Second       // catches changes whose events were lost
)

// Follow follows the journal's files until ctx ends: after each change on disk what
// changed is read again, and told is called with what that changed, which is nothing when
// an unsaved text lies over the file. Folders are watched, not files: an editor that saves
// by renaming would leave a file's watch deaf.
func (n *Notebook) Follow(ctx context.Context, told func(Change)) error {
	return n.Watch(ctx, func(read Reading) {
		if c, err := read(ctx, n); err == nil {
			told(c)
		}
	})
}

// Reading brings a notebook up to date with what has changed on disk.
type Reading func(context.Context, *Notebook) (Change, error)

// Watch watches the journal's files until ctx ends, and calls changed after each change on
// disk, and now and then without one, with how a notebook reads what has changed.
func (n *Notebook) Watch(ctx context.Context, changed func(Reading)) error {
	w, err := fsnotify.NewWatcher()
	if err != nil {
		return err
	}
	defer w.Close()
	n.watchFolders(w)
	timer := time.NewTimer(0) // what was saved between opening and watching
	slow := time.NewTicker(rescan)
	defer slow.Stop()
	paths := map[string]bool{"": true} // whose events came since the last look
	for {
		select {
		case <-ctx.Done():
			return nil
		case e, ok := <-w.Events:
			if !ok {
				return nil
			}
			if e.Op == fsnotify.Chmod || strings.HasPrefix(filepath.Base(e.Name), ".") {
				continue
			}
			if info, err := os.Stat(e.Name); err == nil && info.IsDir() {
				n.watchFolders(w)
			}
			if rel, err := filepath.Rel(n.Root(), e.Name); err == nil {
				paths[filepath.ToSlash(rel)] = true
			}
			timer.Reset(debounce)
			continue
		case _, ok := <-w.Errors:
			if !ok {
				return nil
			}
			paths[""] = true
			timer.Reset(debounce)
			continue
		case <-slow.C:
			n.watchFolders(w) // one that was taken away and made anew has lost its watch
			changed(func(ctx context.Context, n *Notebook) (Change, error) { return n.Refresh(ctx) })
		case <-timer.C:
			changed(func(ctx context.Context, n *Notebook) (Change, error) { return n.refreshChanged(ctx, paths) })
			clear(paths)
		}
	}
}

// refreshChanged reads again the Markdown files among the changed paths. Other files are
// none of the journal, such as the copy from which an editor saves; a folder that came or
// went asks for a look at the whole.
func (n *Notebook) refreshChanged(ctx context.Context, changed map[string]bool) (Change, error) {
	var paths []string
	for p := range changed {
		switch {
		case strings.EqualFold(filepath.Ext(p), ".md"):
			paths = append(paths, p)
		case n.isFolder(p):
			return n.Refresh(ctx)
		}
	}
	return n.RefreshFiles(ctx, paths...)
}

// isFolder reports whether a path below the journal is a folder, or was one when the
// journal was read.
func (n *Notebook) isFolder(p string) bool {
	if info, err := os.Stat(filepath.Join(n.Root(), filepath.FromSlash(p))); err == nil {
		return info.IsDir()
	}
	n.mu.RLock()
	defer n.mu.RUnlock()
	for name := range n.files {
		if strings.HasPrefix(name, p+"/") {
			return true
		}
	}
	return false
}

func (n *Notebook) watchFolders(w *fsnotify.Watcher) {
	root := n.Root()
	_ = w.Add(root)
	if n.Single {
		return
	}
	_ = filepath.WalkDir(root, func(p string, d fs.DirEntry, err error) error {
		if err != nil || !d.IsDir() {
			return nil
		}
		if p != root && (strings.HasPrefix(d.Name(), "_") || strings.HasPrefix(d.Name(), ".")) {
			return filepath.SkipDir
		}
		_ = w.Add(p)
		return nil
	})
}
