package editor

import (
	"sort"
	"unicode/utf8"

	"scarph/calc"
)

// encoding is the unit in which positions count along a line.
type encoding uint8

const (
	utf16 encoding = iota // what the protocol takes for granted
	utf8Bytes
)

func (e encoding) String() string {
	if e == utf8Bytes {
		return "utf-8"
	}
	return "utf-16"
}

// text is a file's text with the places of its lines, which end with \n, \r\n or \r,
// as the protocol has it.
type text struct {
	src    string
	starts []int
}

func newText(src string) *text {
	return &text{src, appendStarts([]int{0}, src, 0, len(src))}
}

// appendStarts adds where lines begin whose ends stand between two offsets of src.
func appendStarts(starts []int, src string, from, to int) []int {
	for i := from; i < to; i++ {
		if src[i] == '\n' || src[i] == '\r' && (i+1 == len(src) || src[i+1] != '\n') {
			starts = append(starts, i+1)
		}
	}
	return starts
}

// edited is the text with something else in place of a span. Lines that the span does not
// touch keep their places, but for what moves those behind it.
func (t *text) edited(at calc.Span, with string) *text {
	src := t.src[:at.Start] + with + t.src[at.End:]
	moved := len(with) - (at.End - at.Start)
	first := t.lineOf(max(0, at.Start-1))                          // a \r before it may now stand before a \n
	next := sort.SearchInts(t.starts, min(len(t.src), at.End+1)+1) // and a \n behind it behind a \r
	starts := make([]int, first+1, len(t.starts)+8)
	copy(starts, t.starts)
	to := len(src)
	if next < len(t.starts) {
		to = t.starts[next] + moved
	}
	starts = appendStarts(starts, src, t.starts[first], to)
	for _, s := range t.starts[min(next+1, len(t.starts)):] {
		starts = append(starts, s+moved)
	}
	return &text{src, starts}
}

// line is the span of a line, from 0, without its end.
func (t *text) line(n int) calc.Span {
	s := calc.Span{Start: t.starts[n], End: len(t.src)}
	if n+1 < len(t.starts) {
		s.End = t.starts[n+1]
	}
	for s.End > s.Start && (t.src[s.End-1] == '\n' || t.src[s.End-1] == '\r') {
		s.End--
	}
	return s
}

// lineOf is the line, from 0, on which an offset lies.
func (t *text) lineOf(offset int) int {
	return sort.SearchInts(t.starts, offset+1) - 1
}

// offset turns a position into an offset; one beyond the end of its line, or of the
// text, is brought back to that end.
func (t *text) offset(p position, e encoding) int {
	if p.Line < 0 {
		return 0
	}
	if p.Line >= len(t.starts) {
		return len(t.src)
	}
	s := t.line(p.Line)
	units := 0
	for i := s.Start; i < s.End; {
		if units >= p.Character {
			return i
		}
		r, w := utf8.DecodeRuneInString(t.src[i:s.End])
		n := unitsOf(r, w, e)
		if units+n > p.Character {
			return i // inside a character: before it
		}
		units += n
		i += w
	}
	return s.End
}

// position turns an offset into a position; one in the middle of a character, or of a
// line's end, goes to its beginning.
func (t *text) position(offset int, e encoding) position {
	offset = max(0, min(offset, len(t.src)))
	n := t.lineOf(offset)
	s := t.line(n)
	units := 0
	for i := s.Start; i < min(offset, s.End); {
		r, w := utf8.DecodeRuneInString(t.src[i:s.End])
		if i+w > offset {
			break
		}
		units += unitsOf(r, w, e)
		i += w
	}
	return position{n, units}
}

func unitsOf(r rune, width int, e encoding) int {
	switch {
	case e == utf8Bytes:
		return width
	case r > 0xFFFF:
		return 2
	}
	return 1
}

func (t *text) span(r textRange, e encoding) calc.Span {
	s := calc.Span{Start: t.offset(r.Start, e), End: t.offset(r.End, e)}
	if s.End < s.Start {
		s.Start, s.End = s.End, s.Start
	}
	return s
}

func (t *text) textRange(s calc.Span, e encoding) textRange {
	return textRange{t.position(s.Start, e), t.position(s.End, e)}
}
