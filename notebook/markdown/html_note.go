package markdown

import (
	"strconv"
	"strings"

	extensionast "github.com/yuin/goldmark/extension/ast"
)

// notes are the footnotes of a section while it is rendered, numbered in the
// order in which the section refers to them.
type notes struct {
	order  []*extensionast.Footnote
	number map[int]int // by the number in the file
	refs   map[int]int // references so far, by number in the section
}

// noteLink writes a reference to a footnote, inside a link without its own.
func (s *sheet) noteLink(n *extensionast.FootnoteLink) {
	number := s.notes.add(s.doc.marks.notes[n.Index])
	text := strconv.Itoa(number)
	if inLink(n) {
		s.WriteString("<sup>" + text + "</sup>")
		return
	}
	s.notes.refs[number]++
	s.WriteString(`<sup id="`)
	s.escaped(s.noteRefID(number, s.notes.refs[number]))
	s.WriteString(`"><a href="#`)
	s.escaped(s.noteID(number))
	s.WriteString(`" role="doc-noteref">` + text + "</a></sup>")
}

func (n *notes) add(note *extensionast.Footnote) int {
	if n.number == nil {
		n.number, n.refs = map[int]int{}, map[int]int{}
	}
	if n.number[note.Index] == 0 {
		n.order = append(n.order, note)
		n.number[note.Index] = len(n.order)
	}
	return n.number[note.Index]
}

func (s *sheet) noteID(number int) string {
	return s.options.IDPrefix + "note." + strconv.Itoa(s.section.index) + "." + strconv.Itoa(number)
}

func (s *sheet) noteRefID(number, ref int) string {
	return s.options.IDPrefix + "noteref." + strconv.Itoa(s.section.index) + "." + strconv.Itoa(number) + "." + strconv.Itoa(ref)
}

// writeNotes writes the list of notes; a note may refer to further ones.
func (s *sheet) writeNotes() {
	s.WriteString("<section class=\"footnotes\" role=\"doc-endnotes\">\n<ol>\n")
	for i := 0; i < len(s.notes.order); i++ {
		s.WriteString(`<li id="`)
		s.escaped(s.noteID(i + 1))
		s.WriteString("\">\n")
		start := s.Len()
		s.children(s.notes.order[i])
		body := string(s.Bytes()[start:])
		s.Truncate(start)
		body, inParagraph := strings.CutSuffix(body, "</p>\n")
		s.WriteString(body)
		for ref := range s.notes.refs[i+1] {
			s.WriteString(` <a href="#`)
			s.escaped(s.noteRefID(i+1, ref+1))
			s.WriteString(`" role="doc-backlink" aria-label="back to the text">↩</a>`)
		}
		if inParagraph {
			s.WriteString("</p>")
		}
		s.WriteString("\n</li>\n")
	}
	s.WriteString("</ol>\n</section>\n")
}
