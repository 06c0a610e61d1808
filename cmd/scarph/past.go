package main

import (
	"os"
	"path/filepath"
	"strings"
)

// keptLines is how many lines of earlier days the prompt remembers.
const keptLines = 1000

// past is what was typed at the prompt before. It lies in a file below
// $XDG_STATE_HOME (XDG Base Directory Specification 0.8), never in the journal; where
// it cannot be kept the prompt does without.
type past struct {
	lines []string
	file  *os.File
}

func openPast() past {
	state := os.Getenv("XDG_STATE_HOME")
	if !filepath.IsAbs(state) {
		home, err := os.UserHomeDir()
		if err != nil {
			return past{}
		}
		state = filepath.Join(home, ".local", "state")
	}
	name := filepath.Join(state, "scarph", "calc-history")
	if os.MkdirAll(filepath.Dir(name), 0o700) != nil {
		return past{}
	}
	var p past
	if b, err := os.ReadFile(name); err == nil {
		p.lines = strings.FieldsFunc(string(b), func(r rune) bool { return r == '\n' })
		if n := len(p.lines); n > 2*keptLines { // else the file would grow for ever
			p.lines = p.lines[n-keptLines:]
			_ = os.WriteFile(name, []byte(strings.Join(p.lines, "\n")+"\n"), 0o600)
		}
	}
	p.file, _ = os.OpenFile(name, os.O_APPEND|os.O_CREATE|os.O_WRONLY, 0o600)
	return p
}

// add keeps a line at once, so that nothing is lost when the terminal is closed, and
// two prompts do not write over each other.
func (p *past) add(line string) {
	p.lines = append(p.lines, line)
	if p.file != nil {
		_, _ = p.file.WriteString(line + "\n")
	}
}

func (p *past) close() {
	if p.file != nil {
		p.file.Close()
	}
}
