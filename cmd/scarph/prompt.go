package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"os"
	"os/signal"
	"strings"

	"github.com/peterh/liner"

	"scarph/calc"
	"scarph/kernel"
	"scarph/notebook"
)

const (
	ready = "> "
	goOn  = "· " // a bracket is open
)

// isPromptable reports whether a person sits at both ends.
func isPromptable(s *streams) bool {
	_, err := liner.TerminalMode()
	return s.in == os.Stdin && err == nil && isScreen(s.out)
}

// prompt asks for lines at a terminal and prints their answers below them.
type prompt struct {
	s    *streams
	d    *desk
	line *liner.State
	past past
	// above holds the lines of a statement that is not yet whole.
	above string
}

func newPrompt(s *streams, d *desk) *prompt {
	p := &prompt{s: s, d: d, line: liner.NewLiner(), past: openPast()}
	p.line.SetCtrlCAborts(true)
	p.line.SetMultiLineMode(true)
	p.line.SetTabCompletionStyle(liner.TabPrints)
	p.line.SetWordCompleter(p.complete)
	p.line.SetBeep(false)
	for _, text := range p.past.lines {
		p.line.AppendHistory(text)
	}
	return p
}

// run asks until the person ends it.
func (p *prompt) run() error {
	defer p.line.Close()
	defer p.past.close()
	ctx, cancel := context.WithCancel(context.Background())
	defer cancel()
	if p.d.book != nil {
		go func() { _ = p.d.book.Follow(ctx, func(notebook.Change) {}) }()
	}
	p.greet()
	for {
		text, err := p.ask()
		switch {
		case errors.Is(err, liner.ErrPromptAborted):
			continue
		case errors.Is(err, io.EOF):
			fmt.Fprintln(p.s.out)
			return nil
		case err != nil:
			return err
		case text == "quit" || text == "exit":
			return nil
		case text == "help" || text == "?":
			p.greet()
			continue
		}
		p.remember(text)
		p.answer(ctx, text)
	}
}

func (p *prompt) greet() {
	if p.d.book != nil {
		fmt.Fprintf(p.s.out, "Scratch paper beside %s.\nIts names are known here; what is written here is not kept there.\n", p.d.book.Title())
	}
	fmt.Fprintln(p.s.out, "Tab completes, \"it\" is the answer before, Ctrl-C drops a line, Ctrl-D ends.")
	fmt.Fprintln(p.s.out, "Outside, scarph functions lists the functions, scarph functions WORD some.")
}

// ask reads a statement, of several lines when a bracket is open.
func (p *prompt) ask() (string, error) {
	p.above = ""
	text, err := p.line.Prompt(ready)
	if err != nil {
		return "", err
	}
	var failed error
	text = statement(text, func() (string, bool) {
		p.above += text + "\n"
		text, failed = p.line.Prompt(goOn)
		return text, failed == nil
	})
	if errors.Is(failed, io.EOF) {
		failed = nil // what there is, is answered first
	}
	return strings.TrimSpace(text), failed
}

// remember keeps a statement for the arrow keys, now and another day.
func (p *prompt) remember(text string) {
	text = strings.ReplaceAll(text, "\n", " ")
	if text == "" || len(p.past.lines) > 0 && p.past.lines[len(p.past.lines)-1] == text {
		return
	}
	p.line.AppendHistory(text)
	p.past.add(text)
}

// answer works out a statement; Ctrl-C stops it.
func (p *prompt) answer(ctx context.Context, text string) {
	ctx, stop := signal.NotifyContext(ctx, os.Interrupt)
	defer stop()
	a, ok := p.d.answer(ctx, text)
	switch {
	case !ok:
	case a.err != nil:
		p.s.caret(a.err, text, "")
	default:
		for _, line := range a.lines() {
			fmt.Fprintln(p.s.out, "  "+line)
		}
		p.s.remarks(a.Result)
	}
}

// lines is the answer for a terminal: what has several fields or cells has a line
// for each, with both families of units.
func (a *answer) lines() []string {
	labels, items := a.Result.Value.Labels(), a.Result.Value.Items()
	if len(labels) == 0 || len(labels) != len(items) {
		return []string{a.text()}
	}
	list := make([]string, len(items))
	width := 0
	for _, l := range labels {
		width = max(width, runes(calc.Words(l)))
	}
	for i, x := range items {
		word := calc.Words(labels[i])
		list[i] = word + strings.Repeat(" ", width-runes(word)+2) + kernel.Worded(&kernel.Result{Value: x}, a.style)
	}
	return list
}

// complete proposes what could stand at a place of the line.
func (p *prompt) complete(line string, cursor int) (head string, proposals []string, tail string) {
	at := len(p.above) + len(string([]rune(line)[:cursor]))
	c := p.d.session.Complete(p.above+line, at, p.d.sheet)
	if c.Span.Start < len(p.above) {
		return line[:at-len(p.above)], nil, line[at-len(p.above):]
	}
	for _, x := range c.Items {
		text := x.Text
		if x.Call && !strings.HasPrefix(line[at-len(p.above):], "(") {
			text += "("
		}
		proposals = append(proposals, text)
	}
	return line[:c.Span.Start-len(p.above)], proposals, line[c.Span.End-len(p.above):]
}
