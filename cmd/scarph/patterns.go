package main

import (
	"bytes"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"strings"

	"scarph/calc"
	"scarph/calc/draw/export"
	"scarph/calc/draw/paper"
	"scarph/notebook"
	"scarph/notebook/results"
)

type patternsCmd struct {
	Dir   string   `arg:"" complete:"journal" help:"The journal."`
	Names []string `arg:"" optional:"" complete:"name" help:"Shapes; without any, all that are flat."`
	Out   string   `short:"o" required:"" placeholder:"FILE" complete:"file" help:"The file to write: .pdf at true size, or .dxf or .svg for one shape."`
	Page  string   `default:"A4" complete:"A4,A3,Letter,roll" help:"The paper: A4, A3, Letter, roll, or \"roll 36 in\"."`
	Unit  string   `default:"mm" complete:"mm,in" help:"The unit of a .dxf or .svg: mm or in."`
	Wall  bool     `help:"Print tables for the shop's wall instead: cutlist, dimensions, rework, or a data table."`
	AsOf  string   `name:"as-of" placeholder:"DATE" complete:"day" help:"Take the journal as it stood at the end of a day."`
}

// Run writes shapes at true size, or tables for the wall.
func (c *patternsCmd) Run(s *streams) error {
	n, at, err := openAsOf(c.Dir, c.AsOf)
	if err != nil {
		return err
	}
	page, err := paper.FindPage(c.Page)
	if err != nil {
		return err
	}
	letter, date := n.Revision(at)
	o := paper.Options{Page: page, Style: n.Session.Style(), Title: n.Title(), Revision: letter, Date: date}
	var b bytes.Buffer
	if c.Wall {
		err = c.wall(&b, n, at, o)
	} else {
		err = c.shapes(s, &b, n, at, o)
	}
	if err != nil {
		return err
	}
	if err := os.WriteFile(c.Out, b.Bytes(), 0o644); err != nil {
		return err
	}
	if date != "" {
		letter += " of " + date
	}
	fmt.Fprintf(s.err, "%s written, revision %s.%s\n", c.Out, letter, c.advice())
	return nil
}

// advice is what to mind with the file before wood is cut.
func (c *patternsCmd) advice() string {
	switch ext := strings.ToLower(filepath.Ext(c.Out)); {
	case c.Wall:
		return ""
	case ext == ".dxf":
		u, _ := export.FindUnit(c.Unit) // it was found before
		return " Tell the program that opens it that it is in " + u.Word + "."
	case ext == ".svg":
		return " Check one size of it before you cut."
	}
	return " Measure the test bars before you cut."
}

func (c *patternsCmd) wall(w io.Writer, n *notebook.Notebook, at int, o paper.Options) error {
	sheets := n.Sheets(at)
	if len(c.Names) != 1 {
		return fmt.Errorf("--wall prints one table: %s", strings.Join(n.SheetNames(at), ", "))
	}
	t, ok := sheets[c.Names[0]]
	if !ok {
		return c.unknown("table", c.Names[0], n.SheetNames(at))
	}
	return paper.WallSheet(w, paper.Table{Title: t.Title, Rows: t.Rows, Turnable: t.Turnable, Note: strings.Join(results.CautionTexts(t.Cautions), " ")}, o)
}

func (c *patternsCmd) unknown(what, name string, names []string) error {
	if near := calc.Nearest(name, names); near != "" {
		return fmt.Errorf("there is no %s %s; did you mean %s?", what, name, near)
	}
	if len(names) == 0 {
		return fmt.Errorf("there is no %s %s; the journal has none", what, name)
	}
	return fmt.Errorf("there is no %s %s; there are %s", what, name, strings.Join(names, ", "))
}

// drawnAt tells where a shape without a name of its own is drawn.
func drawnAt(f notebook.FlatShape) string {
	if f.Place.File == "" {
		return ""
	}
	return fmt.Sprintf("  (%s:%d)", f.Place.File, f.Place.Line)
}

func (c *patternsCmd) shapes(s *streams, w io.Writer, n *notebook.Notebook, at int, o paper.Options) error {
	all := n.Shapes(at)
	var names []string
	byName := map[string]notebook.FlatShape{}
	for _, f := range all {
		names = append(names, f.Name)
		byName[f.Name] = f
	}
	if len(all) == 0 {
		return fmt.Errorf("the journal draws no flat shape; a panel, a frame, a strip of marks is one\nhint: write a line such as strip = tick_strip(mark_positions(0 in, 14 in, 5)); scarph functions drawing lists them")
	}
	chosen := all
	if len(c.Names) > 0 {
		chosen = nil
		for _, name := range c.Names {
			f, ok := byName[name]
			if !ok {
				return c.unknown("shape", name, names)
			}
			chosen = append(chosen, f)
		}
	}
	switch ext := strings.ToLower(filepath.Ext(c.Out)); ext {
	case ".pdf":
		var flats []paper.Named
		for _, f := range chosen {
			flats = append(flats, paper.Named{Name: calc.Words(f.Name), Flat: f.Flat, Cautions: results.CautionTexts(f.Cautions)})
			fmt.Fprintln(s.err, f.Name+drawnAt(f))
		}
		return paper.Tile(w, flats, o)
	case ".dxf", ".svg":
		u, err := export.FindUnit(c.Unit)
		if err != nil {
			return err
		}
		if len(chosen) != 1 {
			return fmt.Errorf("a %s file holds one shape: %s", ext, strings.Join(names, ", "))
		}
		scene := chosen[0].Flat.Outline(o.Style)
		if ext == ".dxf" {
			return export.DXF(w, scene, u)
		}
		return export.SVG(w, scene, u, calc.Words(chosen[0].Name))
	default:
		return fmt.Errorf("%s is no file of patterns: name it .pdf, .dxf or .svg", c.Out)
	}
}
