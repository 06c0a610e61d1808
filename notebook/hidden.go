package notebook

import (
	"strconv"
	"strings"

	"scarph/calc"
	"scarph/calc/lang"
	"scarph/kernel"
)

// dropHidden leaves out what the setting hide names: hours, checks, and with money
// every line that tells of an amount.
func (p *publication) dropHidden() {
	hides := p.out.settings.Hides
	for _, k := range p.kept {
		if k == nil {
			continue
		}
		for j := range k.e.lines {
			l := &k.e.lines[j]
			if l.Stmt == nil {
				continue
			}
			switch {
			case k.gone[j] != none:
			case hides("hours") && (l.Stmt.Kind == lang.Work || reads(l.Stmt, lang.Worked)):
				k.gone[j] = hours
			case l.Stmt.Kind == lang.Check && hides("checks"):
				k.gone[j] = checks
			case hides("money") && p.tellsMoney(k, j):
				k.gone[j] = money
			}
		}
	}
}

// tellsMoney reports whether a line is about money: by its result, by what it reads,
// or by an amount that it writes.
func (p *publication) tellsMoney(k *keptEntry, j int) bool {
	l := &k.e.lines[j]
	if l.Stmt.Kind == lang.Spend || reads(l.Stmt, lang.Spent) {
		return true
	}
	if o, ok := p.whole.Outcome(kernel.LineRef{Entry: k.e.Key, Index: j}, kernel.Now); ok && o.Result.OK() && isMoney(o.Result.Value) {
		return true
	}
	for _, e := range l.Stmt.Exprs() {
		for _, need := range e.Needs {
			if r, ok := p.whole.Value(need.Path, kernel.Now); ok && r.OK() && isMoney(r.Value) {
				return true
			}
		}
		if namesMoney(e.Text) {
			return true
		}
	}
	return false
}

// namesMoney reports whether a text has the code of a currency in it.
func namesMoney(text string) bool {
	for _, w := range strings.FieldsFunc(text, func(r rune) bool { return r < 'A' || r > 'Z' }) {
		if u, ok := calc.FindUnit(w); len(w) == 3 && ok && u.D.HasMoney() {
			return true
		}
	}
	return false
}

// reads reports whether a line has a need of a mode.
func reads(st *lang.Stmt, mode lang.Mode) bool {
	for _, e := range st.Exprs() {
		for _, need := range e.Needs {
			if need.Mode == mode {
				return true
			}
		}
	}
	return false
}

func isMoney(x calc.Value) bool {
	if x.IsQuantity() {
		return x.D.HasMoney()
	}
	for _, it := range x.Items() {
		if isMoney(it) {
			return true
		}
	}
	return false
}

// hideRemarks say, entry by entry, what hide took away.
func (p *publication) hideRemarks() []Diagnostic {
	var list []Diagnostic
	for _, k := range p.kept {
		if k == nil || k.e.Private {
			continue
		}
		var lines, slots, cells, first int
		var words []string
		for j, why := range k.gone {
			word := why.hidden()
			if word == "" {
				continue
			}
			if lines+slots+cells == 0 {
				first = j
			}
			if !inList(words, word) {
				words = append(words, word)
			}
			switch l := &k.e.lines[j]; {
			case l.Slot:
				slots++
			case l.Cell:
				cells++
			default:
				lines++
			}
		}
		if words == nil {
			continue
		}
		var what []string
		for _, x := range [...]struct {
			n    int
			word string
		}{{lines, "line"}, {cells, "cell"}, {slots, "value in the text"}} {
			switch {
			case x.n == 1:
				what = append(what, "1 "+x.word)
			case x.n > 1 && x.word == "value in the text":
				what = append(what, strconv.Itoa(x.n)+" values in the text")
			case x.n > 1:
				what = append(what, strconv.Itoa(x.n)+" "+x.word+"s")
			}
		}
		hint := ""
		if slots > 0 {
			hint = "where a value stood in the text it says: not told"
		}
		list = append(list, k.e.File.diagnose(k.e.spans[first], calc.CodePublish, "hide: ["+strings.Join(words, ", ")+"] leaves out "+strings.Join(what, ", ")+" of this entry", hint))
	}
	return list
}

// hidden is the word of hide that is the cause, "" for another cause.
func (c cause) hidden() string {
	switch c {
	case money:
		return "money"
	case hours:
		return "hours"
	case checks:
		return "checks"
	}
	return ""
}
