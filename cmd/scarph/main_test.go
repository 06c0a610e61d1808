package main

import (
	"os"
	"testing"
	"time"

	"github.com/rogpeppe/go-internal/testscript"
)

func TestMain(m *testing.M) {
	testscript.Main(m, map[string]func(){"scarph": main})
}

// TestScripts runs the program's front door: testdata/script/*.txtar.
func TestScripts(t *testing.T) {
	testscript.Run(t, testscript.Params{
		Dir:           "../../testdata/script",
		Deadline:      time.Now().Add(3 * time.Minute),
		UpdateScripts: os.Getenv("SCARPH_UPDATE") != "",
	})
}
