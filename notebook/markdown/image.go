package markdown

import (
	"bytes"

	"github.com/yuin/goldmark/ast"

	"scarph/calc"
)

// Image is a picture in the text. One that stands alone in its paragraph is
// shown as a figure with its title as the caption.
type Image struct {
	Destination string    // as a URL reference
	Alt         string    // plain text; slots as they are written
	Title       string    // as it is written, "" for none
	Span        calc.Span // from ! to the closing sign
	Alone       bool
	caption     []captionPart
}

// captionPart is a piece of a title as it is written, or a slot.
type captionPart struct {
	text []byte
	slot *Slot
}

func (c *collector) addImage(n *ast.Image, at place) {
	if at.alt { // in the alt text of another one, which shows only its own alt
		return
	}
	d := c.doc
	end := c.ends[n]
	image := &Image{
		Destination: destination(n.Destination),
		Alt:         d.plainText(n, slotSource),
		Title:       string(n.Title),
		Span:        d.span(n.Pos(), end),
		Alone:       standsAlone(n),
	}
	if start, ok := titleStart(d.body[:end], n.Title); ok {
		at.alt = !image.Alone
		c.readCaption(image, start, at)
	} else if len(n.Title) > 0 {
		image.caption = []captionPart{{text: n.Title}}
	}
	d.marks.images[n] = image
	c.section.Images = append(c.section.Images, image)
}

// standsAlone reports whether n is all that its paragraph holds.
func standsAlone(n ast.Node) bool {
	p := n.Parent()
	return p.Kind() == ast.KindParagraph && p.ChildCount() == 1
}

// titleStart returns where a title begins in the text that ends with its
// image. The title of a reference is elsewhere, and one that a quote or list
// cuts into lines is not in one piece: slots in those stay text.
func titleStart(text, title []byte) (start int, ok bool) {
	text, ok = bytes.CutSuffix(text, []byte{')'})
	if !ok || len(title) == 0 {
		return 0, false
	}
	text = bytes.TrimRight(text, " \t\r\n")
	start = len(text) - 1 - len(title)
	return start, start > 0 && bytes.Equal(text[start:start+len(title)], title)
}

// readCaption finds the slots in the title that begins at an offset of the body.
func (c *collector) readCaption(image *Image, start int, at place) {
	title := c.doc.body[start : start+len(image.Title)]
	done := 0
	for i := 0; i < len(title); i++ {
		switch title[i] {
		case '\\':
			i++
		case '{':
			n := slotLength(title[i:])
			if n == 0 {
				continue
			}
			slot := c.newSlot(c.doc.span(start+i+1, start+i+n-1), at)
			image.caption = append(image.caption, captionPart{text: title[done:i]}, captionPart{slot: slot})
			done = i + n
			i = done - 1
		}
	}
	image.caption = append(image.caption, captionPart{text: title[done:]})
}
