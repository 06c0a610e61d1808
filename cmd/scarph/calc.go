package main

import (
	"context"
	"encoding/json"
	"fmt"
	"strings"
	"unicode/utf8"

	"scarph/calc"
	"scarph/calc/lang"
	"scarph/kernel"
	"scarph/notebook"
)

type calcCmd struct {
	Expr    string `arg:"" optional:"" complete:"line" help:"A line, such as \"frame_spacing(158.5 in, 9)\"."`
	Journal string `short:"j" placeholder:"DIR" complete:"journal" help:"The journal whose names may be used."`
	AsOf    string `name:"as-of" placeholder:"DATE" complete:"day" help:"Take the journal as it stood at the end of a day."`
	JSON    bool   `name:"json" help:"Print a JSON object for each line."`
}

// Run works out one line, those of a file or a pipe, or those typed at a prompt.
func (c *calcCmd) Run(s *streams) error {
	d, err := newDesk(c.Journal, c.AsOf)
	if err != nil {
		return err
	}
	switch {
	case c.Expr != "":
		return c.answerLines(s, d, strings.NewReader(c.Expr))
	case !c.JSON && isPromptable(s):
		return newPrompt(s, d).run()
	}
	return c.answerLines(s, d, s.in)
}

// desk is where lines are worked out: scratch paper beside a journal, or by itself.
type desk struct {
	book  *notebook.Notebook // nil without a journal
	sheet *kernel.Sheet
	// session is the journal's, or an empty one.
	session *kernel.Session
	asOf    string
}

func newDesk(dir, asOf string) (*desk, error) {
	if dir == "" {
		s := kernel.New(calc.Style{})
		s.Update(context.Background(), []kernel.Entry{{Key: "calc"}})
		return &desk{session: s, sheet: s.NewSheet()}, nil
	}
	n, _, err := openAsOf(dir, asOf)
	if err != nil {
		return nil, err
	}
	return &desk{book: n, session: n.Session, sheet: n.Session.NewSheet(), asOf: asOf}, nil
}

// answer is a line worked out.
type answer struct {
	kernel.Answer
	err   *calc.Error
	style calc.Style
}

// answer works out a statement; false when the text holds none.
func (d *desk) answer(ctx context.Context, text string) (answer, bool) {
	at, err := d.session.OrderOf(d.asOf) // anew, since the journal may have grown
	if err != nil {
		return answer{err: err}, true
	}
	line, ok := d.sheet.Line(ctx, text, at)
	a := answer{Answer: line, style: d.styleFor(line)}
	if r := line.Result; ok && !r.OK() {
		if a.err = r.Err; a.err == nil {
			a.err = calc.Errorf(calc.CodeWaits, "it waits for %s", strings.Join(r.Waits, ", ")).WithHint("scarph check tells what is wrong there")
		}
	}
	return a, ok
}

// styleFor shows answers in the family of the lengths that were written, when no
// journal says otherwise.
func (d *desk) styleFor(a kernel.Answer) calc.Style {
	if d.book == nil && a.System == calc.Metric {
		return calc.Style{System: calc.Metric}
	}
	return d.session.Style()
}

// text is the answer in words, in both families of units.
func (a *answer) text() string {
	if a.Kind == lang.Check.Word() {
		return kernel.WordedCheck(a.Result.Value.True(), a.Left, a.Right, a.Result.Cautions, a.style)
	}
	return kernel.Worded(a.Result, a.style)
}

// isWell reports whether the line was worked out and, if a check, holds.
func (a *answer) isWell() bool {
	return a.err == nil && (a.Kind != lang.Check.Word() || a.Result.Value.True())
}

// json is the answer as another program reads it.
func (a *answer) json() any {
	if a.err != nil {
		return map[string]kernel.Fault{"error": kernel.FaultOf(a.err, a.Source)}
	}
	return kernel.ShapeOfResult(a.Result, a.style)
}

// remarks prints what else is to be said of an answer.
func (s *streams) remarks(r *kernel.Result) {
	for _, w := range r.Warnings {
		s.say("note: " + w)
	}
	s.cautions(r.Cautions)
}

// cautions prints the safety remarks of what was shown, given as bits from A = 1.
func (s *streams) cautions(bits uint8) {
	for _, k := range lang.CautionsOf(bits) {
		s.say("caution: " + k.Text())
	}
}

// say writes to people; on a terminal, lines are broken between words.
func (s *streams) say(text string) {
	if !isScreen(s.err) {
		fmt.Fprintln(s.err, text)
		return
	}
	width := 0
	for i, word := range strings.Fields(text) {
		n := utf8.RuneCountInString(word)
		switch {
		case i == 0:
		case width+1+n > 78:
			fmt.Fprint(s.err, "\n  ")
			width = 2
		default:
			fmt.Fprint(s.err, " ")
			width++
		}
		fmt.Fprint(s.err, word)
		width += n
	}
	fmt.Fprintln(s.err)
}

// caret prints an error of a text of one or more lines, under the line that it
// stands in; where names that text when there are several.
func (s *streams) caret(err *calc.Error, text, where string) {
	start := min(max(err.Span.Start, 0), len(text))
	from := strings.LastIndexByte(text[:start], '\n') + 1
	line, _, _ := strings.Cut(text[from:], "\n")
	width := 1
	if end := min(err.Span.End, from+len(line)); end > start {
		width = utf8.RuneCountInString(text[start:end])
	}
	fmt.Fprintf(s.err, "error[%s]%s: %s\n  | %s\n  | %s\n", err.Code, where, err.Message, line, notebook.Caret(line, 1+utf8.RuneCountInString(text[from:start]), width))
	if err.Hint != "" {
		fmt.Fprintln(s.err, "hint:", err.Hint)
	}
}

// printJSONLine writes a value as JSON on one line.
func (s *streams) printJSONLine(v any) error {
	e := json.NewEncoder(s.out)
	e.SetEscapeHTML(false)
	return e.Encode(v)
}
