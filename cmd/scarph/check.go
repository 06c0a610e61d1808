package main

import (
	"fmt"

	"scarph/kernel"
	"scarph/notebook"
	"scarph/notebook/results"
)

type checkCmd struct {
	journalArg
	JSON bool `name:"json" help:"Print one JSON object."`
}

type problemShape struct {
	File    string `json:"file"`
	Line    int    `json:"line"`
	Column  int    `json:"column"`
	Code    string `json:"code"`
	Message string `json:"message"`
	Hint    string `json:"hint"`
}

// Run prints the problems and the checks; the status is 1 when there is a problem,
// or a check does not hold.
func (c *checkCmd) Run(s *streams) error {
	n, at, err := c.open(s)
	if err != nil {
		return err
	}
	problems, checks := n.Problems(at), n.Session.Checks(at)
	ok := len(problems) == 0
	for _, k := range checks {
		ok = ok && k.Holds
	}
	if c.JSON {
		out := struct {
			Problems []problemShape      `json:"problems"`
			Checks   []kernel.CheckShape `json:"checks"`
			Notes    []problemShape      `json:"notes"`
		}{[]problemShape{}, []kernel.CheckShape{}, []problemShape{}}
		for _, d := range problems {
			out.Problems = append(out.Problems, shapeOf(d))
		}
		for _, d := range n.Notes(at) {
			out.Notes = append(out.Notes, shapeOf(d))
		}
		for _, k := range checks {
			out.Checks = append(out.Checks, kernel.ShapeOfCheck(k))
		}
		if err := s.printJSON(out); err != nil {
			return err
		}
	} else {
		for _, d := range problems {
			fmt.Fprint(s.err, d.String(), "\n")
		}
		for _, d := range n.Notes(at) {
			fmt.Fprintf(s.err, "%s:%d:%d: note: %s\n", d.File, d.Line, d.Column, d.Message)
		}
		for _, k := range checks {
			fmt.Fprintln(s.out, checkLine(k, n))
		}
		for _, m := range n.Session.Rework(at) {
			fmt.Fprintf(s.err, "%s:%d: rework: %s\n", m.Place.File, m.Place.Line, madeLine(m, n.Session.Style()))
		}
		s.cautions(results.CautionsOf(n.Session, "checks", at))
		fmt.Fprintf(s.err, "%s, %s\n", counted(len(problems), "problem"), counted(len(checks), "check"))
	}
	if !ok {
		return statusProblems
	}
	return nil
}

func shapeOf(d notebook.Diagnostic) problemShape {
	return problemShape{d.File, d.Line, d.Column, string(d.Code), d.Message, d.Hint}
}

func counted(n int, word string) string {
	if n == 1 {
		return "1 " + word
	}
	return fmt.Sprintf("%d %ss", n, word)
}

// checkLine writes a check with its answer by sign and word; one that carries a
// caution gets no tick.
func checkLine(k kernel.Check, n *notebook.Notebook) string {
	sign, word := "✗", "does not hold"
	if k.Holds {
		sign, word = "✓", "holds"
	}
	if !k.Result.OK() {
		sign, word = "·", k.Result.Trouble()
	} else if k.Result.Cautions != 0 {
		sign = "·"
	}
	line := fmt.Sprintf("%s %s:%d %s: %s", sign, k.Place.File, k.Place.Line, k.Text, word)
	if k.Left != nil && k.Left.OK() && k.Right.OK() {
		st := n.Session.Style()
		line += fmt.Sprintf(" (%s, %s)", st.Text(k.Left.Value), st.Text(k.Right.Value))
	}
	return line
}
