package site

import (
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"fmt"
	"html"
	"os"
	"path"
	"strconv"
	"strings"

	"scarph/calc"
	"scarph/notebook"
	"scarph/notebook/markdown"
	"scarph/notebook/photo"
)

// widths are those of the copies of a photo: a phone, a column, a large screen.
var widths = []int{480, 960, 1600}

// sizes is how wide a photo is shown.
const sizes = "(max-width: 40rem) 100vw, 38rem"

// copies are the published copies of a picture, narrowest first.
type copies []pictureCopy

type pictureCopy struct {
	File          string
	Width, Height int
}

// album is the pictures of the journal that are published.
type album struct {
	s        *series
	files    []string // below the journal, in the order in which they are met
	wanted   map[string]bool
	copies   map[string]copies // by file
	attached map[string]string // other files: the place of the copy
	inside   func(file string) markdown.Picture
}

func newAlbum(s *series) *album {
	a := &album{s: s, wanted: map[string]bool{}, copies: map[string]copies{}, attached: map[string]string{}}
	if s.set.Cover != "" {
		if _, _, err := s.onDisk(s.set.Cover); err != nil {
			s.report.Problems = append(s.report.Problems, notebook.Diagnostic{File: notebook.TitlePage, Code: calc.CodeSetting, Message: "there is no picture " + s.set.Cover, Hint: "cover: names a picture below the journal"})
		} else if err := a.want(s.set.Cover); err != nil {
			s.report.Problems = append(s.report.Problems, notebook.Diagnostic{File: notebook.TitlePage, Code: calc.CodeSetting, Message: err.Error()})
		}
	}
	return a
}

func isPicture(file string) bool {
	switch strings.ToLower(path.Ext(file)) {
	case ".jpg", ".jpeg", ".png", ".gif", ".webp", ".svg":
		return true
	}
	return false
}

// want takes a picture into the album.
func (a *album) want(file string) error {
	if !isPicture(file) {
		return fmt.Errorf("%s is no kind of picture that every browser shows", file)
	}
	if !a.wanted[file] {
		a.wanted[file] = true
		a.files = append(a.files, file)
	}
	return nil
}

// attach takes a file that is no picture into the site.
func (a *album) attach(file string) {
	if _, ok := a.attached[file]; !ok {
		sum := sha256.Sum256([]byte(file))
		a.attached[file] = "files/" + hex.EncodeToString(sum[:4]) + "/" + plainPath(path.Base(file))
	}
}

// picture is how a page shows a picture; root leads to the top of the site.
func (a *album) picture(file, root string) markdown.Picture {
	if a.inside != nil {
		return a.inside(file)
	}
	list := a.copies[file]
	if len(list) == 0 {
		return markdown.Picture{}
	}
	show := list[min(1, len(list)-1)]
	p := markdown.Picture{Src: root + show.File, Width: show.Width, Height: show.Height}
	if len(list) > 1 {
		var set []string
		for _, c := range list {
			set = append(set, root+c.File+" "+strconv.Itoa(c.Width)+"w")
		}
		p.Srcset, p.Sizes = strings.Join(set, ", "), sizes
	}
	return p
}

// imageTag writes a picture.
func imageTag(p markdown.Picture, alt string) string {
	t := `<img src="` + html.EscapeString(p.Src) + `" alt="` + html.EscapeString(alt) + `"`
	if p.Srcset != "" {
		t += ` srcset="` + html.EscapeString(p.Srcset) + `" sizes="` + html.EscapeString(p.Sizes) + `"`
	}
	if p.Width > 0 {
		t += ` width="` + strconv.Itoa(p.Width) + `" height="` + strconv.Itoa(p.Height) + `"`
	}
	return t + ` />`
}

// writePhotos makes the copies of all pictures and of the other files.
func (s *series) writePhotos() error {
	a := s.photos
	err := s.together("photos", len(a.files), func(i int) error {
		list, err := a.copy(a.files[i])
		if err != nil {
			return err
		}
		s.mu.Lock()
		defer s.mu.Unlock()
		a.copies[a.files[i]] = list
		s.report.Photos++
		return nil
	})
	if err != nil {
		return err
	}
	return s.writeAttached()
}

func (s *series) writeAttached() error {
	for file, at := range s.photos.attached {
		full, _, err := s.onDisk(file)
		if err != nil {
			return err
		}
		data, err := os.ReadFile(full)
		if err != nil {
			return err
		}
		if err := s.out.put(at, data); err != nil {
			return err
		}
	}
	return nil
}

// edition is part of what a copy is remembered by: another way of making copies makes
// them all anew.
const edition = "3"

// copy makes the copies of a picture, or keeps those of the site before. A picture
// that cannot be read is a problem, and its place shows its description.
func (a *album) copy(file string) (copies, error) {
	full, info, err := a.s.onDisk(file)
	if err != nil {
		return nil, err
	}
	mark := "stat " + short(fmt.Sprint(file, "\n", info.Size(), "\n", info.ModTime().UnixNano())) // tells neither name nor day
	if seen, known := a.s.out.old(mark); known {
		if list, ok := a.kept(string(seen)); ok {
			a.s.out.remember(mark, seen)
			return list, nil
		}
	}
	src, err := os.ReadFile(full)
	if err != nil {
		return nil, err
	}
	sum := sha256.Sum256(src)
	id := edition + hex.EncodeToString(sum[:8])
	a.s.out.remember(mark, []byte(id))
	if list, ok := a.kept(id); ok {
		return list, nil
	}
	pictures, err := prepare(file, src, widths)
	if err != nil {
		a.unreadable(file, err)
		return nil, nil
	}
	var list copies
	for _, p := range pictures {
		c := pictureCopy{File: "photos/" + id[len(edition):] + p.Ext, Width: p.Width, Height: p.Height}
		if p.Width > 0 && p.Ext != ".svg" {
			c.File = "photos/" + id[len(edition):] + "-" + strconv.Itoa(p.Width) + p.Ext
		}
		if err := a.s.out.put(c.File, p.Bytes); err != nil {
			return nil, err
		}
		list = append(list, c)
	}
	data, err := json.Marshal(list)
	a.s.out.remember("photo "+id, data)
	return list, err
}

// unreadable remarks on a picture whose description stands in its place.
func (a *album) unreadable(file string, err error) {
	a.s.mu.Lock()
	defer a.s.mu.Unlock()
	a.s.report.Remarks = append(a.s.report.Remarks, notebook.Diagnostic{File: file, Code: calc.CodePublish, Message: err.Error(), Hint: "its description stands in its place"})
}

// kept takes the copies of a picture over from the site before.
func (a *album) kept(id string) (copies, bool) {
	data, ok := a.s.out.old("photo " + id)
	if !ok {
		return nil, false
	}
	var list copies
	if json.Unmarshal(data, &list) != nil || len(list) == 0 {
		return nil, false
	}
	for _, c := range list {
		if !a.s.out.keep(c.File) {
			return nil, false
		}
	}
	a.s.out.remember("photo "+id, data)
	return list, true
}

// prepare makes the copies of a picture that are published.
func prepare(file string, src []byte, widths []int) ([]photo.Picture, error) {
	if strings.EqualFold(path.Ext(file), ".svg") {
		clean, w, h, err := cleanSVG(src)
		if err != nil {
			return nil, fmt.Errorf("this drawing cannot be read: %w", err)
		}
		return []photo.Picture{{Bytes: clean, Ext: ".svg", Width: w, Height: h}}, nil
	}
	return photo.Copies(src, widths)
}

func short(s string) string {
	sum := sha256.Sum256([]byte(s))
	return hex.EncodeToString(sum[:8])
}
