package notebook

import (
	"fmt"
	"maps"
	"slices"
	"sort"
)

// gather puts the entries of all files in order, after some of the files have changed; it
// reports whether entries or settings are not what they were.
func (n *Notebook) gather(changed []string) bool {
	other := false
	for _, p := range changed {
		if f := n.files[p]; n.carriesSettings(p) {
			settings := Settings{}
			if f != nil {
				settings = f.settings
			}
			other = other || !sameSettings(n.settings, settings)
			n.settings = settings
		}
	}
	if list, same := n.inPlace(changed); list != nil {
		n.entries = list
		return other || !same
	}
	was := n.entries
	var list []*Entry
	for _, p := range slices.Sorted(maps.Keys(n.files)) {
		list = append(list, n.files[p].entries...)
	}
	sort.SliceStable(list, func(i, j int) bool { return list[i].before(list[j]) })
	n.entries = list
	n.index()
	return other || !sameOrder(was, list)
}

// inPlace puts the entries of the changed files where those stood that they had before, so
// that a change in one file does not sort the journal; nil where the order may be another.
// It reports whether they are the same by name and day.
func (n *Notebook) inPlace(changed []string) (list []*Entry, same bool) {
	if n.entries == nil {
		return nil, false
	}
	list, same = slices.Clone(n.entries), true
	for _, p := range changed {
		f := n.files[p]
		if f == nil {
			return nil, false
		}
		for _, e := range f.entries {
			i, ok := n.places[e.Key]
			if !ok {
				return nil, false
			}
			was := list[i]
			if was.Front != e.Front || was.Date != e.Date {
				return nil, false
			}
			same = same && was.Title == e.Title && was.Draft == e.Draft
			list[i] = e
		}
	}
	// an entry that its file has no more is left over
	for _, e := range list {
		if n.files[e.File.Path] != e.File {
			return nil, false
		}
	}
	return list, same
}

// index notes the places of the entries.
func (n *Notebook) index() {
	n.places = make(map[string]int, len(n.entries))
	for i, e := range n.entries {
		n.places[e.Key] = i
	}
}

// before orders entries by date, then path, then position; the title page, which
// needs no date, comes first.
func (e *Entry) before(o *Entry) bool {
	if e.Front != o.Front {
		return e.Front
	}
	if e.Date != o.Date {
		return e.Date < o.Date
	}
	if e.File.Path != o.File.Path {
		return e.File.Path < o.File.Path
	}
	return e.Section.Span.Start < o.Section.Span.Start
}

func sameOrder(a, b []*Entry) bool {
	if len(a) != len(b) {
		return false
	}
	for i := range a {
		if a[i].Key != b[i].Key || a[i].Title != b[i].Title || a[i].Date != b[i].Date || a[i].Draft != b[i].Draft {
			return false
		}
	}
	return true
}

func sameSettings(a, b Settings) bool {
	return fmt.Sprint(a) == fmt.Sprint(b)
}
