package main

import (
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
)

// program starts the program, against a program in Go that does nothing.
func program(b *bench) error {
	ours, empty := filepath.Join(b.dir, "scarph"), filepath.Join(b.dir, "empty")
	if err := os.WriteFile(empty+".go", []byte("package main\n\nfunc main() {}\n"), 0o644); err != nil {
		return err
	}
	for _, build := range [][]string{{"build", "-trimpath", "-o", ours, "./cmd/scarph"}, {"build", "-o", empty, empty + ".go"}} {
		cmd := exec.Command("go", build...)
		cmd.Dir = b.root
		if out, err := cmd.CombinedOutput(); err != nil {
			return fmt.Errorf("%s", out)
		}
	}
	var failed error
	start := func(args ...string) func() {
		return func() {
			if err := exec.Command(args[0], args[1:]...).Run(); err != nil {
				failed = err
			}
		}
	}
	sorrel := filepath.Join(b.root, "examples", "sorrel")
	ns := b.race(start(ours, "calc", "1 ft + 1 in"), start(empty), start(ours, "check", sorrel))
	b.table.atMost("`scarph calc '1 ft + 1 in'`, start to end", span(ns[0]), span(ns[1])+" an empty program in Go", ns[0]/ns[1], 0)
	b.table.plain("`scarph check examples/sorrel`, start to end", span(ns[2]), "")
	if info, err := os.Stat(ours); err == nil {
		b.table.plain("size of the program, browser build and tables inside", size(float64(info.Size())), "")
	}
	return failed
}
