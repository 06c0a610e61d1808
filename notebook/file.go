package notebook

import (
	"crypto/sha256"

	"scarph/calc"
	"scarph/calc/lang"
	"scarph/kernel"
	"scarph/notebook/markdown"
)

// File is one Markdown file of the journal, as it lies on disk.
type File struct {
	Path string // below the journal, with slashes
	Src  []byte
	Hash [sha256.Size]byte
	Doc  *markdown.Document

	starts []int  // offsets of line starts
	steps  []step // counts on the way, where a line is long
	parsed map[written]parsed

	seen  stamp  // of the file on disk when it was read
	fault string // why it could not be read

	entries  []*Entry
	settings Settings // of the title page
	problems []Diagnostic
}

// readEntries makes the entries of the file, and reads the settings of a title page.
func (f *File) readEntries(front bool) {
	if front {
		f.settings, f.problems = f.readSettings()
	}
	var more []Diagnostic
	f.entries, more = f.entriesOf(front)
	f.problems = append(f.problems, more...)
}

// written is the text of a line of a block, or of a slot.
type written struct {
	text string
	slot bool
}

// parsed is a statement that has been read, kept by its text so that an edit of a
// file reads only the lines it changed.
type parsed struct {
	stmt *lang.Stmt
	err  *calc.Error
}

// newFile reads a file; statements that an earlier version of it had are taken over.
func newFile(path string, src []byte, before *File) *File {
	if before == nil {
		before = &File{}
	}
	f := &File{Path: path, Src: src, Hash: sha256.Sum256(src), Doc: markdown.Parse(src), starts: lineStarts(src), parsed: make(map[written]parsed, len(before.parsed))}
	f.steps = stepsOf(src, f.starts)
	for _, s := range f.Doc.Sections {
		for _, b := range s.Blocks {
			for _, l := range b.Lines {
				f.keep(written{text: l.Text}, before, func() (*lang.Stmt, *calc.Error) { return lang.Parse(l.Text) })
			}
		}
		for _, l := range s.Slots {
			f.keep(written{l.Text, true}, before, func() (*lang.Stmt, *calc.Error) { return lang.ParseSlot(l.Text) })
		}
	}
	return f
}

func (f *File) keep(key written, before *File, parse func() (*lang.Stmt, *calc.Error)) {
	if _, ok := f.parsed[key]; ok {
		return
	}
	p, ok := before.parsed[key]
	if !ok {
		p.stmt, p.err = parse()
	}
	f.parsed[key] = p
}

// line makes the kernel's line of a piece of the file.
func (f *File) line(text string, span calc.Span, p parsed) kernel.Line {
	return kernel.Line{Text: text, Stmt: p.stmt, Err: p.err, Place: f.place(span.Start)}
}
