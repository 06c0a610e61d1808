package live

import (
	"bytes"
	"strings"
	"unicode/utf8"
)

// A text field of a browser knows one line end, no byte order mark and only valid
// UTF-8. What it shows of a file is therefore not the file; writing back must leave
// every line that was not touched as it was, byte for byte.

const byteOrderMark = "\ufeff"

// shownText is a file as a text field shows it.
func shownText(src []byte) string {
	return shownLines(strings.TrimPrefix(string(src), byteOrderMark))
}

func shownLines(s string) string {
	s = strings.NewReplacer("\r\n", "\n", "\r", "\n", "\x00", "\ufffd").Replace(s)
	return strings.ToValidUTF8(s, "\ufffd")
}

// line is a line of a file as shown, and as its bytes with the line end.
type line struct{ shown, bytes string }

// linesOf cuts a file into lines at any of the three line ends.
func linesOf(src []byte) []line {
	var list []line
	for len(src) > 0 {
		end := bytes.IndexAny(src, "\r\n")
		next := len(src)
		if end < 0 {
			end = len(src)
		} else if next = end + 1; src[end] == '\r' && next < len(src) && src[next] == '\n' {
			next++
		}
		list = append(list, line{shownLines(string(src[:end])), string(src[:next])})
		src = src[next:]
	}
	return list
}

// unshown turns a text from a field back into the bytes of its file. Lines that stand
// in the file keep their bytes, line ends included; new ones end as most of the file does.
func unshown(src []byte, text string) []byte {
	text = strings.NewReplacer("\r\n", "\n", "\r", "\n").Replace(text)
	if shownText(src) == text {
		return src
	}
	mark := ""
	body := src
	if bytes.HasPrefix(src, []byte(byteOrderMark)) {
		mark, body = byteOrderMark, src[len(byteOrderMark):]
	}
	old := linesOf(body)
	eol := usualLineEnd(body)
	now := strings.SplitAfter(text, "\n")
	if now[len(now)-1] == "" {
		now = now[:len(now)-1]
	}
	fresh := make([]string, len(now))
	for i, l := range now {
		fresh[i] = strings.TrimSuffix(l, "\n")
	}
	shown := make([]string, len(old))
	for i, l := range old {
		shown[i] = l.shown
	}
	kept := matching(shown, fresh)
	out := []byte(mark)
	add := func(piece string) {
		if len(out) > 0 && out[len(out)-1] == '\r' && strings.HasPrefix(piece, "\n") {
			out = append(out, '\n') // or the two would become one line end
		}
		out = append(out, piece...)
	}
	for i, l := range fresh {
		ended := strings.HasSuffix(now[i], "\n")
		if k := kept[i]; k >= 0 {
			whole := old[k].bytes
			if cut := strings.TrimRight(whole, "\r\n"); !ended {
				whole = cut
			} else if cut == whole {
				whole += eol
			}
			add(whole)
			continue
		}
		if l = strings.ToValidUTF8(l, "\ufffd"); ended {
			l += eol
		}
		add(l)
	}
	return out
}

// usualLineEnd is the line end that most lines of a file have.
func usualLineEnd(src []byte) string {
	crlf := bytes.Count(src, []byte("\r\n"))
	lf := bytes.Count(src, []byte("\n")) - crlf
	cr := bytes.Count(src, []byte("\r")) - crlf
	switch {
	case crlf > lf && crlf >= cr:
		return "\r\n"
	case cr > lf:
		return "\r"
	}
	return "\n"
}

// byteOffset turns an offset that a script counted, in UTF-16 units, into bytes.
func byteOffset(text string, units int) int {
	for i, r := range text {
		if units <= 0 {
			return i
		}
		units--
		if r > 0xffff {
			units--
		}
	}
	return len(text)
}

// unitOffset turns an offset in bytes into UTF-16 units.
func unitOffset(text string, at int) int {
	n := 0
	for i, r := range text {
		if i >= at {
			break
		}
		n++
		if r > 0xffff && utf8.ValidRune(r) {
			n++
		}
	}
	return n
}
