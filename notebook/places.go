package notebook

import (
	"sort"

	"scarph/calc"
	"scarph/kernel"
)

// Line is a statement, slot or cell of the entry, as it was read.
func (e *Entry) Line(i int) *kernel.Line { return &e.lines[i] }

// LineAt finds the line of the entry whose span holds an offset of its file, both
// ends included; false when none does.
func (e *Entry) LineAt(offset int) (int, bool) {
	i := sort.Search(len(e.spans), func(i int) bool { return e.spans[i].Start > offset }) - 1
	if i < 0 || offset > e.spans[i].End {
		return 0, false
	}
	return i, true
}

// LinesIn finds the lines of the entry that touch a span of its file: from first to
// before next.
func (e *Entry) LinesIn(s calc.Span) (first, next int) {
	first = sort.Search(len(e.spans), func(i int) bool { return e.spans[i].End >= s.Start })
	next = sort.Search(len(e.spans), func(i int) bool { return e.spans[i].Start > s.End })
	return first, max(first, next)
}

// Entries lists the entries of the file in its order.
func (f *File) Entries() []*Entry { return f.entries }

// EntryAt is the entry in which an offset of the file lies.
func (f *File) EntryAt(offset int) *Entry {
	for i := len(f.entries) - 1; i >= 0; i-- {
		if e := f.entries[i]; offset >= e.Section.Span.Start {
			return e
		}
	}
	if len(f.entries) > 0 {
		return f.entries[0]
	}
	return nil
}

// Offset is the place of a line and column (from 1, the column in runes) in the file.
func (f *File) Offset(line, column int) int {
	if line < 1 || line > len(f.starts) {
		return len(f.Src)
	}
	at := f.starts[line-1]
	_, end := f.lineAround(at)
	for i := range string(f.Src[at:end]) {
		if column <= 1 {
			return at + i
		}
		column--
	}
	return end
}

// Files lists the paths of the journal's files, sorted.
func (n *Notebook) Files() []string {
	n.mu.RLock()
	defer n.mu.RUnlock()
	paths := make([]string, 0, len(n.files))
	for p := range n.files {
		paths = append(paths, p)
	}
	sort.Strings(paths)
	return paths
}

// FileProblems lists what is wrong with a file as a whole, its settings and its
// tables; what is wrong with its statements, Problem tells.
func (n *Notebook) FileProblems(path string) []Diagnostic {
	n.mu.RLock()
	defer n.mu.RUnlock()
	f := n.files[path]
	if f == nil {
		return nil
	}
	return f.allProblems()
}

// Problem is the diagnostic of a line of the entry, when its result is an error of
// its own.
func (e *Entry) Problem(line int, o kernel.Outcome) (Diagnostic, bool) { return e.problem(line, o) }
