package markdown

import (
	"bytes"
	"sync"

	"github.com/yuin/goldmark/ast"
	extensionast "github.com/yuin/goldmark/extension/ast"
	"github.com/yuin/goldmark/text"

	"scarph/calc"
)

// MaxBytes is the largest file that is read. A larger one gives a document
// with one problem and nothing else.
const MaxBytes = 4 << 20

// Document is one Markdown file, read. It does not change after Parse and may
// be rendered from several goroutines at once.
type Document struct {
	Source      []byte
	FrontMatter calc.Span  // the lines between the --- lines; empty when there are none
	Sections    []*Section // at least one
	Problems    []Problem  // in the order of the file

	body  []byte // Source after the byte order mark and the front matter
	base  int    // the offset of body in Source
	marks marks

	pieces []stretch // what Reparse put the document together from
	once   sync.Once
	whole  *Document // the same with its tree, made when it is rendered
}

// Problem is something in the file that cannot be read as it seems to be meant.
type Problem struct {
	Span    calc.Span
	Code    calc.Code
	Message string
	Hint    string
}

// marks tie what was found to the nodes it was found in, for rendering.
type marks struct {
	blocks   map[ast.Node]*Block
	tables   map[ast.Node]*Table
	images   map[ast.Node]*Image
	headings map[ast.Node]*Heading
	html     map[ast.Node]string            // what is left of raw HTML
	notes    map[int]*extensionast.Footnote // by their number in the file
}

// Parse reads one Markdown file. It keeps src, which must not be changed
// afterwards. Every span counts bytes of src.
func Parse(src []byte) *Document {
	d := &Document{Source: src}
	if len(src) > MaxBytes {
		d.Sections = []*Section{{Span: calc.Span{End: len(src)}}}
		d.problem(calc.Span{}, calc.CodeLimit, "this file is larger than 4 MiB", "split it into entries")
		return d
	}
	d.base = d.readFrontMatter()
	d.body = src[d.base:]
	d.read(pageParser)
	return d
}

// read parses the body and collects what is in it.
func (d *Document) read(p markdownParser) {
	d.marks = newMarks()
	root, ends := p.parse(d.body)
	c := collector{doc: d, ends: ends}
	c.collect(root)
	d.finish()
}

func newMarks() marks {
	return marks{
		blocks:   map[ast.Node]*Block{},
		tables:   map[ast.Node]*Table{},
		images:   map[ast.Node]*Image{},
		headings: map[ast.Node]*Heading{},
		html:     map[ast.Node]string{},
		notes:    map[int]*extensionast.Footnote{},
	}
}

// span turns offsets of the body into a span of the file.
func (d *Document) span(start, stop int) calc.Span {
	return calc.Span{Start: d.base + start, End: d.base + stop}
}

// segment turns a goldmark segment into a span of the file.
func (d *Document) segment(s text.Segment) calc.Span { return d.span(s.Start, s.Stop) }

// text returns the bytes under a span as a string.
func (d *Document) text(s calc.Span) string { return string(d.Source[s.Start:s.End]) }

func (d *Document) problem(s calc.Span, code calc.Code, message, hint string) {
	d.Problems = append(d.Problems, Problem{s, code, message, hint})
}

// lineStart returns the offset in the body at which the line around i begins.
func (d *Document) lineStart(i int) int { return bytes.LastIndexByte(d.body[:i], '\n') + 1 }

// lineEnd returns the offset in the body at which the line around i ends,
// without its line end.
func (d *Document) lineEnd(i int) int {
	n := bytes.IndexByte(d.body[i:], '\n')
	if n < 0 {
		return len(d.body)
	}
	end := i + n
	if end > i && d.body[end-1] == '\r' {
		end--
	}
	return end
}
