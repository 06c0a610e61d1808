package main

import (
	"fmt"
	"math"
	"sort"
	"strings"

	"scarph/calc"
	"scarph/kernel"
)

type rippleCmd struct {
	Dir    string   `arg:"" complete:"journal" help:"The journal."`
	Change []string `arg:"" name:"change" complete:"change" help:"What to try: NAME=VALUE, once or more."`
	AsOf   string   `name:"as-of" placeholder:"DATE" complete:"day" help:"Take the journal as it stood at the end of a day."`
	JSON   bool     `name:"json" help:"Print one JSON object."`
}

// Run prints what a change would move: values, checks, parts made, and what it
// leaves alone.
func (c *rippleCmd) Run(s *streams) error {
	n, at, err := openAsOf(c.Dir, c.AsOf)
	if err != nil {
		return err
	}
	values := map[string]string{}
	for _, ch := range c.Change {
		name, value, ok := strings.Cut(ch, "=")
		if !ok {
			return fmt.Errorf("%s is no change; write NAME=VALUE, such as beam=\"4' 8\\\"\"", ch)
		}
		values[strings.TrimSpace(name)] = strings.TrimSpace(value)
	}
	r, cerr := n.Session.WhatIfAsOf(values, at)
	if cerr != nil {
		cerr, text := faultOfChange(n.Session, values, at)
		if c.JSON {
			_ = s.printJSON(map[string]kernel.Fault{"error": kernel.FaultOf(cerr, text)})
		} else {
			s.caret(cerr, text, "")
		}
		return statusProblems
	}
	style := n.Session.Style()
	for _, m := range r.Moved {
		if _, tried := values[m.Name]; tried {
			s.plusGone(m, style)
		}
	}
	if c.JSON {
		return s.printJSON(kernel.ShapeOfRipple(r, n.Session.UnmovedBy(r), style))
	}
	printRipple(s, r, n.Session.UnmovedBy(r), style)
	return nil
}

// plusGone tells of a number that is tried without the ± that its reading has: what
// hangs on it is then more certain than it was measured.
func (s *streams) plusGone(m kernel.Moved, style calc.Style) {
	if m.From == nil || m.To == nil || !m.From.OK() || !m.To.OK() {
		return
	}
	was, now := m.From.Value, m.To.Value
	if !was.IsQuantity() || !now.IsQuantity() || was.D != now.D || was.Likely() == 0 || now.Likely() > 0 {
		return
	}
	plus := calc.Style{System: style.System}.Text(calc.Of(was.Likely(), was.D))
	fmt.Fprintf(s.err, "%s: its ± %s is gone: write %s ± %s to keep it\n", m.Name, plus, style.Text(now), plus)
}

// faultOfChange finds the change that cannot be tried, and the text in which the fault
// lies: its value, or the name when nothing bears it.
func faultOfChange(s *kernel.Session, values map[string]string, at int) (*calc.Error, string) {
	names := make([]string, 0, len(values))
	for name := range values {
		names = append(names, name)
	}
	sort.Strings(names)
	for _, name := range names {
		_, err := s.WhatIfAsOf(map[string]string{name: values[name]}, at)
		switch {
		case err == nil:
		case err.Code == calc.CodeUnknownName && err.Message == "nothing is named "+name:
			return err, name
		default:
			return err, values[name]
		}
	}
	return nil, ""
}

func printRipple(s *streams, r kernel.Ripple, still []string, style calc.Style) {
	text := func(x *kernel.Result) string {
		if x == nil || !x.OK() {
			return x.Trouble()
		}
		return style.Text(x.Value)
	}
	var rows [][]string
	for _, m := range r.Fields() {
		if isDust(m) {
			continue
		}
		by := ""
		if m.By != nil {
			by = signed(*m.By, style)
		}
		rows = append(rows, []string{m.Name, text(m.From), "→", text(m.To), by})
	}
	if len(rows) == 0 {
		fmt.Fprintln(s.out, "Nothing moves.")
	}
	s.table(rows)
	for _, m := range r.Made {
		if m.Off {
			fmt.Fprintln(s.out, "rework:", madeLine(m, style))
		}
	}
	for _, k := range r.Checks {
		word := "does not hold"
		if k.Holds {
			word = "holds"
		}
		fmt.Fprintf(s.out, "check %s: %s\n", strings.TrimSpace(strings.TrimPrefix(k.Text, "check")), word)
	}
	if len(still) > 0 {
		fmt.Fprintln(s.out, "not moved:", strings.Join(still, ", "))
	}
	s.cautions(cautionsOfRipple(r))
}

// cautionsOfRipple are the cautions of what moves and of the checks on it.
func cautionsOfRipple(r kernel.Ripple) uint8 {
	bits := uint8(0)
	add := func(x *kernel.Result) {
		if x != nil {
			bits |= x.Cautions
		}
	}
	for _, m := range r.Moved {
		add(m.To)
	}
	for _, k := range r.Checks {
		add(k.Result)
	}
	return bits
}

// signed writes a difference with its sign, in the marks of the journal; one that no
// mark shows is told as that.
func signed(by calc.Value, style calc.Style) string {
	t := style.Text(by.Plain())
	switch {
	case by.D == calc.DimLength && t == style.Text(calc.Length(0)):
		return "by less than can be marked"
	case by.V > 0:
		return "+" + t
	}
	return t
}

// isDust reports whether a value moved by no more than its sum is rounded in reckoning.
func isDust(m kernel.Moved) bool {
	if m.By == nil || m.From == nil || m.To == nil || !m.From.OK() || !m.To.OK() {
		return false
	}
	size := max(math.Abs(m.From.Value.V), math.Abs(m.To.Value.V))
	return math.Abs(m.By.V) <= 1e-12*max(size, 1)
}

// madeLine says how a thing made stands: what is off, since when, or how it was settled.
func madeLine(m kernel.Made, style calc.Style) string {
	line := fmt.Sprintf("%s, made %s", m.Thing, dayOf(m.Entry))
	if m.Count > 0 {
		line = fmt.Sprintf("%s × %s, made %s", style.Text(calc.Number(m.Count)), m.Thing, dayOf(m.Entry))
	}
	var off []string
	for _, z := range m.Sizes {
		if z.Off || z.Words != "right" && !m.Off {
			off = append(off, fmt.Sprintf("%s %s (made %s, now %s)", z.Name, z.Words, style.Text(z.Made), style.Text(z.Now)))
		}
	}
	switch {
	case m.Err != nil:
		line += ": " + m.Err.Message
	case len(off) == 0:
		line += ": still right"
	default:
		line += ": " + strings.Join(off, "; ")
	}
	if m.Since != nil && m.Off {
		line += ", since " + dayOf(m.Since.Entry)
	}
	if x := m.Settled; x != nil {
		line += "; " + x.How + " " + dayOf(x.Entry)
	}
	return line
}

// dayOf is an entry's date, or the title of one without.
func dayOf(e kernel.EntryRef) string {
	if e.Date == "" {
		return e.Title
	}
	return e.Date
}
