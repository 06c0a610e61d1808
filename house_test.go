// Package scarph holds nothing but the rules of the house.
package scarph

import (
	"go/parser"
	"go/token"
	"io/fs"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"
)

// rooms orders the folders: a file may import its own room and those below it.
var rooms = []string{"cmd", "notebook", "kernel", "calc"}

// purity lists what the files of calc may not import: calc knows no file, socket,
// clock or goroutine, and stays light for the browser.
var impure = map[string]string{
	"os": "files", "io/ioutil": "files", "net": "sockets", "net/http": "sockets", "time": "the clock", "sync/atomic": "goroutines",
	"math/rand": "chance", "math/rand/v2": "chance", "encoding/json": "weight", "regexp": "weight", "text/template": "weight",
}

func room(path string) int {
	for i, r := range rooms {
		if path == r || strings.HasPrefix(path, r+"/") {
			return i
		}
	}
	return -1
}

// TestImportsRunOneWay reads every import: cmd → notebook → kernel → calc.
func TestImportsRunOneWay(t *testing.T) {
	files := 0
	eachFile(t, func(path string) {
		files++
		from := room(path)
		f, err := parser.ParseFile(token.NewFileSet(), path, nil, parser.ImportsOnly)
		if err != nil {
			t.Error(err)
			return
		}
		test := strings.HasSuffix(path, "_test.go")
		for _, im := range f.Imports {
			p, _ := strconv.Unquote(im.Path.Value)
			if to := room(strings.TrimPrefix(p, "scarph/")); strings.HasPrefix(p, "scarph/") && to < from {
				t.Errorf("%s imports %s: imports run %s", path, p, strings.Join(rooms, " → "))
			}
			if why, bad := impure[p]; bad && !test && strings.HasPrefix(path, "calc/") && !strings.HasPrefix(path, "calc/draw/paper") {
				t.Errorf("%s imports %s: calc knows nothing of %s", path, p, why)
			}
			if from == room("kernel") && !test && (p == "net/http" || p == "os" || strings.Contains(p, "goldmark") || p == "html/template") {
				t.Errorf("%s imports %s: the kernel knows no page, file or socket", path, p)
			}
		}
	})
	if files < 40 {
		t.Fatalf("only %d files were read", files)
	}
}

// TestNoFileIsTooLong keeps files to one subject.
func TestNoFileIsTooLong(t *testing.T) {
	eachFile(t, func(path string) {
		b, err := os.ReadFile(path)
		if err != nil {
			t.Fatal(err)
		}
		if n := strings.Count(string(b), "\n"); n > 600 {
			t.Errorf("%s has %d lines: can you name both halves?", path, n)
		}
	})
}

// TestNoUtils keeps folders and files named for what they hold.
func TestNoUtils(t *testing.T) {
	eachFile(t, func(path string) {
		for _, part := range strings.Split(strings.TrimSuffix(path, ".go"), "/") {
			switch part {
			case "util", "utils", "common", "helpers", "misc", "base":
				t.Errorf("%s: the name %s says nothing of what is in it", path, part)
			}
		}
	})
}

func eachFile(t *testing.T, f func(path string)) {
	t.Helper()
	err := filepath.WalkDir(".", func(path string, d fs.DirEntry, err error) error {
		if err != nil {
			return err
		}
		if d.IsDir() && (strings.HasPrefix(d.Name(), ".") && path != "." || d.Name() == "node_modules" || d.Name() == "bin") {
			return filepath.SkipDir
		}
		if strings.HasSuffix(path, ".go") {
			f(filepath.ToSlash(path))
		}
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
}
