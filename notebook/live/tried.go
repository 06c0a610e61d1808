package live

import (
	"scarph/calc"
	"scarph/kernel"
)

// whatIf is what the numbers that are tried would move, worked out once for a page.
type whatIf struct {
	ripple kernel.Ripple
	err    *calc.Error
	values map[string]*kernel.Result // what names would come to
	made   map[kernel.LineRef]*kernel.Made
}

// whatIf works out the trials of a glance; nothing moves where nothing is tried.
func (s *visit) whatIf(g *glance) *whatIf {
	if g.would != nil {
		return g.would
	}
	z := &whatIf{}
	g.would = z
	if len(g.trials) == 0 {
		return z
	}
	if z.ripple, z.err = s.book.Session.WhatIf(g.values()); z.err != nil {
		return z
	}
	z.values, z.made = map[string]*kernel.Result{}, map[kernel.LineRef]*kernel.Made{}
	for _, list := range [][]kernel.Moved{z.ripple.Moved, z.ripple.Fields()} {
		for _, m := range list {
			z.values[m.Name] = m.To
		}
	}
	for i := range z.ripple.Made {
		z.made[z.ripple.Made[i].Ref] = &z.ripple.Made[i]
	}
	return z
}

// filledIf is a working with the tried numbers put in, "" where they do not bear on it.
func (s *visit) filledIf(g *glance, ref kernel.LineRef, kept string) string {
	if len(g.trials) == 0 {
		return ""
	}
	if _, filled := s.book.Session.LineFormulaIf(g.values(), ref, g.style); filled != kept {
		return filled
	}
	return ""
}

// lineIf is what a line without a name would come to, "" where it would not move.
func (s *visit) lineIf(g *glance, ref kernel.LineRef, kept *kernel.Result) string {
	if len(g.trials) == 0 {
		return ""
	}
	lines, err := s.book.Session.EntryIf(g.values(), ref.Entry, g.style)
	if x, ok := lines[ref]; err == nil && ok && x.Result.OK() && !(kept.OK() && calc.Same(kept.Value, x.Result.Value)) {
		return resultText(x.Result, g.style)
	}
	return ""
}
