package stdio

import (
	"bytes"
	"context"
	"io"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"scarph/notebook"
	"scarph/notebook/rpc"
)

// TestPipedRequestsAreAnswered: requests from a file or a pipe are all answered before
// the kernel ends with its stream.
func TestPipedRequestsAreAnswered(t *testing.T) {
	dir := t.TempDir()
	if err := os.WriteFile(filepath.Join(dir, "journal.md"), []byte(journal), 0o644); err != nil {
		t.Fatal(err)
	}
	book, err := notebook.Open(dir)
	if err != nil {
		t.Fatal(err)
	}
	for _, last := range []string{"", `{"jsonrpc":"2.0","id":9,"method":"shutdown"}` + "\n"} {
		in := strings.NewReader(`{"jsonrpc":"2.0","id":1,"method":"about"}` + "\n" +
			`{"jsonrpc":"2.0","id":2,"method":"evaluate","params":{"text":"inside"}}` + "\n" + last)
		var out bytes.Buffer
		if err := Serve(context.Background(), book, rpc.NewConn(io.NopCloser(in), &out, rpc.Lines), "test"); err != nil {
			t.Fatal(err)
		}
		want := 2 + strings.Count(last, "\n")
		if got := strings.Count(out.String(), "\n"); got != want || !strings.Contains(out.String(), `"id":2,"result"`) {
			t.Errorf("%d answers, want %d: %s", got, want, out.String())
		}
	}
}
