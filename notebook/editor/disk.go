package editor

import (
	"os"

	"scarph/calc"
)

// compareWithDisk looks whether the files that are open are still what they were when
// the editor read them. One that someone else has written, such as the workshop page
// with a new reading, is brought to the editor as an edit of its text.
func (s *Server) compareWithDisk(j *journal) {
	for _, doc := range s.docs {
		if doc.j != j {
			continue
		}
		if now, ok := readText(doc.file); ok && now != doc.base && now != doc.text.src {
			s.later(s.pauses.disk, func() { s.bringOver(doc) })
		} else if ok {
			doc.base = now
		}
	}
}

func readText(file string) (string, bool) {
	b, err := os.ReadFile(file)
	return string(b), err == nil
}

// bringOver sends the difference between what the editor read and what lies on disk
// now, moved to where it belongs in the editor's text. Where both have changed the same
// lines, nothing is sent but a word about it.
func (s *Server) bringOver(doc *document) {
	if s.docs[doc.uri] != doc {
		return
	}
	now, ok := readText(doc.file)
	if !ok || now == doc.base || now == doc.told {
		return
	}
	if now == doc.text.src { // the editor has read it again itself
		doc.base = now
		return
	}
	edits, ok := merge(doc.base, doc.text.src, now)
	if !ok {
		doc.told = now
		s.tell(doc.path + " was changed on disk in lines that are being edited here. Nothing was taken over; compare before you save.")
		return
	}
	if !s.client.Workspace.ApplyEdit {
		doc.told = now
		s.tell(doc.path + " was changed on disk; read it again before you save.")
		return
	}
	list := make([]textEdit, len(edits))
	for i, e := range edits {
		list[i] = textEdit{doc.text.textRange(e.at, s.encoding), e.with}
	}
	edit := s.workspaceEdit(doc.j, map[string][]textEdit{doc.path: list})
	go func() {
		var answer struct {
			Applied bool `json:"applied"`
		}
		err := s.conn.Ask(s.ctx, "workspace/applyEdit", object{"label": "What was written to the file meanwhile", "edit": edit}, &answer)
		s.queue.put(work{do: func() {
			if err == nil && answer.Applied {
				doc.base = now
			} else if s.docs[doc.uri] == doc && s.ctx.Err() == nil {
				s.later(s.pauses.disk, func() { s.bringOver(doc) }) // the text was edited meanwhile
			}
		}})
	}()
}

// patch is a piece of a text with what is to stand there.
type patch struct {
	at   calc.Span
	with string
}

// merge finds the edits that bring into ours what theirs has changed of base; false
// when both have changed lines that touch.
func merge(base, ours, theirs string) ([]patch, bool) {
	b := lines(base)
	mine, hers := differences(b, lines(ours)), differences(b, lines(theirs))
	starts := offsets(lines(ours))
	var out []patch
	for _, h := range hers {
		shift := 0
		same := false
		for _, m := range mine {
			switch {
			case m == h:
				same = true
			case m.to < h.from:
				shift += m.lines - (m.to - m.from)
			case m.from <= h.to:
				return nil, false
			}
		}
		if !same {
			out = append(out, patch{calc.Span{Start: starts[h.from+shift], End: starts[h.to+shift]}, h.with})
		}
	}
	return out, true
}

// difference says that lines [from, to) of a text became others.
type difference struct {
	from, to int
	with     string
	lines    int // how many lines with has
}

// lines cuts a text into lines with their ends.
func lines(s string) []string {
	var list []string
	start := 0
	for i := 0; i < len(s); i++ {
		if s[i] == '\n' {
			list = append(list, s[start:i+1])
			start = i + 1
		}
	}
	if start < len(s) {
		list = append(list, s[start:])
	}
	return list
}

// offsets lists where each line begins, and where the last one ends.
func offsets(list []string) []int {
	out := make([]int, len(list)+1)
	for i, l := range list {
		out[i+1] = out[i] + len(l)
	}
	return out
}

// mostEdits bounds the search for the least difference; texts that differ more are
// taken to differ as a whole between their common ends.
const mostEdits = 400

// differences finds what lines of a became in b, by Myers' greedy search (An O(ND)
// Difference Algorithm and Its Variations, Algorithmica 1, 1986) between the common ends.
func differences(a, b []string) []difference {
	head := 0
	for head < len(a) && head < len(b) && a[head] == b[head] {
		head++
	}
	tail := 0
	for tail < len(a)-head && tail < len(b)-head && a[len(a)-1-tail] == b[len(b)-1-tail] {
		tail++
	}
	a, b = a[head:len(a)-tail], b[head:len(b)-tail]
	if len(a) == 0 && len(b) == 0 {
		return nil
	}
	keep, ok := common(a, b)
	if !ok {
		return []difference{joined(b, 0, len(a), 0, len(b), head)}
	}
	var out []difference
	i, j := 0, 0
	for _, k := range append(keep, [2]int{len(a), len(b)}) {
		if k[0] > i || k[1] > j {
			out = append(out, joined(b, i, k[0], j, k[1], head))
		}
		i, j = k[0]+1, k[1]+1
	}
	return out
}

func joined(b []string, from, to, bFrom, bTo, head int) difference {
	d := difference{from: head + from, to: head + to, lines: bTo - bFrom}
	for _, l := range b[bFrom:bTo] {
		d.with += l
	}
	return d
}

// common lists the pairs of lines that stay; false when the texts differ in more
// than mostEdits lines.
func common(a, b []string) ([][2]int, bool) {
	most := min(len(a)+len(b), mostEdits)
	v := make([]int, 2*most+2)
	var trace [][]int
	for d := 0; d <= most; d++ {
		trace = append(trace, append([]int(nil), v...))
		for k := -d; k <= d; k += 2 {
			x := v[most+k+1]
			if k != -d && (k == d || v[most+k-1] >= v[most+k+1]) {
				x = v[most+k-1] + 1
			}
			y := x - k
			for x < len(a) && y < len(b) && a[x] == b[y] {
				x, y = x+1, y+1
			}
			v[most+k] = x
			if x >= len(a) && y >= len(b) {
				return walkBack(trace, a, b, most), true
			}
		}
	}
	return nil, false
}

// walkBack reads the pairs off the trace of the search.
func walkBack(trace [][]int, a, b []string, most int) [][2]int {
	var keep [][2]int
	x, y := len(a), len(b)
	for d := len(trace) - 1; d >= 0; d-- {
		v := trace[d]
		k := x - y
		before := k - 1
		if k == -d || k != d && v[most+k-1] < v[most+k+1] {
			before = k + 1
		}
		px := v[most+before]
		py := px - before
		if d == 0 {
			px, py = 0, 0
		}
		for x > px && y > py {
			x, y = x-1, y-1
			keep = append(keep, [2]int{x, y})
		}
		x, y = px, py
	}
	for i, j := 0, len(keep)-1; i < j; i, j = i+1, j-1 {
		keep[i], keep[j] = keep[j], keep[i]
	}
	return keep
}
