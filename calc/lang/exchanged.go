package lang

import (
	"strings"
	"unicode/utf8"

	"scarph/calc/trade"
)

// exchanged remarks on two arguments that bear each other's names: where a function
// wants port and starboard, survey.starboard and survey.port change the sign and nothing
// else says so.
func (c *compiler) exchanged(fn *trade.Function, args []*tree) string {
	names := make([][]string, len(args))
	for i, a := range args {
		names[i] = c.wordsOf(a)
	}
	for i := range args {
		for j := i + 1; j < len(args) && j < len(fn.Params); j++ {
			p, q := wordsIn(fn.Params[i].Name), wordsIn(fn.Params[j].Name)
			if common(names[i], q) && common(names[j], p) && !common(names[i], p) && !common(names[j], q) {
				return fn.Name + " wants " + fn.Params[i].Name + ", then " + fn.Params[j].Name + ": these look exchanged"
			}
		}
	}
	return ""
}

// wordsOf lists the words of an argument that is one name.
func (c *compiler) wordsOf(n *tree) []string {
	if n.kind != nameTree {
		return nil
	}
	r, _ := utf8.DecodeRuneInString(n.word)
	if !masked(r) || c.mask.operands[r-firstMask].need < 0 {
		return nil
	}
	return wordsIn(c.mask.operands[r-firstMask].tok.text)
}

func wordsIn(name string) []string {
	return strings.FieldsFunc(strings.ToLower(name), func(r rune) bool { return r == '.' || r == '_' })
}

// common reports whether two lists have a word of some length in common.
func common(a, b []string) bool {
	for _, x := range a {
		for _, y := range b {
			if x == y && len(x) > 3 {
				return true
			}
		}
	}
	return false
}
