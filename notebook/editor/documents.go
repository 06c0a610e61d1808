package editor

import (
	"context"
	"os"
	"strings"

	"scarph/notebook"
)

// document is an open file.
type document struct {
	uri     string
	file    string // its path on disk
	path    string // below its journal
	j       *journal
	version int
	text    *text
	dirty   bool // its text has not been worked out yet
	// base is what lay on disk when the text was last the same or taken over.
	base string
	// told is what lay on disk when the person was last told that it is not what is
	// edited here.
	told string
}

func (s *Server) didOpen(p didOpenParams) {
	d := p.TextDocument
	file, ok := pathOf(d.URI)
	if !ok || !strings.EqualFold(strings.TrimPrefix(fileEnding(file), "."), "md") {
		return
	}
	if old := s.docs[d.URI]; old != nil { // opened twice: the later text counts
		old.text, old.version, old.dirty = newText(d.Text), d.Version, true
		return
	}
	j := s.join(file)
	if j == nil {
		return
	}
	path, ok := j.relative(file)
	if !ok {
		s.leave(j)
		return
	}
	doc := &document{uri: d.URI, file: file, path: path, j: j, version: d.Version, text: newText(d.Text), dirty: true, base: d.Text}
	if b, err := os.ReadFile(file); err == nil {
		doc.base = string(b)
	}
	s.docs[d.URI] = doc
}

func fileEnding(file string) string {
	if i := strings.LastIndexByte(file, '.'); i >= 0 {
		return file[i:]
	}
	return ""
}

func (s *Server) didChange(p didChangeParams) {
	doc := s.docs[p.TextDocument.URI]
	if doc == nil {
		return
	}
	for _, c := range p.ContentChanges {
		if c.Range == nil {
			doc.text = newText(c.Text)
			continue
		}
		at := doc.text.span(*c.Range, s.encoding)
		doc.text = doc.text.edited(at, c.Text)
	}
	if p.TextDocument.Version != nil {
		doc.version = *p.TextDocument.Version
	}
	doc.dirty = true
}

func (s *Server) didSave(p didSaveParams) {
	if doc := s.docs[p.TextDocument.URI]; doc != nil {
		if p.Text != nil && *p.Text != doc.text.src {
			doc.text, doc.dirty = newText(*p.Text), true
		}
		doc.base = doc.text.src
	}
}

// didClose lets what lies on disk count again.
func (s *Server) didClose(p didCloseParams) {
	doc := s.docs[p.TextDocument.URI]
	if doc == nil {
		return
	}
	delete(s.docs, p.TextDocument.URI)
	if c, err := doc.j.book.SetOverlay(s.ctx, doc.path, nil); err == nil {
		s.spread(doc.j, c)
	}
	s.leave(doc.j)
}

// settle works out the texts that have changed since the last time, and notes what
// follows from them; it reports whether there was any.
func (s *Server) settle() bool {
	any := false
	for _, doc := range s.docs {
		if !doc.dirty {
			continue
		}
		doc.dirty, any = false, true
		c, err := doc.j.book.SetOverlay(s.ctx, doc.path, []byte(doc.text.src))
		if err != nil {
			s.log(err.Error())
			continue
		}
		if f := doc.source(); f != nil && string(f.Src) == doc.text.src {
			doc.j.keepText(f, doc.text)
		}
		s.spread(doc.j, c)
	}
	return any
}

// document finds an open document, settled.
func (s *Server) document(id documentID) (*document, bool) {
	doc := s.docs[id.URI]
	if doc == nil {
		return nil, false
	}
	_, ok := doc.j.book.File(doc.path)
	return doc, ok
}

// source is the file of a document as the notebook read it.
func (d *document) source() *notebook.File {
	f, _ := d.j.book.File(d.path)
	return f
}

// changedOnDisk follows a change that the server's own watch has seen.
func (s *Server) changedOnDisk(j *journal, c notebook.Change) {
	if s.ending || j.open == 0 {
		return
	}
	if len(c.Files) > 0 {
		s.spread(j, c)
	}
	s.compareWithDisk(j)
}

// didChangeWatchedFiles follows a change that the client tells of.
func (s *Server) didChangeWatchedFiles(p watchedFilesParams) {
	for _, j := range s.journals {
		var paths []string
		for _, c := range p.Changes {
			if file, ok := pathOf(c.URI); ok {
				if rel, ok := j.relative(file); ok {
					paths = append(paths, rel)
				}
			}
		}
		if len(paths) == 0 {
			continue
		}
		if c, err := j.book.RefreshFiles(context.WithoutCancel(s.ctx), paths...); err == nil {
			s.spread(j, c)
		}
		s.compareWithDisk(j)
	}
}
