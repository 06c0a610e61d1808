package markdown

import (
	"bytes"
	"strings"
	"time"

	"github.com/yuin/goldmark/ast"

	"scarph/calc"
)

// Section is one dated piece of a file, or the whole of a file without dated
// headings. The sections of a file follow one another without gaps; text
// before the first dated heading is a section without a date, unless blank.
type Section struct {
	Date     string    // the ISO date that begins its heading, "" for none
	Title    string    // the text of Heading without the date, slots as they are written; "" for none
	Heading  *Heading  // the dated heading, else the first of level 1 or 2 outside of quotes and lists; nil for none
	Span     calc.Span // from the line of its heading to the next section
	Blocks   []*Block
	Slots    []*Slot
	Tables   []*Table
	Images   []*Image
	Headings []*Heading
	Links    []*Link

	index int
	nodes []ast.Node // its blocks at the top level
	runs  [][2]int   // ranges of nodes that make one block of HTML
}

// Heading is a heading at any depth.
type Heading struct {
	Level int
	Text  string    // plain text; slots as they are written
	ID    string    // unique in the file and steady while the values change
	Span  calc.Span // its text, without the marks
	slug  string    // what ID is made of: the text without the slots, whose names may be private
	top   bool      // it stands in no quote, list or note
	node  ast.Node
}

// Link is a link that someone can follow, with its address as a URL reference.
type Link struct {
	Destination string
	Text        string
	Span        calc.Span // the whole of it
}

// sectionOf returns the section in which an offset of the file lies.
func (d *Document) sectionOf(offset int) *Section {
	for _, s := range d.Sections {
		if offset < s.Span.End {
			return s
		}
	}
	return d.Sections[len(d.Sections)-1]
}

// splitSections cuts the body at its dated headings.
func (c *collector) splitSections(root ast.Node) {
	d := c.doc
	s := &Section{Span: calc.Span{Start: d.base}, nodes: make([]ast.Node, 0, root.ChildCount())}
	d.Sections = []*Section{s}
	for n := root.FirstChild(); n != nil; n = n.NextSibling() {
		date, line := c.dateOf(n)
		if date == "" {
			s.nodes = append(s.nodes, n)
			continue
		}
		s.Span.End = d.base + line
		s = d.beginSection(date, s.Span.End)
		s.nodes = []ast.Node{n}
	}
	s.Span.End = len(d.Source)
}

// beginSection adds a section that begins at an offset of the file. Nothing but blank
// lines before the first is no section.
func (d *Document) beginSection(date string, at int) *Section {
	if len(bytes.TrimSpace(d.Source[d.Sections[0].Span.Start:at])) == 0 {
		d.Sections = d.Sections[:0]
	}
	s := &Section{Date: date, Span: calc.Span{Start: at}}
	d.Sections = append(d.Sections, s)
	return s
}

// dateOf returns the date that begins a heading of level 1 or 2, and where the
// line of that heading begins.
func (c *collector) dateOf(n ast.Node) (date string, line int) {
	h, ok := n.(*ast.Heading)
	if !ok || h.Level > 2 || h.Lines().Len() == 0 {
		return "", 0
	}
	first := h.Lines().At(0)
	date, _ = cutDate(c.doc.plainText(n, slotSource))
	if date == "" {
		return "", 0
	}
	if _, err := time.Parse(time.DateOnly, date); err != nil {
		c.doc.problem(c.doc.segment(first), calc.CodeDate, date+" is no day of the calendar", "an entry's date is year-month-day, as 2027-05-02")
		return "", 0
	}
	return date, c.doc.lineStart(first.Start)
}

// cutDate splits a text that begins with a date written as 2027-05-02.
func cutDate(s string) (date, rest string) {
	const form = "0000-00-00"
	if len(s) < len(form) {
		return "", s
	}
	for i := range len(form) {
		if digit := '0' <= s[i] && s[i] <= '9'; digit != (form[i] == '0') || !digit && s[i] != '-' {
			return "", s
		}
	}
	date, rest = s[:len(form)], s[len(form):]
	if rest != "" && (isNameRune(firstRune(rest)) || rest[0] == '-') {
		return "", s
	}
	return date, strings.TrimLeft(rest, " \t\n:;,.–—|·")
}

// entitle gives a section its title when all its headings are known.
func (s *Section) entitle() {
	for _, h := range s.Headings {
		if h.Level <= 2 && h.top {
			s.Heading, s.Title = h, h.Text
			break
		}
	}
	if s.Date != "" && s.Heading != nil {
		_, s.Title = cutDate(s.Title)
	}
}
