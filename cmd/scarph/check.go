package main

import (
	"fmt"
	"strings"

	"scarph/kernel"
	"scarph/notebook"
	"scarph/notebook/results"
	"scarph/notebook/site"
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
// or a check does not hold. Notes and what is to be remade leave it at 0.
func (c *checkCmd) Run(s *streams) error {
	n, at, err := c.open(s)
	if err != nil {
		return err
	}
	problems, checks, notes := n.Problems(at), n.Session.Checks(at), n.Notes(at)
	more, remarks := site.Inspect(n, at)
	problems, notes = append(problems, more...), append(notes, remarks...)
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
		for _, d := range notes {
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
		for _, d := range notes {
			fmt.Fprintln(s.err, saidLine("note", d))
		}
		for _, k := range checks {
			fmt.Fprintln(s.out, checkLine(k, n))
		}
		rework := n.Session.Rework(at)
		for _, m := range rework {
			fmt.Fprintf(s.err, "%s:%d: rework: %s\n", m.Place.File, m.Place.Line, madeLine(m, n.Session.Style()))
		}
		s.cautions(results.CautionsOf(n.Session, "checks", at))
		fmt.Fprintln(s.err, tally(len(problems), len(notes), len(rework), checks))
	}
	if !ok {
		return statusProblems
	}
	return nil
}

// tally is the last line: how much there is of each.
func tally(problems, notes, rework int, checks []kernel.Check) string {
	failing, open := 0, 0
	for _, k := range checks {
		switch {
		case !k.Result.OK():
			open++
		case !k.Holds:
			failing++
		}
	}
	var amiss []string
	if failing > 0 {
		amiss = append(amiss, counted2(failing, "does not hold", "do not hold"))
	}
	if open > 0 {
		amiss = append(amiss, fmt.Sprintf("%d without an answer", open))
	}
	text := counted(problems, "problem") + ", " + counted(len(checks), "check")
	if len(amiss) > 0 {
		text += " (" + strings.Join(amiss, ", ") + ")"
	}
	if rework > 0 {
		text += ", " + counted(rework, "thing") + " to remake"
	}
	if notes > 0 {
		text += ", " + counted(notes, "note")
	}
	return text
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

// saidLine is a note or a remark in one line, with its place.
func saidLine(what string, d notebook.Diagnostic) string {
	place := d.File
	if d.Line > 0 {
		place = fmt.Sprintf("%s:%d:%d", d.File, d.Line, d.Column)
	}
	text := place + ": " + what + ": " + d.Message
	if d.Hint != "" {
		text += "; " + d.Hint
	}
	return text
}
