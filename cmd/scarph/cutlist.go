package main

import (
	"encoding/csv"
	"fmt"

	"scarph/calc"
	"scarph/notebook"
)

type cutlistCmd struct {
	journalArg
	JSON bool `name:"json" help:"Print one JSON object."`
	CSV  bool `name:"csv" help:"Print columns with commas."`
}

// Run prints the cut list.
func (c *cutlistCmd) Run(s *streams) error {
	n, at, err := c.open(s)
	if err != nil {
		return err
	}
	list := n.Cutlist(at)
	style := n.Session.Style()
	switch {
	case c.JSON:
		return s.printJSON(list.Shape(style))
	case c.CSV:
		return writeCSV(s, list.Rows(style))
	}
	s.table(list.Rows(style))
	for _, b := range list.Buy {
		fmt.Fprintf(s.out, "\n%s: net %s", b.Wood, style.Text(b.Net.Shown(notebook.BoardFeet(style))))
		if b.Weight.V > 0 {
			fmt.Fprintf(s.out, ", weighs about %s", style.Text(b.Weight))
		}
		fmt.Fprintf(s.out, ", buy %s (%s)", style.Text(b.Buy.Shown(notebook.BoardFeet(style))), b.Convention)
	}
	if len(list.Buy) > 0 {
		fmt.Fprintln(s.out)
	}
	for _, l := range list.Layouts {
		fmt.Fprintf(s.out, "\n%s %s:\n", l.Wood, l.Board)
		for _, cut := range l.Cuts {
			fmt.Fprintf(s.out, "  %s\n", cut)
		}
		fmt.Fprintf(s.out, "  left over %s\n", style.Text(calc.Length(l.Left)))
	}
	for _, u := range list.Unplaced {
		fmt.Fprintf(s.out, "no board at hand for %s\n", u)
	}
	if len(list.Layouts) > 0 {
		fmt.Fprintln(s.out, "\nLongest first, each on the first board that takes it: a good layout, not the best possible.")
	}
	return nil
}

func writeCSV(s *streams, rows [][]string) error {
	w := csv.NewWriter(s.out)
	for _, r := range rows {
		if err := w.Write(r); err != nil {
			return err
		}
	}
	w.Flush()
	return w.Error()
}
