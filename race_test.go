package scarph

import (
	"go/ast"
	"go/parser"
	"go/token"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"
)

// TestGoroutinesAreRaced holds make test to its rule: a package that starts goroutines is
// tested under the race detector, whole or by tests that are named, and those are there.
func TestGoroutinesAreRaced(t *testing.T) {
	makefile, err := os.ReadFile("Makefile")
	if err != nil {
		t.Fatal(err)
	}
	raced := strings.Fields(found(t, makefile, `(?m)^RACED := (.*)$`))
	named := strings.Split(found(t, makefile, `(?m)^MEET := \^\((.*)\)\$\$$`), "|")
	some := strings.Fields(found(t, makefile, `-race -run '\$\(MEET\)' (.*)`))
	starts, has := map[string]bool{}, map[string]bool{}
	eachFile(t, func(p string) {
		folder := "./" + filepath.ToSlash(filepath.Dir(p))
		test := strings.HasSuffix(p, "_test.go")
		if test && !slices.Contains(some, folder) {
			return
		}
		f, err := parser.ParseFile(token.NewFileSet(), p, nil, 0)
		if err != nil {
			t.Error(err)
			return
		}
		ast.Inspect(f, func(n ast.Node) bool {
			switch n := n.(type) {
			case *ast.FuncDecl:
				has[n.Name.Name] = has[n.Name.Name] || test
			case *ast.GoStmt:
				starts[folder] = starts[folder] || !test
			case *ast.SelectorExpr: // a sync.WaitGroup's
				starts[folder] = starts[folder] || !test && n.Sel.Name == "Go"
			}
			return true
		})
	})
	for folder := range starts {
		if tests, _ := filepath.Glob(folder + "/*_test.go"); starts[folder] && len(tests) > 0 && !slices.Contains(raced, folder) && !slices.Contains(some, folder) {
			t.Errorf("%s starts goroutines, and make test does not race it", folder)
		}
	}
	if !starts["./notebook/live"] || !starts["./notebook"] {
		t.Errorf("goroutines were found in %v only", starts)
	}
	for _, name := range named {
		if !has[name] {
			t.Errorf("MEET in the Makefile names %s, which is no test of %v", name, some)
		}
	}
}

// found is what a pattern's brackets hold.
func found(t *testing.T, text []byte, pattern string) string {
	t.Helper()
	m := regexp.MustCompile(pattern).FindSubmatch(text)
	if m == nil {
		t.Fatalf("the Makefile has no %s", pattern)
	}
	return string(m[1])
}
