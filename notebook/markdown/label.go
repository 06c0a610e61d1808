package markdown

import (
	"strings"
	"unicode"

	"github.com/yuin/goldmark/ast"

	"scarph/calc"
)

// Label is a column header or a row label of a data table.
type Label struct {
	// Name is the label as a name of the calc language: letters, digits and _,
	// in lower case: "sheer half-breadth (mm)" is sheer_half_breadth. A label
	// that begins with a digit gets a _ before it. It is "" where the label is
	// empty or bears the name of an earlier one, which is a Problem.
	Name string
	Text string // as it is read, without the unit
	Unit string // what the parentheses at its end hold, "" for none
	Span calc.Span
	node ast.Node
}

// label reads the text of a header cell.
func (d *Document) label(cell ast.Node) Label {
	l := Label{Span: d.cellSpan(cell), node: cell}
	l.Text, l.Unit = cutUnit(d.plainText(cell, slotSource))
	l.Name = NameOf(l.Text)
	return l
}

// cutUnit splits "beam (mm)" into the name and the unit.
func cutUnit(s string) (name, unit string) {
	open := strings.LastIndexByte(s, '(')
	if open < 0 || !strings.HasSuffix(s, ")") {
		return s, ""
	}
	return strings.TrimSpace(s[:open]), strings.TrimSpace(s[open+1 : len(s)-1])
}

// NameOf turns a label into a name. An accent that is written as a sign of its
// own after the letter is left out, since names are of letters only.
func NameOf(s string) string {
	name := joinWords(strings.Map(withoutMark, s), '_')
	if name != "" && unicode.IsDigit(firstRune(name)) {
		name = "_" + name
	}
	return name
}

// nameLabels reports labels without a name and takes the name from those that
// bear it a second time.
func (d *Document) nameLabels(labels []Label, what string) {
	seen := map[string]bool{}
	for i := range labels {
		l := &labels[i]
		switch {
		case l.Name == "":
			d.problem(l.Span, calc.CodeTable, "a "+what+" of this table has no name", "a name has a letter or a digit in it")
		case seen[l.Name]:
			d.problem(l.Span, calc.CodeTable, "two "+what+"s of this table are called "+l.Name, "give one of them another name")
			l.Name = ""
		default:
			seen[l.Name] = true
		}
	}
}

func withoutMark(r rune) rune {
	if unicode.IsMark(r) {
		return -1
	}
	return r
}
