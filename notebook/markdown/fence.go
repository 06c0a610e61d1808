package markdown

import (
	"bytes"
	"strings"
	"unicode"

	"github.com/yuin/goldmark/ast"

	"scarph/calc"
)

// Block is a fenced code block whose info string begins with the word calc.
type Block struct {
	Index int       // its place among the blocks of its section
	Info  string    // the words after calc, as "private"
	Span  calc.Span // from the opening mark to the end of the closing line
	Lines []Line
	// Private keeps the block out of all that is published: its head says so, or cannot
	// be understood.
	Private bool
}

// Line is one line inside a fence, without its line end and without what
// belongs to a quote or list around the fence.
type Line struct {
	Text string
	Span calc.Span
}

func (c *collector) addFence(n *ast.FencedCodeBlock) {
	d := c.doc
	info, clear, ok := calcInfo(n, d.body)
	if !ok {
		return
	}
	open := d.openingFence(n.Info.Segment.Start)
	b := &Block{Info: info, Private: info == privateWord || !clear}
	if !clear {
		d.problem(d.segment(n.Info.Segment), calc.CodeSyntax, "the head of this block cannot be understood; until it can, the block is private",
			"write calc "+privateWord+" to keep it to yourself, or calc alone")
	}
	end := d.lineEnd(n.Info.Segment.Start)
	if count := n.Lines().Len(); count > 0 {
		b.Lines = make([]Line, count)
		first := n.Lines().At(0).Start
		text := string(d.body[first:n.Lines().At(count-1).Stop]) // one for all its lines
		for i := range b.Lines {
			at := n.Lines().At(i)
			end = trimLineEnd(d.body, at.Start, at.Stop)
			b.Lines[i] = Line{text[at.Start-first : end-first], d.span(at.Start, end)}
		}
	}
	if closed, ok := d.closingFence(open, end); ok {
		end = closed
	} else {
		d.problem(d.span(open, d.lineEnd(open)), calc.CodeSyntax, "this calc block is never closed",
			"write "+strings.Repeat(string(d.body[open]), 3)+" on a line of its own after its last statement")
	}
	b.Span = d.span(open, end)
	d.marks.blocks[n] = b
	c.section.Blocks = append(c.section.Blocks, b)
}

// privateWord is the one word that may stand behind calc.
const privateWord = "private"

// calcInfo returns the words after calc in the info string of a fence. The head is clear
// when it can be understood. One that cannot is still ours when calc is among its words,
// or private is: what somebody meant to keep must not go out as a piece of program text.
func calcInfo(n *ast.FencedCodeBlock, body []byte) (rest string, clear, ok bool) {
	if n.Info == nil {
		return "", false, false
	}
	info := string(n.Info.Segment.Value(body))
	word, rest := cutWord(info)
	if isCalcWord(word) && (rest == "" || rest == privateWord) {
		return rest, true, true
	}
	return rest, false, isCalcWord(word) || namesCalc(info)
}

// namesCalc reports whether one of the words of an info string, whatever signs stand
// around them, is calc or private, or both in one.
func namesCalc(info string) bool {
	for _, w := range strings.FieldsFunc(strings.ToLower(info), func(r rune) bool { return !unicode.IsLetter(r) }) {
		after, begins := strings.CutPrefix(w, "calc")
		if w == "calc" || w == privateWord || begins && calc.Nearest(after, []string{privateWord}) != "" {
			return true
		}
	}
	return false
}

// cutWord splits a text after its first word.
func cutWord(s string) (word, rest string) {
	if i := strings.IndexAny(s, " \t"); i >= 0 {
		return s[:i], strings.TrimSpace(s[i:])
	}
	return s, ""
}

// isCalcWord reports whether a word marks a fence as ours. A capital letter,
// which a telephone may put there, does not make the block text.
func isCalcWord(word string) bool { return strings.EqualFold(word, "calc") }

// openingFence returns the offset of the mark that opens a fence, given that
// of its info string.
func (d *Document) openingFence(info int) int {
	i := info
	for i > 0 && (d.body[i-1] == ' ' || d.body[i-1] == '\t') {
		i--
	}
	mark := d.body[i-1]
	for i > 0 && d.body[i-1] == mark {
		i--
	}
	return i
}

// closingFence returns the end of the line after offset last, when it closes
// the fence that opens at offset open: it holds only the mark, as deep in
// quotes as the opening one.
func (d *Document) closingFence(open, last int) (end int, ok bool) {
	_, next := cutLine(d.body, last)
	if next >= len(d.body) {
		return 0, false
	}
	line := d.body[next:d.lineEnd(next)]
	before, _ := cutQuotes(d.body[d.lineStart(open):open])
	after, rest := cutQuotes(line)
	rest = bytes.TrimRight(rest, " \t")
	return next + len(line), before == after && len(rest) >= 3 && len(bytes.Trim(rest, string(d.body[open]))) == 0
}

// cutQuotes counts the > signs that begin a line and returns what follows.
func cutQuotes(line []byte) (signs int, rest []byte) {
	for i, c := range line {
		switch c {
		case '>':
			signs++
		case ' ', '\t':
		default:
			return signs, line[i:]
		}
	}
	return signs, nil
}

// trimLineEnd moves stop before the line end that precedes it.
func trimLineEnd(body []byte, start, stop int) int {
	if stop > start && body[stop-1] == '\n' {
		stop--
		if stop > start && body[stop-1] == '\r' {
			stop--
		}
	}
	return stop
}
