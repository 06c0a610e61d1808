package main

import (
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
)

// elsewhere names the codes that no journal on disk provokes, and where they are tested.
var elsewhere = map[string]string{
	"interrupted": "kernel: TestInterrupt",
	"publish":     "notebook/site",
}

// TestEveryCodeHasAScript asks that each code of calc/errors.go is provoked by a script.
func TestEveryCodeHasAScript(t *testing.T) {
	src, err := os.ReadFile("../../calc/errors.go")
	if err != nil {
		t.Fatal(err)
	}
	scripts, err := filepath.Glob("../../testdata/script/*.txtar")
	if err != nil || len(scripts) < 8 {
		t.Fatal("the scripts were not found", err)
	}
	all := ""
	for _, s := range scripts {
		b, err := os.ReadFile(s)
		if err != nil {
			t.Fatal(err)
		}
		all += string(b)
	}
	codes := regexp.MustCompile(`Code\w+\s+Code = "([a-z-]+)"`).FindAllStringSubmatch(string(src), -1)
	if len(codes) < 30 {
		t.Fatalf("only %d codes were found", len(codes))
	}
	for _, m := range codes {
		if elsewhere[m[1]] == "" && !strings.Contains(all, `error\[`+m[1]+`\]`) {
			t.Errorf("no script provokes the code %s", m[1])
		}
	}
}
