package main

import (
	"fmt"

	"scarph/kernel"
	"scarph/notebook/site"
)

type publishCmd struct {
	Dir    string `arg:"" optional:"" default:"." help:"The journal."`
	Out    string `short:"o" required:"" placeholder:"OUT" help:"The folder to write the site to."`
	AsOf   string `name:"as-of" placeholder:"DATE" help:"Take the journal as it stood at the end of a day."`
	Anyway bool   `help:"Write the site although the journal has problems."`
}

// Run writes the site. With problems in the journal nothing is written, unless asked for.
func (c *publishCmd) Run(s *streams) error {
	n, at, err := openAsOf(c.Dir, c.AsOf)
	if err != nil {
		return err
	}
	problems := n.Problems(at)
	for _, d := range problems {
		fmt.Fprint(s.err, d.String(), "\n")
	}
	if len(problems) > 0 && !c.Anyway {
		fmt.Fprintf(s.err, "%s; nothing was written. Mend them, or publish with --anyway\n", counted(len(problems), "problem"))
		return statusProblems
	}
	if at == kernel.Now {
		at = len(n.Entries()) - 1
	}
	r, err := site.Publish(n, c.Out, site.Options{AsOf: at})
	if err != nil {
		return err
	}
	fmt.Fprintf(s.err, "%s, %s written to %s\n", counted(r.Pages, "page"), counted(r.Written, "file"), c.Out)
	if len(problems) > 0 {
		return statusProblems
	}
	return nil
}
