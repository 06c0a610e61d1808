package main

import (
	"io"
	"os"
	"unicode"
	"unicode/utf8"
)

// screen is a terminal to which texts of a journal are written. A journal may come from
// anywhere, and a terminal obeys signs that nobody sees: they would clear it, colour
// warnings away, or rename its window.
type screen struct{ *os.File }

// tamed guards a stream if it is a terminal; a file or another program gets every byte.
func tamed(w io.Writer) io.Writer {
	if f, ok := w.(*os.File); ok && isScreen(f) {
		return &screen{f}
	}
	return w
}

func (s *screen) Write(p []byte) (int, error) {
	if _, err := s.File.Write(visible(p)); err != nil {
		return 0, err
	}
	return len(p), nil
}

// visible puts a sign in the place of each control sign but the tab and the end of a
// line, of those that turn the direction of writing, and of broken letters.
func visible(p []byte) []byte {
	out := make([]byte, 0, len(p))
	for len(p) > 0 {
		r, w := utf8.DecodeRune(p)
		switch {
		case r == '\n' || r == '\t':
			out = append(out, byte(r))
		case r == utf8.RuneError && w <= 1, unicode.IsControl(r), turns(r):
			out = append(out, "\ufffd"...)
		default:
			out = append(out, p[:w]...)
		}
		p = p[w:]
	}
	return out
}

// turns reports whether a sign turns the direction of what follows it.
func turns(r rune) bool { return r >= 0x202a && r <= 0x202e || r >= 0x2066 && r <= 0x2069 }
