package notebook

import (
	"strings"

	"scarph/calc"
	"scarph/calc/lang"
	"scarph/kernel"
)

// closeGaps finds the lines that work in the whole journal and fail in the public one.
// It reports whether it left one out or sealed one. A line that waits for another is looked
// at when no other fails: what it reads of another day may not be known.
func (p *publication) closeGaps() bool {
	return p.closeThose(func(r *kernel.Result) bool { return r.Err != nil }) || p.closeThose(func(r *kernel.Result) bool { return !r.OK() })
}

func (p *publication) closeThose(fails func(*kernel.Result) bool) bool {
	again := false
	for i, k := range p.kept {
		if k == nil || k.e.Private {
			continue
		}
		public := p.out.Session.Outcomes(k.e.Key, kernel.Now)
		for j, at := range k.now {
			if at < 0 || !fails(public[at].Result) || k.seals[j] != nil {
				continue
			}
			values, ok := p.whole.Worked(kernel.LineRef{Entry: k.e.Key, Index: j}, kernel.Now)
			if !ok {
				continue // it is wrong in the journal too
			}
			again = true
			p.close(lineAt{i, j}, values)
		}
	}
	return again
}

// close seals a line that works with what is private, or leaves it out when it would say
// that itself.
func (p *publication) close(at lineAt, values []calc.Value) {
	k, j := p.kept[at.entry], at.line
	st := k.e.lines[j].Stmt
	failing := p.out.Session.Failing(kernel.LineRef{Entry: k.e.Key, Index: k.now[j]}, kernel.Now)
	var seals []lang.Seal
	because := none
	for i, e := range st.Exprs() {
		if len(e.Needs) == 0 || i < len(failing) && !failing[i] {
			continue
		}
		need, why := p.culprit(e)
		if because == none {
			because = why
		}
		switch {
		case bare(e, need) && !p.toldOfThen(need):
			p.leaveOut(at, why, p.called(need.Path, why)+", and this would say it")
			return
		case values[i].Kind() == calc.Picture:
			p.leaveOut(at, why, p.called(need.Path, why)+", and a drawing shows what it is made from")
			return
		}
		if st.Kind == lang.Check && i > 0 {
			continue // its sides are not told, only whether it holds
		}
		seals = append(seals, lang.Seal{Expr: i, Value: apart(values[i])})
	}
	if seals == nil {
		why := p.why(st.Name)
		if why == none {
			why = private
		}
		if why.hidden() != "" {
			k.gone[j] = why
			return
		}
		k.gone[j] = lost
		p.remarks[at] = k.e.File.diagnose(k.e.spans[j], calc.CodePublish, st.Name+" is private, so this line about it is left out", "write it in a private block, or make "+st.Name+" public")
		return
	}
	k.seals[j] = seals
	reads := "what is private"
	if because.hidden() != "" {
		reads = "what hide: [" + because.hidden() + "] leaves out"
	}
	p.remarks[at] = k.e.File.diagnose(k.e.spans[j], calc.CodePublish, "this reads "+reads+"; its result is published, its working is not", "")
}

// culprit is the need of an expression that is not told, and why it is not.
func (p *publication) culprit(e *lang.Expr) (lang.Need, cause) {
	for _, need := range e.Needs {
		r, ok := p.out.Session.Value(need.Path, kernel.Now)
		if ok && (r.Err == nil || r.Err.Code != calc.CodeUnknownItem) && need.Mode == lang.Now {
			continue
		}
		if why := p.why(need.Path); why != none {
			return need, why
		}
	}
	return e.Needs[0], private
}

// toldOfThen reports whether a need is of what a told value was: it is sealed, and what it
// was on another day is not known from what is told.
func (p *publication) toldOfThen(need lang.Need) bool {
	return (need.Mode == lang.Then || need.Mode == lang.AsOfEntry || need.Mode == lang.AsOfDate) && p.why(need.Path) == none
}

// bare reports whether an expression says a value itself: its name and nothing else, at
// whatever time and of whatever kind, or where its ± comes from.
func bare(e *lang.Expr, need lang.Need) bool {
	if need.Mode == lang.Why {
		return true
	}
	text := strings.Trim(e.Text, "() \t")
	before, after, found := strings.Cut(text, need.Path)
	if !found || len(e.Needs) != 1 {
		return false
	}
	before = strings.TrimRight(before, "( \t")
	after = strings.TrimLeft(after, ") \t")
	return (before == "" || need.Mode != lang.Now && strings.IndexFunc(before, func(r rune) bool { return r < 'a' || r > 'z' }) < 0) &&
		(after == "" || strings.HasPrefix(after, "as of "))
}

// called says of a name why it is not told.
func (p *publication) called(path string, why cause) string {
	switch {
	case why.hidden() != "":
		return path + " is left out by hide: [" + why.hidden() + "]"
	case why == saying:
		return path + " tells what is private"
	}
	return path + " is private"
}

// leaveOut leaves a line out that would say what is not told. Of what hide leaves out
// nothing more is said than how much it is.
func (p *publication) leaveOut(at lineAt, why cause, message string) {
	k := p.kept[at.entry]
	delete(p.remarks, at)
	if why.hidden() != "" {
		k.gone[at.line] = why
		return
	}
	k.gone[at.line] = saying
	p.problems[at] = k.e.File.diagnose(k.e.spans[at.line], calc.CodePublish, message+"; it is left out", "say it in a private block, or make public what it says")
}

// apart gives the sources of a sealed value's ± identities of their own, far from
// those of the public session, and alike wherever they are shared.
func apart(x calc.Value) calc.Value {
	if items := x.Items(); items != nil {
		list := make([]calc.Value, len(items))
		for i, it := range items {
			list[i] = apart(it)
		}
		return x.WithItems(list)
	}
	terms := x.Terms()
	if len(terms) == 0 {
		return x
	}
	list := make([]calc.Term, len(terms))
	for i, t := range terms { // in falling order of the sources, which is rising of the new ones
		list[len(terms)-1-i] = calc.Term{Source: -1_000_000 - t.Source, S: t.S}
	}
	return calc.WithTerms(x, list)
}
