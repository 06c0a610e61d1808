package lang

import (
	"strings"

	"scarph/calc/trade"
)

// exchanged remarks on two arguments that bear each other's names: where a function
// wants port and starboard, survey.starboard and survey.port change the sign and nothing
// else says so.
func (c *compiler) exchanged(fn *trade.Function, args []*tree) string {
	for j := range min(len(args), len(fn.Params)) {
		for i := range j {
			if isPair(c.nameOf(args[i]), c.nameOf(args[j]), fn.Params[i].Name, fn.Params[j].Name) {
				return fn.Name + " wants " + fn.Params[i].Name + ", then " + fn.Params[j].Name + ": these look exchanged"
			}
		}
	}
	return ""
}

// isPair reports whether a has a word of q and b one of p, and not the other way round.
func isPair(a, b, p, q string) bool {
	return a != "" && b != "" && share(a, q) && share(b, p) && !share(a, p) && !share(b, q)
}

// nameOf is the name that an argument is; "" for any other.
func (c *compiler) nameOf(n *tree) string {
	if n.kind != operandTree || c.terms.operands[n.operand].need < 0 {
		return ""
	}
	return c.terms.operands[n.operand].text
}

// share reports whether two names have a word of some length in common.
func share(a, b string) bool {
	for x := range strings.FieldsFuncSeq(a, isJoint) {
		if len(x) <= 3 {
			continue
		}
		for y := range strings.FieldsFuncSeq(b, isJoint) {
			if strings.EqualFold(x, y) {
				return true
			}
		}
	}
	return false
}

func isJoint(r rune) bool { return r == '.' || r == '_' }
