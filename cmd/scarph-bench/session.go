package main

import (
	"context"
	"fmt"
	"math"
	"os"
	"path/filepath"
	"runtime"
	"sync"
	"sync/atomic"

	"scarph/calc"
	"scarph/calc/lang"
	"scarph/kernel"
	"scarph/kernel/grown"
	"scarph/notebook"
)

// entries reads the days of a grown journal as the kernel takes them, as many at once as
// there are processors, which is how a notebook reads its files.
func entries(days []grown.Day) []kernel.Entry {
	list := make([]kernel.Entry, len(days))
	var next atomic.Int64
	var readers sync.WaitGroup
	for range runtime.GOMAXPROCS(0) {
		readers.Go(func() {
			for i := int(next.Add(1)) - 1; i < len(days); i = int(next.Add(1)) - 1 {
				list[i] = entry(days[i])
			}
		})
	}
	readers.Wait()
	return list
}

// entry reads one day.
func entry(d grown.Day) kernel.Entry {
	var p lang.Parser
	e := kernel.Entry{Key: d.FileName(), Title: d.Title, Date: d.Date}
	for k, text := range d.Statements {
		l := kernel.Line{Text: text, Place: kernel.Place{File: e.Key, Line: k + 1, Column: 1}}
		l.Stmt, l.Err = p.Parse(text)
		e.Lines = append(e.Lines, l)
	}
	if d.Rows != nil {
		t := kernel.Table{Name: "offsets", Columns: d.Head[1:]}
		for _, row := range d.Rows {
			t.Rows = append(t.Rows, row[0])
			for c, cell := range row[1:] {
				l := kernel.Line{Text: cell, Cell: true}
				l.Stmt, l.Err = p.Parse("drawn offsets." + row[0] + "." + d.Head[c+1] + " = " + cell)
				e.Lines = append(e.Lines, l)
			}
		}
		e.Tables = []kernel.Table{t}
	}
	return e
}

// given is the same journal with another value for a name; entries that do not name it
// are shared.
func given(list []kernel.Entry, name, value string) []kernel.Entry {
	return restated(list, name, name+" = "+value)
}

// restated is a journal in which a text stands where a name was first given.
func restated(list []kernel.Entry, name, text string) []kernel.Entry {
	out := append([]kernel.Entry(nil), list...)
	for i, e := range out {
		for k, l := range e.Lines {
			if l.Stmt == nil || l.Stmt.Name != name {
				continue
			}
			lines := append([]kernel.Line(nil), e.Lines...)
			lines[k].Text = text
			lines[k].Stmt, lines[k].Err = lang.Parse(lines[k].Text)
			out[i].Lines = lines
			return out
		}
	}
	return out
}

func session(list []kernel.Entry) *kernel.Session {
	s := kernel.New(calc.Style{})
	s.Update(context.Background(), list)
	return s
}

// onDisk writes a grown journal as files.
func (b *bench) onDisk(name string, s grown.Shape) (string, error) {
	dir := filepath.Join(b.dir, name)
	if err := os.MkdirAll(dir, 0o755); err != nil {
		return "", err
	}
	if err := os.WriteFile(filepath.Join(dir, "journal.md"), []byte("---\ntitle: Grown\n---\n# Grown\n\nA journal made to measure.\n"), 0o644); err != nil {
		return "", err
	}
	for _, d := range grown.Journal(s) {
		if err := os.WriteFile(filepath.Join(dir, d.FileName()), []byte(d.Markdown()), 0o644); err != nil {
			return "", err
		}
	}
	return dir, nil
}

// opening opens journals cold.
func opening(b *bench) error {
	for _, x := range []struct {
		shape grown.Shape
		bound float64 // seconds
	}{{grown.Shape{Statements: 1_000, Entries: 100}, 0}, {grown.Shape{Statements: 10_000, Entries: 1_000}, 1}, {grown.Shape{Statements: 10_000, Entries: 5_000}, 0}, {grown.Shape{Statements: 100_000, Entries: 1_000}, 0}} {
		dir, err := b.onDisk(fmt.Sprintf("open%d-%d", x.shape.Statements, x.shape.Entries), x.shape)
		if err != nil {
			return err
		}
		var bytes int64
		files, _ := filepath.Glob(filepath.Join(dir, "*.md"))
		for _, f := range files {
			if info, err := os.Stat(f); err == nil {
				bytes += info.Size()
			}
		}
		var failed error
		ns := b.race(func() { _, failed = notebook.Open(dir) }, func() {
			for _, f := range files {
				_, _ = os.ReadFile(f)
			}
		})
		if failed != nil {
			return failed
		}
		what := fmt.Sprintf("from disk: %d statements in %d entries, %s", x.shape.Statements, x.shape.Entries, size(float64(bytes)))
		r := row{what: what, ours: span(ns[0]), yardstick: span(ns[1]) + " reading the files", ratio: figure(ns[0]/ns[1]) + "×"}
		if x.bound > 0 {
			r.budget, r.kept = fmt.Sprintf("under %v s", x.bound), ns[0] < x.bound*1e9
		}
		b.table.add(r)
	}
	for _, spread := range []bool{false, true} {
		shape := grown.Shape{Statements: 100_000, Entries: 1_000, Spread: spread}
		days := grown.Journal(shape)
		ns := b.race(func() { session(entries(days)) })
		what := "reading and working out 100,000 statements"
		if spread {
			what += ", each with ±"
		}
		r := row{what: what, ours: span(ns[0])}
		if !spread {
			r.budget, r.kept = "under 1 s", ns[0] < 1e9
		}
		b.table.add(r)
		list := entries(days)
		kept := held(func() *kernel.Session { return session(list) })
		b.table.plain("memory of the graph and the results, a statement", size(kept/100_000), "")
	}
	return nil
}

// revisions changes one reading among many.
func revisions(b *bench) error {
	for _, x := range []struct {
		statements, touched int
		budget              float64
	}{{10_000, 50, 200}, {100_000, 50, 0}, {100_000, 10, 0}} {
		shape := grown.Shape{Statements: x.statements, Entries: x.statements / 100, Chain: x.touched}
		list := entries(grown.Journal(shape))
		other := given(list, shape.Head(), "99 in")
		s := session(list)
		before := s.Work().Evaluated
		runs := 0
		ns := b.race(func() {
			s.Update(context.Background(), other)
			s.Update(context.Background(), list)
			runs += 2
		}, func() { session(list) })
		worked := float64(s.Work().Evaluated-before) / float64(runs)
		what := fmt.Sprintf("a revision among %d statements that moves %d", x.statements, x.touched)
		b.table.atLeast(what, span(ns[0]/2), span(ns[1])+" opening it again", ns[1]/(ns[0]/2), x.budget)
		if x.statements == 100_000 && x.touched == 50 {
			b.table.under("the same", span(ns[0]/2), ns[0]/2, 1e6, "under 1 ms")
		}
		b.table.atMost("statements worked out, against those that move", figure(worked), figure(float64(x.touched)), worked/float64(x.touched), 1)
		name := shape.Head()
		ns = b.race(func() { _, _ = s.WhatIf(map[string]string{name: "98 in"}) })
		b.table.plain("the same number only tried", span(ns[0]), "")
	}
	// a ripple over the whole journal
	shape := grown.Shape{Statements: 10_000, Entries: 100, Fan: 9_000}
	list := entries(grown.Journal(shape))
	other := given(list, "hub", "4 in")
	s := session(list)
	ns := b.race(func() {
		s.Update(context.Background(), other)
		s.Update(context.Background(), list)
	}, func() { session(list) })
	b.table.atMost("a revision on which 9,000 of 10,000 statements hang", span(ns[0]/2), span(ns[1])+" opening it again", ns[0]/2/ns[1], 0)
	return nil
}

// asOf shows a journal as of each of its entries.
func asOf(b *bench) error {
	for _, x := range []grown.Shape{{Statements: 10_000, Entries: 100}, {Statements: 2_000, Entries: 1_000, Readings: 1_000}} {
		list := entries(grown.Journal(x))
		fresh := b.race(func() { session(list) })[0]
		name := x.Last()
		if x.Readings > 0 {
			name = "long"
		}
		all := math.Inf(1) // each time in a session that has not been asked before
		for range 5 {
			s := session(list)
			all = min(all, lap(1, func() {
				for k := range list {
					s.Value(name, k)
				}
			}))
		}
		what := fmt.Sprintf("one value as of each of %d entries", x.Entries)
		if x.Readings > 0 {
			what += ", read again in each"
		}
		b.table.atMost(what, span(all), span(fresh)+" opening it once", all/fresh, 0)
		s := session(list)
		ns := b.race(func() {
			for k := range list {
				s.Dimensions(k)
			}
		})[0]
		b.table.plain(fmt.Sprintf("all %d values as of each of %d entries, each once", x.Statements, x.Entries), span(ns), figure(ns/float64(x.Entries)/fresh)+"× opening it, an entry")
	}
	return nil
}
