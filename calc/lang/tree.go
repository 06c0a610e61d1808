package lang

// tree is an expression as the grammar reads it.
type tree struct {
	kind  treeKind
	word  string // the sign, the name, the field
	parts []*tree
	from  int // rune of the masked text at which it stands
}

type treeKind uint8

const (
	nameTree   treeKind = iota // an operand's letter, or a name that cannot stand alone
	truthTree                  // true, false
	signTree                   // a sign before one operand
	pairTree                   // a sign between two
	choiceTree                 // condition ? this : that
	listTree                   // [a, b]
	fieldTree                  // x.field; word is "" for x[…]
	callTree                   // name(…)
	oddTree                    // what the grammar knows and we do not mean
)

// treeError is why a masked text is no expression.
type treeError struct {
	from int
	why  treeFault
}

type treeFault uint8

const (
	strayFault    treeFault = iota // something stands where it cannot
	shortFault                     // the text stops short
	argumentFault                  // a call wants more arguments
	limitFault                     // too many parts
)
