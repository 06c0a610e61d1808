package main

import (
	"fmt"
	"strings"

	"scarph/calc"
	"scarph/calc/lang"
	"scarph/calc/trade"
	"scarph/kernel"
)

type functionsCmd struct {
	Name string `arg:"" optional:"" complete:"function" help:"A function."`
	JSON bool   `name:"json" help:"Print JSON."`
}

// Run prints the registry, or one entry of it.
func (c *functionsCmd) Run(s *streams) error {
	if c.Name != "" {
		f, ok := trade.Find(c.Name)
		if !ok {
			return c.unknown(s)
		}
		if c.JSON {
			return s.printJSON(kernel.ShapeOfFunction(f))
		}
		printFunction(s, f)
		return nil
	}
	if c.JSON {
		list := []kernel.FunctionShape{}
		for i := range trade.All() {
			list = append(list, kernel.ShapeOfFunction(&trade.All()[i]))
		}
		return s.printJSON(list)
	}
	group := ""
	for i := range trade.All() {
		f := &trade.All()[i]
		if f.Group != group {
			if group != "" {
				fmt.Fprintln(s.out)
			}
			group = f.Group
			fmt.Fprintln(s.out, group)
		}
		fmt.Fprintf(s.out, "  %s\n      %s\n", f.Signature(), f.Summary)
	}
	fmt.Fprintln(s.out, "\nIn the language itself")
	for _, f := range lang.Forms() {
		fmt.Fprintf(s.out, "  %s\n      %s\n", f.Call, f.Summary)
	}
	return nil
}

func (c *functionsCmd) unknown(s *streams) error {
	for _, f := range lang.Forms() {
		if f.Name == c.Name {
			fmt.Fprintf(s.out, "%s\n  %s\n", f.Call, f.Summary)
			return nil
		}
	}
	fmt.Fprintf(s.err, "scarph: there is no function %s\n", c.Name)
	if near := calc.Nearest(c.Name, append(lang.FormNames(), trade.Names()...)); near != "" {
		fmt.Fprintf(s.err, "hint: did you mean %s?\n", near)
	}
	return statusUsage
}

func printFunction(s *streams, f *trade.Function) {
	fmt.Fprintf(s.out, "%s\n  %s\n\n", f.Signature(), f.Summary)
	var rows [][]string
	for i := range f.Params {
		p := &f.Params[i]
		what := p.What()
		if p.Doc != "" && p.Doc != what {
			what += ": " + p.Doc
		}
		if p.Optional {
			what += " (may be left out)"
		}
		rows = append(rows, []string{"  " + p.Name, what})
	}
	s.table(rows)
	for _, line := range [][2]string{{"gives", f.Result}, {"formula", f.Formula}, {"limits", f.Limits}, {"source", f.Source}, {"caution", f.Caution.Text()}} {
		if line[1] != "" {
			fmt.Fprintf(s.out, "\n  %-8s %s", line[0], strings.ReplaceAll(line[1], "\n", "\n           "))
		}
	}
	fmt.Fprintln(s.out)
	for _, c := range f.Checks {
		fmt.Fprintf(s.out, "\n  for example  %s = %s", c.Call, c.Want)
	}
	fmt.Fprintln(s.out)
}
