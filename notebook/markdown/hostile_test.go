package markdown

import (
	"fmt"
	"os"
	"strings"
	"testing"
	"time"
)

// slowUnits are repeated to make the texts that cost a parser most.
var slowUnits = []string{
	"{", "{a", "{a{", "{é", "`", "`a", "[", "![", "[a](", "![a](", "[a][", "]", "[[]", "![[]()", "](x)", "[^", "(((",
	"*", "**", "*a ", "a**b", "**a _", "_a*", "~", "~~", "\\", "&", "&a;", "--", "...", "|", "|a", "\t", " ", "\n", "\x00", "\xff",
	"<", "<a ", "<!--", "<?", "<![CDATA[", "<b>", "</b>", "<span>", "<b title=", "<dl><dt>", "<div>\n", "<div>\n\n", "<p>\n\n", "<details>\n\n",
	"<a@b", "<http://", "[a](<b", "[a](b '", "![a](b \"{c}\")", "[^1]", "[^1]: ", "[^1]: a\n", "[a]: b\n",
	">", "> ", "- ", "1. ", "* a\n", "- a\n  ", "a\n", ": a\n", "a\n: b\n\n", "> > ```calc\n", "```calc\n",
	"---\n", "a\n---\n", "# a\n", "# 2027-01-01\n", "| a: |\n|-|\n", "x | y\n", "|-|\n",
}

// slowPairs are repeated on both sides of a word.
var slowPairs = [][2]string{
	{"![", "](x)"}, {"[", "](x)"}, {"*a ", "b*"}, {"**a ", "b**"}, {"~~a ", "b~~"}, {"<b>", "</b>"}, {"<span>", "</span>"}, {"<b>", "</i>"},
	{"<div>\n\n", "\n\n</div>\n\n"},
}

// TestHostile renders texts made to be slow. Measured on request, for a busy machine
// tells nothing: four times the text takes about four times the time; what grows
// with the square would take sixteen times.
func TestHostile(t *testing.T) {
	size := 1 << 12
	if measureTime {
		size = 1 << 15
	}
	for _, unit := range slowUnits {
		checkGrowth(t, fmt.Sprintf("%q", unit), func(n int) string { return strings.Repeat(unit, n*size/len(unit)) })
	}
	for _, p := range slowPairs {
		checkGrowth(t, fmt.Sprintf("%q", p), func(n int) string {
			n = n * size / len(p[0]+p[1])
			return strings.Repeat(p[0], n) + "x" + strings.Repeat(p[1], n)
		})
	}
}

// measureTime is set by the variable SCARPH_TIMES.
var measureTime = os.Getenv("SCARPH_TIMES") != ""

func checkGrowth(t *testing.T, name string, text func(n int) string) {
	t.Helper()
	if !measureTime {
		timeToRender(text(1))
		return
	}
	var once, fourfold time.Duration
	for range 3 { // a busy machine may spoil one try
		once, fourfold = timeToRender(text(1)), timeToRender(text(4))
		if fourfold < 200*time.Millisecond || fourfold < 10*once {
			return
		}
	}
	t.Errorf("%s: %v, four times as much %v", name, once, fourfold)
}

func timeToRender(src string) time.Duration {
	start := time.Now()
	d := Parse([]byte(src))
	for _, s := range d.Sections {
		d.Render(s, nil, Options{})
	}
	return time.Since(start)
}

// TestLimits: what is over a bound stays text and stays quick.
func TestLimits(t *testing.T) {
	deep := Parse([]byte(strings.Repeat("> ", 1000) + "{a}"))
	if n := strings.Count(strings.Join(deep.Render(deep.Sections[0], nil, Options{}), ""), "<blockquote>"); n != maxNesting {
		t.Errorf("%d quotes in one another", n)
	}
	if n := len(deep.Sections[0].Slots); n != 1 {
		t.Errorf("%d slots below the bound", n)
	}
	large := Parse(make([]byte, MaxBytes+1))
	if len(large.Problems) != 1 || large.Problems[0].Code != "limit" || len(large.Sections) != 1 {
		t.Errorf("a large file: %+v", large.Problems)
	}
}
