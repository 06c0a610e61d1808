package editor

import (
	"context"
	"encoding/json"
	"errors"
	"io"
	"os"
	"path/filepath"
	"strings"
	"sync"
	"testing"
	"time"

	"scarph/notebook/rpc"
)

// client is an editor at the other end of pipes.
type client struct {
	*rpc.Conn
	t      testing.TB
	dir    string
	status chan int

	mu        sync.Mutex
	versions  map[string]int
	texts     map[string]string
	problems  map[string][]diagnostic // by path below dir
	told      []string                // messages shown
	applied   []workspaceEdit
	refuse    bool // edits are not applied
	refreshed int
	news      chan bool // something came
}

// everything is what a capable editor says it can do.
const everything = `{"general":{"positionEncodings":["utf-8","utf-16"]},"workspace":{"applyEdit":true,"workspaceEdit":{"documentChanges":true},"inlayHint":{"refreshSupport":true},"didChangeWatchedFiles":{"dynamicRegistration":true}},
"textDocument":{"completion":{"completionItem":{"snippetSupport":true}},"hover":{"contentFormat":["markdown","plaintext"]},"signatureHelp":{"signatureInformation":{"parameterInformation":{"labelOffsetSupport":true}}},"documentSymbol":{"hierarchicalDocumentSymbolSupport":true}}}`

// begin starts a server over the files of a journal and says initialize.
func begin(t testing.TB, caps string, files map[string]string) *client {
	t.Helper()
	c := &client{t: t, dir: t.TempDir(), status: make(chan int, 1), versions: map[string]int{}, texts: map[string]string{}, problems: map[string][]diagnostic{}, news: make(chan bool, 1)}
	if real, err := filepath.EvalSymlinks(c.dir); err == nil {
		c.dir = real
	}
	for name, text := range files {
		c.write(name, text)
	}
	sr, cw := io.Pipe()
	cr, sw := io.Pipe()
	c.Conn = rpc.NewConn(cr, cw, rpc.ContentLength)
	s := New(rpc.NewConn(sr, sw, rpc.ContentLength), "test")
	if _, ok := t.(*testing.T); ok {
		s.pauses = pauses{notes: 5 * time.Millisecond, disk: 5 * time.Millisecond}
	}
	ctx, cancel := context.WithCancel(context.Background())
	t.Cleanup(func() { cancel(); cw.Close(); sw.Close() })
	go func() {
		n, err := s.Run(ctx)
		if err != nil && ctx.Err() == nil {
			t.Error(err)
		}
		c.status <- n
		sw.Close()
	}()
	go func() { _ = c.Run(context.Background(), c.hear) }()
	if caps == "" {
		caps = "{}"
	}
	var got map[string]any
	c.ask("initialize", object{"processId": nil, "rootUri": uriOf(c.dir), "capabilities": json.RawMessage(caps)}, &got)
	c.say("initialized", object{})
	return c
}

func (c *client) write(name, text string) {
	c.t.Helper()
	full := filepath.Join(c.dir, filepath.FromSlash(name))
	if err := os.MkdirAll(filepath.Dir(full), 0o755); err != nil {
		c.t.Fatal(err)
	}
	if err := os.WriteFile(full, []byte(text), 0o644); err != nil {
		c.t.Fatal(err)
	}
}

func (c *client) uri(name string) string {
	return uriOf(filepath.Join(c.dir, filepath.FromSlash(name)))
}

// hear answers the server's requests and keeps what it says.
func (c *client) hear(_ context.Context, m *rpc.Message) {
	c.mu.Lock()
	defer c.mu.Unlock()
	switch m.Method {
	case "textDocument/publishDiagnostics":
		var p publishParams
		if err := m.Decode(&p, false); err != nil {
			c.t.Error(err)
		}
		file, _ := pathOf(p.URI)
		rel, _ := filepath.Rel(c.dir, file)
		c.problems[filepath.ToSlash(rel)] = p.Diagnostics
	case "window/showMessage":
		var p struct{ Message string }
		_ = m.Decode(&p, false)
		c.told = append(c.told, p.Message)
	case "workspace/applyEdit":
		var p struct{ Edit workspaceEdit }
		if err := m.Decode(&p, false); err != nil {
			c.t.Error(err)
		}
		applied := !c.refuse
		if applied {
			c.applied = append(c.applied, p.Edit)
		}
		go func() { _ = c.Reply(m.ID, object{"applied": applied}) }()
	case "workspace/inlayHint/refresh":
		c.refreshed++
		go func() { _ = c.Reply(m.ID, nil) }()
	case "client/registerCapability":
		go func() { _ = c.Reply(m.ID, nil) }()
	default:
		if !m.IsNotification() {
			go func() { _ = c.ReplyError(m.ID, &rpc.Error{Code: rpc.CodeMethodNotFound}) }()
		}
	}
	select {
	case c.news <- true:
	default:
	}
}

// ask makes a request that must succeed.
func (c *client) ask(method string, params, result any) {
	c.t.Helper()
	if err := c.tryAsk(method, params, result); err != nil {
		c.t.Fatalf("%s: %v", method, err)
	}
}

func (c *client) tryAsk(method string, params, result any) error {
	ctx, cancel := context.WithTimeout(context.Background(), 30*time.Second)
	defer cancel()
	return c.Ask(ctx, method, params, result)
}

func (c *client) say(method string, params any) {
	c.t.Helper()
	if err := c.Notify(method, params); err != nil {
		c.t.Fatal(err)
	}
}

// open opens a file as it lies on disk.
func (c *client) open(name string) {
	c.t.Helper()
	b, err := os.ReadFile(filepath.Join(c.dir, filepath.FromSlash(name)))
	if err != nil {
		c.t.Fatal(err)
	}
	c.openText(name, string(b))
}

func (c *client) openText(name, src string) {
	c.versions[name], c.texts[name] = 1, src
	c.say("textDocument/didOpen", object{"textDocument": object{"uri": c.uri(name), "languageId": "markdown", "version": 1, "text": src}})
}

// edit replaces the first occurrence of old in the text of an open file.
func (c *client) edit(name, old, with string) {
	c.t.Helper()
	src := c.texts[name]
	i := strings.Index(src, old)
	if i < 0 {
		c.t.Fatalf("%q is not in %s", old, name)
	}
	x := newText(src)
	r := textRange{x.position(i, utf8Bytes), x.position(i+len(old), utf8Bytes)}
	c.versions[name]++
	c.texts[name] = src[:i] + with + src[i+len(old):]
	c.say("textDocument/didChange", object{"textDocument": object{"uri": c.uri(name), "version": c.versions[name]}, "contentChanges": []object{{"range": r, "text": with}}})
}

// at is the place of a mark in an open file: the ¦ of a piece of its text.
func (c *client) at(name, piece string) object {
	c.t.Helper()
	bar := strings.Index(piece, "¦")
	i := strings.Index(c.texts[name], strings.Replace(piece, "¦", "", 1))
	if bar < 0 || i < 0 {
		c.t.Fatalf("%q is not in %s", piece, name)
	}
	return object{"textDocument": object{"uri": c.uri(name)}, "position": newText(c.texts[name]).position(i+bar, utf8Bytes)}
}

func (c *client) file(name string) object {
	return object{"textDocument": object{"uri": c.uri(name)}}
}

// waitFor waits until what the server has said is as it should be.
func (c *client) waitFor(what string, ok func() bool) {
	c.t.Helper()
	deadline := time.After(20 * time.Second)
	for {
		c.mu.Lock()
		done := ok()
		c.mu.Unlock()
		if done {
			return
		}
		select {
		case <-c.news:
		case <-time.After(10 * time.Millisecond):
		case <-deadline:
			c.mu.Lock()
			defer c.mu.Unlock()
			b, _ := json.MarshalIndent(c.problems, "", " ")
			c.t.Fatalf("%s: it did not come about; problems %s, told %v", what, b, c.told)
		}
	}
}

// problem reports whether a diagnostic of a file has a code and stands at a text.
func (c *client) problem(name, code, at string) bool {
	for _, d := range c.problems[name] {
		if d.Code != code {
			continue
		}
		x := newText(c.texts[name])
		if s := x.span(d.Range, utf8Bytes); at == "" || x.src[s.Start:s.End] == at {
			return true
		}
	}
	return false
}

// end shuts the server down in order.
func (c *client) end() {
	c.t.Helper()
	c.ask("shutdown", nil, nil)
	c.say("exit", nil)
	select {
	case n := <-c.status:
		if n != 0 {
			c.t.Errorf("exit status %d", n)
		}
	case <-time.After(20 * time.Second):
		c.t.Fatal("the server goes on after exit")
	}
}

func codeOf(err error) int {
	var e *rpc.Error
	if errors.As(err, &e) {
		return e.Code
	}
	return 0
}

// wren is the journal of the tests.
var wren = map[string]string{
	"journal.md": `---
title: Wren
---
# Wren

She is {beam} in the beam, planked in {planking to mm}.

` + "```calc" + `
drawn beam = 4' 1 1/2"      # from the plan
planking = 7/16"
inside = beam - 2 * planking
part thwart: 2 of 3/4" by 7" by inside - 1/8" in larch, within 1/16"
check beam < 4' 2"
` + "```" + `

| drawn offsets: | st_1  | st_2  |
|----------------|-------|-------|
| sheer half     | 1-2-4 | 2-0-3 |
| chine_half     | 0-9-1 | {planking} |

` + "```calc" + `
half = offsets.sheer_half.st_2 * 2 - offsets.sheer_half.st_1
scarf = scarf_length(planking, 8)   # for the planks
` + "```" + `
`,
	"2027-04-18-thwarts.md": `---
date: 2027-04-18
---
Both thwarts cut to {inside - 1/8" to 1/16"}; thwart 4' 1 1/2" before.

` + "```calc" + `
made thwart: 2
` + "```" + `
`,
	"2027-05-02-measured.md": `---
date: 2027-05-02
---
She is {beam}, not {drawn(beam)}.

` + "```calc" + `
found beam = 4' 1 3/4" ± 1/16"    # three readings
gap = offsets.st_2.sheer_half - inside / 2
` + "```" + `
`,
}
