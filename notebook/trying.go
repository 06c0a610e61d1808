package notebook

import (
	"bytes"
	"context"
	"maps"
	"slices"

	"scarph/calc"
	"scarph/calc/lang"
	"scarph/kernel"
)

// tryingKey is that of the entry that holds numbers which are tried.
const tryingKey = "#trying"

// RenderListTrying is RenderList of the journal as it stands with numbers put in place of
// its own; they are marked, and the journal is not changed. It says why a number cannot
// stand.
func (n *Notebook) RenderListTrying(name string, numbers map[string]string, p Page) (string, *calc.Error) {
	ripple, err := n.Session.WhatIf(numbers)
	if err != nil {
		return "", err
	}
	yours := kernel.Entry{Key: tryingKey, Title: "numbers that are tried"}
	var parser lang.Parser
	for _, path := range slices.Sorted(maps.Keys(numbers)) {
		line := kernel.Line{Text: "revise " + path + " = " + numbers[path]}
		if line.Stmt, line.Err = parser.Parse(line.Text); line.Err != nil {
			return "", line.Err
		}
		yours.Lines = append(yours.Lines, line)
	}
	n.mu.RLock()
	entries := n.kernelEntries()
	n.mu.RUnlock()
	if len(entries) > 0 {
		yours.Date = entries[len(entries)-1].Date
	}
	w := n.writer(p)
	w.Session, w.Yours = kernel.NewOnDemand(n.Session.Style()), tryingKey
	w.Session.Update(context.Background(), append(entries, yours))
	w.Kept = map[kernel.LineRef]*kernel.Result{}
	for _, m := range ripple.Moved {
		if now, ok := w.Session.Value(m.Name, kernel.Now); ok && m.From != nil {
			w.Kept[w.Session.RefOf(now)] = m.From
		}
	}
	var b bytes.Buffer
	w.List(&b, name, n.buying())
	return b.String(), nil
}
