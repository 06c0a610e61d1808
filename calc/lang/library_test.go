package lang

import (
	"strings"

	"github.com/expr-lang/expr/ast"
	"github.com/expr-lang/expr/conf"
	"github.com/expr-lang/expr/file"
	"github.com/expr-lang/expr/parser"
)

// sharedConfig is the parser's configuration: no environment, no built-in limits
// of its own below ours. It is only read.
var sharedConfig = conf.CreateNew()

// libraryTree reads a masked text by the grammar of the expression library.
func libraryTree(text []rune) (*tree, *treeError) {
	t, err := parser.ParseWithConfig(string(text), sharedConfig)
	if err == nil {
		return treeOf(t.Node), nil
	}
	fe, ok := err.(*file.Error)
	if !ok {
		return nil, &treeError{}
	}
	e := &treeError{from: fe.From}
	switch {
	case strings.Contains(fe.Message, "EOF") || strings.Contains(fe.Message, "end of expression"):
		e.why = shortFault
	case strings.Contains(fe.Message, "at least"):
		e.why = argumentFault
	case strings.Contains(fe.Message, "maximum allowed nodes"):
		e.why = limitFault
	}
	return nil, e
}

// treeOf turns the library's tree into ours.
func treeOf(n ast.Node) *tree {
	t := &tree{kind: oddTree}
	if n == nil {
		return t
	}
	t.from = n.Location().From
	switch n := n.(type) {
	case *ast.IdentifierNode:
		t.kind, t.word = nameTree, n.Value
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
		if name, ok := n.Property.(*ast.StringNode); ok && !n.Optional {
			t.word = name.Value
		}
	case *ast.BuiltinNode:
		t.kind, t.word, t.parts = callTree, n.Name, treesOf(n.Arguments...)
	case *ast.CallNode:
		if id, ok := n.Callee.(*ast.IdentifierNode); ok {
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
