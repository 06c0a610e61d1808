package markdown

import (
	"unicode/utf8"

	"github.com/yuin/goldmark/ast"
	"github.com/yuin/goldmark/parser"
	"github.com/yuin/goldmark/text"

	"scarph/calc"
)

// Slot is an expression in braces in running text, replaced by its value.
//
// It stands on one line; the first } closes it; its first character is a
// letter, _, a digit, (, =, - or not ASCII, so that {{, { x}, {}, {#id}, {.c}
// and {% %} stay text. \{ is a brace. There is no | in it, since tables split
// there. In code, in HTML and in the addresses of links there are no slots.
type Slot struct {
	Index     int       // its place among the slots of its section
	Text      string    // the expression, without braces
	Span      calc.Span // of Text
	InHeading bool
	InLink    bool // its HTML must hold nothing that can be activated
	InAlt     bool // only its plain text is shown, in an attribute
}

// maxSlot is the longest slot, in bytes; it also bounds what a line full of
// opening braces can cost.
const maxSlot = 1000

// slotLength returns the length of the slot, braces included, that line begins
// with, or 0 when it begins with none.
func slotLength(line []byte) int {
	if len(line) < 3 || line[0] != '{' || !opensSlot(line[1]) {
		return 0
	}
	for i, c := range line[1:min(len(line), maxSlot+2)] {
		switch c {
		case '}':
			return i + 2
		case '|', '\n', '\r':
			return 0
		}
	}
	return 0
}

func opensSlot(c byte) bool {
	switch {
	case 'a' <= c && c <= 'z', 'A' <= c && c <= 'Z', '0' <= c && c <= '9', c >= utf8.RuneSelf:
		return true
	}
	return c == '_' || c == '(' || c == '=' || c == '-'
}

// slotNode is a slot in the tree; at is its expression in the body.
type slotNode struct {
	ast.BaseInline
	at   text.Segment
	slot *Slot
}

var kindSlot = ast.NewNodeKind("Slot")

func (*slotNode) Kind() ast.NodeKind { return kindSlot }

func (n *slotNode) Dump(source []byte, level int) {
	ast.DumpHelper(n, source, level, map[string]string{"Expression": string(n.at.Value(source))}, nil)
}

// slotParser finds slots while lines are parsed; it must come after code spans
// and before links.
type slotParser struct{}

func (slotParser) Trigger() []byte { return []byte{'{'} }

func (slotParser) Parse(_ ast.Node, block text.Reader, _ parser.Context) ast.Node {
	line, at := block.PeekLine()
	n := slotLength(line)
	if n == 0 {
		return nil
	}
	block.Advance(n)
	return &slotNode{at: text.NewSegment(at.Start+1, at.Start+n-1)}
}
