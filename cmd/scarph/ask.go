package main

import (
	"bufio"
	"strings"
)

// answerLines reads expressions from the input, one a line, and prints their
// answers, one a line. The status is that of the worst.
func (c *calcCmd) answerLines(s *streams, d *desk) error {
	var worst error
	in := bufio.NewScanner(s.in)
	in.Buffer(make([]byte, 0, 4096), 1<<20)
	for in.Scan() {
		text := strings.TrimSpace(in.Text())
		if text == "" || strings.HasPrefix(text, "#") {
			continue
		}
		if err := c.answer(s, d, text); err != nil {
			worst = err
		}
	}
	if err := in.Err(); err != nil {
		return err
	}
	return worst
}
