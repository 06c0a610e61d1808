package main

import (
	"fmt"
	"time"

	"scarph/notebook"
)

type newCmd struct {
	Dir string `arg:"" complete:"file" help:"The folder to make."`
}

// Run makes a journal and says what to do next.
func (c *newCmd) Run(s *streams) error {
	made, err := notebook.New(c.Dir, time.Now().Format("2006-01-02"))
	if err != nil {
		return err
	}
	for _, f := range made {
		fmt.Fprintln(s.out, f)
	}
	fmt.Fprintf(s.err, "Next: scarph serve %s, and open the first file in your editor.\n", shellWord(c.Dir))
	return nil
}
