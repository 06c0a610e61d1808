package main

import (
	_ "embed"
	"fmt"
	"io"
	"strings"
)

//go:embed completion/scarph.bash
var bashCompletion string

//go:embed completion/scarph.zsh
var zshCompletion string

//go:embed completion/scarph.fish
var fishCompletion string

type completionCmd struct {
	Shell string `arg:"" enum:"bash,zsh,fish" help:"The shell: bash, zsh or fish. The file says how it is loaded."`
}

// Run prints the file for a shell. The files know no verb: they hand the words of the
// command line to scarph propose, so that there is one table of verbs.
func (c *completionCmd) Run(s *streams) error {
	file := map[string]string{"bash": bashCompletion, "zsh": zshCompletion, "fish": fishCompletion}[c.Shell]
	_, err := io.WriteString(s.out, file)
	return err
}

type proposeCmd struct {
	Words []string `arg:"" optional:"" help:"The words behind scarph, up to the one at the cursor."`
}

// Run prints proposals, one a line, each with a tab and what it is; the line :files
// asks the shell for names of files.
func (c *proposeCmd) Run(s *streams) error {
	for _, p := range proposals(s.model, c.Words) {
		about := visible([]byte(strings.Join(strings.Fields(p.about), " "))) // a shell shows it as it is
		fmt.Fprintf(s.out, "%s\t%s\n", p.word, about)
	}
	return nil
}
