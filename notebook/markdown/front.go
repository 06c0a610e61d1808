package markdown

import (
	"bytes"

	"scarph/calc"
)

var byteOrderMark = []byte("\xef\xbb\xbf")

// readFrontMatter finds the settings between two --- lines at the very start
// of the file and returns the offset at which the Markdown begins. A file
// whose first line is --- without a second one has no front matter: its first
// line is a rule across the page.
func (d *Document) readFrontMatter() int {
	start := 0
	if bytes.HasPrefix(d.Source, byteOrderMark) {
		start = len(byteOrderMark)
	}
	line, next := cutLine(d.Source, start)
	if !isFrontFence(line) {
		return start
	}
	first := next
	for next < len(d.Source) {
		at := next
		line, next = cutLine(d.Source, at)
		if isFrontFence(line) {
			d.FrontMatter = calc.Span{Start: first, End: at}
			return next
		}
	}
	if line, _ := cutLine(d.Source, first); looksLikeSetting(line) {
		d.problem(calc.Span{Start: start, End: start + 3}, calc.CodeSetting,
			"the settings that --- opens on the first line are never closed", "write --- on a line of its own after the last setting")
	}
	return start
}

// cutLine returns the line of src that begins at i, without its line end, and
// the offset of the next line.
func cutLine(src []byte, i int) (line []byte, next int) {
	n := bytes.IndexByte(src[i:], '\n')
	if n < 0 {
		return src[i:], len(src)
	}
	return bytes.TrimSuffix(src[i:i+n], []byte{'\r'}), i + n + 1
}

func isFrontFence(line []byte) bool {
	return string(bytes.TrimRight(line, " \t")) == "---"
}

// looksLikeSetting reports whether a line begins with a word and a colon.
func looksLikeSetting(line []byte) bool {
	key, _, found := bytes.Cut(line, []byte{':'})
	return found && len(key) > 0 && !bytes.ContainsAny(key, " \t")
}
