package main

import (
	"fmt"

	"scarph/calc"
	"scarph/kernel"
	"scarph/notebook"
)

type historyCmd struct {
	Dir  string `arg:"" help:"The journal."`
	Name string `arg:"" optional:"" help:"A value; without one, all that have had more than one reading."`
	AsOf string `name:"as-of" placeholder:"DATE" help:"Take the journal as it stood at the end of a day."`
	JSON bool   `name:"json" help:"Print a JSON array."`
}

type historyShape struct {
	Name     string         `json:"name"`
	Kind     string         `json:"kind"`
	Text     string         `json:"text"`
	SI       any            `json:"si"`
	Readings []readingShape `json:"readings"`
}

type readingShape struct {
	Kind   string  `json:"kind"`
	Date   string  `json:"date"`
	Entry  string  `json:"entry"`
	Text   string  `json:"text"`
	Value  string  `json:"value"`
	SI     any     `json:"si"`
	Note   string  `json:"note"`
	Counts bool    `json:"counts"`
	Until  *string `json:"until"`
	File   string  `json:"file"`
	Line   int     `json:"line"`
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
	out := []historyShape{}
	for _, h := range list {
		out = append(out, historyOf(h, style))
	}
	if c.JSON {
		return s.printJSON(out)
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
	return nil
}

func historyOf(h kernel.History, style calc.Style) historyShape {
	z := historyShape{Name: h.Name, Kind: h.Kind, Text: waits(h.Result), Readings: []readingShape{}}
	if h.Result.OK() {
		v := notebook.ShapeOf(h.Result.Value, style)
		z.Text, z.SI = v.Text, v.SI
	}
	for _, r := range h.Readings {
		x := readingShape{Kind: r.Kind, Date: r.Entry.Date, Entry: r.Entry.Title, Text: r.Text, Value: waits(r.Result), Note: r.Note, Counts: r.Counts, File: r.Place.File, Line: r.Place.Line}
		if r.Result.OK() {
			v := notebook.ShapeOf(r.Result.Value, style)
			x.Value, x.SI = v.Text, v.SI
		}
		if r.Until != nil {
			u := r.Until.Date
			if u == "" {
				u = r.Until.Title
			}
			x.Until = &u
		}
		z.Readings = append(z.Readings, x)
	}
	return z
}

// unknownName says that nothing bears a name, with the one most like it.
func (s *streams) unknownName(name string, n *notebook.Notebook) error {
	fmt.Fprintf(s.err, "scarph: nothing is named %s\n", name)
	if near := calc.Nearest(name, n.Session.Names()); near != "" {
		fmt.Fprintf(s.err, "hint: did you mean %s?\n", near)
	}
	return statusUsage
}
