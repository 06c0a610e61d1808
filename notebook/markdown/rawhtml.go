package markdown

import (
	"slices"
	"strings"

	"github.com/yuin/goldmark/ast"

	"scarph/calc"
)

// tagKind says where a tag of raw HTML may stand.
type tagKind int

const (
	tagRefused  tagKind = iota // shown as the text it is
	tagPhrasing                // within a line, holds phrasing content
	tagVoid                    // within a line, holds nothing
	tagRule                    // hr: a block that holds nothing
	tagText                    // a block that holds phrasing content
	tagFlow                    // a block that may hold blocks, Markdown too
)

// allowedTags is the whole of the raw HTML that a page keeps. Tags that load,
// lead, run, take input or set an outline are not on it.
var allowedTags = map[string]tagKind{
	"abbr": tagPhrasing, "b": tagPhrasing, "cite": tagPhrasing, "code": tagPhrasing, "del": tagPhrasing,
	"dfn": tagPhrasing, "em": tagPhrasing, "i": tagPhrasing, "ins": tagPhrasing, "kbd": tagPhrasing,
	"mark": tagPhrasing, "q": tagPhrasing, "s": tagPhrasing, "samp": tagPhrasing, "small": tagPhrasing,
	"span": tagPhrasing, "strong": tagPhrasing, "sub": tagPhrasing, "sup": tagPhrasing, "u": tagPhrasing,
	"var": tagPhrasing,
	"br":  tagVoid, "wbr": tagVoid,
	"hr": tagRule,
	"p":  tagText, "summary": tagText, "dt": tagText, "figcaption": tagText,
	"div": tagFlow, "details": tagFlow, "figure": tagFlow, "dl": tagFlow, "dd": tagFlow,
}

// onlyIn names the parent without which a tag means nothing.
var onlyIn = map[string]string{"summary": "details", "dt": "dl", "dd": "dl", "figcaption": "figure"}

// allowedAttribute reports whether an attribute may stay. There is no style,
// no class and no id, which belong to the page, and nothing with an address.
func allowedAttribute(tag, name, value string) bool {
	switch name {
	case "title", "lang":
		return true
	case "dir":
		return value == "ltr" || value == "rtl" || value == "auto"
	case "open":
		return tag == "details"
	}
	return false
}

// inlineHTML decides on the tags among the children of a paragraph, a heading,
// a cell or an emphasis: a tag stays when its partner is there too.
func (c *collector) inlineHTML(parent ast.Node) {
	d := c.doc
	var pieces []piece
	var owners []ast.Node
	for n := parent.FirstChild(); n != nil; n = n.NextSibling() {
		raw, ok := n.(*ast.RawHTML)
		if !ok {
			continue
		}
		var source strings.Builder
		for i := range raw.Segments.Len() {
			s := raw.Segments.At(i)
			source.Write(s.Value(d.body))
		}
		pieces = appendHTML(pieces, source.String(), len(owners))
		owners = append(owners, n)
	}
	pairTags(pieces)
	acceptTags(pieces, true)
	for _, p := range pieces {
		d.marks.html[owners[p.owner]] += p.show()
	}
}

// blockHTML decides on the tags of the blocks of raw HTML among siblings. A
// pair may enclose blocks of Markdown, as <details> does. It returns the
// ranges of siblings that such pairs make one.
func (c *collector) blockHTML(siblings []ast.Node) (runs [][2]int) {
	if !slices.ContainsFunc(siblings, isHTMLBlock) {
		return apart(len(siblings))
	}
	d := c.doc
	var pieces []piece
	for i, n := range siblings {
		if raw, ok := n.(*ast.HTMLBlock); ok {
			c.noteHidden(raw)
			pieces = appendHTML(pieces, d.htmlSource(raw), i)
		}
	}
	pairTags(pieces)
	acceptTags(pieces, false)
	end := make([]int, len(siblings)) // the last sibling that belongs to one
	for i := range end {
		end[i] = i
	}
	shown := make([]strings.Builder, len(siblings))
	tagged := make([]bool, len(siblings))
	for _, p := range pieces {
		shown[p.owner].WriteString(p.show())
		tagged[p.owner] = tagged[p.owner] || p.accepted
		if p.kind == pieceOpen && p.accepted {
			end[p.owner] = max(end[p.owner], pieces[p.partner].owner)
		}
	}
	for i, n := range siblings {
		if !isHTMLBlock(n) {
			continue
		}
		html := shown[i].String()
		if !tagged[i] && strings.TrimSpace(html) != "" {
			html = "<p>" + html + "</p>\n"
		}
		d.marks.html[n] = html
	}
	for i := 0; i < len(siblings); {
		last := i
		for j := i; j <= last; j++ {
			last = max(last, end[j])
		}
		runs = append(runs, [2]int{i, last + 1})
		i = last + 1
	}
	return runs
}

func isHTMLBlock(n ast.Node) bool { return n.Kind() == ast.KindHTMLBlock }

// apart returns n ranges of one.
func apart(n int) [][2]int {
	runs := make([][2]int, n)
	for i := range runs {
		runs[i] = [2]int{i, i + 1}
	}
	return runs
}

// noteHidden reports what raw HTML hides: it goes on until a blank line, and an
// entry or a calc block in it would be lost unseen. What stands in a comment is
// hidden on purpose.
func (c *collector) noteHidden(n *ast.HTMLBlock) {
	if n.HTMLBlockType != ast.HTMLBlockType6 && n.HTMLBlockType != ast.HTMLBlockType7 {
		return
	}
	d := c.doc
	for i := 1; i < n.Lines().Len(); i++ {
		at := n.Lines().At(i)
		line := strings.TrimSpace(string(at.Value(d.body)))
		what := hiddenThing(line)
		if what == "" {
			continue
		}
		d.problem(d.span(at.Start, trimLineEnd(d.body, at.Start, at.Stop)), calc.CodeSyntax,
			"this "+what+" stands in raw HTML and is not read", "leave a blank line above it, where the HTML ends")
	}
}

// hiddenThing says what a line would begin if it were Markdown.
func hiddenThing(line string) string {
	heading := strings.TrimLeft(line, "#")
	if date, _ := cutDate(strings.TrimSpace(heading)); date != "" && len(heading) < len(line) {
		return "entry"
	}
	info := strings.TrimLeft(line, "`~")
	if word, _ := cutWord(strings.TrimSpace(info)); len(line)-len(info) >= 3 && isCalcWord(word) {
		return "calc block"
	}
	return ""
}

// htmlSource returns the lines of a block of raw HTML.
func (d *Document) htmlSource(n *ast.HTMLBlock) string {
	var b strings.Builder
	for i := range n.Lines().Len() {
		line := n.Lines().At(i)
		b.Write(line.Value(d.body))
	}
	if n.HasClosure() {
		b.Write(n.ClosureLine.Value(d.body))
	}
	return b.String()
}

// show returns the HTML of a piece.
func (p piece) show() string {
	switch {
	case p.kind == pieceComment:
		return ""
	case p.accepted:
		return p.html
	}
	return escapeKeepingEntities(p.source)
}

// pairTags finds the partner of each tag. A pair that another one crosses is
// none.
func pairTags(pieces []piece) {
	var open []int
	count := map[string]int{} // of the open tags of a name
	for i := range pieces {
		switch p := &pieces[i]; {
		case p.kind == pieceOpen:
			open = append(open, i)
			count[p.name]++
		case p.kind == pieceClose && count[p.name] > 0:
			for p.partner < 0 {
				last := open[len(open)-1]
				open = open[:len(open)-1]
				count[pieces[last].name]--
				if pieces[last].name == p.name {
					pieces[last].partner, p.partner = i, last
				}
			}
		}
	}
}

// acceptTags marks the tags that are allowed where they stand, from the
// outside in.
func acceptTags(pieces []piece, inline bool) {
	var around []piece
	for i := range pieces {
		p := &pieces[i]
		switch p.kind {
		case pieceClose:
			if p.partner >= 0 && pieces[p.partner].accepted {
				p.accepted = true
				around = around[:len(around)-1]
			}
		case pieceVoid:
			p.accepted = mayStand(pieces, i, around, inline)
		case pieceOpen:
			if p.accepted = mayStand(pieces, i, around, inline); p.accepted {
				around = append(around, *p)
			}
		}
	}
}

// mayStand decides on the opening tag i, given the accepted tags around it.
func mayStand(pieces []piece, i int, around []piece, inline bool) bool {
	p := pieces[i]
	kind := allowedTags[p.name]
	parent := ""
	phrasing := inline
	if len(around) > 0 {
		parent = around[len(around)-1].name
		phrasing = phrasing || allowedTags[parent] != tagFlow
	}
	switch {
	case kind == tagVoid:
		return true
	case kind == tagRefused, onlyIn[p.name] != "" && onlyIn[p.name] != parent, parent == "dl" && onlyIn[p.name] != "dl":
		return false
	case kind != tagPhrasing && phrasing:
		return false
	case kind == tagRule:
		return true
	case p.partner < 0: // never closed
		return false
	}
	return inline || kind == tagFlow || p.owner == pieces[p.partner].owner
}
