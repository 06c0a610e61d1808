package notebook

import (
	"context"
	"strconv"
	"strings"

	"scarph/calc"
	"scarph/calc/lang"
	"scarph/kernel"
)

// Published returns the journal as readers get it, as of an entry: a notebook whose
// session holds only what may be read. Drafts and later entries are not in it at all;
// private entries, private blocks and what the setting hide leaves out are not in it
// either, so that no page, list or file made from it can tell of them.
//
// A public sum that reads something private keeps its number and its working is not
// told. A line that would say a private value itself is left out.
//
// The diagnostics say what was left out so, and what keeps its number.
func (n *Notebook) Published(asOf int) (public *Notebook, left, sealed []Diagnostic) {
	n.mu.RLock()
	defer n.mu.RUnlock()
	p := &publication{whole: kernel.New(n.Session.Style()), out: &Notebook{
		Session: kernel.New(n.Session.Style()), Path: n.Path, Single: n.Single, settings: n.settings, files: n.files, byKey: map[string]*Entry{}, problems: n.problems, published: true,
	}}
	p.take(n.entries, asOf)
	p.dropHidden()
	p.settle()
	return p.out, p.left, p.sealed
}

// publication is the making of a public notebook.
type publication struct {
	whole   *kernel.Session // all that was written, private lines too
	out     *Notebook
	entries []*Entry // without drafts
	kept    []*keptEntry
	left    []Diagnostic
	sealed  []Diagnostic
}

// keptEntry is an entry while it is decided which of its lines may be read.
type keptEntry struct {
	e     *Entry
	gone  []bool
	seals [][]lang.Seal
}

// take makes the whole session, without drafts and later entries. Empty entries stand
// in their places, so that "as of entry 5" means the same entry.
func (p *publication) take(entries []*Entry, asOf int) {
	var list []kernel.Entry
	for i, e := range entries {
		if i > asOf {
			break
		}
		if e.Draft {
			list = append(list, standIn(i, list))
			p.kept = append(p.kept, nil)
			continue
		}
		list = append(list, kernel.Entry{Key: e.Key, Title: e.saidTitle(), Date: e.Date, Lines: e.lines, Tables: e.tables})
		k := &keptEntry{e: e, gone: make([]bool, len(e.lines)), seals: make([][]lang.Seal, len(e.lines))}
		for j := range e.lines {
			k.gone[j] = e.lines[j].Private
		}
		p.kept = append(p.kept, k)
	}
	p.whole.Update(context.Background(), list)
}

// standIn is an empty entry in the place of one that is not told of; it has the date
// of the one before, so that "as of" a date means the same.
func standIn(i int, before []kernel.Entry) kernel.Entry {
	e := kernel.Entry{Key: "#" + strconv.Itoa(i+1)}
	if len(before) > 0 {
		e.Date = before[len(before)-1].Date
	}
	return e
}

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
			case hides("hours") && (l.Stmt.Kind == lang.Work || reads(l.Stmt, lang.Worked)), l.Stmt.Kind == lang.Check && hides("checks"), hides("money") && p.tellsMoney(k, j):
				k.gone[j] = true
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
		for _, w := range strings.FieldsFunc(e.Text, func(r rune) bool { return r < 'A' || r > 'Z' }) {
			if u, ok := calc.FindUnit(w); len(w) == 3 && ok && u.D.HasMoney() {
				return true
			}
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

// settle makes the public session, and seals or leaves out the lines that read what
// is not in it, until none is left.
func (p *publication) settle() {
	for {
		p.build()
		if !p.closeGaps() {
			break
		}
	}
	list := p.out.entries[:0:0]
	for _, e := range p.out.entries {
		if !e.Private {
			list = append(list, e)
		}
	}
	p.out.entries = list
}

// build makes the entries of the public notebook from what is kept.
func (p *publication) build() {
	var list []kernel.Entry
	p.out.entries = nil
	for i, k := range p.kept {
		if k == nil || k.e.Private {
			list = append(list, standIn(i, list))
			continue
		}
		e := k.public()
		p.out.entries = append(p.out.entries, e)
		p.out.byKey[e.Key] = e
		list = append(list, kernel.Entry{Key: e.Key, Title: e.saidTitle(), Date: e.Date, Lines: e.lines, Tables: e.tables})
	}
	p.out.Session = kernel.New(p.whole.Style())
	p.out.Session.Update(context.Background(), list)
}

// public is the entry with the lines that may be read, and the places of its text
// leading to them.
func (k *keptEntry) public() *Entry {
	e := *k.e
	e.lines, e.spans, e.seals = nil, nil, map[int][]lang.Seal{}
	for j := range k.e.lines {
		if k.gone[j] {
			continue
		}
		l := k.e.lines[j]
		if seals := k.seals[j]; seals != nil {
			if l.Stmt.Kind != lang.Answer && l.Stmt.Kind != lang.Check {
				l.Text = l.Stmt.TextWithout(l.Text, seals)
				if st, err := lang.Parse(l.Text); err == nil && st != nil {
					l.Stmt = st
				}
			}
			l.Stmt = l.Stmt.Sealed(seals)
			e.seals[len(e.lines)] = seals
		}
		e.lines, e.spans = append(e.lines, l), append(e.spans, k.e.spans[j])
	}
	return &e
}

// closeGaps finds the lines that work in the whole journal and fail in the public one.
// It reports whether it left one out or sealed one.
func (p *publication) closeGaps() bool {
	again := false
	for _, k := range p.kept {
		if k == nil || k.e.Private {
			continue
		}
		public := p.out.Session.Outcomes(k.e.Key, kernel.Now)
		at := -1
		for j := range k.e.lines {
			if k.gone[j] {
				continue
			}
			at++
			if err := public[at].Result.Err; err == nil || k.seals[j] != nil {
				continue
			}
			values, ok := p.whole.Worked(kernel.LineRef{Entry: k.e.Key, Index: j}, kernel.Now)
			if !ok {
				continue // it is wrong in the journal too
			}
			again = true
			p.close(k, j, values)
		}
	}
	return again
}

// close leaves out a line that would say a private value itself, and seals one that
// works with it.
func (p *publication) close(k *keptEntry, j int, values []calc.Value) {
	st := k.e.lines[j].Stmt
	var seals []lang.Seal
	for i, e := range st.Exprs() {
		for _, need := range e.Needs {
			if r, ok := p.out.Session.Value(need.Path, kernel.Now); ok && (r.Err == nil || r.Err.Code != calc.CodeUnknownItem) && need.Mode == lang.Now {
				continue
			}
			if strings.TrimSpace(e.Text) == need.Path {
				k.gone[j] = true
				p.left = append(p.left, k.e.File.diagnose(k.e.spans[j], calc.CodePublish, need.Path+" is private, and this would say it; it is left out", "say it in a private block, or make "+need.Path+" public"))
				return
			}
			seals = append(seals, lang.Seal{Expr: i, Value: apart(values[i])})
			break
		}
	}
	if seals == nil {
		k.gone[j] = true
		return
	}
	k.seals[j] = seals
	p.sealed = append(p.sealed, k.e.File.diagnose(k.e.spans[j], calc.CodePublish, "this reads what is private; its number is published, its working is not", ""))
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
