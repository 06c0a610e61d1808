package markdown

import (
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"
)

// slugs hands out ids for headings, each once in a file.
type slugs map[string]int

// unique turns a heading into an id: its letters and digits in lower case,
// whatever stands between them as one hyphen. A second heading of the same
// text gets -2, and so on.
func (s slugs) unique(heading string) string {
	slug := joinWords(heading, '-')
	if slug == "" {
		slug = "section"
	}
	for {
		s[slug]++
		if s[slug] == 1 {
			return slug
		}
		slug += "-" + strconv.Itoa(s[slug])
	}
}

// joinWords returns the letters and digits of s in lower case, and the joint
// wherever anything else stands between them.
func joinWords(s string, joint byte) string {
	var b strings.Builder
	pending := false
	for _, r := range s {
		if !isNameRune(r) || r == '_' {
			pending = b.Len() > 0
			continue
		}
		if pending {
			b.WriteByte(joint)
			pending = false
		}
		b.WriteRune(unicode.ToLower(r))
	}
	return b.String()
}

func isNameRune(r rune) bool {
	return r == '_' || unicode.IsLetter(r) || unicode.IsDigit(r) || unicode.IsMark(r)
}

func firstRune(s string) rune {
	r, _ := utf8.DecodeRuneInString(s)
	return r
}
