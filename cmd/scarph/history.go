package main

import (
	"fmt"

	"scarph/calc"
	"scarph/kernel"
	"scarph/notebook"
)

type historyCmd struct {
	Dir  string `arg:"" complete:"journal" help:"The journal."`
	Name string `arg:"" optional:"" complete:"name" help:"A value; without one, all that have had more than one reading."`
	AsOf string `name:"as-of" placeholder:"DATE" complete:"day" help:"Take the journal as it stood at the end of a day."`
	JSON bool   `name:"json" help:"Print a JSON array."`
}

// Run prints the readings of a value, oldest first.
func (c *historyCmd) Run(s *streams) error {
	n, at, err := openAsOf(c.Dir, c.AsOf)
	if err != nil {
		return err
	}
	list := n.Session.Histories(at)
	if c.Name != "" {
		h, ok := n.Session.History(c.Name, at)
		if !ok {
			return s.unknownName(c.Name, n)
		}
		list = []kernel.History{h}
	}
	style := n.Session.Style()
	out := []kernel.HistoryShape{}
	for _, h := range list {
		out = append(out, kernel.ShapeOfHistory(h, style))
	}
	if c.JSON {
		if err := s.printJSON(out); err != nil {
			return err
		}
		return s.troubled(n, at)
	}
	for i, h := range out {
		if i > 0 {
			fmt.Fprintln(s.out)
		}
		fmt.Fprintf(s.out, "%s  %s\n", h.Name, h.Text)
		var rows [][]string
		for _, r := range h.Readings {
			mark, until := " ", ""
			if r.Counts {
				mark = "▸"
			}
			if r.Until != nil {
				until = "until " + *r.Until
			}
			rows = append(rows, []string{"  " + mark, r.Date, r.Kind, r.Value, until, r.Note, fmt.Sprintf("%s:%d", r.File, r.Line)})
		}
		s.table(rows)
	}
	return s.troubled(n, at)
}

// unknownName says that nothing bears a name, with the one most like it.
func (s *streams) unknownName(name string, n *notebook.Notebook) error {
	fmt.Fprintf(s.err, "scarph: nothing is named %s\n", name)
	if near := calc.Nearest(name, n.Session.Names()); near != "" {
		fmt.Fprintf(s.err, "hint: did you mean %s?\n", near)
	}
	return statusUsage
}
