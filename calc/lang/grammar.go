package lang

import "scarph/calc"

// The grammar of expressions, read by hand: at a small part of the cost of a general-purpose
// expression library's parser, which would make a page's kernel half as large again. A
// test holds it to that library, tree by tree and fault by fault. Loosest first:
//
//	a ? b : c    or    and    == != < <= > >=    ..    + −    * /    ^ (to the right)
//
// A sign before an operand binds tighter than * and looser than ^; not binds tighter
// than + and looser than *. Comparisons chain: a < b < c is a < b and b < c.

// strength of a sign between two operands; 0 for what is none.
func strength(sign string) int {
	switch sign {
	case "or":
		return 10
	case "and":
		return 15
	case "==", "!=", "<", "<=", ">", ">=":
		return 20
	case "..":
		return 25
	case "+", "-":
		return 30
	case "*", "/":
		return 60
	case "^":
		return 100
	}
	return 0
}

// unaryStrength is that of a sign before one operand; 0 for what is none.
func unaryStrength(sign string) int {
	switch sign {
	case "not", "!":
		return 50
	case "-", "+":
		return 90
	}
	return 0
}

// foreign reports whether a word cannot be a name, for it is one of the library's grammar.
func foreign(word string) bool {
	switch word {
	case "in", "matches", "contains", "startsWith", "endsWith", "let", "if", "else":
		return true
	}
	return false
}

// overTwo tells of the calls that take a list and one expression of its elements how many
// arguments they must have and may have; 0 and 0 of others.
func overTwo(name string) (least, most int) {
	switch name {
	case "all", "none", "any", "one", "filter", "map", "find", "findIndex", "findLast", "findLastIndex", "groupBy":
		return 2, 2
	case "count", "sum":
		return 1, 2
	case "sortBy", "reduce":
		return 2, 3
	}
	return 0, 0
}

// parseTree reads symbols by the grammar above; its trees lie in a given room.
func parseTree(symbols []symbol, room *trees) (*tree, *treeError) {
	room.begin(len(symbols))
	g := &grammar{symbols: symbols, trees: room}
	g.next()
	t := g.expression(0)
	if g.kind != endSymbol {
		g.stray()
	}
	if g.err != nil {
		return nil, g.err
	}
	return t, nil
}

// grammar is the reading of one expression. The symbol is what stands next.
type grammar struct {
	symbol
	symbols []symbol // behind it
	trees   *trees
	err     *treeError
}

// next steps over what stands next.
func (g *grammar) next() {
	if len(g.symbols) == 0 {
		g.symbol = symbol{at: g.at}
		return
	}
	g.symbol, g.symbols = g.symbols[0], g.symbols[1:]
	if g.kind == nameSymbol && foreign(g.word) {
		g.kind = signSymbol
	}
}

func (g *grammar) fail(why treeFault) {
	if g.err == nil {
		g.err = &treeError{at: g.at, word: g.word, why: why}
	}
}

func (g *grammar) stray() {
	if g.kind == endSymbol {
		g.fail(shortFault)
		return
	}
	g.fail(strayFault)
}

func (g *grammar) expect(sign string) {
	if !g.is(sign) {
		g.stray()
		return
	}
	g.next()
}

func (g *grammar) is(sign string) bool { return g.kind == signSymbol && g.word == sign && g.err == nil }

// expression reads operands and the signs between them that bind at least as tight
// as they must.
func (g *grammar) expression(tight int) *tree {
	if g.err != nil {
		return nil
	}
	left := g.operand()
	for g.err == nil && g.kind == signSymbol {
		s := strength(g.word)
		if s == 0 || s < tight {
			break
		}
		sign, at := g.word, g.at
		g.next()
		switch {
		case isOrder(sign):
			left = g.comparison(left, sign, at, s)
		case sign == "^":
			left = g.trees.pair(pairTree, sign, at, left, g.expression(s))
		default:
			left = g.trees.pair(pairTree, sign, at, left, g.expression(s+1))
		}
	}
	if g.is("not") {
		g.next()
		g.stray()
	}
	for tight == 0 && g.is("?") {
		at := g.at
		g.next()
		yes := left
		if !g.is(":") {
			yes = g.expression(0)
		}
		g.expect(":")
		no := g.expression(0)
		left = g.trees.add(tree{kind: choiceTree, at: at, parts: []*tree{left, yes, no}})
	}
	return left
}

func isOrder(sign string) bool {
	return sign == "<" || sign == "<=" || sign == ">" || sign == ">="
}

// comparison reads a < b, and a < b < c as a < b and b < c.
func (g *grammar) comparison(left *tree, sign string, at calc.Span, strength int) *tree {
	var all *tree
	for {
		right := g.expression(strength + 1)
		one := g.trees.pair(pairTree, sign, at, left, right)
		if all == nil {
			all = one
		} else {
			all = g.trees.pair(pairTree, "&&", at, all, one)
		}
		if g.err != nil || g.kind != signSymbol || !isOrder(g.word) {
			return all
		}
		left, sign, at = right, g.word, g.at
		g.next()
	}
}

func (g *grammar) operand() *tree {
	this := g.symbol
	switch {
	case this.kind == operandSymbol:
		g.next()
		return g.fields(g.trees.add(tree{kind: operandTree, at: this.at, operand: this.operand}))
	case this.kind == signSymbol && unaryStrength(this.word) > 0:
		g.next()
		return g.fields(g.trees.pair(signTree, this.word, this.at, g.expression(unaryStrength(this.word)), nil))
	case g.is("("):
		g.next()
		t := g.expression(0)
		g.expect(")")
		return g.fields(t)
	case g.is("["):
		g.next()
		return g.fields(g.trees.add(tree{kind: listTree, at: this.at, parts: g.several("]")}))
	case this.kind != nameSymbol:
		g.stray()
		return nil
	}
	g.next()
	switch {
	case this.word == "true" || this.word == "false":
		return g.trees.add(tree{kind: truthTree, word: this.word, at: this.at})
	case this.word == "nil":
		return g.trees.add(tree{kind: oddTree, at: this.at})
	case g.is("("):
		return g.fields(g.trees.add(tree{kind: callTree, word: this.word, at: this.at, parts: g.arguments(this.word)}))
	}
	return g.fields(g.trees.add(tree{kind: nameTree, word: this.word, at: this.at}))
}

func (g *grammar) arguments(name string) []*tree {
	g.expect("(")
	least, most := overTwo(name)
	if most == 0 {
		return g.several(")")
	}
	var list []*tree
	for len(list) < most && g.err == nil {
		if g.is(")") {
			if len(list) < least {
				g.fail(argumentFault)
			}
			break
		}
		if len(list) > 0 {
			g.expect(",")
		}
		list = append(list, g.expression(0))
	}
	if g.is(",") {
		g.next()
	}
	g.expect(")")
	return list
}

// several reads expressions between commas up to a closing sign; one comma may stand
// before it.
func (g *grammar) several(closing string) []*tree {
	list := make([]*tree, 0, 3)
	for !g.is(closing) && g.err == nil {
		if len(list) > 0 {
			g.expect(",")
			if g.is(closing) {
				break
			}
		}
		list = append(list, g.expression(0))
	}
	g.expect(closing)
	return list
}

// fields reads what follows an operand: .field, [index].
func (g *grammar) fields(t *tree) *tree {
	for g.err == nil && g.kind == signSymbol {
		switch g.word {
		case ".":
			g.next()
			this := g.symbol
			if this.kind != fieldSymbol && this.kind != nameSymbol {
				g.stray()
				return t
			}
			g.next()
			t = g.trees.pair(fieldTree, this.word, this.at, t, nil)
			if g.is("(") {
				g.next()
				g.several(")")
				t = g.trees.add(tree{kind: oddTree, at: this.at})
			}
		case "[":
			at := g.at
			g.next()
			if !g.is(":") {
				g.expression(0)
			}
			kind := fieldTree
			if g.is(":") {
				kind = oddTree
				g.next()
				if !g.is("]") {
					g.expression(0)
				}
			}
			g.expect("]")
			t = g.trees.pair(kind, "", at, t, nil)
		default:
			return t
		}
	}
	return t
}
