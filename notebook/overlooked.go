package notebook

import (
	"bytes"
	"reflect"
	"strings"

	"scarph/calc"
)

// What follows finds what its writer took for settings or for a calc block and what is
// read as text, without an error of its own.

// hiddenHead finds settings that do not begin on the first line: read as text, the day
// and the privacy that they ask for would be lost without a word.
func (f *File) hiddenHead() []Diagnostic {
	if head := f.Doc.FrontMatter; head.End > head.Start || !bytes.Contains(f.Src, []byte("\n---")) {
		return nil
	}
	var probs []Diagnostic
	var open calc.Span // of the --- above, with its settings still to come
	known, wanted := 0, false
	f.outsideFences(func(at calc.Span) {
		line := string(f.Src[at.Start:at.End])
		switch {
		case strings.TrimRight(line, " \t") == "---":
			if wanted && known > 0 && len(probs) == 0 {
				hint := "move them to the very top of the file, --- on its first line"
				if len(bytes.TrimSpace(f.Src[:open.Start])) == 0 {
					hint = "take out what is blank before the first ---"
				}
				probs = append(probs, f.diagnose(open, calc.CodeSetting, "these settings are read as text: they do not begin on the first line of the file", hint))
			}
			open, known, wanted = at, 0, at.Start > 0
		case strings.TrimSpace(line) == "" || line[0] == ' ' || line[0] == '#' || strings.HasPrefix(line, "- "):
			wanted = wanted && (known > 0 || strings.TrimSpace(line) == "")
		default:
			key, _, ok := strings.Cut(line, ":")
			if ok && settingKeys[key] {
				known++
			} else {
				wanted = false
			}
		}
	})
	return probs
}

// settingKeys are the words that can begin a line of settings.
var settingKeys = func() map[string]bool {
	keys := map[string]bool{}
	for _, t := range []reflect.Type{reflect.TypeOf(Settings{}), reflect.TypeOf(entryFront{})} {
		_, names := fieldsOf(t)
		for _, name := range names {
			keys[name] = true
		}
	}
	return keys
}()

// outsideFences goes through the lines of a file that stand in no fenced block, the
// lines that open one among them.
func (f *File) outsideFences(each func(line calc.Span)) {
	mark, length := byte(0), 0 // of the fence around the line
	for i, start := range f.starts {
		end := len(f.Src)
		if i+1 < len(f.starts) {
			end = f.starts[i+1]
		}
		line := bytes.TrimRight(f.Src[start:end], "\r\n")
		m, n, rest := fenceMark(line)
		switch {
		case mark == 0:
			each(calc.Span{Start: start, End: start + len(line)})
			if n >= 3 && !(m == '`' && bytes.IndexByte(rest, '`') >= 0) {
				mark, length = m, n
			}
		case m == mark && n >= length && len(bytes.TrimSpace(rest)) == 0:
			mark = 0
		}
	}
}

// fenceMark counts the backticks or tildes that begin a line, in quotes and lists too.
func fenceMark(line []byte) (mark byte, n int, rest []byte) {
	line = bytes.TrimLeft(line, " \t>-*+")
	if len(line) == 0 || line[0] != '`' && line[0] != '~' {
		return 0, 0, nil
	}
	for n < len(line) && line[n] == line[0] {
		n++
	}
	return line[0], n, line[n:]
}

// nearlyCalc remarks on lines that were meant to open a calc block and open none.
func (f *File) nearlyCalc() []Diagnostic {
	var list []Diagnostic
	blocks := f.blockLines()
	f.outsideFences(func(at calc.Span) {
		if blocks[at.Start] {
			return
		}
		if what := nearFence(string(f.Src[at.Start:at.End])); what != "" {
			list = append(list, f.diagnose(at, "not-calc", "this opens no calc block: "+what+", so what follows is read as text", "write ```calc on a line of its own, and ``` on another to close it"))
		}
	})
	return list
}

// TwoVersions is the line above two versions of the same lines, one after the other, that
// were left to be chosen from when two people had saved over each other.
const TwoVersions = "== Two people changed this. One wrote: =="

// twoVersions remarks on versions that nobody has chosen from yet: they would be read, and
// published, as text.
func (f *File) twoVersions() []Diagnostic {
	if !bytes.Contains(f.Src, []byte(TwoVersions)) {
		return nil
	}
	var list []Diagnostic
	f.outsideFences(func(at calc.Span) {
		if bytes.Equal(bytes.TrimSpace(f.Src[at.Start:at.End]), []byte(TwoVersions)) {
			list = append(list, f.diagnose(at, "two-versions", "two versions stand here, from two people who saved over each other", "keep what is right, and take out the three lines with == at both ends"))
		}
	})
	return list
}

// within lists the remarks on a stretch of their file.
func within(list []Diagnostic, span calc.Span) []Diagnostic {
	var out []Diagnostic
	for _, d := range list {
		if d.Span.Start >= span.Start && d.Span.Start < span.End {
			out = append(out, d)
		}
	}
	return out
}

// nearFence says what is wrong with a line that nearly opens a calc block, "" for all
// others.
func nearFence(line string) string {
	line = strings.TrimLeft(line, " \t>")
	if _, n, rest := fenceMark([]byte(line)); n >= 3 {
		word := strings.TrimLeft(string(rest), " \t{.#[(")
		if i := strings.IndexFunc(word, func(r rune) bool { return r < 'A' || r > 'z' || r > 'Z' && r < 'a' }); i >= 0 {
			word = word[:i]
		}
		info, _, _ := strings.Cut(strings.TrimSpace(string(rest)), " ")
		if strings.EqualFold(info, "calc") || !likeCalc(strings.ToLower(word)) {
			return ""
		}
		return "its word is " + info
	}
	rest := strings.TrimLeft(line, "`'\"´‘’“”")
	marks := line[:len(line)-len(rest)]
	if len([]rune(marks)) < 2 || strings.Contains(rest, marks) {
		return ""
	}
	if word, _, _ := strings.Cut(strings.TrimSpace(rest), " "); !strings.EqualFold(word, "calc") {
		return ""
	}
	if strings.Trim(marks, "`") == "" {
		return "two backticks are one too few"
	}
	return "its marks are no backticks"
}

// likeCalc reports whether a word is calc with something behind it, or a slip away.
func likeCalc(word string) bool {
	if strings.HasPrefix(word, "calc") {
		return true
	}
	return len(word) >= 3 && len(word) <= 5 && word[0] == 'c' && calc.Nearest(word, []string{"calc"}) != ""
}
