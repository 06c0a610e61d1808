package calc

import (
	"errors"
	"fmt"
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
	"path/filepath"
	"strings"
	"testing"
)

// TestFillIsSprintf holds the browser build's wording to the standard library's.
func TestFillIsSprintf(t *testing.T) {
	for _, c := range []struct {
		format string
		args   []any
	}{
		{"%s comes after %s", []any{"a", "b"}}, {"at most %d bytes; %d", []any{4096, int64(-3)}}, {"%q is %s", []any{`5" "`, errors.New("odd")}},
		{"%g after %g", []any{0.1, 1e21}}, {"100 %% of %c", []any{'ä'}}, {"no verbs", nil}, {"%s", []any{CodeZero}}, {"%s and %v", []any{List, true}}, {"%d", []any{int32(7)}},
		{"%c", []any{byte('x')}}, {"%v %v", []any{12, 2.5}},
	} {
		if got, want := fill(c.format, c.args), fmt.Sprintf(c.format, c.args...); got != want {
			t.Errorf("%q: %q, want %q", c.format, got, want)
		}
	}
}

// TestFormatsAreSimple reads every format of the packages that the browser build holds:
// none may ask for what fill does not know.
func TestFormatsAreSimple(t *testing.T) {
	formats := 0
	for _, room := range []string{".", "../kernel"} {
		err := filepath.WalkDir(room, func(path string, d fs.DirEntry, err error) error {
			if err != nil || d.IsDir() || !strings.HasSuffix(path, ".go") || strings.HasSuffix(path, "_test.go") {
				return err
			}
			f, err := parser.ParseFile(token.NewFileSet(), path, nil, 0)
			if err != nil {
				return err
			}
			ast.Inspect(f, func(n ast.Node) bool {
				call, ok := n.(*ast.CallExpr)
				if !ok {
					return true
				}
				name := ""
				switch fun := call.Fun.(type) {
				case *ast.SelectorExpr:
					name = fun.Sel.Name
				case *ast.Ident:
					name = fun.Name
				}
				switch name {
				case "Errorf", "WithHint", "Refuse", "Warn", "Sentence":
				default:
					return true
				}
				for _, a := range call.Args {
					lit, ok := a.(*ast.BasicLit)
					if !ok || lit.Kind != token.STRING {
						continue
					}
					formats++
					for _, part := range strings.Split(strings.ReplaceAll(lit.Value, "%%", ""), "%")[1:] {
						if part != "" && !strings.ContainsRune("sdqgcv", rune(part[0])) && part[0] != '"' && part[0] != '`' && part[0] != ' ' {
							t.Errorf("%s: the format %s asks for %%%c", path, lit.Value, part[0])
						}
					}
				}
				return true
			})
			return nil
		})
		if err != nil {
			t.Fatal(err)
		}
	}
	if formats < 100 {
		t.Errorf("only %d formats were read", formats)
	}
}
