package lang

import "scarph/calc"

// tree is an expression as the grammar reads it.
type tree struct {
	kind    treeKind
	word    string // the sign, the name, the field
	parts   []*tree
	at      calc.Span
	operand int // which, of an operand
	two     [2]*tree
}

type treeKind uint8

const (
	operandTree treeKind = iota
	nameTree             // a function's name that cannot stand alone
	truthTree            // true, false
	signTree             // a sign before one operand
	pairTree             // a sign between two
	choiceTree           // condition ? this : that
	listTree             // [a, b]
	fieldTree            // x.field; word is "" for x[…]
	callTree             // name(…)
	oddTree              // what the grammar knows and we do not mean
)

// trees are the parts of one expression. They are not kept when it has been compiled, and
// the next takes their room.
type trees []tree

// begin makes room for an expression of so many symbols.
func (z *trees) begin(symbols int) {
	if cap(*z) < symbols {
		*z = make(trees, 0, symbols)
	}
	*z = (*z)[:0]
}

func (z *trees) add(t tree) *tree {
	if len(*z) == cap(*z) { // those that are pointed at stay where they are
		*z = make(trees, 0, 2*cap(*z)+4)
	}
	*z = append(*z, t)
	return &(*z)[len(*z)-1]
}

// pair is a tree of one part or two.
func (z *trees) pair(kind treeKind, word string, at calc.Span, a, b *tree) *tree {
	t := z.add(tree{kind: kind, word: word, at: at, two: [2]*tree{a, b}})
	t.parts = t.two[:]
	if b == nil {
		t.parts = t.two[:1]
	}
	return t
}

// treeError is why a text is no expression.
type treeError struct {
	at   calc.Span
	word string // what stands there
	why  treeFault
}

type treeFault uint8

const (
	strayFault    treeFault = iota // something stands where it cannot
	shortFault                     // the text stops short
	argumentFault                  // a call wants more arguments
)
