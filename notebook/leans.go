package notebook

import (
	"slices"
	"sort"

	"scarph/calc"
	"scarph/calc/lang"
	"scarph/kernel"
)

// lean notes with each seal the told values that it hangs on, so that a reader who tries
// another number for one of them is not shown the sealed value as if it had followed, nor is
// what it was on a day when they were others. It reports whether that is news.
func (p *publication) lean() bool {
	found := false
	for _, k := range p.kept {
		if k == nil {
			continue
		}
		for j, seals := range k.seals {
			if seals == nil {
				continue
			}
			exprs := k.e.lines[j].Stmt.Exprs()
			for i := range seals {
				leans := p.leansOf(exprs[seals[i].Expr])
				if !slices.EqualFunc(leans, seals[i].Leans, func(a, b lang.Lean) bool { return a.Name == b.Name }) {
					seals[i].Leans, found = leans, true
				}
			}
		}
	}
	return found
}

// leansOf finds the told values that an expression hangs on, by way of what is not told.
func (p *publication) leansOf(e *lang.Expr) []lang.Lean {
	var leans []lang.Lean
	seen := map[string]bool{}
	todo := []*lang.Expr{e}
	for len(todo) > 0 {
		e, todo = todo[len(todo)-1], todo[:len(todo)-1]
		for _, need := range e.Needs {
			if need.Mode != lang.Now || seen[need.Path] {
				continue
			}
			seen[need.Path] = true
			if r, ok := p.out.Session.Value(need.Path, kernel.Now); ok && r.OK() {
				switch v := r.Value; {
				case v.IsQuantity():
					leans = append(leans, lang.Lean{Name: need.Path, Value: calc.Of(v.V, v.D)})
				case v.Kind() != calc.Picture:
					leans = append(leans, lang.Lean{Name: need.Path, Value: apart(v)})
				}
				continue
			}
			for _, at := range p.names.given[head(need.Path)] {
				if k := p.kept[at.entry]; k.gone[at.line] != none {
					todo = append(todo, k.e.lines[at.line].Stmt.Exprs()...)
				}
			}
		}
	}
	sort.Slice(leans, func(i, j int) bool { return leans[i].Name < leans[j].Name })
	return leans
}
