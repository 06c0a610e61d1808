package markdown

import (
	"github.com/yuin/goldmark/ast"
	"github.com/yuin/goldmark/renderer/html"
)

// image writes a picture, with its title as the caption when it stands alone.
// A picture from an address that is not allowed leaves its alternative text.
func (s *sheet) image(n *ast.Image) {
	image := s.doc.marks.images[n]
	alt := s.doc.plainText(n, s.results.SlotText)
	dest := image.Destination
	if !mayShow(dest) {
		dest = ""
	} else if s.options.Image != nil {
		dest = s.options.Image(dest)
	}
	if dest == "" {
		s.WriteString(`<span class="no-picture">`)
		s.escaped(alt)
		s.WriteString("</span>")
	} else {
		s.WriteString(`<img src="`)
		s.escaped(dest)
		s.WriteString(`" alt="`)
		s.escaped(alt)
		s.WriteByte('"')
		if n.Title != nil && !image.Alone {
			s.WriteString(` title="`)
			s.caption(image)
			s.WriteByte('"')
		}
		s.WriteString(` loading="lazy" />`)
	}
	if n.Title != nil && image.Alone {
		s.WriteString("<figcaption>")
		s.caption(image)
		s.WriteString("</figcaption>")
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
