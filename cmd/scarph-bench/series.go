package main

import (
	"encoding/json"
	"fmt"
	"io/fs"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"sort"

	"scarph/kernel"
	"scarph/kernel/grown"
	"scarph/notebook"
	"scarph/notebook/site"
)

// publishing writes a series whole, again with nothing changed, and again with one
// entry changed, each against copying the same bytes.
func publishing(b *bench) error {
	shape := grown.Shape{Statements: 10_000, Entries: 1_000}
	dir, err := b.onDisk("publish", shape)
	if err != nil {
		return err
	}
	day := grown.Journal(shape)[500]
	file := filepath.Join(dir, day.FileName())
	out, copied := filepath.Join(b.dir, "site"), filepath.Join(b.dir, "copied")
	var failed error
	var report site.Report
	publish := func() {
		n, err := notebook.Open(dir)
		if err != nil {
			failed = err
			return
		}
		report, failed = site.Publish(n, out, site.Options{AsOf: kernel.Now})
	}
	files := 0
	copyAll := func() {
		_ = os.RemoveAll(copied)
		files, failed = copyTree(out, copied)
	}
	once := func(f func()) float64 { return lap(1, f) }
	full := once(publish)
	if failed != nil || !report.Done {
		return fmt.Errorf("not published: %v, %d problems", failed, len(report.Problems))
	}
	what := fmt.Sprintf("1,000 entries, 10,000 statements: %d pages, %s", report.Pages, size(float64(report.Bytes)))
	yard := min(once(copyAll), once(copyAll))
	b.table.atMost(what+", whole", span(full), span(yard)+fmt.Sprintf(" copying the %d files", files), full/yard, 0)
	again := min(once(publish), once(publish))
	b.table.atMost("again, with nothing changed", span(again), span(full)+" whole", again/full, 0)
	text := day.Markdown()
	if err := os.WriteFile(file, []byte(text+"\nOne more line.\n"), 0o644); err != nil {
		return err
	}
	again = once(publish)
	b.table.atMost(fmt.Sprintf("again, with one entry’s text changed: %d files written", report.Written), span(again), span(full)+" whole", again/full, 0)
	return failed
}

func copyTree(from, to string) (files int, err error) {
	err = filepath.WalkDir(from, func(p string, d fs.DirEntry, err error) error {
		if err != nil {
			return err
		}
		rel, _ := filepath.Rel(from, p)
		if d.IsDir() {
			return os.MkdirAll(filepath.Join(to, rel), 0o755)
		}
		text, err := os.ReadFile(p)
		if err != nil {
			return err
		}
		files++
		return os.WriteFile(filepath.Join(to, rel), text, 0o644)
	})
	return files, err
}

// browserBuild weighs the kernel that published pages carry, and tries a number in it.
func browserBuild(b *bench) error {
	n, err := notebook.Open(filepath.Join(b.root, "examples", "sorrel"))
	if err != nil {
		return err
	}
	out := filepath.Join(b.dir, "sorrel")
	if r, err := site.Publish(n, out, site.Options{AsOf: kernel.Now}); err != nil || !r.Done {
		return fmt.Errorf("not published: %v", err)
	}
	node, err := exec.LookPath("node")
	if err != nil {
		return fmt.Errorf("it is run in node")
	}
	var got struct{ Answered, Each, Moved, Wasm, Gzip, Brotli float64 }
	var answered []float64
	each := math.Inf(1)
	for range firsts {
		cmd := exec.Command(node, filepath.FromSlash("testdata/bench/page.js"), out, "planking", `3/8"`, `1/2"`)
		cmd.Dir, cmd.Stderr = b.root, os.Stderr
		text, err := cmd.Output()
		if err != nil {
			return err
		}
		if err := json.Unmarshal(text, &got); err != nil {
			return err
		}
		answered, each = append(answered, got.Answered), min(each, got.Each)
	}
	sort.Float64s(answered)
	got.Answered, got.Each = answered[len(answered)/2], each
	b.table.under("size by gzip (unpacked "+size(got.Wasm)+")", size(got.Gzip), got.Gzip, 1.8e6, "≤ 1.8 MB")
	b.table.under("size by brotli", size(got.Brotli), got.Brotli, 1.3e6, "≤ 1.3 MB")
	if err := b.firstAnswer(out); err != nil {
		return err
	}
	b.table.under("in node, nothing loaded: unpack, start, work out examples/sorrel, answer the first number tried; half of 7", span(got.Answered), got.Answered, 300e6, "≤ 300 ms")
	b.table.plain(fmt.Sprintf("each further number, %v values moved", got.Moved), span(got.Each), figure(1e9/got.Each)+" a second")
	var moved kernel.Ripple
	i := 0
	ns := b.race(func() {
		i++
		moved, _ = n.Session.WhatIf(map[string]string{"planking": []string{`3/8"`, `1/2"`}[i%2]})
	})
	b.table.atMost(fmt.Sprintf("the same tried in the program, %d values moved", len(moved.Moved)), span(ns[0]), span(got.Each)+" in the browser build", ns[0]/got.Each, 0)
	return nil
}
