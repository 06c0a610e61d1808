package main

import (
	"context"
	"os/signal"
	"syscall"

	"scarph/notebook/editor"
	"scarph/notebook/rpc"
)

type lspCmd struct {
	Stdio bool `help:"Speak on the standard streams, as it always does; some editors say so."`
}

// Run serves an editor until it says exit.
func (c *lspCmd) Run(s *streams) error {
	ctx, stop := signal.NotifyContext(context.Background(), syscall.SIGINT, syscall.SIGTERM)
	defer stop()
	status, err := editor.New(rpc.NewConn(s.in, s.out, rpc.ContentLength), Version).Run(ctx)
	if err == nil && status != 0 {
		return failure(status)
	}
	return err
}
