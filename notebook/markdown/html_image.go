package markdown

import (
	"strconv"

	"github.com/yuin/goldmark/ast"
	"github.com/yuin/goldmark/renderer/html"
)

// image writes a picture, with its title as the caption when it stands alone.
// A picture from an address that is not allowed leaves its alternative text.
func (s *sheet) image(n *ast.Image) {
	image := s.doc.marks.images[n]
	alt := s.doc.plainText(n, s.results.SlotText)
	p := Picture{Src: image.Destination}
	switch {
	case !mayShow(p.Src):
		p.Src = ""
	case s.options.Picture != nil:
		p = s.options.Picture(p.Src)
	case s.options.Image != nil:
		p.Src = s.options.Image(p.Src)
	}
	if p.Src == "" {
		s.WriteString(`<span class="no-picture"`)
		s.title(n, image)
		s.WriteByte('>')
		s.escaped(alt)
		s.WriteString("</span>")
	} else {
		s.WriteString(`<img src="`)
		s.escaped(p.Src)
		s.WriteString(`" alt="`)
		s.escaped(alt)
		s.WriteByte('"')
		s.prepared(p)
		s.title(n, image)
		s.WriteString(` loading="lazy" />`)
	}
	if n.Title != nil && image.Alone {
		s.WriteString("<figcaption>")
		s.caption(image)
		s.WriteString("</figcaption>")
	}
}

// title writes the title of a picture that has no caption, in the running text.
func (s *sheet) title(n *ast.Image, image *Image) {
	if n.Title != nil && !image.Alone {
		s.WriteString(` title="`)
		s.caption(image)
		s.WriteByte('"')
	}
}

// prepared writes what is known of a picture that was prepared.
func (s *sheet) prepared(p Picture) {
	if p.Srcset != "" {
		s.WriteString(` srcset="`)
		s.escaped(p.Srcset)
		s.WriteString(`" sizes="`)
		s.escaped(p.Sizes)
		s.WriteByte('"')
	}
	if p.Width > 0 && p.Height > 0 {
		s.WriteString(` width="` + strconv.Itoa(p.Width) + `" height="` + strconv.Itoa(p.Height) + `"`)
	}
}

func (s *sheet) caption(image *Image) {
	for _, part := range image.caption {
		switch {
		case part.slot == nil:
			html.DefaultWriter.Write(s, part.text)
		case image.Alone:
			s.results.Slot(&s.Buffer, part.slot)
		default:
			s.escaped(s.results.SlotText(part.slot))
		}
	}
}
