package main

import (
	"fmt"
	"strings"

	"github.com/alecthomas/kong"
)

type manCmd struct{}

// Run prints the manual page in the macros of man(7).
func (c *manCmd) Run(s *streams) error {
	p := &roff{}
	p.title(s.model)
	p.section("VERBS")
	for _, n := range s.model.Children {
		if !n.Hidden {
			p.verb(n)
		}
	}
	p.section("FLAGS OF EVERY VERB")
	for _, f := range s.model.Flags {
		p.item(flagWords(f), f.Help)
	}
	for _, sec := range manSections {
		p.section(sec.title)
		for _, t := range sec.texts {
			p.paragraph(t)
		}
		for _, i := range sec.items {
			p.item(i[0], i[1])
		}
	}
	_, err := fmt.Fprint(s.out, p.String())
	return err
}

// manSections is what the page says beside the verbs.
var manSections = []struct {
	title string
	texts []string
	items [][2]string
}{
	{title: "EXIT STATUS", items: [][2]string{
		{"0", "All is well."},
		{"1", "The journal has errors, or a check does not hold."},
		{"2", "The command was wrong."},
	}},
	{title: "ENVIRONMENT", items: [][2]string{
		{"NO_COLOR", "When set, nothing is coloured, on a terminal either."},
		{"XDG_STATE_HOME", "Where the prompt of calc keeps what was typed; ~/.local/state when it is not set."},
	}},
	{title: "FILES", items: [][2]string{
		{"journal.md", "The first page of a journal; its front matter holds the settings."},
		{"$XDG_STATE_HOME/scarph/calc-history", "What was typed at the prompt."},
	}},
	{title: "CAUTION", texts: []string{
		"Nothing that scarph works out is proof that a boat is strong, stable or lawful. Where a number could hurt someone, go by local rules and licensed practice.",
	}},
}

// roff is a page while it is written.
type roff struct{ strings.Builder }

func (p *roff) title(model *kong.Application) {
	version := model.Vars()["version"]
	fmt.Fprintf(p, ".TH SCARPH 1 \"\" %q\n", roffText(version))
	p.section("NAME")
	p.text("scarph - " + strings.ToLower(model.Help[:1]) + strings.TrimSuffix(model.Help[1:], "."))
	p.section("SYNOPSIS")
	p.WriteString(".B scarph\n.I verb\n[argument ...]\n")
	p.section("DESCRIPTION")
	p.paragraph("Scarph keeps the journal of a boat that is built or restored: Markdown files in which blocks of calc and slots in braces hold numbers in the trade's own units. It works them out, and says what moves when a measurement is revised.")
	p.paragraph("Data goes to the standard output and words for people to the standard error.")
}

func (p *roff) section(title string) { p.WriteString(".SH " + title + "\n") }

// verb writes what a verb does, its arguments and its flags.
func (p *roff) verb(n *kong.Node) {
	p.WriteString(".SS " + roffText(n.Name) + "\n")
	p.WriteString(".B scarph " + roffText(n.Name) + "\n")
	for _, a := range n.Positional {
		p.text(a.Summary())
	}
	if len(n.Flags) > 0 {
		p.text("[flags]")
	}
	p.paragraph(n.Help)
	for _, a := range n.Positional {
		p.item(a.Name, a.Help)
	}
	for _, f := range n.Flags {
		p.item(flagWords(f), f.Help)
	}
}

// flagWords is a flag as it is written.
func flagWords(f *kong.Flag) string {
	words := "--" + f.Name
	if f.Short != 0 {
		words = "-" + string(f.Short) + ", " + words
	}
	if !f.IsBool() {
		words += "=" + f.FormatPlaceHolder()
	}
	return words
}

func (p *roff) paragraph(s string) {
	p.WriteString(".PP\n")
	p.text(s)
}

func (p *roff) item(head, s string) {
	p.WriteString(".TP\n.B " + roffText(head) + "\n")
	p.text(s)
}

// text writes running text; no line of it is taken for a request.
func (p *roff) text(s string) {
	s = roffText(s)
	if strings.HasPrefix(s, ".") || strings.HasPrefix(s, "'") {
		s = `\&` + s
	}
	p.WriteString(s + "\n")
}

// roffText escapes what means something to the formatter, and all that is not ASCII.
func roffText(s string) string {
	var b strings.Builder
	for _, r := range s {
		switch {
		case r == '\\':
			b.WriteString(`\e`)
		case r == '-':
			b.WriteString(`\-`)
		case r == '"':
			b.WriteString(`\(dq`)
		case r == '\'':
			b.WriteString(`\(aq`)
		case r == '\n':
			b.WriteByte(' ')
		case r > '~':
			fmt.Fprintf(&b, `\[u%04X]`, r)
		default:
			b.WriteRune(r)
		}
	}
	return b.String()
}
