package lang

import "unicode"

// The grammar of expressions, read by hand: at a third of the cost of a general-purpose
// expression library's parser, which would make a page's kernel half as large again. A
// test holds it to that library, tree by tree and fault by fault. Loosest first:
//
//	a ? b : c    or    and    == != < <= > >=    ..    + −    * /    ^ (to the right)
//
// A sign before an operand binds tighter than * and looser than ^; not binds tighter
// than + and looser than *. Comparisons chain: a < b < c is a < b and b < c.

// strengths of the signs between two operands.
var strengths = map[string]int{
	"or": 10, "and": 15, "==": 20, "!=": 20, "<": 20, "<=": 20, ">": 20, ">=": 20,
	"..": 25, "+": 30, "-": 30, "*": 60, "/": 60, "^": 100,
}

// unarySigns are the strengths of the signs before one operand.
var unarySigns = map[string]int{"not": 50, "!": 50, "-": 90, "+": 90}

// foreign are words of the library's grammar that cannot be names.
var foreign = map[string]bool{"in": true, "matches": true, "contains": true, "startsWith": true, "endsWith": true, "let": true, "if": true, "else": true}

// overTwo are the calls that take a list and one expression of its elements, by how
// many arguments they must have and may have.
var overTwo = map[string][2]int{
	"all": {2, 2}, "none": {2, 2}, "any": {2, 2}, "one": {2, 2}, "filter": {2, 2}, "map": {2, 2}, "count": {1, 2}, "sum": {1, 2},
	"find": {2, 2}, "findIndex": {2, 2}, "findLast": {2, 2}, "findLastIndex": {2, 2}, "groupBy": {2, 2}, "sortBy": {2, 3}, "reduce": {2, 3},
}

// parseTree reads a masked text by the grammar above.
func parseTree(text []rune) (*tree, *treeError) {
	g := &grammar{text: text}
	g.next()
	t := g.expression(0)
	if g.word != "" {
		g.stray()
	}
	if g.err != nil {
		return nil, g.err
	}
	return t, nil
}

// grammar is the reading of one text. word is the sign or name that stands next, ""
// at the end.
type grammar struct {
	text []rune
	at   int // after word
	word string
	from int
	name bool // word is a name
	err  *treeError
}

// next steps over the word that stands next.
func (g *grammar) next() {
	for g.at < len(g.text) && unicode.IsSpace(g.text[g.at]) {
		g.at++
	}
	g.from, g.name = g.at, false
	if g.at == len(g.text) {
		g.word, g.from = "", max(0, g.at-1)
		return
	}
	n := 1
	switch r := g.text[g.at]; {
	case inWord(r):
		for g.at+n < len(g.text) && inWord(g.text[g.at+n]) {
			n++
		}
		g.name = true
	case g.at+1 < len(g.text) && isPairSign(r, g.text[g.at+1]):
		n = 2
	}
	g.word = string(g.text[g.at : g.at+n])
	g.name = g.name && g.word != "not" && g.word != "and" && g.word != "or" && !foreign[g.word]
	g.at += n
}

func inWord(r rune) bool { return r == '_' || unicode.IsLetter(r) || unicode.IsDigit(r) }

func isPairSign(a, b rune) bool {
	return a == '.' && b == '.' || b == '=' && (a == '=' || a == '!' || a == '<' || a == '>')
}

func (g *grammar) fail(why treeFault) {
	if g.err == nil {
		g.err = &treeError{from: g.from, why: why}
	}
}

func (g *grammar) stray() {
	if g.word == "" {
		g.fail(shortFault)
		return
	}
	g.fail(strayFault)
}

func (g *grammar) expect(sign string) {
	if g.word != sign || g.name {
		g.stray()
		return
	}
	g.next()
}

func (g *grammar) is(sign string) bool { return g.word == sign && !g.name && g.err == nil }

// expression reads operands and the signs between them that bind at least as tight
// as strength.
func (g *grammar) expression(strength int) *tree {
	if g.err != nil {
		return nil
	}
	left := g.operand()
	for g.err == nil && !g.name {
		s, ok := strengths[g.word]
		if !ok || s < strength {
			break
		}
		sign, from := g.word, g.from
		g.next()
		switch {
		case isOrder(sign):
			left = g.comparison(left, sign, from, s)
		case sign == "^":
			left = &tree{kind: pairTree, word: sign, from: from, parts: []*tree{left, g.expression(s)}}
		default:
			left = &tree{kind: pairTree, word: sign, from: from, parts: []*tree{left, g.expression(s + 1)}}
		}
	}
	if g.is("not") {
		g.next()
		g.stray()
	}
	for strength == 0 && g.is("?") {
		g.next()
		yes := left
		if !g.is(":") {
			yes = g.expression(0)
		}
		g.expect(":")
		no := g.expression(0)
		left = &tree{kind: choiceTree, from: g.from, parts: []*tree{left, yes, no}}
	}
	return left
}

func isOrder(sign string) bool {
	return sign == "<" || sign == "<=" || sign == ">" || sign == ">="
}

// comparison reads a < b, and a < b < c as a < b and b < c.
func (g *grammar) comparison(left *tree, sign string, from, strength int) *tree {
	var all *tree
	for {
		right := g.expression(strength + 1)
		one := &tree{kind: pairTree, word: sign, from: from, parts: []*tree{left, right}}
		if all == nil {
			all = one
		} else {
			all = &tree{kind: pairTree, word: "&&", from: from, parts: []*tree{all, one}}
		}
		if g.err != nil || g.name || !isOrder(g.word) {
			return all
		}
		left, sign, from = right, g.word, g.from
		g.next()
	}
}

func (g *grammar) operand() *tree {
	from := g.from
	if s, ok := unarySigns[g.word]; ok && !g.name {
		sign := g.word
		g.next()
		return g.fields(&tree{kind: signTree, word: sign, from: from, parts: []*tree{g.expression(s)}})
	}
	switch {
	case g.is("("):
		g.next()
		t := g.expression(0)
		g.expect(")")
		return g.fields(t)
	case g.is("["):
		g.next()
		return g.fields(&tree{kind: listTree, from: from, parts: g.several("]")})
	case !g.name:
		g.stray()
		return nil
	}
	word := g.word
	g.next()
	switch {
	case word == "true" || word == "false":
		return &tree{kind: truthTree, word: word, from: from}
	case word == "nil":
		return &tree{kind: oddTree, from: from}
	case g.is("("):
		return g.fields(&tree{kind: callTree, word: word, from: from, parts: g.arguments(word)})
	}
	return g.fields(&tree{kind: nameTree, word: word, from: from})
}

func (g *grammar) arguments(name string) []*tree {
	g.expect("(")
	bounds, ok := overTwo[name]
	if !ok {
		return g.several(")")
	}
	var list []*tree
	for len(list) < bounds[1] && g.err == nil {
		if g.is(")") {
			if len(list) < bounds[0] {
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
	list := []*tree{}
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
	for g.err == nil && !g.name {
		switch g.word {
		case ".":
			g.next()
			word, from, name := g.word, g.from, g.name || g.word != "" && inWord([]rune(g.word)[0])
			if !name {
				g.stray()
				return t
			}
			g.next()
			t = &tree{kind: fieldTree, word: word, from: from, parts: []*tree{t}}
			if g.is("(") {
				g.next()
				g.several(")")
				t = &tree{kind: oddTree, from: from}
			}
		case "[":
			from := g.from
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
			t = &tree{kind: kind, from: from, parts: []*tree{t}}
		default:
			return t
		}
	}
	return t
}
