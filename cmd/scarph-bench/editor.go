package main

import (
	"context"
	"encoding/json"
	"io"
	"os"
	"path/filepath"
	"strings"
	"time"

	"scarph/kernel/grown"
	"scarph/notebook/editor"
	"scarph/notebook/rpc"
)

type object map[string]any

// keystroke types in an editor and waits for the hints of a screenful, behind which the
// diagnostics have been sent.
func keystroke(b *bench) error {
	for _, x := range []struct {
		what    string
		entries int
	}{{"a reading on which ten hang, 10,000 statements in 1,000 files", 1_000}, {"the same in one file", 1}} {
		shape := grown.Shape{Statements: 10_000, Entries: x.entries}
		dir, err := b.onDisk("typed"+string(rune('a'+x.entries%7)), shape)
		if err != nil {
			return err
		}
		day := grown.Journal(shape)[x.entries/2]
		ns, worst, err := b.typed(filepath.Join(dir, day.FileName()), shape.Head(), day)
		if err != nil {
			return err
		}
		b.table.under(x.what+", text in to hints out", span(ns), ns, 10e6, "under 10 ms")
		b.table.plain("the slowest of them", span(worst), "")
	}
	return nil
}

// typed opens a file in a language server and types a digit into a reading, and takes
// it away, again and again.
func (b *bench) typed(file, name string, day grown.Day) (best, worst float64, err error) {
	text, err := os.ReadFile(file)
	if err != nil {
		return 0, 0, err
	}
	if head, _ := chainOf(day); head != "" && !strings.Contains(string(text), "\n"+name+" = ") {
		name = head
	}
	before, _, _ := strings.Cut(string(text), "\n"+name+" = ")
	line := strings.Count(before, "\n") + 1
	at := object{"line": line, "character": len(name) + len(" = base_")}
	after := object{"line": line, "character": len(name) + len(" = base_") + 1}

	toServer, fromClient := io.Pipe()
	toClient, fromServer := io.Pipe()
	ctx, stop := context.WithCancel(context.Background())
	defer stop()
	go func() {
		_, _ = editor.New(rpc.NewConn(toServer, fromServer, rpc.ContentLength), "measured").Run(ctx)
	}()
	c := rpc.NewConn(toClient, fromClient, rpc.ContentLength)
	go func() {
		_ = c.Run(ctx, func(_ context.Context, m *rpc.Message) {
			if m.ID != nil {
				_ = c.Reply(m.ID, nil)
			}
		})
	}()
	uri := "file://" + filepath.ToSlash(file)
	var ignored json.RawMessage
	if err := c.Ask(ctx, "initialize", object{"processId": nil, "rootUri": "file://" + filepath.ToSlash(filepath.Dir(file)), "capabilities": object{}}, &ignored); err != nil {
		return 0, 0, err
	}
	_ = c.Notify("initialized", object{})
	_ = c.Notify("textDocument/didOpen", object{"textDocument": object{"uri": uri, "languageId": "markdown", "version": 1, "text": string(text)}})
	screen := object{"textDocument": object{"uri": uri}, "range": object{"start": object{"line": max(0, line-25), "character": 0}, "end": object{"line": line + 25, "character": 0}}}
	if err := c.Ask(ctx, "textDocument/inlayHint", screen, &ignored); err != nil {
		return 0, 0, err
	}
	best = float64(time.Hour)
	end := time.Now().Add(b.pace)
	for i := 0; i < 20 || time.Now().Before(end); i++ {
		digit, to := "1", at
		if i%2 == 1 {
			digit, to = "", after
		}
		start := time.Now()
		_ = c.Notify("textDocument/didChange", object{"textDocument": object{"uri": uri, "version": i + 2}, "contentChanges": []object{{"range": object{"start": at, "end": to}, "text": digit}}})
		if err := c.Ask(ctx, "textDocument/inlayHint", screen, &ignored); err != nil {
			return 0, 0, err
		}
		took := float64(time.Since(start).Nanoseconds())
		if i > 1 {
			best, worst = min(best, took), max(worst, took)
		}
	}
	return best, worst, nil
}
