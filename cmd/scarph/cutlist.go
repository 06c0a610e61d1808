package main

import (
	"encoding/csv"
	"fmt"

	"scarph/calc"
	"scarph/notebook"
	"scarph/notebook/results"
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
		err = s.printJSON(list.Shape(style))
	case c.CSV:
		err = writeCSV(s, list.Rows(style))
	default:
		printCutlist(s, &list, style)
		s.cautions(results.CautionsOf(n.Session, "cutlist", at))
	}
	if err != nil {
		return err
	}
	return s.troubled(n, at)
}

func printCutlist(s *streams, list *notebook.Cutlist, style calc.Style) {
	s.table(list.Rows(style))
	for _, b := range list.Buy {
		if b.Net.V == 0 {
			fmt.Fprintf(s.out, "\n%s: nothing is left to make", b.Wood)
			continue
		}
		fmt.Fprintf(s.out, "\n%s: net %s", b.Wood, style.Text(b.Net.Shown(notebook.BoardFeet(style))))
		if b.Weight.V > 0 {
			fmt.Fprintf(s.out, ", weighs about %s", style.Text(b.Weight))
		}
		fmt.Fprintf(s.out, ", buy %s (%s)", style.Text(b.Buy.Shown(notebook.BoardFeet(style))), b.Convention)
	}
	if len(list.Buy) > 0 {
		fmt.Fprintln(s.out)
	}
	for i := range list.Layouts {
		l := &list.Layouts[i]
		fmt.Fprintf(s.out, "\n%s %s:\n", l.Wood, l.Board(style))
		for k := range l.Strips {
			fmt.Fprintf(s.out, "  %s\n", l.Strips[k].Line(style))
		}
		if l.LeftWidth > 0 {
			fmt.Fprintf(s.out, "  left over beside them %s\n", style.Text(calc.Length(l.LeftWidth)))
		}
	}
	for i, u := range list.Unplaced {
		if i == 0 {
			fmt.Fprintln(s.out)
		}
		fmt.Fprintf(s.out, "no board at hand for %d × %s\n", u.Count, u.Part)
	}
	if len(list.Layouts) > 0 {
		fmt.Fprintln(s.out, "\nWidest first, then longest, each in the first strip that takes it: a good layout, not the best possible.")
	}
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
