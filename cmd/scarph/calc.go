package main

import (
	"context"
	"fmt"
	"strings"

	"scarph/calc"
	"scarph/calc/lang"
	"scarph/kernel"
	"scarph/notebook"
)

type calcCmd struct {
	Expr    string `arg:"" optional:"" help:"An expression, such as \"frame_spacing(158.5 in, 9)\"."`
	Journal string `short:"j" placeholder:"DIR" help:"The journal whose names may be used."`
	AsOf    string `name:"as-of" placeholder:"DATE" help:"Take the journal as it stood at the end of a day."`
	JSON    bool   `name:"json" help:"Print one JSON object."`
}

// Run works out one expression and prints it.
func (c *calcCmd) Run(s *streams) error {
	d, err := newDesk(c.Journal, c.AsOf)
	if err != nil {
		return err
	}
	if c.Expr == "" {
		return c.answerLines(s, d)
	}
	return c.answer(s, d, c.Expr)
}

// desk is where expressions are worked out: a journal's session, or an empty one.
type desk struct {
	session *kernel.Session
	asOf    int
	style   *calc.Style // nil to follow the units that are written
}

func newDesk(dir, asOf string) (*desk, error) {
	if dir == "" {
		s := kernel.New(calc.Style{})
		s.Update(context.Background(), []kernel.Entry{{Key: "calc"}})
		return &desk{session: s, asOf: kernel.Now}, nil
	}
	n, at, err := openAsOf(dir, asOf)
	if err != nil {
		return nil, err
	}
	style := n.Session.Style()
	return &desk{session: n.Session, asOf: at, style: &style}, nil
}

// styleFor shows answers in the family of the lengths that were written, when no
// journal says otherwise.
func (d *desk) styleFor(text string) calc.Style {
	if d.style != nil {
		return *d.style
	}
	st, err := lang.ParseSlot(text)
	if err == nil && st.Expr.System == calc.Metric {
		return calc.Style{System: calc.Metric}
	}
	return calc.Style{}
}

func (c *calcCmd) answer(s *streams, d *desk, text string) error {
	r, err := d.session.Eval(context.Background(), text, d.asOf)
	if err == nil && r.Err != nil {
		err = r.Err
	}
	if err == nil && !r.OK() {
		err = calc.Errorf(calc.CodeWaits, "it waits for %s", strings.Join(r.Waits, ", ")).WithHint("scarph check tells what is wrong there")
	}
	if err != nil {
		if c.JSON {
			_ = s.printJSON(map[string]kernel.Fault{"error": kernel.FaultOf(err, text)})
		} else {
			s.caret(err, text)
		}
		return statusProblems
	}
	style := d.styleFor(text)
	if c.JSON {
		return s.printJSON(kernel.ShapeOfResult(r, style))
	}
	s.answerText(r, style)
	return nil
}

// answerText prints a value with its echo in the other family, remarks and cautions.
func (s *streams) answerText(r *kernel.Result, style calc.Style) {
	line := style.Text(r.Value)
	if e := style.Echo(r.Value); e != "" {
		line += "   (" + e + ")"
	}
	fmt.Fprintln(s.out, line)
	for _, w := range r.Warnings {
		fmt.Fprintln(s.err, "note:", w)
	}
	for _, k := range lang.CautionsOf(r.Cautions) {
		fmt.Fprintln(s.err, "caution:", k.Text())
	}
}

// caret prints an error of a text typed on the command line.
func (s *streams) caret(err *calc.Error, text string) {
	f := kernel.FaultOf(err, text)
	width := 1
	if e := min(err.Span.End, len(text)); e > err.Span.Start && err.Span.Start >= 0 {
		width = runes(text[err.Span.Start:e])
	}
	fmt.Fprintf(s.err, "error[%s]: %s\n  | %s\n  | %s\n", f.Code, f.Message, text, notebook.Caret(text, f.Column, width))
	if f.Hint != "" {
		fmt.Fprintln(s.err, "hint:", f.Hint)
	}
}
