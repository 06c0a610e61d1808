package live

import (
	"context"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"time"

	"github.com/fsnotify/fsnotify"
)

// debounce gathers the several events of one save.
const debounce = 20 * time.Millisecond

// rescan catches changes whose events were lost.
const rescan = 5 * time.Second

// watch follows the journal's folders and refreshes after each change, until ctx
// ends. Folders are watched, not files: an editor that saves by renaming would
// leave a file's watch deaf.
func (s *Server) watch(ctx context.Context) error {
	w, err := fsnotify.NewWatcher()
	if err != nil {
		return err
	}
	defer w.Close()
	s.addFolders(w)
	timer := time.NewTimer(time.Hour)
	timer.Stop()
	slow := time.NewTicker(rescan)
	defer slow.Stop()
	changed := map[string]bool{} // files whose events came since the last refresh
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
				s.addFolders(w)
			}
			if rel, err := filepath.Rel(s.book.Root(), e.Name); err == nil {
				changed[filepath.ToSlash(rel)] = true
			}
			timer.Reset(debounce)
		case _, ok := <-w.Errors:
			if !ok {
				return nil
			}
			timer.Reset(debounce)
		case <-slow.C:
			s.Refresh(ctx)
		case <-timer.C:
			s.refreshFiles(ctx, changed)
			clear(changed)
		}
	}
}

// refreshFiles reads again the Markdown files among the changed; anything else, such
// as a folder that came or went, asks for a look at the whole journal.
func (s *Server) refreshFiles(ctx context.Context, changed map[string]bool) {
	var paths []string
	for p := range changed {
		if !strings.EqualFold(filepath.Ext(p), ".md") {
			s.Refresh(ctx)
			return
		}
		paths = append(paths, p)
	}
	if c, err := s.book.RefreshFiles(ctx, paths...); err == nil && len(c.Files) > 0 {
		s.tell(c, "")
	}
}

func (s *Server) addFolders(w *fsnotify.Watcher) {
	root := s.book.Root()
	_ = w.Add(root)
	if s.book.Single {
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
