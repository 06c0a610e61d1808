package main

import (
	"bufio"
	"context"
	"fmt"
	"io"
	"strings"

	"scarph/calc/lang"
)

// answerLines works out statements, one a line, and prints their answers, one a line.
// Where a bracket is open a statement goes on in the next line. The status is that of
// the worst.
func (c *calcCmd) answerLines(s *streams, d *desk, from io.Reader) error {
	var worst error
	in := bufio.NewScanner(from)
	in.Buffer(make([]byte, 0, 4096), 1<<20)
	for number := 0; in.Scan(); {
		number++
		where := ""
		if c.Expr == "" {
			where = fmt.Sprintf(" in line %d", number)
		}
		text := statement(in.Text(), func() (string, bool) {
			more := in.Scan()
			number++
			return in.Text(), more
		})
		a, ok := d.answer(context.Background(), text)
		if !ok {
			continue
		}
		if err := c.print(s, a, text, where); err != nil {
			return err
		}
		if !a.isWell() {
			worst = statusProblems
		}
	}
	if err := in.Err(); err != nil {
		return err
	}
	return worst
}

// statement is a line with those that it goes on in; an empty line ends it early.
func statement(text string, next func() (string, bool)) string {
	for lang.Unclosed(text) && len(text) < lang.MaxSource {
		line, ok := next()
		if !ok || strings.TrimSpace(line) == "" {
			break
		}
		text += "\n" + line
	}
	return text
}

// print prints an answer; text is the line as it came.
func (c *calcCmd) print(s *streams, a answer, text, where string) error {
	switch {
	case c.JSON && c.Expr != "":
		return s.printJSON(a.json())
	case c.JSON:
		return s.printJSONLine(a.json())
	case a.err != nil:
		s.caret(a.err, text, where)
	default:
		fmt.Fprintln(s.out, a.text())
		s.remarks(a.Result)
	}
	return nil
}
