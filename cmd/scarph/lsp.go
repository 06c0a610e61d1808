package main

import (
	"context"
	"os"
	"os/signal"
	"runtime/debug"
	"syscall"

	"scarph/notebook/editor"
	"scarph/notebook/rpc"
)

type lspCmd struct {
	Stdio bool `help:"Speak on the standard streams, as it always does; some editors say so."`
}

// sparing is how much more than what is in use the heap may grow before it is swept:
// each keystroke in a large file throws a copy of it away, and a person waits for the
// answer. On a file of 10,000 statements it saves a quarter of the work.
const sparing = 400

// Run serves an editor until it says exit.
func (c *lspCmd) Run(s *streams) error {
	if os.Getenv("GOGC") == "" {
		debug.SetGCPercent(sparing)
	}
	ctx, stop := signal.NotifyContext(context.Background(), syscall.SIGINT, syscall.SIGTERM)
	defer stop()
	status, err := editor.New(rpc.NewConn(s.in, s.out, rpc.ContentLength), Version).Run(ctx)
	if err == nil && status != 0 {
		return failure(status)
	}
	return err
}
