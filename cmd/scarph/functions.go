package main

import (
	"fmt"
	"slices"
	"strings"
	"unicode"

	"scarph/calc"
	"scarph/calc/lang"
	"scarph/calc/trade"
	"scarph/kernel"
)

type functionsCmd struct {
	Name string `arg:"" optional:"" complete:"function" help:"A function, or a word to look for."`
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
	all := func(...string) bool { return true }
	if c.JSON {
		return c.printShapes(s, all)
	}
	s.listFunctions(all)
	return nil
}

// printShapes prints the functions that fit as JSON.
func (c *functionsCmd) printShapes(s *streams, fits func(...string) bool) error {
	list := []kernel.FunctionShape{}
	for _, f := range trade.All() {
		if fits(f.Name, f.Summary, f.Group) {
			list = append(list, kernel.ShapeOfFunction(f))
		}
	}
	return s.printJSON(list)
}

// listFunctions prints the functions that fit, group by group, and how many there are.
func (s *streams) listFunctions(fits func(texts ...string) bool) int {
	group, n := "", 0
	line := func(of, call, summary string) {
		if of != group {
			if group != "" {
				fmt.Fprintln(s.out)
			}
			group = of
			fmt.Fprintln(s.out, of)
		}
		fmt.Fprintf(s.out, "  %s\n      %s\n", call, summary)
		n++
	}
	for _, f := range trade.All() {
		if fits(f.Name, f.Summary, f.Group) {
			line(f.Group, f.Signature(), f.Summary)
		}
	}
	for _, f := range lang.Forms() {
		if fits(f.Name, f.Summary) {
			line("In the language itself", f.Call, f.Summary)
		}
	}
	return n
}

// oneSpelling has words written one way that people spell two ways.
var oneSpelling = strings.NewReplacer("mold", "mould", "center", "centre", "gage", "gauge", "color", "colour", "draught", "draft", "scarf", "scarph", "mitre", "miter", "lumber", "timber")

// speaksOf returns what tells the functions whose name, summary or group has all the
// words, at the beginning of its own words; knees finds knee.
func speaksOf(words string) func(...string) bool {
	wanted := wordsOf(words)
	for i, w := range wanted {
		if len(w) > 3 {
			w = strings.TrimSuffix(w, "s")
		}
		if w == "rib" { // the functions speak of frames, sawn or bent
			w = "frame"
		}
		wanted[i] = w
	}
	return func(texts ...string) bool {
		have := wordsOf(strings.Join(texts, " "))
		for _, w := range wanted {
			if !slices.ContainsFunc(have, func(h string) bool { return strings.HasPrefix(h, w) }) {
				return false
			}
		}
		return len(wanted) > 0
	}
}

// wordsOf parts a text at all that is no letter or digit, in small letters.
func wordsOf(s string) []string {
	return strings.FieldsFunc(oneSpelling.Replace(strings.ToLower(s)), func(r rune) bool { return !unicode.IsLetter(r) && !unicode.IsDigit(r) })
}

// allOf is all that is said of a function.
func allOf(f *trade.Function) []string {
	list := []string{f.Name, f.Summary, f.Group, f.Result, f.Formula, f.Limits, f.Caution.Text()}
	for i := range f.Params {
		list = append(list, f.Params[i].Name, f.Params[i].Doc)
	}
	return list
}

// unknown answers a name that no function has: with a form of the language, with the
// functions that speak of it, or with the nearest name.
func (c *functionsCmd) unknown(s *streams) error {
	for _, f := range lang.Forms() {
		if f.Name == c.Name {
			fmt.Fprintf(s.out, "%s\n  %s\n", f.Call, f.Summary)
			return nil
		}
	}
	speaks := speaksOf(c.Name)
	found := func(texts ...string) bool { return speaks(texts...) }
	if !slices.ContainsFunc(trade.All(), func(f *trade.Function) bool { return speaks(f.Name, f.Summary, f.Group) }) {
		found = func(texts ...string) bool { // what is asked for may stand further down
			f, ok := trade.Find(texts[0])
			return ok && speaks(allOf(f)...) || !ok && speaks(texts...)
		}
	}
	if c.JSON {
		if slices.ContainsFunc(trade.All(), func(f *trade.Function) bool { return found(f.Name, f.Summary, f.Group) }) {
			return c.printShapes(s, found)
		}
	} else if n := s.listFunctions(found); n > 0 {
		fmt.Fprintf(s.err, "no function is called %s; %s of it\n", c.Name, counted2(n, "function speaks", "functions speak"))
		return nil
	}
	fmt.Fprintf(s.err, "scarph: there is no function %s, and none speaks of it\n", c.Name)
	if near := calc.Nearest(c.Name, append(lang.FormNames(), trade.Names()...)); near != "" {
		fmt.Fprintf(s.err, "hint: did you mean %s?\n", near)
	}
	return statusUsage
}

func printFunction(s *streams, f *trade.Function) {
	fmt.Fprintf(s.out, "%s\n  %s\n\n", f.Signature(), f.Summary)
	var rows [][]string
	for i := range f.Params {
		p := f.Params[i]
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
