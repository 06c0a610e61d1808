package markdown

import (
	"bytes"
	"strings"
)

// pieceKind tells the pieces of raw HTML apart.
type pieceKind int

const (
	pieceText pieceKind = iota
	pieceOpen
	pieceClose
	pieceVoid    // a tag that has no end tag
	pieceComment // never shown
)

// piece is a tag, or the text between two tags.
type piece struct {
	kind     pieceKind
	name     string // of the tag, in lower case
	source   string // as it is written
	html     string // a tag as it is shown when it is accepted
	accepted bool
	partner  int // the index of the other tag of a pair, -1 for none
	owner    int // which of the siblings it stands in
}

// appendHTML cuts the raw HTML of one of the siblings into pieces. What is no
// well-formed tag is text.
func appendHTML(pieces []piece, s string, owner int) []piece {
	add := func(p piece) {
		p.partner, p.owner = -1, owner
		pieces = append(pieces, p)
	}
	text := 0
	lastEnd := strings.LastIndex(s, "-->") // a comment that begins later has no end
	for i := 0; i < len(s); {
		if s[i] != '<' {
			if n := strings.IndexByte(s[i:], '<'); n >= 0 {
				i += n
			} else {
				i = len(s)
			}
			continue
		}
		p, n := piece{}, 0
		if strings.HasPrefix(s[i:], "<!--") {
			if i+4 <= lastEnd {
				p.kind = pieceComment
				n = 7 + strings.Index(s[i+4:], "-->")
			}
		} else {
			p, n = scanTag(s[i:])
		}
		if n == 0 {
			i++
			continue
		}
		if text < i {
			add(piece{source: s[text:i]})
		}
		p.source = s[i : i+n]
		add(p)
		i += n
		text = i
	}
	if text < len(s) {
		add(piece{source: s[text:]})
	}
	return pieces
}

// scanTag reads the tag that s begins with and returns its length, 0 when
// there is none.
func scanTag(s string) (piece, int) {
	i, kind := 1, pieceOpen
	if strings.HasPrefix(s, "</") {
		i, kind = 2, pieceClose
	}
	start := i
	for i < len(s) && (isASCIILetter(s[i]) || i > start && ('0' <= s[i] && s[i] <= '9' || s[i] == '-')) {
		i++
	}
	if i == start {
		return piece{}, 0
	}
	p := piece{kind: kind, name: strings.ToLower(s[start:i])}
	attributes, n := scanAttributes(s[i:], p.name)
	if n == 0 {
		return piece{}, 0
	}
	switch {
	case kind == pieceClose:
		p.html = "</" + p.name + ">"
	case allowedTags[p.name] == tagVoid || allowedTags[p.name] == tagRule:
		p.kind = pieceVoid
		p.html = "<" + p.name + " />"
	default:
		p.html = "<" + p.name + attributes + ">"
	}
	return p, i + n
}

// scanAttributes reads attributes up to the end of a tag. It returns those
// that may stay, as they are shown, and the length of all with the closing >.
func scanAttributes(s, tag string) (kept string, n int) {
	seen := map[string]bool{}
	for i := 0; ; {
		space := i
		for i < len(s) && isHTMLSpace(s[i]) {
			i++
		}
		if i == len(s) {
			return "", 0
		}
		if s[i] == '>' {
			return kept, i + 1
		}
		if s[i] == '/' {
			i++
			continue
		}
		start := i
		for i < len(s) && (isASCIILetter(s[i]) || i > start && strings.IndexByte("0123456789-_:.", s[i]) >= 0) {
			i++
		}
		if i == start || start == space {
			return "", 0
		}
		name := strings.ToLower(s[start:i])
		value, length, ok := scanValue(s[i:])
		if !ok {
			return "", 0
		}
		i += length
		if !seen[name] && allowedAttribute(tag, name, value) {
			seen[name] = true
			kept += " " + name + `="` + escapeKeepingEntities(value) + `"`
		}
	}
}

// scanValue reads the = and the value that may follow a name.
func scanValue(s string) (value string, n int, ok bool) {
	i := 0
	for i < len(s) && isHTMLSpace(s[i]) {
		i++
	}
	if i == len(s) || s[i] != '=' {
		return "", 0, true
	}
	for i++; i < len(s) && isHTMLSpace(s[i]); i++ {
	}
	if i == len(s) {
		return "", 0, false
	}
	if quote := s[i]; quote == '"' || quote == '\'' {
		end := strings.IndexByte(s[i+1:], quote)
		if end < 0 {
			return "", 0, false
		}
		return s[i+1 : i+1+end], i + end + 2, true
	}
	start := i
	for i < len(s) && !isHTMLSpace(s[i]) && strings.IndexByte("\"'=<>`", s[i]) < 0 {
		i++
	}
	return s[start:i], i, i > start
}

func isHTMLSpace(c byte) bool { return c == ' ' || '\t' <= c && c <= '\r' && c != '\v' }

// escapeKeepingEntities makes text of raw HTML safe without doubling the
// escapes that it has.
func escapeKeepingEntities(s string) string {
	var b strings.Builder
	for i := 0; i < len(s); i++ {
		switch c := s[i]; c {
		case '<':
			b.WriteString("&lt;")
		case '>':
			b.WriteString("&gt;")
		case '"':
			b.WriteString("&quot;")
		case 0:
			b.WriteString("\uFFFD")
		case '&':
			if isEntity(s[i:]) {
				b.WriteByte(c)
			} else {
				b.WriteString("&amp;")
			}
		default:
			b.WriteByte(c)
		}
	}
	return b.String()
}

// isEntity reports whether s begins with a reference such as &amp; or &#8243;.
func isEntity(s string) bool {
	end := strings.IndexByte(s[:min(len(s), 40)], ';')
	if end < 2 {
		return false
	}
	return len(bytes.Trim([]byte(s[1:end]), "#0123456789abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ")) == 0
}
