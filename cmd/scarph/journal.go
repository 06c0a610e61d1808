package main

import (
	"encoding/json"
	"fmt"
	"path/filepath"

	"scarph/notebook"
)

// journalArg is the journal that a verb works on, as of a day.
type journalArg struct {
	Dir  string `arg:"" optional:"" default:"." complete:"journal" help:"The journal: a folder, or one Markdown file."`
	AsOf string `name:"as-of" placeholder:"DATE" complete:"day" help:"Take the journal as it stood at the end of a day (year-month-day), or at entry number n."`
}

// open reads the journal and finds the entry as of which to show it.
func (j *journalArg) open(s *streams) (*notebook.Notebook, int, error) {
	return openAsOf(j.Dir, j.AsOf)
}

func openAsOf(dir, asOf string) (*notebook.Notebook, int, error) {
	n, err := notebook.Open(dir)
	if err != nil {
		return nil, 0, err
	}
	if len(n.Entries()) == 0 {
		return nil, 0, fmt.Errorf("there is no journal in %s: it holds no Markdown file\nhint: name the journal's folder, or make one with: scarph new %s", dir, shellWord(filepath.Join(dir, "boat")))
	}
	at, wrong := n.Session.OrderOf(asOf)
	if wrong != nil {
		return nil, 0, fmt.Errorf("--as-of %s: %s; %s", asOf, wrong.Message, wrong.Hint)
	}
	return n, at, nil
}

// troubled ends a verb that has printed what it could: the status is 1 when the journal
// has problems.
func (s *streams) troubled(n *notebook.Notebook, at int) error {
	k := len(n.Problems(at))
	if k == 0 {
		return nil
	}
	fmt.Fprintf(s.err, "scarph: %s in the journal; scarph check tells where\n", counted(k, "problem"))
	return statusProblems
}

// printJSON writes a value as indented JSON.
func (s *streams) printJSON(v any) error {
	e := json.NewEncoder(s.out)
	e.SetEscapeHTML(false)
	e.SetIndent("", "  ")
	return e.Encode(v)
}
