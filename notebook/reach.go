package notebook

import (
	"cmp"
	"maps"
	"slices"
	"strings"

	"scarph/calc"
	"scarph/calc/lang"
	"scarph/kernel"
)

// lineAt is a line of the journal, by the places of its entry and in it.
type lineAt struct{ entry, line int }

func inOrderOfLines[T any](m map[lineAt]T) []lineAt {
	return slices.SortedFunc(maps.Keys(m), func(a, b lineAt) int { return cmp.Or(a.entry-b.entry, a.line-b.line) })
}

// names tell which lines give a name and which read it. Names are taken by what stands
// before their first dot, so that a table or a record counts as one.
type names struct{ given, read map[string][]lineAt }

func head(path string) string {
	h, _, _ := strings.Cut(path, ".")
	return h
}

func (p *publication) findNames() names {
	n := names{given: map[string][]lineAt{}, read: map[string][]lineAt{}}
	for i, k := range p.kept {
		if k == nil {
			continue
		}
		for j := range k.e.lines {
			st := k.e.lines[j].Stmt
			if st == nil {
				continue
			}
			at := lineAt{i, j}
			if gives(st) {
				n.given[head(st.Name)] = append(n.given[head(st.Name)], at)
			}
			for _, e := range st.Exprs() {
				for _, need := range e.Needs {
					h := head(need.Path)
					if list := n.read[h]; len(list) == 0 || list[len(list)-1] != at {
						n.read[h] = append(list, at)
					}
				}
			}
		}
	}
	return n
}

// gives reports whether a statement gives a name something to say.
func gives(st *lang.Stmt) bool {
	return st.Name != "" && (st.Kind.IsReading() || st.Kind == lang.PartLine)
}

// why is the reason for which a name is not told: that of the first line that gives it
// and is left out.
func (p *publication) why(path string) cause {
	for _, at := range p.names.given[head(path)] {
		if c := p.kept[at.entry].gone[at.line]; c != none {
			return c
		}
	}
	return none
}

// secret is a value that is not told.
type secret struct {
	name  string
	why   cause
	value calc.Value
}

// keepBack leaves out the lines whose result says again what they hang on and is not
// told. It reports whether there was one.
func (p *publication) keepBack() bool {
	again := false
	found := p.reached()
	for _, at := range inOrderOfLines(found) {
		k := p.kept[at.entry]
		st := k.e.lines[at.line].Stmt
		values, ok := p.out.Session.Worked(kernel.LineRef{Entry: k.e.Key, Index: k.now[at.line]}, kernel.Now)
		if !ok {
			continue
		}
		for _, s := range append(found[at], p.past(at)...) {
			if saysAgain(st, values, s.value) {
				again = true
				p.leaveOut(at, s.why, "this comes to what "+s.name+" is, and "+p.called(s.name, s.why))
				break
			}
		}
	}
	return again
}

func saysAgain(st *lang.Stmt, values []calc.Value, secret calc.Value) bool {
	for _, v := range values {
		if v.Kind() == calc.Truth && st.Kind == lang.Check {
			continue // that it holds is what the check is there to say
		}
		if givesAway(v, secret) {
			return true
		}
	}
	return false
}

// reached finds, of each public line that hangs on what is not told, all that it hangs on
// so. A line does not when all that it reads is public.
func (p *publication) reached() map[lineAt][]secret {
	found := map[lineAt][]secret{}
	for _, k := range p.kept {
		if k == nil {
			continue
		}
		for j, why := range k.gone {
			st := k.e.lines[j].Stmt
			if why == none || why == saying || st == nil || !gives(st) {
				continue
			}
			var secrets []secret
			values, _ := p.whole.Worked(kernel.LineRef{Entry: k.e.Key, Index: j}, kernel.Now)
			for _, v := range values {
				secrets = append(secrets, secret{st.Name, why, v})
			}
			for at := range p.hangingOn(head(st.Name)) {
				found[at] = append(found[at], secrets...)
			}
		}
	}
	return found
}

// hangingOn are the public lines that hang on a name by way of what is not told.
func (p *publication) hangingOn(name string) map[lineAt]bool {
	type way struct {
		name   string
		public bool // a line has told a result on the way
	}
	lines, seen := map[lineAt]bool{}, map[way]bool{}
	todo := []way{{name, false}}
	for len(todo) > 0 {
		w := todo[len(todo)-1]
		todo = todo[:len(todo)-1]
		if seen[w] {
			continue
		}
		seen[w] = true
		for _, at := range p.names.read[w.name] {
			k := p.kept[at.entry]
			next := w
			switch {
			case k.gone[at.line] != none:
				next.public = false
			case k.seals[at.line] != nil || w.public:
				lines[at], next.public = true, true
			default:
				continue // it reads a public reading of that name
			}
			if st := k.e.lines[at.line].Stmt; gives(st) {
				next.name = head(st.Name)
				todo = append(todo, next)
			}
		}
	}
	return lines
}

// past are the values that a line reads as they stood, of names that are not told.
func (p *publication) past(at lineAt) []secret {
	var list []secret
	for _, e := range p.kept[at.entry].e.lines[at.line].Stmt.Exprs() {
		for _, need := range e.Needs {
			order := at.entry
			switch need.Mode {
			case lang.Then:
			case lang.AsOfEntry:
				order = need.Entry - 1
			case lang.AsOfDate:
				order = p.whole.OrderOn(need.Date)
			default:
				continue
			}
			why := p.why(need.Path)
			if why == none {
				continue
			}
			if r, ok := p.whole.Value(need.Path, order); ok && r.OK() {
				list = append(list, secret{need.Path, why, r.Value})
			}
		}
	}
	return list
}
