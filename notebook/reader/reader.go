// Package reader is a published page in the hands of one reader: the journal worked out
// again from its cargo, the numbers that the reader tries in it, and the lines and lists
// as they then stand, in the HTML that the program itself writes.
//
// The browser build is this package and a few lines that give it to scripts.
package reader

import (
	"bytes"
	"context"
	"strings"

	"scarph/calc"
	"scarph/calc/lang"
	"scarph/kernel"
	"scarph/notebook/cargo"
	"scarph/notebook/results"
)

// Key is that of the entry that holds the reader's numbers.
const Key = "yours"

// Limits of what a reader, or a link from one, may ask for.
const (
	MaxNumbers = 50
	MaxText    = 400
)

// Reader is one reader's session.
type Reader struct {
	journal *cargo.Journal
	places  *cargo.Places
	web     *web
	session *kernel.Session // of what has been read, nil while nothing has
	yours   *kernel.Entry   // the reader's numbers, nil while none is tried
}

// Number is a value that a reader tries: a name and what stands in place of its value.
type Number struct{ Name, Text string }

// Open takes a journal from its cargo; false when the cargo is none.
func Open(data string) (*Reader, bool) {
	j, ok := cargo.Decode(data)
	if !ok {
		return nil, false
	}
	return &Reader{journal: j, places: j.Places(), web: newWeb(j)}, true
}

// Moved is a value that the reader's numbers moved.
type Moved struct {
	Name     string
	From, To string // To is "" where no value follows
	Yours    bool   // the reader gave it
}

// Try puts numbers in place of the journal's and works everything out again; none goes
// back to the journal. When one cannot stand the journal stays as it was before.
func (r *Reader) Try(numbers []Number, other bool) ([]Moved, *calc.Error) {
	if len(numbers) > MaxNumbers {
		return nil, calc.Errorf(calc.CodeLimit, "more than %d numbers", MaxNumbers)
	}
	yours := &kernel.Entry{Key: Key, Title: "your numbers", Date: "9999-12-31"}
	values := map[string]string{}
	for _, n := range numbers {
		line, err := n.line()
		if err != nil {
			return nil, err
		}
		yours.Lines = append(yours.Lines, line)
		values[n.Name] = n.Text
	}
	if len(numbers) == 0 {
		r.put(nil)
		return nil, nil
	}
	r.need(r.web.reach(yours.Lines))
	ripple, err := r.whatIf(values)
	if err != nil { // what is wrong is told, and mended, in the light of the whole journal
		r.need(r.web.readAll())
		ripple, err = r.whatIf(values)
	}
	if err != nil {
		r.put(nil)
		return nil, err
	}
	r.put(yours)
	if err := r.fault(); err != nil {
		r.put(nil)
		return nil, err
	}
	style := r.style(other)
	var list []Moved
	for _, m := range ripple.Moved {
		if m.From == nil || m.To == nil || !m.From.OK() {
			continue
		}
		_, given := values[m.Name]
		z := Moved{Name: m.Name, From: style.Text(m.From.Value), Yours: given}
		if m.To.OK() {
			z.To = style.Text(m.To.Value)
		}
		list = append(list, z)
	}
	return list, nil
}

// fault is what is wrong with the reader's numbers where they stand, after the journal: one
// may need itself, or another that needs it.
func (r *Reader) fault() *calc.Error {
	for i := range r.yours.Lines {
		o, _ := r.session.Outcome(kernel.LineRef{Entry: Key, Index: i}, kernel.Now)
		if err := o.Result.Err; err != nil {
			e := *err
			e.Span = calc.Span{}
			return &e
		}
	}
	return nil
}

// line is the statement that gives a value the reader's number.
func (n *Number) line() (kernel.Line, *calc.Error) {
	line := kernel.Line{Text: "revise " + n.Name + " = " + n.Text}
	switch {
	case len(n.Text) > MaxText:
		return line, calc.Errorf(calc.CodeLimit, "this is longer than %d letters", MaxText)
	case strings.ContainsAny(n.Text, "#\n\r"):
		return line, calc.Errorf(calc.CodeSyntax, "a number has no note and stands on one line")
	}
	line.Stmt, line.Err = lang.Parse(line.Text)
	if line.Err != nil {
		e := *line.Err
		e.Span = calc.Span{}
		return line, &e
	}
	if line.Stmt.Kind != lang.Revised || line.Stmt.Name != n.Name {
		return line, calc.Errorf(calc.CodeName, "%s cannot be tried", n.Name)
	}
	return line, nil
}

// whatIf tells what values would move in the journal: as of its last entry, which is
// before the reader's numbers, if there are any yet.
func (r *Reader) whatIf(values map[string]string) (kernel.Ripple, *calc.Error) {
	return r.session.WhatIfAsOf(values, len(r.web.entries)-1)
}

// need takes a session of all that has been read when something new has been. It is a
// new one, so that every ± has the place that it has when all is read at once.
func (r *Reader) need(grown bool) {
	if grown || r.session == nil {
		r.session = kernel.NewOnDemand(r.journal.Style)
		r.put(r.yours)
	}
}

// put puts the reader's numbers after the journal, or takes them away.
func (r *Reader) put(yours *kernel.Entry) {
	r.yours = yours
	if r.session == nil {
		return
	}
	entries := r.web.entries
	if yours != nil {
		entries = append(entries[:len(entries):len(entries)], *yours)
	}
	r.session.Update(context.Background(), entries)
}

func (r *Reader) style(other bool) calc.Style {
	if other {
		return r.journal.Style.Other()
	}
	return r.journal.Style
}

func (r *Reader) writer(root string, other bool) *results.Writer {
	w := &results.Writer{Session: r.session, Style: r.style(other), AsOf: kernel.Now, Marks: true, Hide: r.hides}
	r.places.Give(w, root)
	if r.yours != nil {
		w.Yours = Key
	}
	return w
}

func (r *Reader) hides(what string) bool {
	for _, h := range r.journal.Hide {
		if h == what {
			return true
		}
	}
	return false
}

// Lines returns the HTML of the lines of an entry, each as it stands in the published
// page: a slot, a cell or a row. With numbers tried, a line that does not hang on them is
// "": what the page has of it holds. root leads from the page to the top of the site;
// other asks for the other family of units.
func (r *Reader) Lines(key, root string, other bool) []string {
	entry := r.entry(key)
	if entry == nil {
		return nil
	}
	if r.yours != nil {
		names := make([]string, len(r.yours.Lines))
		for i := range names {
			names[i] = r.yours.Lines[i].Stmt.Name
		}
		return r.lines(entry, r.session.Hanging(names, key), root, other)
	}
	r.need(r.web.readAll())
	all := make([]int, len(entry.Lines))
	for i := range all {
		all[i] = i
	}
	return r.lines(entry, all, root, other)
}

func (r *Reader) entry(key string) *cargo.Entry {
	for i := range r.journal.Entries {
		if e := &r.journal.Entries[i]; e.Key == key {
			return e
		}
	}
	return nil
}

// lines writes the lines of an entry that are wanted.
func (r *Reader) lines(entry *cargo.Entry, wanted []int, root string, other bool) []string {
	lines := make([]string, len(entry.Lines))
	w := r.writer(root, other)
	w.IDPrefix = entry.Prefix
	w.Then = make([]kernel.Outcome, len(lines))
	w.Kept = map[kernel.LineRef]*kernel.Result{}
	var b bytes.Buffer
	for _, i := range wanted {
		ref := kernel.LineRef{Entry: entry.Key, Index: i}
		out, _ := r.session.Outcome(ref, kernel.Now)
		w.Then[i], _ = r.session.Outcome(ref, out.Entry.Number-1)
		if r.yours != nil {
			if kept, _ := r.session.Outcome(ref, len(r.web.entries)-1); !sameResult(kept.Result, out.Result) {
				w.Kept[ref] = kept.Result
			}
		}
		b.Reset()
		switch l := &entry.Lines[i]; l.Kind {
		case cargo.Slot:
			w.Slot(&b, &out, l.Plain)
		case cargo.Cell, cargo.SlotCell:
			w.Cell(&b, &out)
		default:
			if w.Hidden(&out) {
				continue
			}
			w.Row(&b, &out)
		}
		lines[i] = strings.TrimSuffix(b.String(), "\n")
	}
	return lines
}

func sameResult(a, b *kernel.Result) bool {
	return a == b || a.OK() && b.OK() && calc.Same(a.Value, b.Value)
}

// List returns the HTML of one of the journal's lists.
func (r *Reader) List(name, root string, other bool) string {
	r.need(r.web.readAll())
	var b bytes.Buffer
	r.writer(root, other).List(&b, name, r.journal.Buying)
	return b.String()
}

// Value is one value of the journal to the last bit.
type Value struct {
	Name string
	SI   float64
	Plus float64 // its ±, likely
	Text string
}

// Values lists the quantities of the journal, cells too, and the elements of lists and
// records under their numbers.
func (r *Reader) Values() []Value {
	r.need(r.web.readAll())
	var list []Value
	for _, d := range r.session.Dimensions(kernel.Now) {
		if d.Result.OK() {
			list = appendValues(list, d.Name, d.Result.Value)
		} else {
			list = append(list, Value{Name: d.Name, Text: d.Result.Trouble()})
		}
	}
	return list
}

func appendValues(list []Value, name string, x calc.Value) []Value {
	if items := x.Items(); items != nil {
		for i, it := range items {
			list = appendValues(list, name+"."+calc.Style{}.Text(calc.Number(float64(i+1))), it)
		}
		return list
	}
	v := Value{Name: name, SI: x.V, Plus: x.Likely()}
	if !x.IsQuantity() {
		v.Text = calc.Style{}.Text(x)
	}
	return append(list, v)
}
