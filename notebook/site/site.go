// Package site writes a journal as a published series: a folder of plain pages with
// the numbers baked in, which works from any web server and from a memory stick.
package site

import (
	"bytes"
	"html"
	"html/template"
	"os"
	"path"
	"path/filepath"
	"strings"

	"scarph/notebook"
	"scarph/notebook/assets"
)

// Options say what is published.
type Options struct {
	AsOf int // order of the last entry that is published
}

// Report says what was written.
type Report struct {
	Pages   int
	Written int // files that were not there or not the same
}

var pageTemplate = template.Must(template.ParseFS(assets.Files, "reader.html"))

type page struct {
	Title, Boat, Language, Root string
	Main                        template.HTML
}

// Publish writes the site of a journal to a folder.
func Publish(n *notebook.Notebook, out string, o Options) (Report, error) {
	w := &writer{n: n, o: o, files: map[string][]byte{}}
	w.pages()
	css, err := assets.Files.ReadFile("journal.css")
	if err != nil {
		return Report{}, err
	}
	w.files["journal.css"] = css
	return w.write(out)
}

type writer struct {
	n     *notebook.Notebook
	o     Options
	files map[string][]byte
	count int
}

// entries are those that are published.
func (w *writer) entries() []*notebook.Entry {
	var list []*notebook.Entry
	for i, e := range w.n.Entries() {
		if i <= w.o.AsOf && !e.Draft && !e.Private {
			list = append(list, e)
		}
	}
	return list
}

func address(e *notebook.Entry) string {
	if e.Front {
		return "index.html"
	}
	return e.Slug + ".html"
}

// rootOf leads from a page to the site's top.
func rootOf(p string) string { return strings.Repeat("../", strings.Count(p, "/")) }

func (w *writer) pages() {
	entries := w.entries()
	set := w.n.Settings()
	front := false
	for i, e := range entries {
		at := address(e)
		root := rootOf(at)
		p := notebook.Page{AsOf: w.o.AsOf, Public: true, Hide: set.Hides, WithoutTitle: true,
			Href: func(name string) string { return root + "dimensions.html#value-" + name }}
		var b bytes.Buffer
		b.WriteString("<h1>" + w.n.RenderTitle(e, p) + "</h1>")
		if d := notebook.Day(e.Date); d != "" {
			b.WriteString(`<p class="date"><time datetime="` + e.Date + `">` + html.EscapeString(d) + `</time></p>`)
		}
		b.WriteString(`<article class="entry">`)
		for _, x := range w.n.RenderEntry(e, p) {
			b.WriteString(`<div class="b">` + x + `</div>`)
		}
		b.WriteString(`</article>`)
		if e.Front {
			front = true
			contents(&b, entries)
		}
		b.WriteString(`<nav class="turn" aria-label="Entries before and after"><span>`)
		if i > 0 {
			b.WriteString(`<a rel="prev" href="` + root + address(entries[i-1]) + `">← ` + html.EscapeString(entries[i-1].Title) + `</a>`)
		}
		b.WriteString(`</span><span>`)
		if i+1 < len(entries) {
			b.WriteString(`<a rel="next" href="` + root + address(entries[i+1]) + `">` + html.EscapeString(entries[i+1].Title) + ` →</a>`)
		}
		b.WriteString(`</span></nav>`)
		w.page(at, e.Title, b.String())
	}
	if !front {
		var b bytes.Buffer
		b.WriteString("<h1>" + html.EscapeString(w.n.Title()) + "</h1>")
		contents(&b, entries)
		w.page("index.html", w.n.Title(), b.String())
	}
	w.page("dimensions.html", "Dimensions", "<h1>Dimensions</h1>"+w.n.RenderList("dimensions", notebook.Page{AsOf: w.o.AsOf, Public: true}))
}

func contents(b *bytes.Buffer, entries []*notebook.Entry) {
	b.WriteString(`<ol class="contents">`)
	for _, e := range entries {
		if !e.Front {
			b.WriteString(`<li><span class="day">` + html.EscapeString(notebook.Day(e.Date)) + `</span><a href="` + address(e) + `">` + html.EscapeString(e.Title) + `</a></li>`)
		}
	}
	b.WriteString(`</ol>`)
}

func (w *writer) page(at, title, main string) {
	set := w.n.Settings()
	p := page{Title: title, Boat: set.Boat, Language: set.Language, Root: rootOf(at), Main: template.HTML(main)}
	if p.Boat == "" {
		p.Boat = w.n.Title()
	}
	if p.Language == "" {
		p.Language = "en"
	}
	if title != w.n.Title() {
		p.Title = title + " · " + w.n.Title()
	}
	var b bytes.Buffer
	if err := pageTemplate.Execute(&b, p); err == nil {
		w.files[path.Clean(at)] = b.Bytes()
		w.count++
	}
}

// write puts the files that are new or not the same into the folder.
func (w *writer) write(out string) (Report, error) {
	r := Report{Pages: w.count}
	for name, data := range w.files {
		full := filepath.Join(out, filepath.FromSlash(name))
		if old, err := os.ReadFile(full); err == nil && bytes.Equal(old, data) {
			continue
		}
		if err := os.MkdirAll(filepath.Dir(full), 0o755); err != nil {
			return r, err
		}
		if err := os.WriteFile(full, data, 0o644); err != nil {
			return r, err
		}
		r.Written++
	}
	return r, nil
}
