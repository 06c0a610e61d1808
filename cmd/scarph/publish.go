package main

import (
	"fmt"
	"os"
	"os/signal"
	"syscall"

	"scarph/notebook/site"
)

type publishCmd struct {
	Dir     string `arg:"" optional:"" default:"." complete:"journal" help:"The journal."`
	Out     string `short:"o" required:"" placeholder:"OUT" complete:"file" help:"The folder to write the site to; with --one-file, the file."`
	AsOf    string `name:"as-of" placeholder:"DATE" complete:"day" help:"Take the journal as it stood at the end of a day."`
	OneFile bool   `name:"one-file" help:"Write one file with everything inside, for sending by mail."`
	Entry   string `placeholder:"ENTRY" complete:"entry" help:"With --one-file: this entry alone, by its file or its date."`
	Anyway  bool   `help:"Write the site although the journal has problems."`
}

// Run writes the site. With problems in the journal nothing is written, unless asked for.
func (c *publishCmd) Run(s *streams) error {
	if c.Entry != "" && !c.OneFile {
		return fmt.Errorf("--entry goes with --one-file")
	}
	n, at, err := openAsOf(c.Dir, c.AsOf)
	if err != nil {
		return err
	}
	stop := make(chan struct{})
	signals := make(chan os.Signal, 1)
	signal.Notify(signals, os.Interrupt, syscall.SIGTERM)
	defer signal.Stop(signals)
	go func() {
		if _, ok := <-signals; ok {
			close(stop)
		}
	}()
	o := site.Options{AsOf: at, Progress: s.err, Anyway: c.Anyway, Stop: stop}
	var r site.Report
	if c.OneFile {
		r, err = site.PublishOne(n, c.Out, c.Entry, o)
	} else {
		r, err = site.Publish(n, c.Out, o)
	}
	c.tell(s, r)
	if err != nil {
		return err
	}
	failing := 0
	for _, k := range n.Session.Checks(at) {
		if !k.Holds {
			fmt.Fprintln(s.err, checkLine(k, n))
			failing++
		}
	}
	if len(r.Problems)+failing > 0 {
		return statusProblems
	}
	return nil
}

// tell reports what was written, and what is to be mended.
func (c *publishCmd) tell(s *streams, r site.Report) {
	for _, d := range r.Problems {
		fmt.Fprint(s.err, d.String(), "\n")
	}
	for _, d := range r.Remarks {
		fmt.Fprintln(s.err, saidLine("remark", d))
	}
	if !r.Done {
		if len(r.Problems) > 0 {
			fmt.Fprintf(s.err, "%s; nothing was written. Mend them, or publish with --anyway\n", counted(len(r.Problems), "problem"))
		}
		return
	}
	if c.OneFile {
		fmt.Fprintf(s.err, "%s, %s written to %s\n", counted(r.Photos, "photo"), sizeText(r.Bytes), c.Out)
	} else {
		fmt.Fprintf(s.err, "%s, %s, %s in %s: %s written, %d kept, %d removed\n", counted(r.Pages, "page"), counted(r.Photos, "photo"), sizeText(r.Bytes), c.Out, counted(r.Written, "file"), r.Kept, r.Removed)
	}
	if len(r.Problems)+len(r.Remarks) > 0 {
		fmt.Fprintf(s.err, "%s, %s\n", counted(len(r.Problems), "problem"), counted(len(r.Remarks), "remark"))
	}
}

// sizeText is a number of bytes as people say it.
func sizeText(n int64) string {
	switch {
	case n >= 1e6:
		return fmt.Sprintf("%.1f MB", float64(n)/1e6)
	case n >= 1e3:
		return fmt.Sprintf("%d kB", n/1000)
	}
	return fmt.Sprintf("%d bytes", n)
}
