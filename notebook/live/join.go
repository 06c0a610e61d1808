package live

import (
	"slices"
	"strings"

	"scarph/notebook"
	"scarph/notebook/markdown"
)

// Joining keeps every line that somebody added. Where both changed the same lines,
// both versions stand one after the other between these lines, which are no prose
// that anybody would write and no statement, so that they are seen and checked.
const (
	oneWrote   = notebook.TwoVersions
	otherWrote = "== The other wrote: =="
	endOfBoth  = "== Here both end =="
)

// join brings two texts together that both began as base: what only one of them
// changed is taken from it, what both added at one place stands there one after the
// other. clean is false where both changed the same lines: both versions are then
// kept, between marks.
func join(base, mine, theirs string) (joined string, clean bool) {
	o, base := cutHead(base)
	a, mine := cutHead(mine)
	b, theirs := cutHead(theirs)
	head, alike := joinHeads(o, a, b)
	body, clean := joinLines(strings.Split(base, "\n"), strings.Split(mine, "\n"), strings.Split(theirs, "\n"), markBoth)
	return head + strings.Join(body, "\n"), clean && alike
}

// cutHead cuts a text behind its front matter; the head is "" for none.
func cutHead(text string) (head, body string) {
	_, at := markdown.FrontMatter([]byte(text))
	return text[:at], text[at:]
}

// joinHeads joins the settings of two texts. A mark would make them no settings any
// more: where both changed a line, the other's stands as a note of YAML.
func joinHeads(base, mine, theirs string) (string, bool) {
	switch {
	case mine == theirs || theirs == base:
		return mine, true
	case mine == base:
		return theirs, true
	case mine == "":
		return theirs, false
	case theirs == "":
		return mine, false
	}
	lines, clean := joinLines(strings.Split(base, "\n"), strings.Split(mine, "\n"), strings.Split(theirs, "\n"), noteOther)
	return strings.Join(lines, "\n"), clean
}

// joinLines joins two lists of lines; both puts together what both changed.
func joinLines(o, a, b []string, both func(was, mine, theirs []string) (lines []string, clean bool)) (out []string, clean bool) {
	inA, inB := places(o, a), places(o, b)
	clean = true
	i, j, k := 0, 0, 0 // in base, mine, theirs
	for i <= len(o) {
		// the next line of base that stands in both
		n := i
		for n < len(o) && (inA[n] < 0 || inB[n] < 0) {
			n++
		}
		ja, kb := len(a), len(b)
		if n < len(o) {
			ja, kb = inA[n], inB[n]
		}
		x, y, z := o[i:n], a[j:ja], b[k:kb]
		switch {
		case slices.Equal(y, z), slices.Equal(z, x):
			out = append(out, y...)
		case slices.Equal(y, x):
			out = append(out, z...)
		default:
			lines, ok := both(x, y, z)
			out, clean = append(out, lines...), clean && ok
		}
		if n < len(o) {
			out = append(out, o[n])
		}
		i, j, k = n+1, ja+1, kb+1
	}
	return out, clean
}

// markBoth keeps what both added, and puts marks about what both changed.
func markBoth(was, mine, theirs []string) ([]string, bool) {
	if len(was) == 0 {
		return slices.Concat(mine, theirs), true
	}
	for _, x := range [2][2][]string{{mine, theirs}, {theirs, mine}} {
		// the one changed the lines, the other only added before or after them
		if more, ok := cutPrefix(x[1], was); ok {
			return slices.Concat(x[0], more), true
		}
		if more, ok := cutSuffix(x[1], was); ok {
			return slices.Concat(more, x[0]), true
		}
	}
	return slices.Concat([]string{oneWrote}, mine, []string{otherWrote}, theirs, []string{endOfBoth}), false
}

// noteOther keeps mine and notes what the other has of its own.
func noteOther(was, mine, theirs []string) ([]string, bool) {
	if len(was) == 0 && !sameSetting(mine, theirs) {
		return slices.Concat(mine, theirs), true
	}
	out := slices.Clone(mine)
	for _, l := range theirs {
		if !slices.Contains(mine, l) && strings.TrimSpace(l) != "" {
			out = append(out, "# the other wrote: "+l)
		}
	}
	return out, false
}

// sameSetting reports whether two pieces of front matter give one setting twice, or
// cannot be set one after the other for being part of a larger one.
func sameSetting(a, b []string) bool {
	key := func(l string) string { k, _, _ := strings.Cut(l, ":"); return strings.TrimSpace(k) }
	for _, x := range a {
		for _, y := range b {
			if key(x) == key(y) {
				return true
			}
		}
	}
	return false
}

func cutPrefix(list, prefix []string) ([]string, bool) {
	if len(list) < len(prefix) || !slices.Equal(list[:len(prefix)], prefix) {
		return nil, false
	}
	return list[len(prefix):], true
}

func cutSuffix(list, suffix []string) ([]string, bool) {
	n := len(list) - len(suffix)
	if n < 0 || !slices.Equal(list[n:], suffix) {
		return nil, false
	}
	return list[:n], true
}

// places gives for each line of base where it stands in a text, -1 for nowhere.
func places(base, text []string) []int {
	list := make([]int, len(base))
	for i := range list {
		list[i] = -1
	}
	for i, k := range matching(base, text) {
		if k >= 0 {
			list[k] = i
		}
	}
	return list
}
