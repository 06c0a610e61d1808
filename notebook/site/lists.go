package site

import (
	"bytes"
	"slices"
	"sort"
	"strconv"
	"strings"

	"scarph/calc/trade"
	"scarph/kernel"
	"scarph/notebook"
)

// list is one of the journal's lists with a page of its own.
type list struct{ name, label string }

func (l list) file() string { return l.name + ".html" }

// neededLists are those with something in them that the journal does not hide.
func (s *series) neededLists() []list {
	session := s.n.Session
	l := session.Ledger(kernel.Now)
	list := []list{{"dimensions", "Dimensions"}}
	add := func(name, label string, full bool) {
		if full && !s.set.Hides(name) {
			list = append(list, struct{ name, label string }{name, label})
		}
	}
	add("cutlist", "Cut list", len(session.Parts(kernel.Now)) > 0)
	add("rework", "Rework", len(session.MadeList(kernel.Now)) > 0)
	add("checks", "Checks", len(session.Checks(kernel.Now)) > 0)
	add("ledger", "Hours and money", len(l.Postings) > 0)
	add("history", "History", len(session.Histories(kernel.Now)) > 0)
	return list
}

func (s *series) has(name string) bool {
	return slices.ContainsFunc(s.lists, func(l list) bool { return l.name == name })
}

// writeList writes the page of a list.
func (s *series) writeList(l list) error {
	p := s.frame(l.file(), l.label)
	p.Description = l.label + " of " + p.Boat
	return s.putPage(l.file(), p, func(w *bytes.Buffer) { s.listHTML(w, l, l.file()) })
}

func (s *series) listHTML(w *bytes.Buffer, l list, at string) {
	w.WriteString("<h1>" + esc(s.listTitle(l)) + "</h1>")
	if l.name == "dimensions" && !s.one {
		w.WriteString(`<p class="date">As data: <a href="` + rootOf(at) + `values.csv">values.csv</a> · <a href="` + rootOf(at) + `values.json">values.json</a></p>`)
	}
	w.WriteString(`<div class="b list" data-list="` + l.name + `">`)
	both(w, s.n.RenderList(l.name, s.shown(nil, at, false)), s.n.RenderList(l.name, s.shown(nil, at, true)))
	w.WriteString("</div>\n")
	if l.name == "dimensions" && !s.one {
		s.tableLinks(w, rootOf(at))
	}
}

// listTitle is the heading of a list; a ledger without its money is one of hours.
func (s *series) listTitle(l list) string {
	switch {
	case l.name == "ledger" && s.set.Hides("money"):
		return "Hours"
	case l.name == "ledger" && s.set.Hides("hours"):
		return "Money"
	}
	return l.label
}

// findSubjects gathers the entries of each subject. Subjects whose pages would bear one
// name, as Lofting and lofting, are one, as it is spelled first.
func (s *series) findSubjects() map[string][]*notebook.Entry {
	m, spelled := map[string][]*notebook.Entry{}, map[string]string{}
	for _, e := range s.entries {
		for _, x := range e.Subjects {
			at := subjectFile(x)
			if _, known := spelled[at]; !known {
				spelled[at] = x
			}
			x = spelled[at]
			if list := m[x]; len(list) == 0 || list[len(list)-1] != e {
				m[x] = append(list, e)
			}
		}
	}
	return m
}

func subjectFile(x string) string { return "subjects/" + wordPath(x) + ".html" }

// writeSubjects writes a page for each subject, and one that lists them.
func (s *series) writeSubjects() error {
	by := s.subjects
	if len(by) == 0 {
		return nil
	}
	names := make([]string, 0, len(by))
	for x := range by {
		names = append(names, x)
	}
	sort.Strings(names)
	var all bytes.Buffer
	all.WriteString(`<h1>Subjects</h1><ul class="contents">`)
	for _, x := range names {
		at := subjectFile(x)
		all.WriteString(`<li><a href="` + address(at) + `">` + esc(x) + `</a> <span class="summary">` + entriesWord(len(by[x])) + `</span></li>`)
		p := s.frame(at, x)
		p.Description = "Entries on " + x
		err := s.putPage(at, p, func(w *bytes.Buffer) {
			w.WriteString(`<h1>` + esc(x) + `</h1><ol class="contents">`)
			for _, e := range by[x] {
				s.contentsLine(w, e, rootOf(at))
			}
			w.WriteString(`</ol>`)
		})
		if err != nil {
			return err
		}
	}
	all.WriteString(`</ul>`)
	return s.putPage("subjects.html", s.frame("subjects.html", "Subjects"), func(w *bytes.Buffer) { w.Write(all.Bytes()) })
}

// used is a function of the trade with the entries that use it.
type used struct {
	fn *trade.Function
	in []*notebook.Entry
}

// findFunctions lists the functions that the published lines use, by name.
func (s *series) findFunctions() []used {
	by := map[string]*used{}
	for _, e := range s.entries {
		for _, name := range s.n.Calls(e) {
			fn, ok := trade.Find(name)
			if !ok {
				continue
			}
			u := by[name]
			if u == nil {
				u = &used{fn: fn}
				by[name] = u
			}
			if !slices.Contains(u.in, e) {
				u.in = append(u.in, e)
			}
		}
	}
	list := make([]used, 0, len(by))
	for _, u := range by {
		list = append(list, *u)
	}
	sort.Slice(list, func(i, j int) bool { return list[i].fn.Name < list[j].fn.Name })
	return list
}

// writeFunctions writes the page of the functions used, with what they rest on.
func (s *series) writeFunctions() error {
	if len(s.used) == 0 {
		return nil
	}
	p := s.frame("functions.html", "Functions")
	p.Description = "The rules and formulas that the numbers rest on, with their sources"
	return s.putPage("functions.html", p, s.functionsHTML)
}

func (s *series) functionsHTML(b *bytes.Buffer) {
	b.WriteString(`<h1>Functions</h1><p>The rules and formulas that the numbers of this journal rest on.</p><dl class="functions">`)
	for _, u := range s.used {
		f := u.fn
		b.WriteString(`<dt id="function-` + f.Name + `"><code>` + esc(f.Name) + `</code></dt><dd><p>` + esc(f.Summary) + `</p>`)
		for _, row := range [][2]string{{"formula", f.Formula}, {"gives", f.Result}, {"limits", f.Limits}, {"source", f.Source}} {
			if row[1] != "" {
				b.WriteString(`<p><span class="kind">` + row[0] + `</span> ` + esc(row[1]) + `</p>`)
			}
		}
		if t := f.Caution.Text(); t != "" {
			b.WriteString(`<p class="caution"><b>Caution.</b> ` + esc(t) + `</p>`)
		}
		var in []string
		for _, e := range u.in {
			in = append(in, `<a href="`+s.at[e]+`">`+esc(s.titles[e])+`</a>`)
		}
		b.WriteString(`<p><span class="kind">used in</span> ` + strings.Join(in, ", ") + `</p></dd>`)
	}
	b.WriteString(`</dl>`)
}

func entriesWord(n int) string {
	if n == 1 {
		return "1 entry"
	}
	return strconv.Itoa(n) + " entries"
}
