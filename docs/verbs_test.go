package docs

import (
	"regexp"
	"strings"
	"testing"
)

var verbLine = regexp.MustCompile(`(?m)^  ([a-z]+) {2,}`)

// verbsPage is what the program says of its verbs.
func verbsPage(t *testing.T) string {
	p := head("Verbs", `What the program does, verb by verb, as `+code("scarph VERB --help")+` says it. Data goes to the standard output and words for people to the standard error. It exits with 0 when all is
well, with 1 when the journal has errors or, by `+code("scarph check")+`, a check that does not hold, and with 2 when the command was wrong. Notes and what is to be remade leave it at 0. Colour is used only on a terminal, and not when `+code("NO_COLOR")+` is set.`)
	all := scarph(t, ".", "", "--help")
	_, list, ok := strings.Cut(all, "Commands:")
	verbs := verbLine.FindAllStringSubmatch(list, -1)
	if !ok || len(verbs) < 10 {
		t.Fatalf("the verbs were not found:\n%s", all)
	}
	for _, v := range verbs {
		p.line("")
		p.line("## " + v[1])
		p.line("")
		p.line("```")
		p.line(strings.TrimSpace(scarph(t, ".", "", v[1], "--help")))
		p.line("```")
	}
	return p.String()
}
