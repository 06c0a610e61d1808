package main

import (
	"context"
	"fmt"
	"net"
	"os/signal"
	"syscall"

	"scarph/notebook"
	"scarph/notebook/live"
)

type serveCmd struct {
	Dir    string `arg:"" optional:"" default:"." help:"The journal: a folder, or one Markdown file."`
	Listen string `default:"127.0.0.1:7433" placeholder:"ADDR" help:"The address to listen on; port 0 picks a free one."`
}

// Run serves the journal until it is interrupted.
func (c *serveCmd) Run(s *streams) error {
	n, err := notebook.Open(c.Dir)
	if err != nil {
		return err
	}
	ctx, stop := signal.NotifyContext(context.Background(), syscall.SIGINT, syscall.SIGTERM)
	defer stop()
	l, err := net.Listen("tcp", c.Listen)
	if err != nil {
		return fmt.Errorf("cannot listen on %s: %v", c.Listen, err)
	}
	fmt.Fprintf(s.err, "%s: %s, %s\n", n.Title(), counted2(len(n.Entries()), "entry", "entries"), counted(len(n.Problems(1<<30)), "problem"))
	fmt.Fprintf(s.out, "http://%s/\n", l.Addr())
	fmt.Fprintln(s.err, "Open that address in a browser; edit the files with any editor. Stop with Ctrl-C.")
	return live.New(n, live.Options{}).Serve(ctx, l)
}

func counted2(n int, one, many string) string {
	if n == 1 {
		return "1 " + one
	}
	return fmt.Sprintf("%d %s", n, many)
}
