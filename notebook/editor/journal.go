package editor

import (
	"context"
	"net/url"
	"os"
	"path/filepath"
	"runtime"
	"strings"
	"time"

	"scarph/kernel"
	"scarph/notebook"
)

// journal is an open journal: a folder with journal.md, or one file.
type journal struct {
	book *notebook.Notebook
	// open counts the open documents.
	open int
	// stop ends the watch of its files, nil when the client watches.
	stop context.CancelFunc

	order     string                    // its entries and their dates, as last seen
	due       map[string]bool           // files whose diagnostics are to be sent
	published map[string]string         // what was last sent of each file, to send nothing twice
	gave      map[string]*notebook.File // each file when its names were last looked at
	notes     map[string][]notebook.Diagnostic
	notesDue  *time.Timer
	texts     map[string]*text // of its files, by path
	textOf    map[string]*notebook.File
}

func (j *journal) close() {
	if j.stop != nil {
		j.stop()
	}
	if j.notesDue != nil {
		j.notesDue.Stop()
	}
}

// pathOf turns a file: URI into a path; false for other schemes.
func pathOf(uri string) (string, bool) {
	u, err := url.Parse(uri)
	if err != nil || u.Scheme != "file" || u.Host != "" && u.Host != "localhost" {
		return "", false
	}
	p := u.Path
	if runtime.GOOS == "windows" {
		p = strings.TrimPrefix(p, "/")
	}
	return filepath.FromSlash(p), p != ""
}

// uriOf turns a path into a file: URI.
func uriOf(path string) string {
	p := filepath.ToSlash(path)
	if !strings.HasPrefix(p, "/") {
		p = "/" + p
	}
	return (&url.URL{Scheme: "file", Path: p}).String()
}

// homeOf finds the journal that a file belongs to: the nearest folder above it with a
// title page, or else the file alone.
func homeOf(path string) string {
	if filepath.Base(path) == notebook.TitlePage {
		return filepath.Dir(path)
	}
	for dir := filepath.Dir(path); ; dir = filepath.Dir(dir) {
		if info, err := os.Stat(filepath.Join(dir, notebook.TitlePage)); err == nil && info.Mode().IsRegular() {
			return dir
		}
		if dir == filepath.Dir(dir) {
			return path
		}
	}
}

// join opens the journal of a file, or finds it open; nil when it cannot be read.
func (s *Server) join(path string) *journal {
	home := homeOf(path)
	if j := s.journals[home]; j != nil {
		j.open++
		return j
	}
	book, err := notebook.Open(home)
	if err != nil {
		s.log(err.Error())
		return nil
	}
	j := &journal{book: book, open: 1, due: map[string]bool{}, published: map[string]string{}, gave: map[string]*notebook.File{}, notes: map[string][]notebook.Diagnostic{}, texts: map[string]*text{}, textOf: map[string]*notebook.File{}}
	s.journals[home] = j
	if !s.watches {
		ctx, stop := context.WithCancel(s.ctx)
		j.stop = stop
		go func() {
			_ = book.Follow(ctx, func(c notebook.Change) { s.queue.put(work{do: func() { s.changedOnDisk(j, c) }}) })
		}()
	}
	return j
}

// leave closes the journal of a document when that was the last.
func (s *Server) leave(j *journal) {
	if j.open--; j.open > 0 {
		return
	}
	j.close()
	for home, x := range s.journals {
		if x == j {
			delete(s.journals, home)
		}
	}
	for path, sent := range j.published {
		if sent != "" {
			_ = s.conn.Notify("textDocument/publishDiagnostics", publishParams{URI: j.uri(path), Diagnostics: []diagnostic{}})
		}
	}
}

func (s *Server) log(message string) {
	_ = s.conn.Notify("window/logMessage", object{"type": 2, "message": message})
}

// uri is the address of one of the journal's files.
func (j *journal) uri(path string) string {
	return uriOf(filepath.Join(j.book.Root(), filepath.FromSlash(path)))
}

// relative is a file's path below the journal; false when it lies outside.
func (j *journal) relative(path string) (string, bool) {
	rel, err := filepath.Rel(j.book.Root(), path)
	if err != nil || !filepath.IsLocal(rel) {
		return "", false
	}
	return filepath.ToSlash(rel), true
}

// text is the text of one of the journal's files as it counts now.
func (j *journal) text(path string) *text {
	f, ok := j.book.File(path)
	if !ok {
		return newText("")
	}
	if j.textOf[path] != f {
		j.keepText(f, newText(string(f.Src)))
	}
	return j.texts[path]
}

func (j *journal) keepText(f *notebook.File, t *text) { j.textOf[f.Path], j.texts[f.Path] = f, t }

// name writes a value as the journal shows it.
func (j *journal) words(r *kernel.Result) string {
	return j.book.Session.Style().Text(r.Value)
}
