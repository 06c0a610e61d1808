package site

import (
	"bytes"
	"html"
	"html/template"
	"strings"

	"scarph/calc"
	"scarph/kernel"
	"scarph/notebook"
	"scarph/notebook/assets"
	"scarph/notebook/results"
)

var pageTemplate = template.Must(template.ParseFS(assets.Files, "reader.html"))

// page is what the template of a page shows.
type page struct {
	Title, Boat, Language, Root string
	Description, Canonical      string
	Author, Licence             string
	Own, Other                  string // the families of units
	Engine, Feed                bool
	Nav, Stick                  template.HTML
	OneFile                     *oneFile // everything inside, for a page sent by mail
}

// mark is a place to go.
type mark struct {
	Href, Label, Title, Class string
	Here                      bool
}

// families names the units that the journal is in and the others.
func (s *series) families() (own, other string) {
	if s.n.Session.Style().System == calc.Metric {
		return "metric", "feet-inches"
	}
	return "feet-inches", "metric"
}

// frame is what all pages have; key is that of the entry, "" for none.
func (s *series) frame(at, title string) page {
	p := page{Title: title, Boat: s.set.Boat, Language: s.set.Language, Root: rootOf(at), Author: s.set.Author, Licence: s.set.Licence, Description: s.set.Description, Engine: s.engine, Feed: len(s.dated) > 0}
	if p.Boat == "" {
		p.Boat = s.n.Title()
	}
	if p.Language == "" {
		p.Language = "en"
	}
	if title != s.n.Title() {
		p.Title = title + " · " + s.n.Title()
	}
	if c := s.base(); c != "" {
		p.Canonical = c + strings.TrimSuffix(address(at), "index.html")
	}
	p.Own, p.Other = s.families()
	p.Nav = navHTML(s.nav(at))
	return p
}

// base is the address that the series will stand at, with a slash at its end; "" when
// the journal does not say.
func (s *series) base() string {
	if s.set.Canonical == "" {
		return ""
	}
	return strings.TrimSuffix(s.set.Canonical, "/") + "/"
}

// nav lists the pages that every page leads to.
func (s *series) nav(at string) []mark {
	root := rootOf(at)
	list := []mark{{Href: root + "index.html", Label: "Contents"}}
	for _, l := range s.lists {
		list = append(list, mark{Href: root + l.file(), Label: l.label})
	}
	if len(s.subjects) > 0 {
		list = append(list, mark{Href: root + "subjects.html", Label: "Subjects"})
	}
	if len(s.used) > 0 {
		list = append(list, mark{Href: root + "functions.html", Label: "Functions"})
	}
	list = append(list, mark{Href: root + "search.html", Label: "Search"})
	for i := range list {
		list[i].Here = list[i].Href == root+address(at)
	}
	return list
}

// navHTML writes the ways to the pages that every page leads to.
func navHTML(list []mark) template.HTML {
	var b strings.Builder
	for _, m := range list {
		b.WriteString(`<a href="` + esc(m.Href) + `"`)
		if m.Here {
			b.WriteString(` aria-current="page"`)
		}
		b.WriteString(`>` + esc(m.Label) + `</a>`)
	}
	return template.HTML(b.String())
}

// putPage writes a page, whose own part main writes.
func (s *series) putPage(at string, p page, main func(w *bytes.Buffer)) error {
	w := s.sheets.Get().(*bytes.Buffer)
	defer s.sheets.Put(w)
	w.Reset()
	if err := p.write(w, main); err != nil {
		return err
	}
	s.mu.Lock()
	s.report.Rendered++
	s.mu.Unlock()
	return s.out.put(at, w.Bytes())
}

func (p *page) write(w *bytes.Buffer, main func(w *bytes.Buffer)) error {
	if err := pageTemplate.ExecuteTemplate(w, "above", p); err != nil {
		return err
	}
	main(w)
	return pageTemplate.ExecuteTemplate(w, "below", p)
}

// shown is how the page at a path shows an entry, in one family of units or the other.
func (s *series) shown(e *notebook.Entry, at string, other bool) notebook.Page {
	root := rootOf(at)
	p := notebook.Page{AsOf: kernel.Now, Series: true, Hide: s.set.Hides, WithoutTitle: true}
	if other {
		style := s.n.Session.Style().Other()
		p.Style = &style
	}
	s.place(&p, root)
	if s.one && e != nil {
		p.IDPrefix = s.prefix(e)
	}
	if s.cargo.Values == "" { // a page without the table of values
		p.Href = nil
	}
	if e != nil {
		p.Link, p.Picture = s.link(e, root), s.picture(e, root)
	}
	return p
}

// place gives a page the addresses of the site.
func (s *series) place(p *notebook.Page, root string) {
	w := &results.Writer{Session: s.n.Session}
	s.to.Give(w, root)
	p.Href, p.Entry, p.History = w.Href, w.Entry, w.History
}

// both writes a block in the journal's units, with the other ones beside it in a
// template, where they differ: the switch needs no engine.
func both(w *bytes.Buffer, own, other string) {
	w.WriteString(own)
	if own != other {
		w.WriteString(`<template>` + other + `</template>`)
	}
}

func esc(s string) string { return html.EscapeString(s) }
