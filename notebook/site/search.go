package site

import (
	"bytes"
	"encoding/json"
	"strings"

	"scarph/calc"
	"scarph/kernel"
	"scarph/notebook"
)

// found is what the search knows of a page: where it is, and its words.
type found struct {
	At    string `json:"at"`
	Title string `json:"title"`
	Day   string `json:"day,omitempty"`
	Text  string `json:"text"`
}

// index is what can be searched: the entries, and the names of values with where they
// stand.
func (s *series) index() []found {
	list := []found{}
	for _, e := range s.entries {
		text := strings.Join(strings.Fields(s.n.PlainText(e, notebook.Page{AsOf: kernel.Now})), " ")
		if e.Subjects != nil {
			text += " " + strings.Join(e.Subjects, " ")
		}
		f := found{At: s.at[e], Title: s.titles[e], Day: notebook.Day(e.Date), Text: text}
		if e.Front {
			f.Day = ""
		}
		list = append(list, f)
	}
	style := s.n.Session.Style()
	for _, d := range s.n.Session.Dimensions(kernel.Now) {
		if d.Cell || !d.Result.OK() {
			continue
		}
		text := d.Name
		if d.Result.Value.Kind() != calc.Picture {
			text += " · " + style.Text(d.Result.Value)
		}
		if d.Note != "" {
			text += " · " + d.Note
		}
		list = append(list, found{At: s.cargo.Values + "value-" + d.Name, Title: calc.Words(d.Name), Text: text})
	}
	return list
}

// writeSearch writes the index as a script, for a page on a memory stick may load
// nothing else, and the page that searches it.
func (s *series) writeSearch() error {
	data, err := json.Marshal(s.index())
	if err != nil {
		return err
	}
	var js bytes.Buffer
	js.WriteString("scarphIndex(")
	js.Write(data)
	js.WriteString(");\n")
	if err := s.out.put("search-index.js", js.Bytes()); err != nil {
		return err
	}
	return s.putPage("search.html", s.frame("search.html", "Search"), func(w *bytes.Buffer) { w.WriteString(searchForm) })
}

const searchForm = `<h1>Search</h1>
<form class="search" role="search"><label for="words">Words in the text, or the name of a value</label>
<input id="words" type="search" autocomplete="off"> <button class="act">Search</button></form>
<p class="counted" role="status"></p>
<ol class="contents finds"></ol>
<noscript><p>Searching takes scripts. The <a href="index.html">contents</a> and the <a href="dimensions.html">table of dimensions</a> do not.</p></noscript>`
