package reader

import (
	"strings"

	"scarph/calc/lang"
	"scarph/kernel"
	"scarph/notebook/cargo"
)

// web is what of the journal has been read. To read a statement costs a browser more than
// to work it out, and a number moves a few lines among thousands: read is what hangs on
// the numbers tried, and all that bears on that.
type web struct {
	journal *cargo.Journal
	number  map[string]int // of a value, by its name
	lines   [][]line       // by value
	users   [][]int        // by value, those on which it bears
	read    []bool         // by value
	entries []kernel.Entry // as far as they have been read: lines between others may be empty
	parser  lang.Parser
	whole   bool // everything has been read
}

// line is a place in the journal: an entry, and a line of it.
type line struct{ entry, at int }

func newWeb(j *cargo.Journal) *web {
	w := &web{journal: j, number: make(map[string]int, len(j.Names)), lines: make([][]line, len(j.Names)), users: make([][]int, len(j.Names)), read: make([]bool, len(j.Names))}
	for v, name := range j.Names {
		if name != "" {
			w.number[name] = v
		}
		for _, x := range j.Reads[v] {
			w.users[x] = append(w.users[x], v)
		}
	}
	w.entries = make([]kernel.Entry, len(j.Entries))
	for i := range j.Entries {
		e := &j.Entries[i]
		w.entries[i] = kernel.Entry{Key: e.Key, Title: e.Title, Date: e.Date, Tables: e.Tables}
		for k, v := range e.Of {
			w.lines[v] = append(w.lines[v], line{i, k})
		}
	}
	return w
}

// of finds the value that the longest part of a path names.
func (w *web) of(path string) (int, bool) {
	for {
		if v, ok := w.number[path]; ok {
			return v, true
		}
		i := strings.LastIndexByte(path, '.')
		if i < 0 {
			return 0, false
		}
		path = path[:i]
	}
}

// reach reads what statements that give values numbers reach: all that hangs on those
// values, all that the statements read, and what bears on either. It reports whether
// something was new.
func (w *web) reach(given []kernel.Line) bool {
	if w.whole {
		return false
	}
	var moved, read []int
	hangs := make([]bool, len(w.read))
	for i := range given {
		st := given[i].Stmt
		v, ok := w.number[st.Name]
		if !ok { // a cell by its other name, or nothing that can be tried
			return w.readAll()
		}
		moved = append(moved, v)
		for _, e := range st.Exprs() {
			for _, need := range e.Needs {
				v, ok := w.of(need.Path)
				if !ok || need.Mode.OfLedger() {
					return w.readAll()
				}
				read = append(read, v)
			}
		}
	}
	for len(moved) > 0 {
		v := moved[len(moved)-1]
		moved = moved[:len(moved)-1]
		if !hangs[v] {
			hangs[v] = true
			moved = append(moved, w.users[v]...)
			read = append(read, v)
		}
	}
	return w.readThese(read)
}

// readThese reads values and what bears on them.
func (w *web) readThese(list []int) bool {
	grown := false
	for len(list) > 0 {
		v := list[len(list)-1]
		list = list[:len(list)-1]
		if w.read[v] {
			continue
		}
		w.read[v], grown = true, true
		list = append(list, w.journal.Reads[v]...)
		for _, l := range w.lines[v] {
			e, from := &w.entries[l.entry], w.journal.Entries[l.entry].Lines
			if e.Lines == nil {
				e.Lines = make([]kernel.Line, 0, len(from))
			}
			e.Lines = e.Lines[:max(len(e.Lines), l.at+1)]
			e.Lines[l.at] = from[l.at].Line(&w.parser)
		}
	}
	return grown
}

func (w *web) readAll() bool {
	list := make([]int, len(w.read))
	for v := range list {
		list[v] = v
	}
	w.whole = true
	return w.readThese(list)
}
