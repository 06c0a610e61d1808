package main

import (
	"bytes"
	"io"
	"os"
	"path/filepath"
	"sort"

	"github.com/yuin/goldmark"
	"github.com/yuin/goldmark/extension"
	"github.com/yuin/goldmark/parser"
	"github.com/yuin/goldmark/renderer/html"

	"scarph/notebook"
	"scarph/notebook/markdown"
)

// plainGoldmark is the Markdown library as it comes, with those extensions of a
// journal that it has itself.
func plainGoldmark() goldmark.Markdown {
	return goldmark.New(
		goldmark.WithExtensions(extension.Table, extension.Strikethrough, extension.TaskList, extension.Footnote, extension.DefinitionList),
		goldmark.WithParserOptions(parser.WithAutoHeadingID()),
		goldmark.WithRendererOptions(html.WithXHTML()),
	)
}

// quiet shows nothing where a block or a slot stands: what is measured is Markdown.
type quiet struct{}

func (quiet) Block(*bytes.Buffer, *markdown.Block)          {}
func (quiet) Slot(*bytes.Buffer, *markdown.Slot)            {}
func (quiet) SlotText(*markdown.Slot) string                { return "" }
func (quiet) Cell(*bytes.Buffer, *markdown.Table, int, int) {}
func (quiet) CellText(*markdown.Table, int, int) string     { return "" }

// pages makes the HTML of the example journals, by ours and by plain goldmark.
func pages(b *bench) error {
	m := plainGoldmark()
	for _, name := range []string{"sorrel", "pippin", "quillet", "guide"} {
		files, err := filepath.Glob(filepath.Join(b.root, "examples", name, "*.md"))
		if err != nil || len(files) == 0 {
			return os.ErrNotExist
		}
		sort.Strings(files)
		var texts [][]byte
		total := 0
		for _, f := range files {
			text, err := os.ReadFile(f)
			if err != nil {
				return err
			}
			texts = append(texts, text)
			total += len(text)
		}
		ns := b.race(
			func() {
				for _, t := range texts {
					d := markdown.Parse(t)
					for _, s := range d.Sections {
						d.Render(s, quiet{}, markdown.Options{})
					}
				}
			},
			func() {
				for _, t := range texts {
					_ = m.Convert(t, io.Discard)
				}
			},
		)
		b.table.atMost("examples/"+name+", "+size(float64(total))+" of Markdown", span(ns[0]), span(ns[1])+" plain goldmark", ns[0]/ns[1], 1.2)
	}
	book, err := notebook.Open(filepath.Join(b.root, "examples", "sorrel"))
	if err != nil {
		return err
	}
	ns := b.race(func() {
		for _, e := range book.Entries() {
			book.RenderEntry(e, notebook.Page{AsOf: 1 << 30, Live: true})
		}
	})
	b.table.plain("all entries of examples/sorrel with their numbers, tables and drawings", span(ns[0]), "")
	return nil
}
