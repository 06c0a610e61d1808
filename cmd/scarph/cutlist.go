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
	s.table(list.Table(style))
	for i, line := range list.Lines(style) {
		if i == 0 {
			fmt.Fprintln(s.out)
		}
		fmt.Fprintln(s.out, line)
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
	for i := range list.Unplaced {
		if i == 0 {
			fmt.Fprintln(s.out)
		}
		fmt.Fprintln(s.out, list.Unplaced[i].Words(style))
	}
	if len(list.Layouts) > 0 {
		fmt.Fprintf(s.out, "\n%s\n", results.LayoutNote)
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
