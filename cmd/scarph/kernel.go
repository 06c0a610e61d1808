package main

import (
	"context"
	"os/signal"
	"syscall"

	"scarph/notebook"
	"scarph/notebook/rpc"
	"scarph/notebook/stdio"
)

type kernelCmd struct {
	Dir   string `arg:"" optional:"" default:"." complete:"journal" help:"The journal: a folder, or one Markdown file."`
	Lines bool   `help:"One message a line, in place of Content-Length headers."`
}

// Run answers JSON-RPC on the standard streams until the client ends it.
func (c *kernelCmd) Run(s *streams) error {
	n, err := notebook.Open(c.Dir)
	if err != nil {
		return err
	}
	ctx, stop := signal.NotifyContext(context.Background(), syscall.SIGINT, syscall.SIGTERM)
	defer stop()
	framing := rpc.ContentLength
	if c.Lines {
		framing = rpc.Lines
	}
	return stdio.Serve(ctx, n, rpc.NewConn(s.in, s.out, framing), Version)
}
