package site

import (
	"bytes"
	"html/template"
	"strings"

	"scarph/kernel"
	"scarph/notebook"
)

// writeFront writes the title page of a journal that has none of its own.
func (s *series) writeFront() error {
	return s.putPage("index.html", s.frame("index.html", s.n.Title()), func(w *bytes.Buffer) {
		w.WriteString("<h1>" + esc(s.n.Title()) + "</h1>")
		s.cover(w)
		s.contents(w)
	})
}

// writeEntry writes the page of an entry.
func (s *series) writeEntry(i int) error {
	e := s.entries[i]
	at := s.places.page[e]
	p := s.frame(at, s.titles[e])
	p.Description = s.summary(e, 160)
	if e.Front && s.set.Description != "" {
		p.Description = s.set.Description
	}
	p.Stick = stickHTML(s.stick(i))
	return s.putPage(at, p, func(w *bytes.Buffer) {
		s.article(w, e, at)
		if e.Front {
			s.contents(w)
		}
		s.turn(w, i)
	})
}

// head writes title, date and subjects of an entry.
func (s *series) head(b *bytes.Buffer, e *notebook.Entry, at string) {
	own, other := s.n.RenderHeading(e, s.shown(e, at, false)), s.n.RenderHeading(e, s.shown(e, at, true))
	b.WriteString(`<div class="b">`)
	both(b, "<h1>"+own+"</h1>", "<h1>"+other+"</h1>")
	b.WriteString(`</div>`)
	var parts []string
	if d := notebook.Day(e.Date); d != "" && !e.Front {
		parts = append(parts, `<time datetime="`+esc(e.Date)+`">`+esc(d)+`</time>`)
	}
	for _, x := range e.Subjects {
		if s.one {
			parts = append(parts, esc(x))
			continue
		}
		parts = append(parts, `<a href="`+rootOf(at)+address(subjectFile(x))+`">`+esc(x)+`</a>`)
	}
	if parts != nil {
		b.WriteString(`<p class="date">` + strings.Join(parts, " · ") + `</p>`)
	}
}

// article writes an entry, its heading and its text, in both families of units.
func (s *series) article(b *bytes.Buffer, e *notebook.Entry, at string) {
	own, other := s.n.RenderEntry(e, s.shown(e, at, false)), s.n.RenderEntry(e, s.shown(e, at, true))
	b.WriteString(`<article class="entry" data-entry="` + esc(e.Key) + `">`)
	s.head(b, e, at)
	if e.Front {
		s.cover(b)
	}
	for k := range own {
		b.WriteString(`<div class="b">`)
		both(b, own[k], other[k])
		b.WriteString("</div>\n")
	}
	b.WriteString(`</article>`)
}

// turn writes the way to the entries before and after.
func (s *series) turn(b *bytes.Buffer, i int) {
	root := rootOf(s.places.page[s.entries[i]])
	to := func(k int, rel, label string) {
		e := s.entries[k]
		title := s.titles[e]
		if e.Front {
			title = "Contents"
		}
		b.WriteString(`<a rel="` + rel + `" href="` + root + address(s.places.page[e]) + `"><small>` + label + `</small> ` + esc(title) + `</a>`)
	}
	b.WriteString(`<nav class="turn" aria-label="Entries before and after"><span>`)
	if i > 0 {
		to(i-1, "prev", "before")
	}
	b.WriteString(`</span><span>`)
	if i+1 < len(s.entries) {
		label := "next"
		if s.entries[i].Front {
			label = "start here"
		}
		to(i+1, "next", label)
	}
	b.WriteString(`</span></nav>`)
}

// contents lists the entries.
func (s *series) contents(b *bytes.Buffer) {
	b.WriteString(`<h2 id="contents">Contents</h2><ol class="contents">`)
	for _, e := range s.entries {
		if !e.Front {
			s.contentsLine(b, e, "")
		}
	}
	b.WriteString(`</ol>`)
}

func (s *series) contentsLine(b *bytes.Buffer, e *notebook.Entry, root string) {
	b.WriteString(`<li><span class="day">` + esc(notebook.Day(e.Date)) + `</span><span class="what"><a href="` + root + s.at[e] + `">` + s.n.RenderTitle(e, notebook.Page{AsOf: kernel.Now}) + `</a>`)
	if e.Summary != "" {
		b.WriteString(` <span class="summary">` + esc(e.Summary) + `</span>`)
	}
	b.WriteString(`</span></li>`)
}

// cover writes the picture of the title page.
func (s *series) cover(b *bytes.Buffer) {
	if s.set.Cover == "" {
		return
	}
	if p := s.photos.picture(s.set.Cover, ""); p.Src != "" {
		b.WriteString(`<figure class="cover">` + imageTag(p, s.coverAlt()) + `</figure>`)
	}
}

func (s *series) coverAlt() string {
	if s.set.Boat != "" {
		return s.set.Boat
	}
	return s.n.Title()
}

// most is how many marks stand on the stick; a longer journal shows some of its days.
// On a phone fewer can be told apart by a finger; the others are marks and no links.
const most, mostOnPhone = 32, 12

// stick marks the journal's days beside an entry.
func (s *series) stick(here int) []mark {
	root := rootOf(s.places.page[s.entries[here]])
	every := 1 + (len(s.entries)-1)/most
	month := ""
	var list []mark
	for i := 0; i < len(s.entries); i = nextMark(i, every, here, len(s.entries)-1) {
		e := s.entries[i]
		m := mark{Href: root + address(s.places.page[e]), Title: s.titles[e], Label: shortDay(e, s.titles[e]), Here: i == here}
		switch {
		case m.Here:
			m.Class = "here"
		case len(e.Date) == 10 && e.Date[:7] != month:
			m.Class = "long"
		}
		if len(e.Date) == 10 {
			month = e.Date[:7]
		}
		list = append(list, m)
	}
	onPhone := 1 + (len(list)-1)/mostOnPhone
	for i := range list {
		if i%onPhone != 0 && !list[i].Here {
			list[i].Class = strings.TrimSpace(list[i].Class + " fine")
		}
	}
	return list
}

func stickHTML(list []mark) template.HTML {
	var b strings.Builder
	b.WriteString("<nav class=\"stick\" aria-label=\"The journal’s days\"><ol>\n")
	for _, m := range list {
		b.WriteString(`<li`)
		if m.Class != "" {
			b.WriteString(` class="` + m.Class + `"`)
		}
		if m.Here {
			b.WriteString(`><span title="` + esc(m.Title) + `" aria-current="page">` + esc(m.Label) + `</span>`)
		} else {
			b.WriteString(`><a href="` + esc(m.Href) + `" title="` + esc(m.Title) + `">` + esc(m.Label) + `</a>`)
		}
		b.WriteString("</li>\n")
	}
	b.WriteString("</ol></nav>")
	return template.HTML(b.String())
}

// nextMark is the entry of the next mark on the stick after that of entry i: every so
// many, the one that is shown, and the last.
func nextMark(i, every, here, last int) int {
	if i == last {
		return last + 1
	}
	next := min(i-i%every+every, last)
	if i < here {
		next = min(next, here)
	}
	return next
}

func shortDay(e *notebook.Entry, title string) string {
	if e.Front {
		return "title"
	}
	f := strings.Fields(notebook.Day(e.Date))
	if len(f) == 3 {
		return f[0] + " " + f[1][:3]
	}
	t := []rune(title)
	if len(t) > 10 {
		return string(t[:9]) + "…"
	}
	return string(t)
}
