package site

import (
	"fmt"
	"net/url"
	"os"
	"path"
	"path/filepath"
	"strings"

	"scarph/calc"
	"scarph/kernel"
	"scarph/notebook"
	"scarph/notebook/markdown"
)

// resolve finds the path below the journal that an address in an entry means; "" for
// one that leads elsewhere.
func resolve(e *notebook.Entry, dest string) (file, fragment string) {
	u, err := url.Parse(dest)
	if err != nil || u.Scheme != "" || u.Host != "" || u.Path == "" {
		return "", ""
	}
	p := path.Join("/", path.Dir(e.File.Path), u.Path)
	if strings.HasPrefix(u.Path, "/") {
		p = path.Clean(u.Path)
	}
	return strings.TrimPrefix(p, "/"), u.EscapedFragment()
}

// onDisk is the plain file at a path below the journal, without leaving it through links.
func (s *series) onDisk(file string) (string, os.FileInfo, error) {
	root, err := filepath.EvalSymlinks(s.n.Root())
	if err != nil {
		return "", nil, err
	}
	full, err := filepath.EvalSymlinks(filepath.Join(root, filepath.FromSlash(file)))
	if err != nil {
		return "", nil, err
	}
	if rel, err := filepath.Rel(root, full); err != nil || rel == ".." || strings.HasPrefix(rel, ".."+string(filepath.Separator)) {
		return "", nil, fmt.Errorf("%s leads out of the journal", file)
	}
	info, err := os.Stat(full)
	if err == nil && !info.Mode().IsRegular() {
		err = fmt.Errorf("%s is no plain file", file)
	}
	return full, info, err
}

// hiddenPath reports whether a path is one that the journal leaves out.
func hiddenPath(file string) bool {
	for _, part := range strings.Split(file, "/") {
		if strings.HasPrefix(part, "_") || strings.HasPrefix(part, ".") {
			return true
		}
	}
	return false
}

// canRun reports whether a browser that is led to a file may run what is in it, in the
// site's own name. The policy of our pages does not hold there.
func canRun(file string) bool {
	switch strings.ToLower(strings.TrimRight(path.Ext(file), " .")) {
	case ".html", ".htm", ".xhtml", ".xht", ".shtml", ".mht", ".mhtml", ".svgz", ".xml", ".xsl", ".xslt", ".rdf", ".js", ".mjs", ".swf", ".hta", ".htc", ".php", ".asp", ".jsp", ".cgi":
		return true
	}
	return false
}

// link leads from a page to where a link in the text goes: to the page of another
// entry, to a copy of a file, or on to another site. What is not published leads nowhere.
func (s *series) link(e *notebook.Entry, root string) func(string) string {
	return func(dest string) string {
		file, fragment := resolve(e, dest)
		if file == "" {
			return dest
		}
		to := ""
		switch {
		case strings.EqualFold(path.Ext(file), ".md"):
			o, ok := s.places.by[file]
			if !ok {
				return ""
			}
			to = root + s.at[o]
		case isPicture(file):
			if p := s.photos.picture(file, root); p.Src != "" {
				to = p.Src
				if i := strings.LastIndexByte(p.Srcset, ','); i >= 0 {
					to = strings.Fields(p.Srcset[i+1:])[0]
				}
			}
		default:
			if at, ok := s.photos.attached[file]; ok {
				to = root + address(at)
			}
		}
		if to != "" && fragment != "" && !strings.Contains(to, "#") {
			to += "#" + fragment
		}
		return to
	}
}

// picture shows a picture of the journal by its copies; one from elsewhere is not
// loaded, for a page must not need the net.
func (s *series) picture(e *notebook.Entry, root string) func(string) markdown.Picture {
	return func(dest string) markdown.Picture {
		file, _ := resolve(e, dest)
		if file == "" {
			return markdown.Picture{}
		}
		return s.photos.picture(file, root)
	}
}

// checkPictures looks for pictures that are not there, lie elsewhere, or are not
// described.
func (s *series) checkPictures(e *notebook.Entry) {
	for _, im := range e.Section.Images {
		at := func(message, hint string) notebook.Diagnostic {
			return e.File.Diagnose(im.Span, calc.CodePublish, message, hint)
		}
		if strings.TrimSpace(im.Alt) == "" {
			s.report.Remarks = append(s.report.Remarks, at("this picture is not described", "write what it shows between the brackets, for those who do not see it"))
		}
		file, _ := resolve(e, im.Destination)
		if file == "" {
			s.report.Remarks = append(s.report.Remarks, at("this picture lies elsewhere and is not published", "put a copy of it beside the entry"))
			continue
		}
		if _, _, err := s.onDisk(file); err != nil {
			s.report.Problems = append(s.report.Problems, at("there is no picture "+file, ""))
			continue
		}
		if err := s.photos.want(file); err != nil {
			s.report.Problems = append(s.report.Problems, at(err.Error(), "save it as JPEG or PNG"))
		}
	}
}

// checkLinks looks for links to what is not published.
func (s *series) checkLinks(e *notebook.Entry) {
	for _, l := range e.Section.Links {
		file, fragment := resolve(e, l.Destination)
		remark := func(message, hint string) {
			s.report.Remarks = append(s.report.Remarks, e.File.Diagnose(l.Span, calc.CodePublish, message, hint))
		}
		if file == "" {
			if at, ok := strings.CutPrefix(l.Destination, "#"); ok && !s.holds(e, at) {
				remark("there is no heading "+at+" in this entry", "")
			}
			continue
		}
		_, _, err := s.onDisk(file)
		switch o, known := s.places.by[file]; {
		case known && fragment != "" && !s.holds(o, fragment):
			remark("there is no heading "+fragment+" in "+file, "")
		case known:
		case strings.EqualFold(path.Ext(file), ".md") && err != nil:
			remark("there is no "+file+"; the link stands as text", "")
		case strings.EqualFold(path.Ext(file), ".md"):
			remark("this leads to what is not published; it stands as text", "")
		case err != nil || hiddenPath(file):
			remark("this leads to a file that is not published; it stands as text", "")
		case isPicture(file):
			if err := s.photos.want(file); err != nil {
				remark(err.Error(), "save it as JPEG or PNG")
			}
		case canRun(file):
			remark("this leads to a page or a script of another program; it is not published, and the link stands as text", "link to where it is published, or print it as PDF")
		default:
			s.photos.attach(file)
			remark(file+" is published as it is, with whatever its program wrote into it", "")
		}
	}
}

// holds reports whether the page of an entry has a place of that name, a heading or
// another.
func (s *series) holds(e *notebook.Entry, fragment string) bool {
	name, err := url.PathUnescape(fragment)
	if err != nil {
		return false
	}
	for _, h := range e.Section.Headings {
		if h.ID == name {
			return true
		}
	}
	if name == "" || e.Front && name == "contents" {
		return true
	}
	blocks := s.n.RenderEntry(e, notebook.Page{AsOf: kernel.Now, Series: true})
	return strings.Contains(strings.Join(blocks, ""), `id="`+esc(name)+`"`)
}
