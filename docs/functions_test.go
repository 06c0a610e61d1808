package docs

import (
	"fmt"
	"strings"
	"testing"

	"scarph/calc/lang"
	"scarph/calc/trade"
)

// functionsPage tells of every function of the registry.
func functionsPage(*testing.T) string {
	all := trade.All()
	p := head("Functions", fmt.Sprintf(`%d functions of the trade, in the order of the work. Lengths carry units always; a bare number is refused where
a length is wanted. A function that is given a list where it wants one quantity goes through the list, and one that is given a reading with its ±
gives a result with its ±. Where somebody could get hurt a result carries a caution, and a caution is no permission. Bevels are counted from square, x
runs aft, unless something else is said. Each *for example* is a test.`, len(all)))
	p.line("")
	group := ""
	for _, f := range all {
		if f.Group != group {
			group = f.Group
			p.line(fmt.Sprintf("- [%s](#%s)", group, anchor(group)))
		}
	}
	p.line("- [In the language itself](#in-the-language-itself)")
	group = ""
	for _, f := range all {
		if f.Group != group {
			group = f.Group
			p.line("")
			p.line("## " + group)
		}
		p.function(f)
	}
	p.line("")
	p.line("## In the language itself")
	p.table("written", "gives")
	for _, f := range lang.Forms() {
		p.row(code(f.Call), plain(f.Summary))
	}
	return p.String()
}

func (p *page) function(f *trade.Function) {
	p.line("")
	p.line("### " + f.Name)
	p.line("")
	p.line(code(f.Signature()) + " — " + plain(f.Summary) + ".")
	if len(f.Params) > 0 {
		p.table("argument", "is")
		for i := range f.Params {
			a := f.Params[i]
			what := a.What()
			if a.Doc != "" && a.Doc != what {
				what += ": " + a.Doc
			}
			if a.Optional {
				what += " (may be left out)"
			}
			p.row(code(a.Name), plain(what))
		}
	}
	p.line("")
	for _, x := range [][2]string{{"Gives", f.Result}, {"Formula", f.Formula}, {"Limits", f.Limits}, {"Source", f.Source}} {
		if x[1] != "" {
			p.line("- *" + x[0] + ":* " + plain(x[1]))
		}
	}
	for _, c := range f.Checks {
		p.line("- *For example:* " + code(c.Call) + " = " + code(strings.Trim(c.Want, `"`)) + sourced(c.Source))
	}
	if c := f.Caution.Text(); c != "" {
		p.line("")
		p.line("> **Caution.** " + plain(c))
	}
}

func sourced(s string) string {
	if s == "" {
		return ""
	}
	return " (" + plain(s) + ")"
}
