package markdown

import (
	"bytes"
	"fmt"
	"strings"
	"testing"
	"unicode/utf8"

	"golang.org/x/net/html"
	"golang.org/x/net/html/atom"

	"scarph/calc"
)

// checkDocument reads and renders a file and holds the outcome to what must be
// true of every file: spans are exact, what is found is found again in its own
// text, and the HTML is balanced, harmless and does not lean on a browser's
// mending.
func checkDocument(t *testing.T, src []byte) {
	t.Helper()
	before := bytes.Clone(src)
	d := Parse(src)
	checkSpans(t, d)
	for _, s := range d.Sections {
		checkHTML(t, d.Render(s, nil, Options{}))
		options := Options{IDPrefix: "x-", WithoutTitle: true}
		asIs := d.Render(s, nil, options)
		blocks := d.Render(s, loud{}, options)
		checkHTML(t, blocks)
		if len(blocks) != len(asIs) {
			t.Errorf("%d blocks with results, %d without", len(blocks), len(asIs))
		}
		checkLoud(t, d, s, strings.Join(blocks, ""))
		if text := d.PlainText(s, loud{}); !utf8.ValidString(text) {
			t.Errorf("plain text is not UTF-8: %q", text)
		}
	}
	if !bytes.Equal(before, src) {
		t.Error("the source was changed")
	}
}

func checkSpans(t *testing.T, d *Document) {
	t.Helper()
	is := func(what string, s calc.Span, text string) {
		t.Helper()
		if s.Start < 0 || s.End < s.Start || s.End > len(d.Source) {
			t.Fatalf("%s %q: span %v is outside of %d bytes", what, text, s, len(d.Source))
		}
		if got := d.text(s); got != text {
			t.Errorf("%s %q: span %v holds %q", what, text, s, got)
		}
	}
	at := d.Sections[0].Span.Start
	for i, s := range d.Sections {
		if i > 0 && s.Span.Start != at {
			t.Errorf("section %d begins at %d, the one before ends at %d", i, s.Span.Start, at)
		}
		at = s.Span.End
		last := -1
		for j, x := range s.Slots {
			is("slot", x.Span, x.Text)
			if n := slotLength(d.Source[x.Span.Start-1:]); n != len(x.Text)+2 {
				t.Errorf("slot %q is not found again", x.Text)
			}
			if x.Index != j || x.Span.Start < last {
				t.Errorf("slot %q is out of order", x.Text)
			}
			last = x.Span.End
		}
		for _, b := range s.Blocks {
			checkBlock(t, d, b, is)
		}
		for _, tab := range s.Tables {
			checkTable(t, d, tab, is)
		}
		for _, image := range s.Images {
			if text := d.text(image.Span); !strings.HasPrefix(text, "![") || !strings.HasSuffix(text, ")") && !strings.HasSuffix(text, "]") {
				t.Errorf("image %q", text)
			}
		}
		for _, h := range s.Headings {
			is("heading", h.Span, d.text(h.Span))
		}
		for _, l := range s.Links {
			if text := d.text(l.Span); text == "" || !strings.Contains("[<", text[:1]) || !strings.Contains(")]>", text[len(text)-1:]) {
				t.Errorf("link %q", text)
			}
		}
	}
	if at != len(d.Source) {
		t.Errorf("the last section ends at %d of %d", at, len(d.Source))
	}
	for _, p := range d.Problems {
		is("problem", p.Span, d.text(p.Span))
		if p.Message == "" || p.Hint == "" || p.Code == "" {
			t.Errorf("problem %+v lacks something", p)
		}
	}
}

func checkBlock(t *testing.T, d *Document, b *Block, is func(string, calc.Span, string)) {
	t.Helper()
	is("block", b.Span, d.text(b.Span))
	if !strings.HasPrefix(d.text(b.Span), "```") && !strings.HasPrefix(d.text(b.Span), "~~~") {
		t.Errorf("block %q", d.text(b.Span))
	}
	at := b.Span.Start
	for _, line := range b.Lines {
		is("line", line.Span, line.Text)
		if line.Span.Start <= at || line.Span.End > b.Span.End {
			t.Errorf("line %q at %v is out of order in %v", line.Text, line.Span, b.Span)
		}
		at = line.Span.End
		if rest := d.Source[at:]; len(rest) > 0 && rest[0] != '\n' && !bytes.HasPrefix(rest, []byte("\r\n")) {
			t.Errorf("line %q does not end where its line ends", line.Text)
		}
		if strings.Contains(line.Text, "\n") {
			t.Errorf("line %q is more than one", line.Text)
		}
	}
}

func checkTable(t *testing.T, d *Document, tab *Table, is func(string, calc.Span, string)) {
	t.Helper()
	is("table", tab.Span, d.text(tab.Span))
	within := func(s calc.Span) {
		if s.Start < tab.Span.Start || s.End > tab.Span.End {
			t.Errorf("%v lies outside of table %v", s, tab.Span)
		}
	}
	within(tab.NameSpan)
	if len(tab.Rows) != len(tab.Cells) {
		t.Errorf("%d rows of labels, %d of cells", len(tab.Rows), len(tab.Cells))
	}
	for i, row := range tab.Cells {
		within(tab.Rows[i].Span)
		if len(row) != len(tab.Columns) {
			t.Errorf("row %d has %d cells, %d columns", i, len(row), len(tab.Columns))
		}
		for _, c := range row {
			is("cell", c.Span, c.Text)
			within(c.Span)
			if c.Slot != nil && c.Text != "{"+c.Slot.Text+"}" {
				t.Errorf("cell %q with slot %q", c.Text, c.Slot.Text)
			}
		}
	}
}

// loud marks every result, with signs that must be escaped where only text may
// stand.
type loud struct{}

func (loud) Block(w *bytes.Buffer, b *Block) { fmt.Fprintf(w, "<div>block=%d</div>", b.Index) }
func (loud) Slot(w *bytes.Buffer, s *Slot)   { fmt.Fprintf(w, "<data>slot=%d.</data>", s.Index) }
func (loud) SlotText(s *Slot) string         { return fmt.Sprintf(`"<script>&slot=%d.`, s.Index) }
func (loud) Cell(w *bytes.Buffer, _ *Table, row, col int) {
	fmt.Fprintf(w, "<data>cell=%d,%d</data>", row, col)
}

func (loud) CellText(_ *Table, row, col int) string { return fmt.Sprintf("cell=%d,%d", row, col) }

// checkLoud: each block and slot is shown once, but for those in notes that
// nobody refers to, or in a note that several refer to.
func checkLoud(t *testing.T, d *Document, s *Section, page string) {
	t.Helper()
	if len(d.marks.notes) > 0 || bytes.Contains(d.Source, []byte("[^")) {
		return
	}
	for _, b := range s.Blocks {
		if n := strings.Count(page, fmt.Sprintf("<div>block=%d</div>", b.Index)); n != 1 {
			t.Errorf("block %d is shown %d times in %s", b.Index, n, page)
		}
	}
	for _, x := range s.Slots {
		text := strings.Count(page, fmt.Sprintf("&quot;&lt;script&gt;&amp;slot=%d.", x.Index))
		n := strings.Count(page, fmt.Sprintf("<data>slot=%d.</data>", x.Index))
		if x.InHeading && s.Heading != nil && d.text(s.Heading.Span) != "" && x.Span.Start >= s.Heading.Span.Start && x.Span.End <= s.Heading.Span.End {
			continue // the title was left out
		}
		if inDataCell(s, x) {
			continue
		}
		if x.InAlt && (text != 1 && n == 0) || !x.InAlt && n != 1 {
			t.Errorf("slot %d is shown %d times, %d as text, in %s", x.Index, n, text, page)
		}
	}
}

func inDataCell(s *Section, x *Slot) bool {
	for _, t := range s.Tables {
		if t.Span.Start <= x.Span.Start && x.Span.End <= t.Span.End {
			return true
		}
	}
	return false
}

var voidTags = map[string]bool{"br": true, "hr": true, "img": true, "input": true, "wbr": true}

// shownTags is every tag that a page may hold, results apart.
var shownTags = strings.Fields(`h1 h2 h3 h4 h5 h6 p blockquote ul ol li pre code em strong a img br hr del input
	table thead tbody tr th td div section sup figure figcaption dl dt dd span data
	abbr b cite dfn i ins kbd mark q s samp small sub u var wbr summary details`)

func checkHTML(t *testing.T, blocks []string) {
	t.Helper()
	ids := map[string]bool{}
	for _, block := range blocks {
		if !utf8.ValidString(block) || strings.ContainsRune(block, 0) {
			t.Errorf("not clean text: %q", block)
		}
		var open []string
		z := html.NewTokenizer(strings.NewReader(block))
		for z.Next() != html.ErrorToken {
			token := z.Token()
			switch token.Type {
			case html.CommentToken, html.DoctypeToken:
				t.Errorf("%v in %s", token, block)
			case html.StartTagToken, html.SelfClosingTagToken:
				checkTag(t, token, ids)
				if !voidTags[token.Data] {
					open = append(open, token.Data)
				}
			case html.EndTagToken:
				if len(open) == 0 || open[len(open)-1] != token.Data {
					t.Fatalf("</%s> closes %v in %s", token.Data, open, block)
				}
				open = open[:len(open)-1]
			}
		}
		if len(open) > 0 {
			t.Errorf("%v stay open in %s", open, block)
		}
		checkTree(t, block)
	}
}

func checkTag(t *testing.T, token html.Token, ids map[string]bool) {
	t.Helper()
	found := false
	for _, tag := range shownTags {
		found = found || tag == token.Data
	}
	if !found {
		t.Errorf("tag %v", token)
	}
	for _, a := range token.Attr {
		switch a.Key {
		case "id":
			if ids[a.Val] {
				t.Errorf("id %q stands twice", a.Val)
			}
			ids[a.Val] = true
		case "href":
			if !mayFollow(a.Val) {
				t.Errorf("address %q", a.Val)
			}
		case "src":
			if token.Data != "img" || !mayShow(a.Val) {
				t.Errorf("address %q of %s", a.Val, token.Data)
			}
		case "title", "alt", "lang", "dir", "open", "class", "start", "loading", "type", "disabled", "checked",
			"tabindex", "role", "scope", "aria-label":
		default:
			t.Errorf("attribute %s of %v", a.Key, token)
		}
	}
}

// checkTree: a browser that builds the tree by the rules of HTML, closing and
// moving tags as it must, ends with the tree that is written.
func checkTree(t *testing.T, block string) {
	t.Helper()
	parent := &html.Node{Type: html.ElementNode, Data: "div", DataAtom: atom.Div}
	nodes, err := html.ParseFragment(strings.NewReader(block), parent)
	if err != nil {
		return // deeper than the parser goes
	}
	var built strings.Builder
	for _, n := range nodes {
		outline(&built, n)
	}
	var written strings.Builder
	z := html.NewTokenizer(strings.NewReader(block))
	for z.Next() != html.ErrorToken {
		switch token := z.Token(); token.Type {
		case html.StartTagToken, html.SelfClosingTagToken:
			written.WriteString("<" + token.Data)
			if voidTags[token.Data] {
				written.WriteString(">")
			}
		case html.EndTagToken:
			written.WriteString(">")
		}
	}
	if built.String() != written.String() {
		t.Errorf("a browser makes\n%s\nof\n%s\nin\n%s", built.String(), written.String(), block)
	}
}

func outline(b *strings.Builder, n *html.Node) {
	if n.Type == html.ElementNode {
		b.WriteString("<" + n.Data)
	}
	for c := n.FirstChild; c != nil; c = c.NextSibling {
		outline(b, c)
	}
	if n.Type == html.ElementNode {
		b.WriteString(">")
	}
}
