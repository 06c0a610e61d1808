// Package stdio carries the kernel's messages over a pair of streams: one client, one
// journal. It follows the journal's files meanwhile, so that a client that has subscribed
// is told what a save in an editor moved.
package stdio

import (
	"context"
	"encoding/json"
	"strings"
	"time"

	"scarph/kernel"
	"scarph/notebook"
	"scarph/notebook/rpc"
)

// Deadline is how long one request may take.
const Deadline = time.Minute

// CodeRefused is the JSON-RPC code of a refusal; its data tell the rest.
const CodeRefused = 1

// Serve answers a client's requests until it shuts the kernel down, the stream ends
// or ctx does.
func Serve(ctx context.Context, book *notebook.Notebook, conn *rpc.Conn, version string) error {
	ctx, cancel := context.WithCancel(ctx)
	defer cancel()
	desk := kernel.NewDesk(book.Session, kernel.DeskOptions{
		Title: book.Title(), Version: version, HTML: notebook.ResultHTML,
		Tell: func(name string, data any) { _ = conn.Notify(name, data) },
	})
	defer desk.Close()
	go func() { _ = book.Follow(ctx, func(notebook.Change) {}) }()
	ended := make(chan error, 1)
	go func() {
		ended <- conn.Run(ctx, func(ctx context.Context, m *rpc.Message) { take(ctx, desk, conn, m) })
	}()
	select {
	case err := <-ended:
		if err == nil {
			answerTheRest(ctx, desk)
		}
		return err
	case <-desk.Done():
	case <-ctx.Done():
	}
	return nil
}

// answerTheRest lets a client that wrote all it had to ask, and closed its end as a
// pipe does, be answered before the desk is closed.
func answerTheRest(ctx context.Context, desk *kernel.Desk) {
	end := kernel.Request{Method: "shutdown", Decode: func(any) error { return nil }}
	for ctx.Err() == nil {
		taken := make(chan bool, 1)
		desk.Take(ctx, end, func(_ any, f *kernel.Fault) { taken <- f == nil || f.Code != kernel.FaultBusy })
		select {
		case done := <-taken:
			if done {
				return
			}
			time.Sleep(10 * time.Millisecond) // too many wait: ask again when some are answered
		case <-desk.Done():
			return
		case <-ctx.Done():
		}
	}
}

// take hands a message to the desk and its answer back.
func take(ctx context.Context, desk *kernel.Desk, conn *rpc.Conn, m *rpc.Message) {
	ctx, cancel := context.WithTimeout(ctx, Deadline)
	r := kernel.Request{ID: idText(m.ID), Method: m.Method, Decode: func(into any) error { return m.Decode(into, true) }}
	desk.Take(ctx, r, func(result any, f *kernel.Fault) {
		cancel()
		switch {
		case m.IsNotification():
		case f != nil:
			_ = conn.ReplyError(m.ID, errorOf(f))
		default:
			_ = conn.Reply(m.ID, result)
		}
	})
}

// idText is a request's id as interrupt names it: a string without its quotes.
func idText(id json.RawMessage) string {
	var s string
	if json.Unmarshal(id, &s) == nil {
		return s
	}
	return string(id)
}

func errorOf(f *kernel.Fault) *rpc.Error {
	told := *f
	told.Message = strings.ReplaceAll(f.Message, "json: ", "") // of a parameter that cannot be decoded
	e := &rpc.Error{Code: CodeRefused, Message: told.Message, Data: told}
	switch f.Code {
	case kernel.FaultMethod:
		e.Code = rpc.CodeMethodNotFound
	case kernel.FaultParameters:
		e.Code = rpc.CodeInvalidParams
	case kernel.FaultInterrupted:
		e.Code = rpc.CodeRequestCancelled
	}
	return e
}
