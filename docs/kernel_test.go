package docs

import (
	"bytes"
	"context"
	"encoding/json"
	"errors"
	"go/ast"
	"go/parser"
	"go/token"
	"os"
	"os/exec"
	"path/filepath"
	"reflect"
	"slices"
	"strconv"
	"strings"
	"testing"
	"time"

	"scarph/kernel"
	"scarph/notebook/rpc"
)

// request is a request with what is to be said of it.
type request struct {
	method string
	about  string
	params string // of the example
	// refused are parameters that are refused.
	refused []string
	takes   any // the struct of the parameters
}

// kernelRequests is a request of each kind, in the order in which they are sent to one
// kernel.
var kernelRequests = []request{
	{"about", "The answer names the journal, its entries, the number of the latest ripple, and what can be asked.",
		`{}`, []string{`{"verbose": true}`}, kernel.NoParams{}},
	{"evaluate", "Lines are worked out on a sheet of scratch paper beside the journal, which knows the journal's names; the journal keeps nothing of it. A name that a line gives is known to the lines after it, in later requests too; `it` is the answer before. A line such as `revise beam = 4'` tries another number for a value of the journal, on this sheet alone. Each line has an answer: `data`, a bundle with the same result under several MIME types (`text/plain`, `text/html`, `application/json`, and `image/svg+xml` for a drawing), or `error`, or `waits`, the values whose failure it waits for. A check has `holds` as well. A request whose lines are wrong is answered, not refused; the error stands at its line, and its `column` counts characters of that line from 1.",
		`{"text": "thick = planking + 1/16 in\nbeam - 2 * it\nbeam + 19"}`, []string{`{}`, `{"text": "beam", "as_of": "May"}`}, kernel.EvaluateParams{}},
	{"describe", "A value has its readings, the formula with the numbers put in, what hangs on it, where its ± comes from; a function its arguments, formula, limits, caution and source.",
		`{"name": "inside"}`, []string{`{"name": "insid"}`, `{}`}, kernel.DescribeParams{}},
	{"complete", "A proposal takes the place of the characters from `start` to `end`. Behind one with `call` brackets follow.",
		`{"text": "thick * insi"}`, []string{`{"text": "insi", "cursor": 9}`}, kernel.CompleteParams{}},
	{"what_if", "The ripple that would go through the journal: what would change, what of the values that use it would not, which of the parts that were made would be off, and the checks whose answer would be another.",
		`{"values": {"planking": "3/8 in"}}`, []string{`{"values": {"planking": "3 lb"}}`, `{"values": {"plank": "3/8 in"}}`, `{}`}, kernel.WhatIfParams{}},
	{"ripple", "What has moved since a ripple. A client that keeps numbers asks for this with the number it heard last. The last " + strconv.Itoa(kernel.KeptRipples) + " ripples are kept; when older ones are asked for, the answer is the fault `gone`, and the client begins anew with `dimensions`.",
		`{"since": 0}`, []string{`{"since": 7}`, `{}`}, kernel.RippleParams{}},
	{"history", "", `{"name": "beam"}`, []string{`{"name": "beem"}`}, kernel.HistoryParams{}},
	{"dimensions", "", `{"as_of": "2027-04-18"}`, []string{`{"as_of": "12"}`}, kernel.DimensionsParams{}},
	{"subscribe", "From now on every ripple is told as the notification `moved`; see below.", `{}`, nil, kernel.NoParams{}},
	{"unsubscribe", "", `{}`, nil, kernel.NoParams{}},
	{"interrupt", "This request is answered at once, ahead of all that wait; the requests it stops are answered with the fault `interrupted`. The answer says how many there were.",
		`{"request": "a7"}`, []string{`{"request": 7}`}, kernel.InterruptParams{}},
	{"shutdown", "What was asked before is answered first; then the kernel ends. It ends in the same way when its input does.", `{}`, nil, kernel.NoParams{}},
}

// faults says what the codes of the kernel's own faults mean. The others are those of the
// language.
var faults = []struct{ code, says string }{
	{kernel.FaultMethod, "there is no such request"},
	{kernel.FaultParameters, "a parameter is missing, unknown or of the wrong type"},
	{kernel.FaultInterrupted, "the request was interrupted, or took longer than a minute"},
	{kernel.FaultGone, "that ripple is not kept"},
	{kernel.FaultBusy, "too many requests wait; read answers before asking more"},
	{kernel.FaultClosed, "the kernel has been shut down"},
}

// kernelPage tells of the kernel's messages. Every example is sent to a kernel, and what
// it answered stands here.
func kernelPage(t *testing.T) string {
	p := head("The kernel's messages", "`scarph kernel DIR` lets another program work with a journal: it reads requests on its standard input and writes answers on its standard output, in JSON-RPC 2.0. [client.py](client.py) is a client in Python; [shapes.md](shapes.md) shows the shapes that the answers are made of.")
	p.framing()
	p.line("")
	p.line("All examples are of this journal, whose last line is wrong on purpose:")
	p.smallJournal()
	dir := laidOut(t)
	k := startKernel(t, dir, "--lines")
	for _, name := range kernel.MethodNames() {
		if !slices.ContainsFunc(kernelRequests, func(r request) bool { return r.method == name }) {
			t.Errorf("nothing is said of %s", name)
		}
	}
	summaries := k.summaries()
	for _, r := range kernelRequests {
		p.line("")
		p.line("## " + r.method)
		p.line("")
		p.line(strings.ToUpper(summaries[r.method][:1]) + summaries[r.method][1:] + ".")
		if r.about != "" {
			p.line("")
			p.line(r.about)
		}
		p.parameters(t, r.takes)
		p.example(r.method, r.params, k.answer(r.method, r.params))
		if len(r.refused) > 0 {
			p.line("")
			p.line("Errors, for example:")
			for _, params := range r.refused {
				p.example(r.method, params, k.refuse(r.method, params))
			}
		}
	}
	k.end()
	p.told(t, dir)
	p.faults(t)
	return p.String()
}

func (p *page) framing() {
	p.line("")
	p.line("## Framing")
	p.line("")
	p.line("Each message stands behind a header with the length of its body in bytes, as in the Language Server Protocol; with `--lines`, on a line of its own.")
	body := `{"jsonrpc": "2.0", "id": 1, "method": "evaluate", "params": {"text": "beam / 2"}}`
	p.line("")
	p.line("```")
	p.line("Content-Length: " + strconv.Itoa(len(body)))
	p.line("")
	p.line(body)
	p.line("```")
	p.line("")
	p.line("An id is a number or a text. Requests are sent one at a time, not in batches, but a client need not wait for an answer before it asks again: answers come in the order of the requests, but that of `interrupt`, which comes at once. A message of more than 64 MiB, or a text of more than 1 MiB, is refused. A parameter that a request does not know is refused as well. Fields may be added to answers; those that are here keep their meaning as long as `protocol`, which `about` tells, is " + strconv.Itoa(kernel.Protocol) + ".")
}

// parameters lists the parameters of a request, as their struct tells of them.
func (p *page) parameters(t *testing.T, takes any) {
	typ := reflect.TypeOf(takes)
	if typ.NumField() == 0 {
		p.line("")
		p.line("It takes no parameters.")
		return
	}
	p.table("parameter", "type", "")
	said := commentsOf(t, typ.Name())
	for i := range typ.NumField() {
		f := typ.Field(i)
		name := f.Tag.Get("json")
		if said[f.Name] == "" {
			t.Errorf("nothing is said of the parameter %s of %s", name, typ.Name())
		}
		kind := f.Type
		if kind.Kind() == reflect.Pointer {
			kind = kind.Elem()
		}
		words := map[reflect.Kind]string{reflect.String: "text", reflect.Int: "number", reflect.Bool: "true or false", reflect.Map: "object of texts"}
		_, says, _ := strings.Cut(said[f.Name], " ") // the field's own name
		for _, verb := range []string{"is ", "holds "} {
			says = strings.TrimPrefix(says, verb)
		}
		p.row(code(name), words[kind.Kind()], plain(strings.TrimSuffix(says, ".")))
	}
}

// commentsOf reads the comments of a struct's fields.
func commentsOf(t *testing.T, name string) map[string]string {
	said := map[string]string{}
	for _, file := range []string{"../kernel/answers.go", "../kernel/answers_lists.go"} {
		f, err := parser.ParseFile(token.NewFileSet(), file, nil, parser.ParseComments)
		if err != nil {
			t.Fatal(err)
		}
		ast.Inspect(f, func(n ast.Node) bool {
			s, ok := n.(*ast.TypeSpec)
			if !ok || s.Name.Name != name {
				return true
			}
			for _, field := range s.Type.(*ast.StructType).Fields.List {
				said[field.Names[0].Name] = strings.Join(strings.Fields(field.Doc.Text()), " ")
			}
			return false
		})
	}
	return said
}

// example shows a request and what came of it.
func (p *page) example(method, params, answer string) {
	p.line("")
	p.line("```")
	p.line(`{"method": "` + method + `", "params": ` + params + `}`)
	p.line("")
	p.line(answer)
	p.line("```")
}

// told shows what a subscriber is told when a file is saved.
func (p *page) told(t *testing.T, dir string) {
	k := startKernel(t, dir)
	k.answer("subscribe", `{}`)
	name := filepath.Join(dir, "2027-05-02-wider.md")
	text, err := os.ReadFile(name)
	if err != nil {
		t.Fatal(err)
	}
	save(t, name, bytes.Replace(text, []byte("1 3/4"), []byte("1 7/8"), 1))
	p.line("")
	p.line("## moved")
	p.line("")
	p.line("A notification, once it has been subscribed to: what a save of the journal's files moved. Here `found beam` was revised to 4' 1 7/8\". `since` is the number of the ripple before; a client that finds a gap in the numbers has been told too fast, and asks for the `ripple` since the last it knows.")
	p.line("")
	p.line("```")
	select {
	case m := <-k.heard:
		p.line(`{"method": "` + m.Method + `", "params": ` + indented(t, m.Params) + `}`)
	case <-time.After(time.Minute):
		t.Fatal("nothing was told")
	}
	p.line("```")
	k.end()
}

func (p *page) faults(t *testing.T) {
	p.line("")
	p.line("## Errors")
	p.line("")
	p.line("A refusal's `data` holds a `code`, the words, a `column` (0 where there is none) and a `hint`, which may be empty. Programs go by `data.code`, which is one of these or one of the language's ([messages.md](messages.md)).")
	p.table("data.code", "", "JSON-RPC code")
	numbers := map[string]string{kernel.FaultMethod: "-32601", kernel.FaultParameters: "-32602", kernel.FaultInterrupted: "-32800"}
	for _, f := range faults {
		number := numbers[f.code]
		if number == "" {
			number = "1"
		}
		p.row(code(f.code), plain(f.says), number)
	}
	p.row("of the language", "what was sent is wrong there", "1")
	p.line("")
	p.line("What is no message at all is answered with the codes of JSON-RPC 2.0 (section 5.1): -32700 where it is no JSON, -32600 where it is no request. After a header that cannot be read the kernel ends, since it cannot know where the next message begins.")
	k := startKernel(t, laidOut(t))
	p.example("evaluat", `{}`, k.refuse("evaluat", `{}`))
	k.end()
}

// asked is a kernel that is talked to.
type asked struct {
	*rpc.Conn
	t     *testing.T
	heard chan *rpc.Message
	cmd   *exec.Cmd
	read  chan error
}

func startKernel(t *testing.T, dir string, flags ...string) *asked {
	t.Helper()
	scarph(t, dir, "", "functions", "frame_spacing") // it is built
	k := &asked{t: t, heard: make(chan *rpc.Message, 100), read: make(chan error, 1)}
	k.cmd = exec.Command(program, append([]string{"kernel", dir}, flags...)...)
	in, err := k.cmd.StdinPipe()
	if err != nil {
		t.Fatal(err)
	}
	out, err := k.cmd.StdoutPipe()
	if err != nil {
		t.Fatal(err)
	}
	k.cmd.Stderr = os.Stderr
	if err := k.cmd.Start(); err != nil {
		t.Fatal(err)
	}
	framing := rpc.ContentLength
	if len(flags) > 0 {
		framing = rpc.Lines
	}
	k.Conn = rpc.NewConn(out, in, framing)
	go func() {
		k.read <- k.Run(context.Background(), func(_ context.Context, m *rpc.Message) { k.heard <- m })
	}()
	return k
}

func (k *asked) try(method, params string) (json.RawMessage, error) {
	ctx, cancel := context.WithTimeout(context.Background(), time.Minute)
	defer cancel()
	var z json.RawMessage
	err := k.Ask(ctx, method, json.RawMessage(params), &z)
	return z, err
}

// answer makes a request that must succeed.
func (k *asked) answer(method, params string) string {
	k.t.Helper()
	z, err := k.try(method, params)
	if err != nil {
		k.t.Fatalf("%s %s: %v", method, params, err)
	}
	if z == nil {
		return "null"
	}
	return indented(k.t, z)
}

// refuse makes a request that must be refused.
func (k *asked) refuse(method, params string) string {
	k.t.Helper()
	_, err := k.try(method, params)
	var e *rpc.Error
	if !errors.As(err, &e) {
		k.t.Fatalf("%s %s is not refused: %v", method, params, err)
	}
	b, err := json.Marshal(e)
	if err != nil {
		k.t.Fatal(err)
	}
	return indented(k.t, b)
}

func (k *asked) summaries() map[string]string {
	var about kernel.AboutResult
	z, err := k.try("about", `{}`)
	if err == nil {
		err = json.Unmarshal(z, &about)
	}
	if err != nil {
		k.t.Fatal(err)
	}
	list := map[string]string{}
	for _, m := range about.Methods {
		list[m.Name] = m.Summary
	}
	return list
}

// end shuts the kernel down, unless it has been already, and waits for it.
func (k *asked) end() {
	k.t.Helper()
	_, _ = k.try("shutdown", `{}`)
	<-k.read
	if err := k.cmd.Wait(); err != nil {
		k.t.Error(err)
	}
}

func indented(t *testing.T, b json.RawMessage) string {
	t.Helper()
	var out bytes.Buffer
	if err := json.Indent(&out, b, "", "  "); err != nil {
		t.Fatal(err)
	}
	return out.String()
}

// save puts a file in place at once, so that no half of it is read.
func save(t *testing.T, name string, text []byte) {
	t.Helper()
	begun := filepath.Join(filepath.Dir(name), ".begun")
	err := os.WriteFile(begun, text, 0o644)
	if err == nil {
		err = os.Rename(begun, name)
	}
	if err != nil {
		t.Fatal(err)
	}
}
