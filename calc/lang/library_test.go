package lang

import (
	"strings"
	"unicode"

	"github.com/expr-lang/expr/ast"
	"github.com/expr-lang/expr/conf"
	"github.com/expr-lang/expr/file"
	"github.com/expr-lang/expr/parser"

	"scarph/calc"
)

// sharedConfig is the parser's configuration: no environment, no built-in limits
// of its own below ours. It is only read.
var sharedConfig = conf.CreateNew()

// The library reads text, we read symbols. A masked text stands for both: its operands are
// single letters of a script nobody keeps a boat's diary in (Tangut), and its words have
// spaces around them.

const firstMask, lastMask = 0x17000, 0x187F7

func masked(r rune) bool { return r >= firstMask && r <= lastMask }

// symbolsOf cuts a masked text into symbols; each has its rune for its place.
func symbolsOf(text []rune) []symbol {
	var list []symbol
	inWord := func(r rune) bool { return r == '_' || unicode.IsLetter(r) || unicode.IsDigit(r) }
	for i := 0; i < len(text); {
		n := 1
		s := symbol{kind: signSymbol}
		switch r := text[i]; {
		case unicode.IsSpace(r):
			i++
			continue
		case masked(r):
			s.kind, s.operand = operandSymbol, int(r-firstMask)
		case inWord(r):
			for i+n < len(text) && inWord(text[i+n]) {
				n++
			}
			s.kind = nameSymbol
		case i+1 < len(text) && strings.Contains(" .. == != <= >= ", " "+string(text[i:i+2])+" "):
			n = 2
		}
		s.word, s.at = string(text[i:i+n]), calc.Span{Start: i, End: i + n}
		if s.word == "not" || s.word == "and" || s.word == "or" {
			s.kind = signSymbol
		}
		list = append(list, s)
		i += n
	}
	return list
}

// libraryTree reads a masked text by the grammar of the expression library.
func libraryTree(text []rune) (*tree, *treeError) {
	t, err := parser.ParseWithConfig(string(text), sharedConfig)
	if err == nil {
		return treeOf(t.Node), nil
	}
	e := &treeError{}
	fe, ok := err.(*file.Error)
	if !ok {
		return nil, e
	}
	for _, s := range symbolsOf(text) {
		if s.at.Start <= fe.From && fe.From < s.at.End {
			e.at, e.word = s.at, s.word
		}
	}
	switch {
	case strings.Contains(fe.Message, "EOF") || strings.Contains(fe.Message, "end of expression"):
		e = &treeError{why: shortFault}
	case strings.Contains(fe.Message, "at least"):
		e.why = argumentFault
	}
	return nil, e
}

// treeOf turns the library's tree into ours.
func treeOf(n ast.Node) *tree {
	t := &tree{kind: oddTree}
	if n == nil {
		return t
	}
	t.at.Start = n.Location().From
	switch n := n.(type) {
	case *ast.IdentifierNode:
		t.kind, t.word = nameTree, n.Value
		if r := []rune(n.Value)[0]; masked(r) {
			t.kind, t.word, t.operand = operandTree, "", int(r-firstMask)
		}
	case *ast.BoolNode:
		t.kind, t.word = truthTree, "false"
		if n.Value {
			t.word = "true"
		}
	case *ast.UnaryNode:
		t.kind, t.word, t.parts = signTree, n.Operator, treesOf(n.Node)
	case *ast.BinaryNode:
		t.kind, t.word, t.parts = pairTree, n.Operator, treesOf(n.Left, n.Right)
	case *ast.ConditionalNode:
		t.kind, t.parts = choiceTree, treesOf(n.Cond, n.Exp1, n.Exp2)
	case *ast.ArrayNode:
		t.kind, t.parts = listTree, treesOf(n.Nodes...)
	case *ast.MemberNode:
		t.kind, t.parts = fieldTree, treesOf(n.Node)
		if name, ok := n.Property.(*ast.StringNode); ok && !n.Optional && !masked([]rune(name.Value)[0]) {
			t.word = name.Value
		}
	case *ast.BuiltinNode:
		t.kind, t.word, t.parts = callTree, n.Name, treesOf(n.Arguments...)
	case *ast.CallNode:
		if id, ok := n.Callee.(*ast.IdentifierNode); ok && !masked([]rune(id.Value)[0]) {
			t.kind, t.word, t.parts = callTree, id.Value, treesOf(n.Arguments...)
		}
	case *ast.PredicateNode:
		return treeOf(n.Node)
	}
	return t
}

func treesOf(nodes ...ast.Node) []*tree {
	list := make([]*tree, len(nodes))
	for i, n := range nodes {
		list[i] = treeOf(n)
	}
	return list
}

// odd reports whether a tree holds what no statement may.
func (t *tree) odd() bool {
	if t.kind == oddTree || t.kind == fieldTree && t.word == "" {
		return true
	}
	for _, p := range t.parts {
		if p.odd() {
			return true
		}
	}
	return false
}
