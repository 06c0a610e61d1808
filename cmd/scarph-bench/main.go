// Command scarph-bench measures the program against yardsticks in the same run and
// prints a table of ratios; with -o it keeps the table, with the machine's description,
// as a page of the docs.
//
// Nothing here passes or fails: a busy machine is slow. A row says which budget it has
// and whether this run kept it.
package main

import (
	"flag"
	"fmt"
	"os"
	"regexp"
	"time"
)

// bench is one run.
type bench struct {
	dir   string        // scratch
	root  string        // of the checkout
	pace  time.Duration // how long a pair is raced
	table table
}

// measures are all groups, in the order of the page.
var measures = []struct {
	name string
	run  func(*bench) error
}{
	{"A statement", statements},
	{"An entry as HTML", pages},
	{"Opening a journal", opening},
	{"A revision", revisions},
	{"The journal as of an entry", asOf},
	{"How cost grows", curves},
	{"From a saved file to the open page", saved},
	{"An editor’s keystroke", keystroke},
	{"Publishing", publishing},
	{"The browser build", browserBuild},
	{"The program", program},
}

func main() {
	out := flag.String("o", "", "keep the table as this Markdown `file`")
	only := flag.String("only", "", "measure only the groups whose name matches this `expression`")
	pace := flag.Duration("pace", time.Second, "how long each pair is raced")
	flag.Parse()
	if err := run(*out, *only, *pace); err != nil {
		fmt.Fprintln(os.Stderr, "scarph-bench:", err)
		os.Exit(1)
	}
}

func run(out, only string, pace time.Duration) error {
	want, err := regexp.Compile("(?i)" + only)
	if err != nil {
		return err
	}
	root, err := os.Getwd()
	if err != nil {
		return err
	}
	dir, err := os.MkdirTemp("", "scarph-bench")
	if err != nil {
		return err
	}
	defer os.RemoveAll(dir)
	b := &bench{dir: dir, root: root, pace: pace}
	for _, m := range measures {
		if !want.MatchString(m.name) {
			continue
		}
		fmt.Fprintf(os.Stderr, "%s …\n", m.name)
		b.table.begin(m.name)
		if err := m.run(b); err != nil {
			b.table.add(row{what: "not measured: " + err.Error()})
		}
	}
	page := b.table.markdown(machine())
	if out != "" {
		return os.WriteFile(out, []byte(page), 0o644)
	}
	fmt.Print(page)
	return nil
}
