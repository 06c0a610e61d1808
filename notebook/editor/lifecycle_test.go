package editor

import (
	"encoding/json"
	"strings"
	"testing"
	"time"

	"scarph/notebook/rpc"
)

func TestInitialize(t *testing.T) {
	c := begin(t, everything, wren)
	if err := c.tryAsk("initialize", object{}, nil); codeOf(err) != rpc.CodeInvalidRequest {
		t.Errorf("initialize twice: %v", err)
	}
	if err := c.tryAsk("nothing/such", object{}, nil); codeOf(err) != rpc.CodeMethodNotFound {
		t.Errorf("an unknown request: %v", err)
	}
	if err := c.tryAsk("textDocument/hover", []int{1}, nil); codeOf(err) != rpc.CodeInvalidParams {
		t.Errorf("parameters of another kind: %v", err)
	}
	c.say("nothing/such", nil)
	c.say("textDocument/didChange", "x")
	c.ask("shutdown", nil, nil)
	if err := c.tryAsk("textDocument/hover", object{}, nil); codeOf(err) != rpc.CodeInvalidRequest {
		t.Errorf("after shutdown: %v", err)
	}
	c.say("exit", nil)
	if n := <-c.status; n != 0 {
		t.Errorf("exit status %d", n)
	}
}

// TestExitWithoutShutdown has the status that the protocol asks for.
func TestExitWithoutShutdown(t *testing.T) {
	c := begin(t, "", nil)
	c.say("exit", nil)
	if n := <-c.status; n != 1 {
		t.Errorf("exit status %d", n)
	}
}

// TestCapabilities says what the server can do, in the encoding the client prefers.
func TestCapabilities(t *testing.T) {
	for caps, want := range map[string]string{"{}": "utf-16", everything: "utf-8", `{"general":{"positionEncodings":["utf-32","utf-16"]}}`: "utf-16"} {
		s := New(nil, "test")
		var p initializeParams
		if err := json.Unmarshal([]byte(`{"capabilities":`+caps+`}`), &p); err != nil {
			t.Fatal(err)
		}
		z, _ := s.initialize(p)
		b, _ := json.Marshal(z)
		if !strings.Contains(string(b), `"positionEncoding":"`+want+`"`) {
			t.Errorf("%.60s: %s", caps, b)
		}
	}
}

// TestBeforeInitialize refuses requests and passes over what is only said.
func TestBeforeInitialize(t *testing.T) {
	s := New(nil, "test")
	s.queue.cancelled = map[string]bool{}
	_, err := s.result(&rpc.Message{ID: json.RawMessage("1"), Method: "textDocument/hover"})
	if codeOf(err) != rpc.CodeNotInitialized {
		t.Errorf("%v", err)
	}
	s.notified(&rpc.Message{Method: "textDocument/didOpen", Params: json.RawMessage(`{}`)})
	if len(s.docs) != 0 {
		t.Error("a file was opened before initialize")
	}
}

// TestCancel answers a request that is no longer wanted with the code for it.
func TestCancel(t *testing.T) {
	c := begin(t, everything, wren)
	c.open("journal.md")
	// Ids of this client count from 1; initialize was the first.
	c.say("$/cancelRequest", object{"id": 2})
	if err := c.tryAsk("textDocument/hover", c.at("journal.md", "inside =¦"), nil); codeOf(err) != rpc.CodeRequestCancelled {
		t.Errorf("%v", err)
	}
	if err := c.tryAsk("textDocument/hover", c.at("journal.md", "inside¦ ="), nil); err != nil {
		t.Errorf("the next: %v", err)
	}
	c.end()
}

// TestOtherFiles leaves alone what is no journal's file.
func TestOtherFiles(t *testing.T) {
	c := begin(t, everything, wren)
	for _, uri := range []string{"untitled:Untitled-1", "file:///nowhere/at/all.md", "http://example.com/a.md", "file://" + c.dir + "/notes.txt", "::"} {
		c.say("textDocument/didOpen", object{"textDocument": object{"uri": uri, "languageId": "markdown", "version": 1, "text": "x"}})
		var got any
		c.ask("textDocument/hover", object{"textDocument": object{"uri": uri}, "position": position{}}, &got)
		if got != nil {
			t.Errorf("%s: %v", uri, got)
		}
		for _, m := range []string{"textDocument/completion", "textDocument/inlayHint", "textDocument/documentSymbol", "textDocument/foldingRange", "textDocument/semanticTokens/full", "textDocument/formatting", "textDocument/references", "textDocument/codeAction", "textDocument/definition"} {
			c.ask(m, object{"textDocument": object{"uri": uri}, "position": position{}, "range": textRange{}}, nil)
		}
		c.say("textDocument/didClose", object{"textDocument": object{"uri": uri}})
	}
	c.end()
}

// TestSingleFile opens a file that has no title page above it.
func TestSingleFile(t *testing.T) {
	c := begin(t, everything, map[string]string{"alone.md": "```calc\na = 2 in\nb = a * 2 +\n```\n"})
	c.open("alone.md")
	c.waitFor("the error of a file alone", func() bool { return len(c.problems["alone.md"]) == 1 })
	c.edit("alone.md", "a * 2 +", "a * 2")
	c.waitFor("the error mended", func() bool { return len(c.problems["alone.md"]) == 0 })
	c.end()
}

// TestCloseTakesDiagnosticsAway lets the text on disk count again.
func TestCloseTakesDiagnosticsAway(t *testing.T) {
	c := begin(t, everything, wren)
	c.open("journal.md")
	c.open("2027-05-02-measured.md")
	c.edit("journal.md", "drawn beam = 4'", "drawn beam = 4 kg ")
	c.waitFor("an error", func() bool { return len(c.problems["journal.md"]) > 0 })
	c.say("textDocument/didClose", c.file("journal.md"))
	c.waitFor("the error gone with its file", func() bool {
		return !c.problem("journal.md", "syntax", "") && !c.problem("journal.md", "dimension", "")
	})
	c.say("textDocument/didClose", c.file("2027-05-02-measured.md"))
	c.waitFor("all gone with the journal", func() bool {
		for _, l := range c.problems {
			if len(l) > 0 {
				return false
			}
		}
		return true
	})
	c.end()
}

// TestDisconnect ends when the stream does.
func TestDisconnect(t *testing.T) {
	c := begin(t, "", nil)
	c.ask("shutdown", nil, nil)
	select {
	case <-c.status:
		t.Fatal("ended before exit")
	case <-time.After(20 * time.Millisecond):
	}
	c.say("exit", nil)
	<-c.status
}
