package cargo

import (
	"strconv"
	"strings"
	"unicode/utf16"
	"unicode/utf8"
)

// writer writes JSON (RFC 8259). Members that say nothing are left out.
type writer struct {
	out   []byte
	first bool
}

func (w *writer) object(f func()) {
	w.out = append(w.out, '{')
	w.first = true
	f()
	w.out = append(w.out, '}')
	w.first = false
}

func (w *writer) array(n int, f func(i int)) {
	w.out = append(w.out, '[')
	for i := range n {
		if i > 0 {
			w.out = append(w.out, ',', '\n')
		}
		f(i)
	}
	w.out = append(w.out, ']')
}

func (w *writer) member(name string, f func()) {
	if !w.first {
		w.out = append(w.out, ',')
	}
	w.first = false
	w.string(name)
	w.out = append(w.out, ':')
	f()
}

func (w *writer) text(name, s string) {
	if s != "" {
		w.member(name, func() { w.string(s) })
	}
}

func (w *writer) truth(name string, b bool) {
	if b {
		w.member(name, func() { w.out = append(w.out, "true"...) })
	}
}

func (w *writer) number(name string, v float64) {
	if v != 0 {
		w.member(name, func() { w.out = strconv.AppendFloat(w.out, v, 'g', -1, 64) })
	}
}

func (w *writer) numbers(name string, list ...float64) {
	w.member(name, func() {
		w.array(len(list), func(i int) { w.out = strconv.AppendFloat(w.out, list[i], 'g', -1, 64) })
	})
}

func (w *writer) texts(name string, list []string) {
	if len(list) > 0 {
		w.member(name, func() { w.array(len(list), func(i int) { w.string(list[i]) }) })
	}
}

const hex = "0123456789abcdef"

// string writes a text so that it may also stand in a script: < and the line ends of
// Unicode as escapes.
func (w *writer) string(s string) {
	w.out = append(w.out, '"')
	for _, r := range s {
		switch {
		case r == '"' || r == '\\':
			w.out = append(w.out, '\\', byte(r))
		case r < ' ' || r == '<' || r == 0x2028 || r == 0x2029:
			w.out = append(w.out, '\\', 'u', hex[r>>12&15], hex[r>>8&15], hex[r>>4&15], hex[r&15])
		default:
			w.out = utf8.AppendRune(w.out, r)
		}
	}
	w.out = append(w.out, '"')
}

// parse reads a JSON text as maps, slices, strings, float64, bool and nil.
func parse(s string) (any, bool) {
	r := &reader{s: s, ok: true}
	v := r.value(0)
	r.space()
	return v, r.ok && r.i == len(r.s)
}

type reader struct {
	s  string
	i  int
	ok bool
}

func (r *reader) space() {
	for r.i < len(r.s) && strings.IndexByte(" \t\r\n", r.s[r.i]) >= 0 {
		r.i++
	}
}

// next steps over a sign and reports whether it was there.
func (r *reader) next(sign byte) bool {
	r.space()
	if r.i < len(r.s) && r.s[r.i] == sign {
		r.i++
		return true
	}
	return false
}

func (r *reader) need(sign byte) {
	if !r.next(sign) {
		r.ok = false
	}
}

func (r *reader) value(depth int) any {
	r.space()
	if !r.ok || depth > 100 || r.i >= len(r.s) {
		r.ok = false
		return nil
	}
	switch r.s[r.i] {
	case '{':
		return r.members(depth)
	case '[':
		return r.elements(depth)
	case '"':
		return r.text()
	}
	from := r.i
	for r.i < len(r.s) && strings.IndexByte("+-.0123456789abcdefghijklmnopqrstuvwxyzE", r.s[r.i]) >= 0 {
		r.i++
	}
	switch word := r.s[from:r.i]; word {
	case "true", "false":
		return word == "true"
	case "null":
		return nil
	default:
		v, err := strconv.ParseFloat(word, 64)
		r.ok = r.ok && err == nil
		return v
	}
}

func (r *reader) members(depth int) map[string]any {
	m := map[string]any{}
	r.need('{')
	if r.next('}') {
		return m
	}
	for r.ok {
		r.space()
		name := r.text()
		r.need(':')
		m[name] = r.value(depth + 1)
		if !r.next(',') {
			r.need('}')
			break
		}
	}
	return m
}

func (r *reader) elements(depth int) []any {
	var list []any
	r.need('[')
	if r.next(']') {
		return list
	}
	for r.ok {
		list = append(list, r.value(depth+1))
		if !r.next(',') {
			r.need(']')
			break
		}
	}
	return list
}

func (r *reader) text() string {
	if !r.next('"') {
		r.ok = false
		return ""
	}
	from := r.i
	for r.i < len(r.s) && r.s[r.i] != '"' && r.s[r.i] != '\\' {
		r.i++
	}
	if r.i < len(r.s) && r.s[r.i] == '"' {
		r.i++
		return r.s[from : r.i-1]
	}
	b := []byte(r.s[from:r.i])
	for r.i < len(r.s) {
		c := r.s[r.i]
		r.i++
		switch c {
		case '"':
			return string(b)
		case '\\':
			b = r.escape(b)
		default:
			b = append(b, c)
		}
	}
	r.ok = false
	return ""
}

func (r *reader) escape(b []byte) []byte {
	if r.i >= len(r.s) {
		r.ok = false
		return b
	}
	c := r.s[r.i]
	r.i++
	if k := strings.IndexByte(`"\/bfnrt`, c); k >= 0 {
		return append(b, "\"\\/\b\f\n\r\t"[k])
	}
	if c != 'u' {
		r.ok = false
		return b
	}
	first := r.unit()
	if utf16.IsSurrogate(first) && strings.HasPrefix(r.s[r.i:], `\u`) {
		from := r.i
		r.i += 2
		if pair := utf16.DecodeRune(first, r.unit()); pair != utf8.RuneError {
			return utf8.AppendRune(b, pair)
		}
		r.i = from // half a pair, and then something of its own
	}
	return utf8.AppendRune(b, first)
}

func (r *reader) unit() rune {
	if r.i+4 > len(r.s) {
		r.ok = false
		return 0
	}
	n, err := strconv.ParseUint(r.s[r.i:r.i+4], 16, 16)
	r.ok = r.ok && err == nil
	r.i += 4
	return rune(n)
}
