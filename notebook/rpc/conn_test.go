package rpc

import (
	"bufio"
	"bytes"
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"strings"
	"sync"
	"testing"
	"time"
)

// feed runs a connection over a text and returns what it wrote: echoes of requests.
func feed(t *testing.T, f Framing, text string) (string, error) {
	t.Helper()
	var out bytes.Buffer
	c := NewConn(strings.NewReader(text), &out, f)
	err := c.Run(context.Background(), func(_ context.Context, m *Message) {
		if !m.IsNotification() {
			_ = c.Reply(m.ID, m.Method+string(m.Params))
		}
	})
	return out.String(), err
}

func framed(s string) string { return fmt.Sprintf("Content-Length: %d\r\n\r\n%s", len(s), s) }

func TestFraming(t *testing.T) {
	one, two := `{"jsonrpc":"2.0","id":1,"method":"a","params":[1]}`, `{"jsonrpc":"2.0","id":"x","method":"b"}`
	want := `{"jsonrpc":"2.0","id":1,"result":"a[1]"}` + "\n" + `{"jsonrpc":"2.0","id":"x","result":"b"}` + "\n"
	for _, c := range []struct {
		f    Framing
		text string
	}{
		{ContentLength, framed(one) + framed(two)},
		{ContentLength, "Content-Type: application/vscode-jsonrpc; charset=utf-8\r\ncontent-length:" + fmt.Sprint(len(one)) + "\r\n\r\n" + one + framed(two)},
		{ContentLength, "\r\n" + framed(one) + "\n\n" + framed(two)},
		{Lines, one + "\n" + two + "\n"},
		{Lines, "\n" + one + "\r\n\n  " + two}, // no newline at the end
	} {
		got, err := feed(t, c.f, c.text)
		if c.f == ContentLength {
			got = unframe(t, got)
		}
		if err != nil || got != want {
			t.Errorf("%q: %v\n got %s\nwant %s", c.text, err, got, want)
		}
	}
}

func unframe(t *testing.T, s string) string {
	t.Helper()
	r := bufio.NewReader(strings.NewReader(s))
	var b strings.Builder
	for {
		m, err := readMessage(r, ContentLength)
		if err == io.EOF {
			return b.String()
		}
		if err != nil {
			t.Fatal(err)
		}
		b.Write(m)
		b.WriteByte('\n')
	}
}

// TestBadMessages gets an answer for what is no message, and goes on where it can.
func TestBadMessages(t *testing.T) {
	good := `{"jsonrpc":"2.0","id":9,"method":"go"}`
	for _, c := range []struct {
		text string
		code int
	}{
		{`{`, CodeParse},
		{`nonsense`, CodeParse},
		{`{"jsonrpc":"2.0","id":{},"method":"a"}`, CodeInvalidRequest},
		{`{"jsonrpc":"2.0","id":true,"method":"a"}`, CodeInvalidRequest},
		{`{"jsonrpc":"1.0","id":1,"method":"a"}`, CodeInvalidRequest},
		{`{"jsonrpc":"2.0","id":1}`, CodeInvalidRequest},
		{`[]`, CodeInvalidRequest},
		{`[{"jsonrpc":"2.0","id":1,"method":"a"}]`, CodeInvalidRequest},
		{`3`, CodeParse},
	} {
		got, err := feed(t, Lines, c.text+"\n"+good+"\n")
		lines := strings.Split(strings.TrimSpace(got), "\n")
		if err != nil || len(lines) != 2 || !strings.Contains(lines[0], fmt.Sprintf(`"code":%d`, c.code)) || !strings.Contains(lines[1], `"go"`) {
			t.Errorf("%s: %v %s", c.text, err, got)
		}
	}
}

// TestBrokenStreams ends with an error, and never waits.
func TestBrokenStreams(t *testing.T) {
	for _, c := range []struct {
		text   string
		broken bool
	}{
		{"", false},
		{framed(`{"jsonrpc":"2.0","method":"a"}`), false},
		{"Content-Length: 10\r\n\r\n{}", true},
		{"Content-Length: 10\r\n", true},
		{"Content-Length: ten\r\n\r\n", true},
		{"Content-Length: -1\r\n\r\n", true},
		{fmt.Sprintf("Content-Length: %d\r\n\r\n", MaxMessage+1), true},
		{"hello\n", true},
		{strings.Repeat("x", 1<<20), true},
	} {
		if _, err := feed(t, ContentLength, c.text); (err != nil) != c.broken {
			t.Errorf("%.60q: %v", c.text, err)
		}
	}
}

// pipes connects two connections.
func pipes(t *testing.T, f Framing) (a, b *Conn, closeBoth func()) {
	ar, bw := io.Pipe()
	br, aw := io.Pipe()
	return NewConn(ar, aw, f), NewConn(br, bw, f), func() { ar.Close(); br.Close(); aw.Close(); bw.Close() }
}

// TestAsk lets both sides ask each other many things at once.
func TestAsk(t *testing.T) {
	a, b, end := pipes(t, ContentLength)
	var wg, asked sync.WaitGroup
	run := func(c *Conn) {
		wg.Add(1)
		go func() {
			defer wg.Done()
			_ = c.Run(context.Background(), func(_ context.Context, m *Message) {
				switch m.Method {
				case "double":
					var n int
					if err := m.Decode(&n, true); err != nil {
						t.Error(err)
					}
					go func() { _ = c.Reply(m.ID, 2*n) }() // answers may be out of order
				case "fail":
					_ = c.ReplyError(m.ID, &Error{Code: CodeRequestFailed, Message: "no"})
				case "bad":
					_ = c.Reply(m.ID, func() {})
				case "never":
				}
			})
		}()
	}
	run(a)
	run(b)
	for _, c := range []*Conn{a, b} {
		for i := range 50 {
			asked.Add(1)
			go func() {
				defer asked.Done()
				var got int
				if err := c.Ask(context.Background(), "double", i, &got); err != nil || got != 2*i {
					t.Error(i, got, err)
				}
			}()
		}
	}
	var e *Error
	if err := a.Ask(context.Background(), "fail", nil, nil); !errors.As(err, &e) || e.Code != CodeRequestFailed {
		t.Error(err)
	}
	if err := a.Ask(context.Background(), "bad", nil, nil); !errors.As(err, &e) || e.Code != CodeInternal {
		t.Error(err)
	}
	ctx, cancel := context.WithTimeout(context.Background(), 10*time.Millisecond)
	defer cancel()
	if err := a.Ask(ctx, "never", nil, nil); !errors.Is(err, context.DeadlineExceeded) {
		t.Error(err)
	}
	asked.Wait()
	waits := make(chan error)
	go func() { waits <- a.Ask(context.Background(), "never", nil, nil) }()
	time.Sleep(10 * time.Millisecond)
	end()
	if err := <-waits; err == nil {
		t.Error("an answer from a closed connection")
	}
	wg.Wait()
	if err := a.Ask(context.Background(), "double", 1, nil); err == nil {
		t.Error("a closed connection was asked")
	}
}

func TestDecode(t *testing.T) {
	var p struct {
		A int `json:"a"`
	}
	for _, c := range []struct {
		params string
		strict bool
		bad    bool
	}{{"", true, false}, {"null", true, false}, {`{"a":1}`, true, false}, {`{"b":1}`, false, false}, {`{"b":1}`, true, true}, {`{"a":"x"}`, false, true}, {`[1]`, true, true}} {
		m := Message{Params: json.RawMessage(c.params)}
		if err := m.Decode(&p, c.strict); (err != nil) != c.bad {
			t.Errorf("%s: %v", c.params, err)
		}
	}
}

// FuzzFraming reads anything: it ends, without a panic.
func FuzzFraming(f *testing.F) {
	f.Add([]byte(framed(`{"jsonrpc":"2.0","id":1,"method":"a"}`)), false)
	f.Add([]byte("{}\n[]\n"), true)
	f.Add([]byte("Content-Length: 99999999\r\n\r\n{"), false)
	f.Fuzz(func(t *testing.T, b []byte, lines bool) {
		framing := ContentLength
		if lines {
			framing = Lines
		}
		c := NewConn(bytes.NewReader(b), io.Discard, framing)
		_ = c.Run(context.Background(), func(_ context.Context, m *Message) { _ = c.Reply(m.ID, 1) })
	})
}
