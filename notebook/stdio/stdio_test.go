package stdio

import (
	"context"
	"encoding/json"
	"errors"
	"io"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"scarph/notebook"
	"scarph/notebook/rpc"
)

const journal = "---\ntitle: Wren\n---\n```calc\nbeam = 4' 1 1/2\"\nplanking = 7/16\"\ninside = beam - 2 * planking\n```\n"

// client is a client of a kernel that serves a journal in a folder of its own.
type client struct {
	*rpc.Conn
	dir    string
	events chan *rpc.Message
	in     *io.PipeWriter
	served chan error
}

func serve(t *testing.T, f rpc.Framing) *client {
	t.Helper()
	c := &client{dir: t.TempDir(), events: make(chan *rpc.Message, 100), served: make(chan error, 1)}
	c.write(t, journal)
	book, err := notebook.Open(c.dir)
	if err != nil {
		t.Fatal(err)
	}
	sr, cw := io.Pipe()
	cr, sw := io.Pipe()
	c.in = cw
	c.Conn = rpc.NewConn(cr, cw, f)
	ctx, cancel := context.WithCancel(context.Background())
	t.Cleanup(func() { cancel(); cw.Close(); sw.Close() })
	go func() {
		c.served <- Serve(ctx, book, rpc.NewConn(sr, sw, f), "test")
		sw.Close()
	}()
	go func() {
		_ = c.Run(context.Background(), func(_ context.Context, m *rpc.Message) { c.events <- m })
	}()
	return c
}

func (c *client) write(t *testing.T, text string) {
	t.Helper()
	if err := os.WriteFile(filepath.Join(c.dir, "journal.md"), []byte(text), 0o644); err != nil {
		t.Fatal(err)
	}
}

func (c *client) ask(t *testing.T, method string, params any) (string, error) {
	t.Helper()
	ctx, cancel := context.WithTimeout(context.Background(), 20*time.Second)
	defer cancel()
	var z json.RawMessage
	err := c.Ask(ctx, method, params, &z)
	return string(z), err
}

type object map[string]any

func TestServe(t *testing.T) {
	for _, f := range []rpc.Framing{rpc.ContentLength, rpc.Lines} {
		c := serve(t, f)
		got, err := c.ask(t, "evaluate", object{"text": "inside to mm"})
		if err != nil || !strings.Contains(got, `"text/plain":"1235.1 mm`) || !strings.Contains(got, `"text/html":"<div class=`) {
			t.Errorf("%s %v", got, err)
		}
		var e *rpc.Error
		for _, x := range []struct {
			method string
			params any
			code   int
		}{
			{"nothing", nil, rpc.CodeMethodNotFound},
			{"evaluate", object{}, rpc.CodeInvalidParams},
			{"evaluate", object{"txt": "x"}, rpc.CodeInvalidParams},
			{"describe", object{"name": "beem"}, CodeRefused},
		} {
			if _, err := c.ask(t, x.method, x.params); !errors.As(err, &e) || e.Code != x.code {
				t.Errorf("%s %v: %v", x.method, x.params, err)
			}
		}
		if m, _ := e.Data.(map[string]any); m["hint"] != "did you mean beam?" {
			t.Errorf("data %v", e.Data)
		}
		if got, err := c.ask(t, "shutdown", nil); err != nil || got != "null" && got != "" {
			t.Errorf("shutdown: %s %v", got, err)
		}
		if err := <-c.served; err != nil {
			t.Errorf("served: %v", err)
		}
	}
}

// TestServeTellsWhatASaveMoved saves the file as an editor would.
func TestServeTellsWhatASaveMoved(t *testing.T) {
	c := serve(t, rpc.ContentLength)
	if _, err := c.ask(t, "subscribe", nil); err != nil {
		t.Fatal(err)
	}
	time.Sleep(100 * time.Millisecond) // until the folder is watched
	c.write(t, strings.Replace(journal, `4' 1 1/2"`, `4' 2"`, 1))
	select {
	case m := <-c.events:
		if m.Method != "moved" || !m.IsNotification() || !strings.Contains(string(m.Params), `"name":"inside"`) {
			t.Errorf("%s %s", m.Method, m.Params)
		}
	case <-time.After(20 * time.Second):
		t.Fatal("nothing was told")
	}
	if got, err := c.ask(t, "ripple", object{"since": 0}); err != nil || !strings.Contains(got, `"name":"beam"`) {
		t.Errorf("%s %v", got, err)
	}
}

// TestServeInterrupts stops a long request while it runs.
func TestServeInterrupts(t *testing.T) {
	c := serve(t, rpc.Lines)
	long := make(chan error)
	go func() {
		_, err := c.ask(t, "evaluate", object{"text": strings.Repeat("sum(map(1..100000, it * it))\n", 2000)})
		long <- err
	}()
	for { // until it has arrived
		got, err := c.ask(t, "interrupt", object{})
		if err != nil {
			t.Fatal(err)
		}
		if got == `{"interrupted":1}` {
			break
		}
	}
	var e *rpc.Error
	if err := <-long; !errors.As(err, &e) || e.Code != rpc.CodeRequestCancelled {
		t.Errorf("%v", err)
	}
	if got, err := c.ask(t, "evaluate", object{"text": "2 in + 1 in"}); err != nil || !strings.Contains(got, `3\"`) {
		t.Errorf("afterwards: %s %v", got, err)
	}
}

// TestServeEndsWithItsClient ends when the stream does.
func TestServeEndsWithItsClient(t *testing.T) {
	c := serve(t, rpc.ContentLength)
	c.in.Close()
	select {
	case err := <-c.served:
		if err != nil {
			t.Error(err)
		}
	case <-time.After(20 * time.Second):
		t.Fatal("it goes on")
	}
}
