package rpc

import (
	"bufio"
	"bytes"
	"context"
	"encoding/json"
	"errors"
	"io"
	"strconv"
	"sync"
)

// Codes of errors that JSON-RPC 2.0 (section 5.1) and the Language Server Protocol
// 3.17 (ErrorCodes) lay down.
const (
	CodeParse            = -32700
	CodeInvalidRequest   = -32600
	CodeMethodNotFound   = -32601
	CodeInvalidParams    = -32602
	CodeInternal         = -32603
	CodeNotInitialized   = -32002
	CodeRequestFailed    = -32803
	CodeRequestCancelled = -32800
)

// Error is why a request was not answered.
type Error struct {
	Code    int    `json:"code"`
	Message string `json:"message"`
	Data    any    `json:"data,omitempty"`
}

func (e *Error) Error() string { return e.Message }

// Message is a request, or a notification when it has no ID.
type Message struct {
	// ID is a number or a string as JSON; nil for a notification.
	ID     json.RawMessage
	Method string
	Params json.RawMessage
}

// IsNotification reports whether no answer is wanted.
func (m *Message) IsNotification() bool { return m.ID == nil }

// Decode fills a struct from the parameters; a field that the struct has not is an error
// when strict. Parameters that are left out leave it as it is.
func (m *Message) Decode(into any, strict bool) error {
	if len(m.Params) == 0 || string(m.Params) == "null" {
		return nil
	}
	d := json.NewDecoder(bytes.NewReader(m.Params))
	if strict {
		d.DisallowUnknownFields()
	}
	return d.Decode(into)
}

// wire is any message on its way: a request, a notification or an answer.
type wire struct {
	JSONRPC string          `json:"jsonrpc"`
	ID      json.RawMessage `json:"id,omitempty"`
	Method  string          `json:"method,omitempty"`
	Params  json.RawMessage `json:"params,omitempty"`
	Result  json.RawMessage `json:"result,omitempty"`
	Error   *Error          `json:"error,omitempty"`
}

// Conn is a connection to one client.
type Conn struct {
	in      *bufio.Reader
	framing Framing

	writing sync.Mutex
	out     io.Writer

	mu    sync.Mutex
	next  int
	asked map[string]chan wire // requests of ours that wait for their answer
	ended bool
}

// NewConn returns a connection over a pair of streams.
func NewConn(in io.Reader, out io.Writer, f Framing) *Conn {
	return &Conn{in: bufio.NewReaderSize(in, 64<<10), out: out, framing: f, asked: map[string]chan wire{}}
}

// Run reads messages and hands them to handle, in their order, until the stream ends
// or ctx does; what cannot be read is answered with an error. It returns nil when the
// stream ended between two messages.
func (c *Conn) Run(ctx context.Context, handle func(ctx context.Context, m *Message)) error {
	defer c.forgetAsked()
	for ctx.Err() == nil {
		b, err := readMessage(c.in, c.framing)
		if errors.Is(err, io.EOF) {
			return nil
		}
		if err != nil {
			if !errors.Is(err, io.ErrUnexpectedEOF) {
				_ = c.ReplyError(nil, &Error{Code: CodeParse, Message: err.Error()})
			}
			return err // where the next message begins is not known
		}
		c.take(ctx, b, handle)
	}
	return nil
}

func (c *Conn) take(ctx context.Context, b []byte, handle func(context.Context, *Message)) {
	if b = bytes.TrimSpace(b); len(b) > 0 && b[0] == '[' {
		_ = c.ReplyError(nil, &Error{Code: CodeInvalidRequest, Message: "send messages one at a time, not in a batch"})
		return
	}
	var w wire
	if err := json.Unmarshal(b, &w); err != nil {
		_ = c.ReplyError(nil, &Error{Code: CodeParse, Message: "the message is no JSON object: " + err.Error()})
		return
	}
	if string(w.ID) == "null" {
		w.ID = nil
	}
	if !isID(w.ID) || w.JSONRPC != "2.0" {
		_ = c.ReplyError(nil, &Error{Code: CodeInvalidRequest, Message: `a message has "jsonrpc": "2.0" and an id that is a number or a string`})
		return
	}
	if w.Method == "" {
		if w.ID != nil && (w.Result != nil || w.Error != nil) {
			c.answered(w)
			return
		}
		_ = c.ReplyError(w.ID, &Error{Code: CodeInvalidRequest, Message: "the message has no method"})
		return
	}
	handle(ctx, &Message{ID: w.ID, Method: w.Method, Params: w.Params})
}

func isID(id json.RawMessage) bool {
	if id == nil {
		return true
	}
	b := id[0]
	return b == '"' || b == '-' || b >= '0' && b <= '9'
}

func (c *Conn) write(w wire) error {
	w.JSONRPC = "2.0"
	var b bytes.Buffer
	e := json.NewEncoder(&b)
	e.SetEscapeHTML(false)
	if err := e.Encode(w); err != nil {
		return err
	}
	c.writing.Lock()
	defer c.writing.Unlock()
	return writeMessage(c.out, c.framing, bytes.TrimSpace(b.Bytes()))
}

func raw(v any) (json.RawMessage, error) {
	var b bytes.Buffer
	e := json.NewEncoder(&b)
	e.SetEscapeHTML(false)
	err := e.Encode(v)
	return bytes.TrimSpace(b.Bytes()), err
}

// Reply answers a request. An answer that is no JSON becomes an internal error.
func (c *Conn) Reply(id json.RawMessage, result any) error {
	b, err := raw(result)
	if err != nil {
		return c.ReplyError(id, &Error{Code: CodeInternal, Message: err.Error()})
	}
	return c.write(wire{ID: id, Result: b})
}

// ReplyError says why a request is not answered; a nil id stands for a message whose
// id could not be read.
func (c *Conn) ReplyError(id json.RawMessage, e *Error) error {
	if id == nil {
		id = json.RawMessage("null")
	}
	return c.write(wire{ID: id, Error: e})
}

// Notify sends a notification.
func (c *Conn) Notify(method string, params any) error {
	b, err := raw(params)
	if err != nil {
		return err
	}
	return c.write(wire{Method: method, Params: b})
}

// Ask sends a request and waits for the answer, which is decoded into result unless
// that is nil. It must not be called by the handler itself, which would wait for itself.
func (c *Conn) Ask(ctx context.Context, method string, params, result any) error {
	p, err := raw(params)
	if err != nil {
		return err
	}
	c.mu.Lock()
	if c.ended {
		c.mu.Unlock()
		return io.ErrClosedPipe
	}
	c.next++
	id := json.RawMessage(strconv.Itoa(c.next))
	answer := make(chan wire, 1)
	c.asked[string(id)] = answer
	c.mu.Unlock()
	if err := c.write(wire{ID: id, Method: method, Params: p}); err != nil {
		c.drop(id)
		return err
	}
	select {
	case <-ctx.Done():
		c.drop(id)
		return ctx.Err()
	case w, ok := <-answer:
		switch {
		case !ok:
			return io.ErrClosedPipe
		case w.Error != nil:
			return w.Error
		case result != nil:
			return json.Unmarshal(w.Result, result)
		}
		return nil
	}
}

func (c *Conn) drop(id json.RawMessage) {
	c.mu.Lock()
	defer c.mu.Unlock()
	delete(c.asked, string(id))
}

func (c *Conn) answered(w wire) {
	c.mu.Lock()
	answer := c.asked[string(w.ID)]
	delete(c.asked, string(w.ID))
	c.mu.Unlock()
	if answer != nil {
		answer <- w
	}
}

// forgetAsked ends the waiting for answers that will not come.
func (c *Conn) forgetAsked() {
	c.mu.Lock()
	defer c.mu.Unlock()
	c.ended = true
	for id, answer := range c.asked {
		close(answer)
		delete(c.asked, id)
	}
}
