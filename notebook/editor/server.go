package editor

import (
	"context"
	"encoding/json"
	"slices"
	"strings"
	"sync"
	"time"

	"scarph/notebook/rpc"
)

// Server serves one editor.
type Server struct {
	conn    *rpc.Conn
	version string
	pauses  pauses

	queue queue
	ctx   context.Context // ends with the server; requests run under it

	// All below belongs to the goroutine that answers.
	encoding encoding
	client   capabilities
	ready    bool // initialized
	ending   bool // shut down
	watches  bool // the client tells of changed files
	docs     map[string]*document
	journals map[string]*journal // by their path on disk
}

// pauses are how long the server waits before what it does on its own.
type pauses struct {
	// notes is how long the keys must be still before remarks are looked for, which
	// asks the whole journal.
	notes time.Duration
	// disk is how long an editor has to read a changed file itself before the change is
	// sent to it as an edit.
	disk time.Duration
}

// New returns a server for the client at the other end of a connection.
func New(conn *rpc.Conn, version string) *Server {
	return &Server{conn: conn, version: version, pauses: pauses{notes: 300 * time.Millisecond, disk: 400 * time.Millisecond}, docs: map[string]*document{}, journals: map[string]*journal{}}
}

// queue holds what is to be done, in its order.
type queue struct {
	mu        sync.Mutex
	list      []work
	cancelled map[string]bool // ids of requests that are no longer wanted
	wake      chan struct{}
}

// work is a message, or something of the server's own.
type work struct {
	m  *rpc.Message
	do func()
}

func (q *queue) put(w work) {
	q.mu.Lock()
	q.list = append(q.list, w)
	q.mu.Unlock()
	select {
	case q.wake <- struct{}{}:
	default:
	}
}

func (q *queue) take() (work, bool) {
	q.mu.Lock()
	defer q.mu.Unlock()
	if len(q.list) == 0 {
		return work{}, false
	}
	w := q.list[0]
	q.list = q.list[1:]
	return w, true
}

// isCancelled reports whether a request is no longer wanted, and forgets that.
func (q *queue) isCancelled(id json.RawMessage) bool {
	q.mu.Lock()
	defer q.mu.Unlock()
	was := q.cancelled[string(id)]
	delete(q.cancelled, string(id))
	return was
}

// Run serves until the client says exit, the stream ends or ctx does. The status is
// that of the protocol: 0 after an orderly shutdown, 1 otherwise.
func (s *Server) Run(ctx context.Context) (status int, err error) {
	ctx, cancel := context.WithCancel(ctx)
	defer cancel()
	s.ctx = ctx
	s.queue.wake = make(chan struct{}, 1)
	s.queue.cancelled = map[string]bool{}
	read := make(chan error, 1)
	go func() { read <- s.conn.Run(ctx, s.receive) }()
	status = 1
	for {
		select {
		case <-ctx.Done():
			return status, nil
		case err := <-read:
			s.work() // what came before the end
			return s.statusNow(), err
		case <-s.queue.wake:
			if s.work() {
				return s.statusNow(), nil
			}
		}
	}
}

func (s *Server) statusNow() int {
	if s.ending {
		return 0
	}
	return 1
}

// receive runs in the goroutine that reads.
func (s *Server) receive(_ context.Context, m *rpc.Message) {
	if m.Method == "$/cancelRequest" {
		var p struct {
			ID json.RawMessage `json:"id"`
		}
		if m.Decode(&p, false) == nil {
			s.queue.mu.Lock()
			if len(s.queue.cancelled) < 10_000 {
				s.queue.cancelled[string(p.ID)] = true
			}
			s.queue.mu.Unlock()
		}
		return
	}
	s.queue.put(work{m: m})
}

// work does all that waits, then what hangs on edits, then sends what is due; it reports whether the client
// said exit.
func (s *Server) work() (exit bool) {
	for {
		w, ok := s.queue.take()
		switch {
		case !ok:
			if !s.settle() && !s.publishDue() {
				return false
			}
		case w.do != nil:
			w.do()
		case w.m.Method == "exit":
			return true
		case w.m.IsNotification():
			s.notified(w.m)
		default:
			s.answer(w.m)
		}
	}
}

// later puts work of the server's own into the queue after a pause.
func (s *Server) later(pause time.Duration, do func()) *time.Timer {
	return time.AfterFunc(pause, func() {
		if s.ctx.Err() == nil {
			s.queue.put(work{do: do})
		}
	})
}

// notifications is the table of what the client says without wanting an answer.
var notifications map[string]func(*Server, *rpc.Message)

// requests is the table of what the client asks.
var requests map[string]func(*Server, *rpc.Message) (any, error)

func init() {
	notifications = map[string]func(*Server, *rpc.Message){
		"initialized":                     (*Server).initialized,
		"textDocument/didOpen":            said((*Server).didOpen),
		"textDocument/didChange":          said((*Server).didChange),
		"textDocument/didSave":            said((*Server).didSave),
		"textDocument/didClose":           said((*Server).didClose),
		"workspace/didChangeWatchedFiles": said((*Server).didChangeWatchedFiles),
	}
	requests = map[string]func(*Server, *rpc.Message) (any, error){
		"initialize":                        asked((*Server).initialize),
		"shutdown":                          (*Server).shutdown,
		"textDocument/hover":                asked((*Server).hover),
		"textDocument/completion":           asked((*Server).completion),
		"completionItem/resolve":            asked((*Server).resolveItem),
		"textDocument/signatureHelp":        asked((*Server).signatureHelp),
		"textDocument/inlayHint":            asked((*Server).inlayHints),
		"textDocument/declaration":          asked((*Server).declaration),
		"textDocument/definition":           asked((*Server).definition),
		"textDocument/implementation":       asked((*Server).readings),
		"textDocument/references":           asked((*Server).references),
		"textDocument/documentHighlight":    asked((*Server).highlights),
		"textDocument/prepareRename":        asked((*Server).prepareRename),
		"textDocument/rename":               asked((*Server).rename),
		"textDocument/documentSymbol":       asked((*Server).documentSymbols),
		"workspace/symbol":                  asked((*Server).workspaceSymbols),
		"textDocument/foldingRange":         asked((*Server).foldingRanges),
		"textDocument/semanticTokens/full":  asked((*Server).semanticTokens),
		"textDocument/semanticTokens/range": asked((*Server).semanticTokensIn),
		"textDocument/codeAction":           asked((*Server).codeActions),
		"textDocument/formatting":           asked((*Server).formatting),
		"textDocument/rangeFormatting":      asked((*Server).rangeFormatting),
	}
}

// said decodes the parameters of a notification; one that cannot be read is passed over.
func said[P any](f func(*Server, P)) func(*Server, *rpc.Message) {
	return func(s *Server, m *rpc.Message) {
		var p P
		if err := m.Decode(&p, false); err == nil {
			f(s, p)
		}
	}
}

// asked decodes the parameters of a request.
func asked[P any](f func(*Server, P) (any, error)) func(*Server, *rpc.Message) (any, error) {
	return func(s *Server, m *rpc.Message) (any, error) {
		var p P
		if err := m.Decode(&p, false); err != nil {
			return nil, &rpc.Error{Code: rpc.CodeInvalidParams, Message: strings.ReplaceAll(err.Error(), "json: ", "")}
		}
		return f(s, p)
	}
}

func (s *Server) notified(m *rpc.Message) {
	if f := notifications[m.Method]; f != nil && s.ready && !s.ending {
		f(s, m)
	}
}

func (s *Server) answer(m *rpc.Message) {
	result, err := s.result(m)
	if err == nil {
		_ = s.conn.Reply(m.ID, result)
		return
	}
	e, ok := err.(*rpc.Error)
	if !ok {
		e = &rpc.Error{Code: rpc.CodeRequestFailed, Message: err.Error()}
	}
	_ = s.conn.ReplyError(m.ID, e)
}

func (s *Server) result(m *rpc.Message) (any, error) {
	f := requests[m.Method]
	switch {
	case s.queue.isCancelled(m.ID):
		return nil, &rpc.Error{Code: rpc.CodeRequestCancelled, Message: "cancelled"}
	case f == nil:
		return nil, &rpc.Error{Code: rpc.CodeMethodNotFound, Message: "there is no request " + m.Method}
	case s.ending:
		return nil, &rpc.Error{Code: rpc.CodeInvalidRequest, Message: "the server has been shut down"}
	case !s.ready && m.Method != "initialize":
		return nil, &rpc.Error{Code: rpc.CodeNotInitialized, Message: "initialize comes first"}
	case s.ready && m.Method == "initialize":
		return nil, &rpc.Error{Code: rpc.CodeInvalidRequest, Message: "initialize comes once"}
	}
	s.settle()
	return f(s, m)
}

func (s *Server) shutdown(*rpc.Message) (any, error) {
	s.ending = true
	for _, j := range s.journals {
		j.close()
	}
	return nil, nil
}

// tokenTypes and tokenModifiers are the legend of semantic tokens.
var (
	tokenTypes     = []string{"variable", "function", "number", "string", "keyword", "operator", "comment", "property"}
	tokenModifiers = []string{"declaration", "modification"}
)

type object map[string]any

func (s *Server) initialize(p initializeParams) (any, error) {
	s.client, s.ready = p.Capabilities, true
	if slices.Contains(p.Capabilities.General.PositionEncodings, utf8Bytes.String()) {
		s.encoding = utf8Bytes
	}
	return object{
		"serverInfo": object{"name": "scarph", "version": s.version},
		"capabilities": object{
			"positionEncoding":                s.encoding.String(),
			"textDocumentSync":                object{"openClose": true, "change": 2, "save": object{"includeText": false}},
			"hoverProvider":                   true,
			"completionProvider":              object{"triggerCharacters": []string{".", "{", "\""}, "resolveProvider": true},
			"signatureHelpProvider":           object{"triggerCharacters": []string{"(", ","}},
			"inlayHintProvider":               true,
			"declarationProvider":             true,
			"definitionProvider":              true,
			"implementationProvider":          true,
			"referencesProvider":              true,
			"documentHighlightProvider":       true,
			"renameProvider":                  object{"prepareProvider": true},
			"documentSymbolProvider":          true,
			"workspaceSymbolProvider":         true,
			"foldingRangeProvider":            true,
			"semanticTokensProvider":          object{"legend": object{"tokenTypes": tokenTypes, "tokenModifiers": tokenModifiers}, "full": true, "range": true},
			"codeActionProvider":              object{"codeActionKinds": []string{"quickfix", "refactor.rewrite"}},
			"documentFormattingProvider":      true,
			"documentRangeFormattingProvider": true,
			"workspace":                       object{"workspaceFolders": object{"supported": true}},
		},
	}, nil
}

// initialized asks the client to tell of files that change on disk; where it cannot,
// the server watches them itself.
func (s *Server) initialized(*rpc.Message) {
	if !s.client.Workspace.DidChangeWatchedFiles.DynamicRegistration {
		return
	}
	s.watches = true
	go func() {
		_ = s.conn.Ask(s.ctx, "client/registerCapability", object{"registrations": []object{{
			"id": "files", "method": "workspace/didChangeWatchedFiles",
			"registerOptions": object{"watchers": []object{{"globPattern": "**/*.md"}}},
		}}}, nil)
	}()
}

// tell shows the person at the editor a message.
func (s *Server) tell(text string) {
	const warning = 2
	_ = s.conn.Notify("window/showMessage", object{"type": warning, "message": text})
}

// refreshHints asks the client to ask for inlay hints again.
func (s *Server) refreshHints() {
	if s.client.Workspace.InlayHint.RefreshSupport {
		go func() { _ = s.conn.Ask(s.ctx, "workspace/inlayHint/refresh", nil, nil) }()
	}
}
