package main

import (
	"bytes"
	"context"
	"encoding/json"
	"fmt"
	"html"
	"io"
	"net"
	"net/http"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"scarph/calc/trade"
	"scarph/notebook"
	"scarph/notebook/live"
)

// classes are the classes of cautions, each with a call of a function that carries it.
func classes(t *testing.T) map[trade.Caution]string {
	t.Helper()
	calls := map[trade.Caution]string{}
	for _, f := range trade.All() {
		if f.Caution != 0 && calls[f.Caution] == "" && len(f.Checks) > 0 {
			calls[f.Caution] = f.Checks[0].Call
		}
	}
	if len(calls) != 6 {
		t.Fatalf("%d classes: %v", len(calls), calls)
	}
	return calls
}

// risky writes a journal in which every class of caution is called for: by a value, by
// what hangs on it, in running text, by a check, and by a shape that is cut.
func risky(t *testing.T) string {
	t.Helper()
	var b strings.Builder
	b.WriteString("---\ndate: 2027-01-02\n---\n\n# Figures\n\n```calc\ntimes = 2\n```\n\n")
	for k, call := range classes(t) {
		name := strings.ToLower(string(rune(k)))
		fmt.Fprintf(&b, "```calc\nfigure_%[1]s = %[2]s\nhangs_%[1]s = [figure_%[1]s, figure_%[1]s]\nkept_%[1]s = 12 in * count([figure_%[1]s])\ntwice_%[1]s = kept_%[1]s * times\ncheck kept_%[1]s > 1 in\nstrip_%[1]s = tick_strip([0 in, kept_%[1]s])\npart board_%[1]s: 1 of 3/4\" by 7\" by kept_%[1]s in larch\n```\n\nIt is {kept_%[1]s}.\n\n", name, call)
	}
	dir := t.TempDir()
	for name, text := range map[string]string{"journal.md": "---\ntitle: Wren\ncanonical: https://boats.example/wren\n---\n\nA tender.\n", "2027-01-02.md": b.String()} {
		if err := os.WriteFile(filepath.Join(dir, name), []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	return dir
}

// program is the test binary under the name by which it is the program itself.
func program(t *testing.T) string {
	t.Helper()
	self, err := os.Executable()
	if err != nil {
		t.Fatal(err)
	}
	p := filepath.Join(t.TempDir(), "scarph")
	if err := os.Symlink(self, p); err != nil {
		t.Skip(err)
	}
	return p
}

// runs runs the program and gives all that it says.
func runs(t *testing.T, program, in string, args ...string) string {
	t.Helper()
	cmd := exec.Command(program, args...)
	cmd.Stdin = strings.NewReader(in)
	out, err := cmd.CombinedOutput()
	if _, ok := err.(*exec.ExitError); err != nil && !ok {
		t.Fatal(err)
	}
	return string(out)
}

// TestCautionsAppear asks for the words of every caution wherever its results are shown.
func TestCautionsAppear(t *testing.T) {
	dir, scarph := risky(t), program(t)
	if out := runs(t, scarph, "", "check", dir); !strings.Contains(out, "no problems") && strings.Contains(out, "error[") {
		t.Fatal(out)
	}
	for name, said := range carriers(t, scarph, dir) {
		t.Run(name, func(t *testing.T) {
			plain := squeeze(said)
			for k := range classes(t) {
				if !strings.Contains(plain, squeeze(k.Text())) {
					t.Errorf("caution %c is missing", k)
				}
			}
			if t.Failed() {
				t.Logf("%.1500s", said)
			}
		})
	}
}

// squeeze leaves of a text its letters, so that broken lines and hyphens are one.
func squeeze(s string) string { return letters.ReplaceAllString(html.UnescapeString(s), "") }

var letters = regexp.MustCompile(`[^\pL]+`)

// carriers are the ways in which results reach people and programs.
func carriers(t *testing.T, scarph, dir string) map[string]string {
	t.Helper()
	said := map[string]string{}
	n, err := notebook.Open(dir)
	if err != nil {
		t.Fatal(err)
	}
	base := serveHere(t, n)
	pages := map[string]string{"entry": "/entry/2027-01-02", "table of values": "/list/dimensions", "checks": "/list/checks", "wall sheet of values": "/wall/dimensions", "wall sheet of checks": "/wall/checks", "cut list": "/list/cutlist", "wall sheet of the cut list": "/wall/cutlist"}
	for name, at := range pages {
		said["served "+name] = fetch(t, base+at)
	}
	out := t.TempDir()
	runs(t, scarph, "", "publish", "-o", filepath.Join(out, "site"), dir)
	runs(t, scarph, "", "publish", "--one-file", "-o", filepath.Join(out, "one.html"), dir)
	for name, at := range map[string]string{"published entry": "site/2027-01-02.html", "published table of values": "site/dimensions.html", "published checks": "site/checks.html", "published cut list": "site/cutlist.html", "feed": "site/feed.xml", "data of the site": "site/values.json", "one file": "one.html"} {
		text, err := os.ReadFile(filepath.Join(out, at))
		if err != nil {
			t.Error(err)
		}
		said[name] = html.UnescapeString(string(text))
	}
	var lines, tells, cards strings.Builder
	for k, call := range classes(t) {
		name := "figure_" + strings.ToLower(string(rune(k)))
		said["calc text"] += runs(t, scarph, "", "calc", call)
		said["calc in a journal"] += runs(t, scarph, "", "calc", "-j", dir, strings.Replace(name, "figure", "kept", 1))
		said["calc JSON"] += runs(t, scarph, "", "calc", "--json", call)
		said["function"] += runs(t, scarph, "", "functions", strings.SplitN(call, "(", 2)[0])
		cards.WriteString(fetch(t, base+"/card?name="+name))
		lines.WriteString(call + "\n")
		fmt.Fprintf(&tells, `{"jsonrpc":"2.0","id":1,"method":"evaluate","params":{"text":%q}}`+"\n"+`{"jsonrpc":"2.0","id":2,"method":"describe","params":{"name":%q}}`+"\n", call, name)
	}
	said["served cards"] = cards.String()
	said["ripple"] = runs(t, scarph, "", "ripple", dir, "times=3")
	said["ripple JSON"] = runs(t, scarph, "", "ripple", "--json", dir, "times=3")
	said["editor"] = hovers(t, scarph, dir)
	said["calc from a pipe"] = runs(t, scarph, lines.String(), "calc")
	said["kernel"] = runs(t, scarph, tells.String(), "kernel", "--lines", dir)
	for _, verb := range []string{"dimensions", "check", "cutlist"} {
		said[verb] = runs(t, scarph, "", verb, dir)
		said[verb+" JSON"] = runs(t, scarph, "", verb, "--json", dir)
	}
	if _, err := exec.LookPath("pdftotext"); err == nil {
		for name, args := range map[string][]string{"wall sheet on paper": {"--wall", "dimensions"}, "patterns": nil} {
			file := filepath.Join(out, "x.pdf")
			runs(t, scarph, "", append([]string{"patterns", dir, "-o", file}, args...)...)
			text, err := exec.Command("pdftotext", "-layout", file, "-").Output()
			if err != nil {
				t.Errorf("%s: %v", name, err)
			}
			said[name] = string(text)
		}
	} else if os.Getenv("SCARPH_NEEDS_POPPLER") != "" {
		t.Error("no pdftotext is installed")
	}
	return said
}

// hovers asks the language server for what it shows over each figure.
func hovers(t *testing.T, scarph, dir string) string {
	t.Helper()
	file := filepath.Join(dir, "2027-01-02.md")
	text, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	uri := "file://" + filepath.ToSlash(file)
	var in strings.Builder
	say := func(method string, id int, params any) {
		m := map[string]any{"jsonrpc": "2.0", "method": method, "params": params}
		if id > 0 {
			m["id"] = id
		}
		b, _ := json.Marshal(m)
		fmt.Fprintf(&in, "Content-Length: %d\r\n\r\n%s", len(b), b)
	}
	doc := map[string]any{"uri": uri}
	say("initialize", 1, map[string]any{"processId": nil, "rootUri": "file://" + filepath.ToSlash(dir), "capabilities": map[string]any{}})
	say("initialized", 0, map[string]any{})
	say("textDocument/didOpen", 0, map[string]any{"textDocument": map[string]any{"uri": uri, "languageId": "markdown", "version": 1, "text": string(text)}})
	id := 1
	for i, line := range strings.Split(string(text), "\n") {
		if strings.HasPrefix(line, "figure_") {
			id++
			say("textDocument/hover", id, map[string]any{"textDocument": doc, "position": map[string]any{"line": i, "character": 2}})
		}
	}
	say("shutdown", id+1, nil)
	say("exit", 0, nil)
	return runs(t, scarph, in.String(), "lsp")
}

func serveHere(t *testing.T, n *notebook.Notebook) string {
	t.Helper()
	l, err := net.Listen("tcp", "127.0.0.1:0")
	if err != nil {
		t.Fatal(err)
	}
	ctx, stop := context.WithCancel(context.Background())
	done := make(chan error, 1)
	go func() { done <- live.New(n, live.Options{}).Serve(ctx, l) }()
	t.Cleanup(func() { stop(); <-done })
	return "http://" + l.Addr().String()
}

func fetch(t *testing.T, address string) string {
	t.Helper()
	r, err := http.Get(address)
	if err != nil {
		t.Fatal(err)
	}
	defer r.Body.Close()
	text, _ := io.ReadAll(r.Body)
	if r.StatusCode != 200 {
		t.Errorf("%s: %d", address, r.StatusCode)
	}
	return string(bytes.TrimSpace(text))
}
