package scarph

import (
	"go/ast"
	"go/parser"
	"go/token"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"
)

// callsOut are the names by which a Go program speaks to another machine of its own
// accord.
var callsOut = map[string][]string{
	"net/http": {"Get", "Head", "Post", "PostForm", "Client", "DefaultClient", "Transport", "DefaultTransport", "NewRequest", "NewRequestWithContext"},
	"net":      {"Dial", "DialTimeout", "DialTCP", "DialUDP", "DialIP", "DialUnix", "Dialer", "Resolver", "DefaultResolver", "LookupHost", "LookupIP", "LookupAddr", "LookupCNAME", "LookupMX", "LookupNS", "LookupSRV", "LookupTXT"},
}

// TestNothingCallsOut reads every file of the program: only the workshop page and its
// verb know of sockets, and they only listen.
func TestNothingCallsOut(t *testing.T) {
	eachFile(t, func(path string) {
		if strings.HasSuffix(path, "_test.go") || strings.HasPrefix(path, "cmd/scarph-bench/") {
			return // they ask the program itself, on this machine
		}
		f, err := parser.ParseFile(token.NewFileSet(), path, nil, 0)
		if err != nil {
			t.Error(err)
			return
		}
		known := map[string][]string{}
		for _, im := range f.Imports {
			p, _ := strconv.Unquote(im.Path.Value)
			name := p[strings.LastIndexByte(p, '/')+1:]
			if im.Name != nil {
				name = im.Name.Name
			}
			if p == "net" || strings.HasPrefix(p, "net/") && p != "net/url" {
				if !strings.HasPrefix(path, "notebook/live/") && path != "cmd/scarph/serve.go" {
					t.Errorf("%s imports %s", path, p)
				}
			}
			known[name] = callsOut[p]
		}
		ast.Inspect(f, func(n ast.Node) bool {
			x, ok := n.(*ast.SelectorExpr)
			if !ok {
				return true
			}
			if id, ok := x.X.(*ast.Ident); ok {
				for _, name := range known[id.Name] {
					if name == x.Sel.Name {
						t.Errorf("%s uses %s.%s", path, id.Name, name)
					}
				}
			}
			return true
		})
	})
}

// TestModulesKnowNoSocket: what the program is built on does not import the network.
func TestModulesKnowNoSocket(t *testing.T) {
	for _, program := range []string{"./cmd/scarph", "./cmd/scarph-page"} {
		cmd := exec.Command("go", "list", "-deps", "-f", `{{if not .Standard}}{{.ImportPath}}: {{join .Imports " "}}{{end}}`, program)
		if strings.HasSuffix(program, "-page") {
			cmd.Env = append(os.Environ(), "GOOS=js", "GOARCH=wasm")
		}
		out, err := cmd.Output()
		if err != nil {
			t.Fatal(err)
		}
		packages := 0
		for _, line := range strings.Split(string(out), "\n") {
			name, imports, ok := strings.Cut(line, ": ")
			if !ok {
				continue
			}
			packages++
			if strings.HasPrefix(name, "scarph/") {
				continue // TestNothingCallsOut reads these
			}
			for _, p := range strings.Fields(imports) {
				if p == "net" || strings.HasPrefix(p, "net/") && p != "net/url" || p == "crypto/tls" {
					t.Errorf("%s imports %s", name, p)
				}
			}
		}
		if packages < 5 {
			t.Errorf("%s is made of %d packages only", program, packages)
		}
	}
}

// TestPagesLoadNothingFromElsewhere reads the scripts, styles and templates that pages
// are made of: none of them names another server.
func TestPagesLoadNothingFromElsewhere(t *testing.T) {
	files, err := filepath.Glob("notebook/assets/*")
	if err != nil || len(files) < 10 {
		t.Fatal(files, err)
	}
	address := regexp.MustCompile(`(?i)(https?:)?//[a-z0-9][a-z0-9.-]*\.[a-z]{2,}`)
	for _, p := range files {
		text, err := os.ReadFile(p)
		if err != nil {
			t.Fatal(err)
		}
		for _, a := range address.FindAllString(string(text), -1) {
			if !strings.Contains(a, "www.w3.org") { // the name of a vocabulary, not a place
				t.Errorf("%s names %s", p, a)
			}
		}
	}
}

// recorder is the program that records what another asks of the system. Where
// SCARPH_NEEDS_STRACE is set it must be there, and be allowed to look.
func recorder(t *testing.T) string {
	t.Helper()
	lacks := t.Skipf
	if os.Getenv("SCARPH_NEEDS_STRACE") != "" {
		lacks = t.Fatalf
	}
	strace, err := exec.LookPath("strace")
	if err != nil {
		lacks("strace, which keeps the record, is not installed")
	}
	record := filepath.Join(t.TempDir(), "record")
	if out, err := exec.Command(strace, "-f", "-o", record, "true").CombinedOutput(); err != nil {
		lacks("strace may not look at programs here (ptrace is refused: in a container, allow it by --cap-add=SYS_PTRACE): %v\n%s", err, out)
	}
	return strace
}

// TestSystemCalls runs the verbs while the system's own record of what they ask of the
// network is kept. None of them looks up a name or speaks to another machine.
func TestSystemCalls(t *testing.T) {
	strace := recorder(t)
	program := filepath.Join(t.TempDir(), "scarph")
	if out, err := exec.Command("go", "build", "-buildvcs=false", "-o", program, "./cmd/scarph").CombinedOutput(); err != nil {
		t.Fatalf("%v\n%s", err, out)
	}
	journal := filepath.Join(t.TempDir(), "wren")
	calls := 0
	for _, args := range [][]string{
		{"new", journal}, {"check", journal}, {"calc", "2 ft + 3 in"}, {"dimensions", journal}, {"cutlist", journal},
		{"history", journal}, {"functions", "scarf_length"}, {"publish", "--anyway", "-o", filepath.Join(t.TempDir(), "out"), journal}, {"kernel", journal}, {"lsp"}, {"--help"},
		{"serve", "--listen", "127.0.0.1:0", journal},
	} {
		record := filepath.Join(t.TempDir(), "record")
		cmd := exec.Command(strace, append([]string{"-f", "-qq", "-e", "trace=network", "-o", record, program}, args...)...)
		if args[0] == "serve" { // ends of itself by the signal that Ctrl-C sends
			cmd = exec.Command("timeout", append([]string{"-s", "INT", "3", strace, "-f", "-qq", "-e", "trace=network", "-o", record, program}, args...)...)
		}
		_ = cmd.Run() // what the verb finds is not the matter here
		text, err := os.ReadFile(record)
		if err != nil {
			t.Fatalf("scarph %s: no record was kept: %v", strings.Join(args, " "), err)
		}
		for _, line := range strings.Split(string(text), "\n") {
			if !isTalk.MatchString(line) {
				continue
			}
			calls++
			if !isHere.MatchString(line) {
				t.Errorf("scarph %s: %s", strings.Join(args, " "), line)
			}
		}
	}
	if calls == 0 {
		t.Error("not even serve has listened: nothing is recorded")
	}
	t.Logf("%d calls that name an address, all of this machine", calls)
}

var (
	isTalk = regexp.MustCompile(`\b(connect|bind|sendto|sendmsg)\(.*sa_family`)
	isHere = regexp.MustCompile(`AF_UNIX|AF_NETLINK|inet_addr\("127\.\d+\.\d+\.\d+"\)|inet_pton\(AF_INET6, "(::1|::ffff:127\.\d+\.\d+\.\d+)"`)
)
