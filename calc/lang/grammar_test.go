package lang

import (
	"fmt"
	"math/rand/v2"
	"strings"
	"testing"
)

// The grammar read by hand against the expression library's own parser
// (github.com/expr-lang/expr v1.17.8): the same trees with the same places, and the same texts refused.

func (t *tree) String() string {
	if t == nil {
		return "nil"
	}
	var parts []string
	for _, p := range t.parts {
		parts = append(parts, p.String())
	}
	at := t.at.Start
	if t.kind == choiceTree {
		at = 0 // the library says where a choice ends
	}
	return fmt.Sprintf("%d:%s%d@%d(%s)", t.kind, t.word, t.operand, at, strings.Join(parts, " "))
}

// pieces are what a masked text is made of.
var pieces = []string{
	" \U00017000 ", " \U00017001 ", " \U00017002 ", " \U00017003 ", "+ ", "- ", "* ", "/ ", "^ ", "( ", ") ", "[ ", "] ", ", ", "< ", "<= ", "> ", ">= ", "== ", "!= ",
	"? ", ": ", "! ", ". ", ".. ", " and ", " or ", " not ", " sum", " map", " nearest", "first ", "st_5 ", " true",
}

// agree compares the two readings of one text.
func agree(t *testing.T, text string) (accepted bool) {
	t.Helper()
	a, ea := libraryTree([]rune(text))
	b, eb := parseTree(symbolsOf([]rune(text)), &trees{})
	refused, weRefuse := ea != nil || a.odd(), eb != nil || b.odd()
	if refused != weRefuse {
		t.Errorf("%q: the library says %v, we say %v", text, ea, eb)
		return false
	}
	if refused {
		return false
	}
	if a.String() != b.String() {
		t.Errorf("%q:\nlibrary %s\nours    %s", text, a, b)
	}
	return true
}

func TestGrammarAgreesWithTheLibrary(t *testing.T) {
	for _, word := range []string{"contains", "matches", "if", "in", "let"} { // signs of the library's
		agree(t, " "+word+"( \U00017000 , \U00017001 ) ")
	}
	rounds := 30_000
	if testing.Short() {
		rounds = 5_000
	}
	r := rand.New(rand.NewPCG(7, 11))
	accepted := 0
	for i := 0; i < rounds && !t.Failed(); i++ {
		var text string
		if i%3 == 0 {
			var b strings.Builder
			for range 1 + r.IntN(12) {
				b.WriteString(pieces[r.IntN(len(pieces))])
			}
			text = b.String()
		} else {
			text = randomSum(r, 5)
			if i%3 == 1 { // and with one piece put in or taken out
				runes := []rune(text)
				at := r.IntN(len(runes) + 1)
				text = string(runes[:at]) + " " + pieces[r.IntN(len(pieces))] + string(runes[min(len(runes), at+r.IntN(2)):])
			}
		}
		if agree(t, text) {
			accepted++
		}
	}
	if accepted < rounds/3 {
		t.Errorf("only %d of %d texts were expressions", accepted, rounds)
	}
}

// randomSum writes an expression as deep as depth.
func randomSum(r *rand.Rand, depth int) string {
	if depth == 0 || r.IntN(5) == 0 {
		return pieces[r.IntN(4)]
	}
	sub := func() string { return randomSum(r, depth-1) }
	switch r.IntN(11) {
	case 0:
		return "( " + sub() + ") "
	case 1:
		return []string{"- ", "+ ", " not ", "! "}[r.IntN(4)] + sub()
	case 2:
		return sub() + "? " + sub() + ": " + sub()
	case 3:
		return "[ " + sub() + ", " + sub() + "] "
	case 4:
		return []string{" nearest", " hypotenuse", " min"}[r.IntN(3)] + "( " + sub() + ", " + sub() + ") "
	case 5:
		return []string{" map", " filter", " sum", " all", " reduce", " sortBy"}[r.IntN(6)] + "( " + sub() + ", " + sub() + ") "
	case 6:
		return " side( " + sub() + ") . length "
	}
	signs := []string{"+ ", "- ", "* ", "/ ", "^ ", "< ", "<= ", "> ", ">= ", "== ", "!= ", ".. ", " and ", " or "}
	return sub() + signs[r.IntN(len(signs))] + sub()
}

// TestGrammarPlacesFaults holds the places and kinds of faults that people meet to
// those of the library, so that a reader's typing error is shown at the same letter.
func TestGrammarPlacesFaults(t *testing.T) {
	a := " \U00017000 "
	for _, text := range []string{a + "+ ", a + "* ) ", "( " + a, " sum( ", " map( " + a + ") ", a + ", " + a, "[ " + a, a + "? " + a, "* " + a, a + ". ", a + "== == " + a} {
		_, ea := libraryTree([]rune(text))
		_, eb := parseTree(symbolsOf([]rune(text)), &trees{})
		if eb != nil && eb.why == shortFault {
			*eb = treeError{why: shortFault} // the end is no place
		}
		if ea == nil || eb == nil || *ea != *eb {
			t.Errorf("%q: the library says %v, we say %v", text, ea, eb)
		}
	}
}
