package markdown

import (
	"bytes"
	"strings"
	"unicode/utf8"

	"github.com/yuin/goldmark/ast"
)

// Results gives the HTML of what is worked out, while a section is rendered.
type Results interface {
	// Block writes the whole of a calc block as flow content.
	Block(w *bytes.Buffer, b *Block)
	// Slot writes the value of a slot as phrasing content. In a heading and
	// in a link it must be short, in a link without anything to activate.
	Slot(w *bytes.Buffer, s *Slot)
	// SlotText returns the value of a slot as plain text, not yet escaped.
	SlotText(s *Slot) string
	// Cell writes a cell of a data table as phrasing content.
	Cell(w *bytes.Buffer, t *Table, row, col int)
	// CellText returns the same as plain text, not yet escaped.
	CellText(t *Table, row, col int) string
}

// Options say how a section is fitted into a page. The zero value is a page
// that holds one file.
type Options struct {
	// IDPrefix begins every id, so that several files may share one page.
	IDPrefix string
	// WithoutTitle leaves out the heading that gave the section its title,
	// for a page that shows title and date itself.
	WithoutTitle bool
	// Link and Image rewrite the addresses of links and pictures; nil leaves
	// them. They are asked only about addresses that are allowed and lead out
	// of the file, and what they return is written as it is, escaped. Image
	// may return "" to refuse; so may Link, whose text then leads nowhere.
	Link, Image func(dest string) string
	// Picture, where it is given, is asked in place of Image, and may give a
	// picture in several widths.
	Picture func(dest string) Picture
}

// Picture is how a picture is shown: its address, and for one that was prepared its
// size and its copies in other widths, as the attributes srcset and sizes say them.
type Picture struct {
	Src           string // "" refuses the picture
	Srcset, Sizes string
	Width, Height int
}

// buffer is a bytes.Buffer that goldmark writes to without a buffer of its own.
type buffer struct{ bytes.Buffer }

func (*buffer) Buffered() int { return 0 }
func (*buffer) Flush() error  { return nil }

// sheet is one section while it is rendered. goldmark hands it to the writers
// of nodes as their writer, which is how they know what they work on.
type sheet struct {
	buffer
	doc     *Document
	section *Section
	results Results
	options Options
	notes   notes
}

// Render returns the HTML of a section as its blocks at the top level, one
// string a block, so that a page can replace only those that changed. Their
// number and order depend on the text and the options alone. Footnotes that the section refers
// to are one more block at the end. With a nil r blocks, slots and cells are
// shown as they are written.
func (d *Document) Render(s *Section, r Results, o Options) []string {
	if r == nil {
		r = asWritten{}
	}
	d = d.drawn()
	s = d.Sections[s.index]
	sh := &sheet{doc: d, section: s, results: r, options: o}
	var blocks []string
	for _, run := range s.runs {
		sh.Reset()
		for _, n := range s.nodes[run[0]:run[1]] {
			if o.WithoutTitle && s.Heading != nil && n == s.Heading.node {
				continue
			}
			sh.node(n)
		}
		blocks = append(blocks, sh.take())
	}
	if len(sh.notes.order) > 0 {
		sh.Reset()
		sh.writeNotes()
		blocks = append(blocks, sh.take())
	}
	return blocks
}

// RenderTitle returns the text of the section's title, without the date and
// with the values of its slots, escaped for HTML.
func (d *Document) RenderTitle(s *Section, r Results) string {
	if r == nil {
		r = asWritten{}
	}
	if s.Heading == nil {
		return ""
	}
	d = d.drawn()
	s = d.Sections[s.index]
	title := d.plainText(s.Heading.node, r.SlotText)
	if s.Date != "" {
		_, title = cutDate(title)
	}
	return string(escape(title))
}

// RenderHeading returns the section's title as its heading has it: with its markup, and with
// slots that are those of the page. A heading with a note is plain, for the note's number
// would be another than in the text.
func (d *Document) RenderHeading(s *Section, r Results, o Options) string {
	drawn := d.drawn()
	if s.Heading == nil || r == nil {
		return d.RenderTitle(s, r)
	}
	section := drawn.Sections[s.index]
	sh := &sheet{doc: drawn, section: section, results: r, options: o}
	sh.children(section.Heading.node)
	if len(sh.notes.order) > 0 {
		return d.RenderTitle(s, r)
	}
	title := strings.TrimSpace(sh.take())
	if s.Date != "" {
		date, rest := cutDate(title)
		if date == "" {
			return d.RenderTitle(s, r)
		}
		title = rest
	}
	return title
}

// node renders n and all below it.
func (s *sheet) node(n ast.Node) {
	// The only errors are those of writing, and a buffer has none.
	_ = pageRenderer.Render(s, s.doc.body, n)
}

func (s *sheet) children(n ast.Node) {
	for c := n.FirstChild(); c != nil; c = c.NextSibling() {
		s.node(c)
	}
}

// take returns what was written as valid UTF-8.
func (s *sheet) take() string {
	html := s.String()
	if !utf8.ValidString(html) {
		html = strings.ToValidUTF8(html, "\uFFFD")
	}
	return html
}

func (s *sheet) escaped(text string) {
	if isPlain(text) {
		s.WriteString(text)
		return
	}
	s.Write(escape(text))
}

// isPlain reports whether a text is safe in HTML as it is.
func isPlain(text string) bool {
	for i := range len(text) {
		if c := text[i]; c >= utf8.RuneSelf || c < ' ' || c == '<' || c == '>' || c == '&' || c == '"' {
			return false
		}
	}
	return true
}

// asWritten shows what is worked out as it stands in the text.
type asWritten struct{}

func (asWritten) Block(w *bytes.Buffer, b *Block) {
	w.WriteString(`<pre><code class="language-calc">`)
	for _, line := range b.Lines {
		w.Write(escape(line.Text))
		w.WriteByte('\n')
	}
	w.WriteString("</code></pre>\n")
}

func (asWritten) Slot(w *bytes.Buffer, s *Slot) { w.Write(escape(slotSource(s))) }

func (asWritten) SlotText(s *Slot) string { return slotSource(s) }

func (asWritten) Cell(w *bytes.Buffer, t *Table, row, col int) {
	w.Write(escape(t.Cells[row][col].Text))
}

func (asWritten) CellText(t *Table, row, col int) string { return t.Cells[row][col].Text }
