package site

import (
	"bytes"
	"crypto/sha256"
	"encoding/base64"
	"fmt"
	"html/template"
	"os"
	"path"
	"path/filepath"
	"strconv"
	"strings"

	"scarph/notebook"
	"scarph/notebook/assets"
	"scarph/notebook/markdown"
)

// oneFile is what a page carries inside itself when it is sent by mail.
type oneFile struct {
	Policy string
	Style  template.CSS
	Data   []template.HTML // cargo and engine, as text that is no script
	Script []template.HTML
}

// mailWidth is how wide a photo in one file is.
const mailWidth = 1100

// PublishOne writes the journal, or one entry of it, as a single file with everything
// inside. The entry is named by its file, its address or its date; "" takes all.
func PublishOne(n *notebook.Notebook, out, entry string, o Options) (Report, error) {
	s := newSeries(n, o)
	if entry != "" {
		e := s.find(entry)
		if e == nil {
			return s.report, fmt.Errorf("there is no entry %s among those that are published", entry)
		}
		s.entries, s.lists, s.used, s.subjects = []*notebook.Entry{e}, nil, nil, nil
	}
	s.check()
	if len(s.report.Problems) > 0 && !o.Anyway {
		return s.report, nil
	}
	if info, err := os.Stat(out); err == nil && info.IsDir() {
		return s.report, fmt.Errorf("%s is a folder; --one-file writes a file", out)
	}
	if err := s.insidePhotos(); err != nil {
		return s.report, err
	}
	data, err := s.onePage()
	if err != nil {
		return s.report, err
	}
	if err := writeWhole(out, data); err != nil {
		return s.report, err
	}
	s.report.Pages, s.report.Bytes, s.report.Written, s.report.Done = 1, int64(len(data)), 1, true
	return s.report, nil
}

// find finds an entry by its file, its slug or its date.
func (s *series) find(name string) *notebook.Entry {
	for _, e := range s.entries {
		if e.Key == name || e.File.Path == name || e.Slug == name || e.Date == name || path.Base(e.Slug) == name {
			return e
		}
	}
	return nil
}

// insidePhotos gives every picture an address that holds the picture itself.
func (s *series) insidePhotos() error {
	inside := map[string]markdown.Picture{}
	for i, file := range s.photos.files {
		if err := s.stopped(); err != nil {
			return err
		}
		s.tell("photos", i, len(s.photos.files))
		full, _, err := s.onDisk(file)
		if err != nil {
			return err
		}
		src, err := os.ReadFile(full)
		if err != nil {
			return err
		}
		list, err := prepare(file, src, []int{mailWidth})
		if err != nil || len(list) == 0 {
			s.photos.unreadable(file, err)
			continue
		}
		p := list[0]
		inside[file] = markdown.Picture{Src: "data:" + mimeOf(p.Ext) + ";base64," + base64.StdEncoding.EncodeToString(p.Bytes), Width: p.Width, Height: p.Height}
		s.report.Photos++
	}
	s.photos.inside = func(file string) markdown.Picture { return inside[file] }
	return nil
}

func mimeOf(ext string) string {
	switch ext {
	case ".png":
		return "image/png"
	case ".svg":
		return "image/svg+xml"
	}
	return "image/jpeg"
}

// onePage is the whole journal on a page, its parts one after the other.
func (s *series) onePage() ([]byte, error) {
	s.within()
	title := s.n.Title()
	if len(s.entries) == 1 {
		title = s.titles[s.entries[0]]
	}
	p := s.frame("index.html", title)
	p.Canonical, p.Feed = "", false
	var nav []mark
	whole := len(s.entries) > 1 || len(s.lists) > 0
	var b bytes.Buffer
	for i, e := range s.entries {
		b.WriteString(`<div class="part" id="` + s.prefix(e) + `top">`)
		s.article(&b, e, "index.html")
		if i == 0 && whole {
			s.contents(&b)
		}
		b.WriteString(`</div>`)
	}
	for _, l := range s.lists {
		b.WriteString(`<div class="part" id="` + l.name + `">`)
		s.listHTML(&b, l, "index.html")
		b.WriteString(`</div>`)
		nav = append(nav, mark{Href: "#" + l.name, Label: l.label})
	}
	if len(s.used) > 0 {
		b.WriteString(`<div class="part" id="functions">`)
		s.functionsHTML(&b)
		b.WriteString(`</div>`)
		nav = append(nav, mark{Href: "#functions", Label: "Functions"})
	}
	p.Nav = navHTML(nav)
	one, err := s.inside()
	if err != nil {
		return nil, err
	}
	p.OneFile = one
	var out bytes.Buffer
	err = p.write(&out, func(w *bytes.Buffer) { w.WriteString(oneHeading(b.String())) })
	return out.Bytes(), err
}

// within makes all addresses places of the one page.
func (s *series) within() {
	for i := range s.cargo.Entries {
		c := &s.cargo.Entries[i]
		e, ok := s.n.Entry(c.Key)
		c.At = ""
		if ok && s.shows(e) {
			c.Prefix = s.prefix(e)
			c.At = "#" + c.Prefix + "top"
		}
	}
	for _, e := range s.n.Entries() {
		if s.shows(e) {
			s.at[e] = "#" + s.prefix(e) + "top"
		} else {
			delete(s.at, e)
			delete(s.places.by, e.File.Path)
		}
	}
	s.cargo.Values, s.cargo.History = "", ""
	if s.has("dimensions") {
		s.cargo.Values = "#"
	}
	if s.has("history") {
		s.cargo.History = "#"
	}
	s.one = true
}

func (s *series) shows(e *notebook.Entry) bool {
	for _, x := range s.entries {
		if x == e {
			return true
		}
	}
	return false
}

// prefix begins the ids of an entry on the one page.
func (s *series) prefix(e *notebook.Entry) string {
	for i, x := range s.n.Entries() {
		if x == e {
			return "e" + strconv.Itoa(i+1) + "-"
		}
	}
	return ""
}

// oneHeading leaves the first heading of the first level and makes the others of the
// second.
func oneHeading(html string) string {
	end := strings.Index(html, "</h1>")
	if end < 0 {
		return html
	}
	end += len("</h1>")
	if i := strings.Index(html[end:], "</template>"); i >= 0 && strings.HasPrefix(html[end:], "<template><h1") {
		end += i
	}
	return html[:end] + strings.NewReplacer("<h1", "<h2", "</h1>", "</h2>").Replace(html[end:])
}

// inside gathers what the page carries: its look, its script, and the browser build.
func (s *series) inside() (*oneFile, error) {
	one := &oneFile{}
	read := func(name string) string {
		data, err := assets.Files.ReadFile(name)
		if err != nil {
			panic("site: " + err.Error()) // the files are part of the program
		}
		return string(data)
	}
	style := read("journal.css") + read("reader.css")
	one.Style = template.CSS(style)
	scripts := []string{read("reader.js")}
	if s.engine {
		packed, err := dist.ReadFile(enginePath)
		if err != nil {
			return nil, err
		}
		loader, err := dist.ReadFile(loaderPath)
		if err != nil {
			return nil, err
		}
		one.Data = []template.HTML{
			template.HTML(`<script type="application/json" id="scarph-cargo">` + string(s.cargo.Encode()) + `</script>`),
			template.HTML(`<script type="text/plain" id="scarph-engine">` + base64.StdEncoding.EncodeToString(packed) + `</script>`),
		}
		scripts = append([]string{string(loader)}, scripts...)
	}
	policy := []string{"default-src 'none'", "img-src data:", "style-src " + hashSource(style), "base-uri 'none'", "form-action 'none'"}
	allowed := "script-src 'wasm-unsafe-eval'"
	for _, x := range scripts {
		one.Script = append(one.Script, template.HTML("<script>"+x+"</script>"))
		allowed += " " + hashSource(x)
	}
	one.Policy = strings.Join(append(policy, allowed), "; ")
	return one, nil
}

// hashSource allows one script or style by what it says.
// Source: Content Security Policy Level 3, section 2.3.1, hash sources.
func hashSource(text string) string {
	sum := sha256.Sum256([]byte(text))
	return "'sha256-" + base64.StdEncoding.EncodeToString(sum[:]) + "'"
}

// writeWhole writes a file so that it is there as a whole or not at all.
func writeWhole(name string, data []byte) error {
	if err := os.MkdirAll(filepath.Dir(name), 0o755); err != nil {
		return err
	}
	f, err := os.CreateTemp(filepath.Dir(name), ".scarph-*")
	if err != nil {
		return err
	}
	defer func() { _ = os.Remove(f.Name()) }() // it is gone when all went well
	if _, err := f.Write(data); err != nil {
		_ = f.Close()
		return err
	}
	if err := f.Chmod(0o644); err != nil {
		_ = f.Close()
		return err
	}
	if err := f.Close(); err != nil {
		return err
	}
	return os.Rename(f.Name(), name)
}
