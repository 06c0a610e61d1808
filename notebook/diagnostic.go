package notebook

import (
	"bytes"
	"fmt"
	"strings"
	"unicode/utf8"

	"scarph/calc"
	"scarph/kernel"
	"scarph/notebook/results"
)

// Diagnostic is an error placed on a page.
type Diagnostic struct {
	File    string
	Line    int // from 1; 0 for the file as a whole
	Column  int // from 1, in runes
	Width   int // runes
	Code    calc.Code
	Message string
	Hint    string
	Source  string // the line, for the caret
	Related []Related
	Span    calc.Span // bytes of the file
}

// Related is a second place that a diagnostic speaks of.
type Related struct {
	File         string
	Line, Column int
	Text         string
}

// String writes the diagnostic as a terminal shows it: the place, the words, the
// line with a caret under it, and the hint.
func (d Diagnostic) String() string {
	var b strings.Builder
	place := d.File
	if d.Line > 0 {
		place = fmt.Sprintf("%s:%d:%d", d.File, d.Line, d.Column)
	}
	fmt.Fprintf(&b, "%s: error[%s]: %s\n", place, d.Code, d.Message)
	if d.Source != "" {
		fmt.Fprintf(&b, "%5d | %s\n      | %s\n", d.Line, d.Source, Caret(d.Source, d.Column, d.Width))
	}
	for _, r := range d.Related {
		fmt.Fprintf(&b, "%s:%d:%d: note: %s\n", r.File, r.Line, r.Column, r.Text)
	}
	if d.Hint != "" {
		fmt.Fprintf(&b, "hint: %s\n", d.Hint)
	}
	return b.String()
}

// Caret draws the mark under columns [column, column+width) of a line.
func Caret(line string, column, width int) string { return results.Caret(line, column, width) }

// Diagnose places what is to be said about a span of the file.
func (f *File) Diagnose(span calc.Span, code calc.Code, message, hint string) Diagnostic {
	return f.diagnose(span, code, message, hint)
}

// diagnose places an error of a line in its file.
func (f *File) diagnose(span calc.Span, code calc.Code, message, hint string) Diagnostic {
	at := f.place(span.Start)
	d := Diagnostic{File: f.Path, Line: at.Line, Column: at.Column, Code: code, Message: message, Hint: hint, Span: span}
	start, end := f.lineAround(span.Start)
	stop := min(span.End, end)
	if stop > span.Start {
		d.Width = utf8.RuneCount(f.Src[span.Start:stop])
	}
	d.Width = max(d.Width, 1)
	if end-start <= longLine {
		d.Source = strings.ToValidUTF8(string(f.Src[start:end]), "�")
	}
	return d
}

// place turns a byte offset into a line and a column in runes.
func (f *File) place(offset int) kernel.Place {
	line := f.lineOf(offset)
	return kernel.Place{File: f.Path, Line: line + 1, Column: 1 + f.runes(f.starts[line], min(offset, len(f.Src)))}
}

// longLine is the length from which a line is counted in steps, and is not shown under an
// error: a file may be one line of megabytes with a slot in every few bytes of it.
const longLine = 4 << 10

// step is a place in a file, and the runes before it.
type step struct{ at, runes int }

// stepsOf counts runes from the beginning of a file, if it has a long line.
func stepsOf(src []byte, starts []int) []step {
	long := false
	for i, at := range starts {
		end := len(src)
		if i+1 < len(starts) {
			end = starts[i+1]
		}
		long = long || end-at > longLine
	}
	if !long {
		return nil
	}
	list := []step{{}}
	for at, n := 0, 0; at < len(src); n++ {
		if at >= len(list)*1024 {
			list = append(list, step{at, n})
		}
		_, w := utf8.DecodeRune(src[at:])
		at += w
	}
	return list
}

// runes counts the runes between the start of a line and an offset on it.
func (f *File) runes(start, offset int) int {
	if offset-start <= longLine {
		return utf8.RuneCount(f.Src[start:offset])
	}
	before := func(at int) int {
		s := f.steps[min(at/1024, len(f.steps)-1)]
		if s.at > at {
			s = f.steps[at/1024-1]
		}
		return s.runes + utf8.RuneCount(f.Src[s.at:at])
	}
	return before(offset) - before(start)
}

// lineOf is the line, from 0, on which an offset lies.
func (f *File) lineOf(offset int) int {
	lo, hi := 0, len(f.starts)
	for hi-lo > 1 {
		mid := (lo + hi) / 2
		if f.starts[mid] <= offset {
			lo = mid
		} else {
			hi = mid
		}
	}
	return lo
}

// lineAround is the line around an offset, without its end.
func (f *File) lineAround(offset int) (start, end int) {
	line := f.lineOf(offset)
	start, end = f.starts[line], len(f.Src)
	if line+1 < len(f.starts) {
		end = f.starts[line+1]
	}
	for end > start && (f.Src[end-1] == '\n' || f.Src[end-1] == '\r') {
		end--
	}
	return start, end
}

// appendStarts adds where lines begin whose ends stand between two offsets of src.
func appendStarts(starts []int, src []byte, from, to int) []int {
	for from < to {
		i := bytes.IndexByte(src[from:to], '\n')
		if i < 0 {
			break
		}
		from += i + 1
		starts = append(starts, from)
	}
	return starts
}
