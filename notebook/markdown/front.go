package markdown

import (
	"bytes"

	"scarph/calc"
)

var byteOrderMark = []byte("\xef\xbb\xbf")

// FrontMatter finds the settings between two --- lines at the very start of a
// file: the lines between them, and where the Markdown begins. A file whose first
// line is --- without a second one has no front matter: its first line is a rule
// across the page. Without any, the Markdown begins behind a byte order mark.
func FrontMatter(src []byte) (settings calc.Span, body int) {
	start := 0
	if bytes.HasPrefix(src, byteOrderMark) {
		start = len(byteOrderMark)
	}
	line, next := cutLine(src, start)
	if !isFrontFence(line) {
		return calc.Span{}, start
	}
	first := next
	for next < len(src) {
		at := next
		line, next = cutLine(src, at)
		if isFrontFence(line) {
			return calc.Span{Start: first, End: at}, next
		}
	}
	return calc.Span{}, start
}

// readFrontMatter notes the settings and returns the offset at which the Markdown
// begins. Settings that are opened and never closed are a problem.
func (d *Document) readFrontMatter() int {
	settings, body := FrontMatter(d.Source)
	if settings.Start > 0 {
		d.FrontMatter = settings
		return body
	}
	line, first := cutLine(d.Source, body)
	if isFrontFence(line) {
		if line, _ := cutLine(d.Source, first); looksLikeSetting(line) {
			d.problem(calc.Span{Start: body, End: body + 3}, calc.CodeSetting,
				"the settings that --- opens on the first line are never closed", "write --- on a line of its own after the last setting")
		}
	}
	return body
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
