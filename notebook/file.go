package notebook

import (
	"scarph/calc"
	"scarph/kernel"
	"scarph/notebook/markdown"
)

// File is one Markdown file of the journal, as it lies on disk.
type File struct {
	Path string // below the journal, with slashes
	Src  []byte
	Doc  *markdown.Document

	starts []int  // offsets of line starts
	steps  []step // counts on the way, where a line is long

	seen  stamp  // of the file on disk when it was read
	fault string // why it could not be read

	entries  []*Entry
	settings Settings // of the title page
	problems []Diagnostic
}

// newFile reads a file; front is set for one that carries the settings. What an earlier
// version of it had in the same words is taken over.
func newFile(path string, src []byte, front bool, before *File) *File {
	f := &File{Path: path, Src: src}
	r := rereading{File: f, known: map[written]parsed{}}
	r.from(before)
	f.starts = r.lineStarts()
	f.steps = stepsOf(src, f.starts)
	var head doubt
	if front {
		f.settings, head, f.problems = f.readSettings()
	}
	var more []Diagnostic
	f.entries, more = r.entriesOf(front, head)
	f.problems = append(f.problems, more...)
	return f
}

// line makes the kernel's line of a piece of the file.
func (f *File) line(text string, span calc.Span, p parsed) kernel.Line {
	return kernel.Line{Text: text, Stmt: p.stmt, Err: p.err, Place: f.place(span.Start)}
}

// allProblems lists what is wrong with the file as a whole: that it could not be read, its
// settings, its tables.
func (f *File) allProblems() []Diagnostic {
	if f.fault == "" {
		return f.problems
	}
	return append([]Diagnostic{{File: f.Path, Code: calc.CodeFile, Message: f.fault}}, f.problems...)
}
