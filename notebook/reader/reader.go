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
	session *kernel.Session
	entries []kernel.Entry
	trying  bool
	names   []string // that are tried
}

// Number is a value that a reader tries: a name and what stands in place of its value.
type Number struct{ Name, Text string }

// Open works out a journal from its cargo; false when the cargo is none.
func Open(data string) (*Reader, bool) {
	j, ok := cargo.Decode(data)
	if !ok {
		return nil, false
	}
	r := &Reader{journal: j, places: j.Places(), session: kernel.NewOnDemand(j.Style), entries: j.Kernel()}
	r.session.Update(context.Background(), r.entries)
	return r, true
}

// Moved is a value that the reader's numbers moved.
type Moved struct {
	Name     string
	From, To string
	Yours    bool // the reader gave it
}

// Try puts numbers in place of the journal's and works everything out again; none goes
// back to the journal. When one cannot stand the journal stays as it was before.
func (r *Reader) Try(numbers []Number, other bool) ([]Moved, *calc.Error) {
	if len(numbers) > MaxNumbers {
		return nil, calc.Errorf(calc.CodeLimit, "more than %d numbers", MaxNumbers)
	}
	yours := kernel.Entry{Key: Key, Title: "your numbers", Date: "9999-12-31"}
	values := map[string]string{}
	for _, n := range numbers {
		if len(n.Text) > MaxText {
			return nil, calc.Errorf(calc.CodeLimit, "this is longer than %d letters", MaxText)
		}
		if strings.ContainsAny(n.Text, "#\n\r") {
			return nil, calc.Errorf(calc.CodeSyntax, "a number has no note and stands on one line")
		}
		values[n.Name] = n.Text
		line := kernel.Line{Text: "revise " + n.Name + " = " + n.Text}
		line.Stmt, line.Err = lang.Parse(line.Text)
		if line.Err != nil {
			e := *line.Err
			e.Span = calc.Span{}
			return nil, &e
		}
		if line.Stmt.Kind != lang.Revised || line.Stmt.Name != n.Name {
			return nil, calc.Errorf(calc.CodeName, "%s cannot be tried", n.Name)
		}
		yours.Lines = append(yours.Lines, line)
	}
	if len(numbers) == 0 {
		r.putBack()
		return nil, nil
	}
	// as of the journal's last entry: before the reader's numbers, if there are any yet
	ripple, err := r.session.WhatIfAsOf(values, len(r.entries)-1)
	if err != nil {
		r.putBack()
		return nil, err
	}
	r.session.Update(context.Background(), append(r.entries[:len(r.entries):len(r.entries)], yours))
	r.trying, r.names = true, nil
	for _, n := range numbers {
		r.names = append(r.names, n.Name)
	}
	style := r.style(other)
	var list []Moved
	for _, m := range ripple.Moved {
		if m.From == nil || m.To == nil || !m.From.OK() || !m.To.OK() {
			continue
		}
		_, given := values[m.Name]
		list = append(list, Moved{Name: m.Name, From: style.Text(m.From.Value), To: style.Text(m.To.Value), Yours: given})
	}
	return list, nil
}

// putBack goes back to the journal's own numbers.
func (r *Reader) putBack() {
	r.session.Update(context.Background(), r.entries)
	r.trying = false
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
	if r.trying {
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
	if r.trying {
		return r.lines(entry, r.session.Hanging(r.names, key), root, other)
	}
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
		if r.trying {
			if kept, _ := r.session.Outcome(ref, len(r.entries)-1); !sameResult(kept.Result, out.Result) {
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
