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
// A public sum that reads something private keeps its result, and its working is not
// told. A line that would say a private value again is left out: the name alone, at
// whatever time, a sum that comes to the same, a list that has it among its elements, a
// drawing made from it.
//
// Problems are the lines that were left out so; remarks say what keeps its result, and
// what hide took away.
func (n *Notebook) Published(asOf int) (public *Notebook, problems, remarks []Diagnostic) {
	n.mu.RLock()
	defer n.mu.RUnlock()
	p := &publication{whole: kernel.New(n.Session.Style()), problems: map[lineAt]Diagnostic{}, remarks: map[lineAt]Diagnostic{}, out: &Notebook{
		Session: kernel.New(n.Session.Style()), Path: n.Path, Single: n.Single, settings: n.settings, files: n.files, published: true,
	}}
	p.take(n.entries, asOf)
	p.dropHidden()
	p.settle()
	return p.out, said(p.problems), append(said(p.remarks), p.hideRemarks()...)
}

// publication is the making of a public notebook.
type publication struct {
	whole   *kernel.Session // all that was written, private lines too
	out     *Notebook
	entries []*Entry // without drafts
	kept    []*keptEntry
	names   names

	problems, remarks map[lineAt]Diagnostic
}

// said lists what is said of lines in their order.
func said(of map[lineAt]Diagnostic) []Diagnostic {
	var list []Diagnostic
	for _, at := range inOrderOfLines(of) {
		list = append(list, of[at])
	}
	return list
}

// keptEntry is an entry while it is decided which of its lines may be read.
type keptEntry struct {
	e     *Entry
	gone  []cause
	seals [][]lang.Seal
	now   []int // the lines' numbers in the public notebook, −1 for none
}

// cause is why a line is not told.
type cause uint8

// The causes.
const (
	none    cause = iota // it is told
	private              // it stands in a private block or entry
	money                // hide names what it tells of
	hours
	checks
	saying // it would say what is private
	lost   // it is about something that is private
)

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
		list = append(list, kernel.Entry{Key: e.Key, Title: e.said, Date: e.Date, Lines: e.lines, Tables: e.tables})
		k := &keptEntry{e: e, gone: make([]cause, len(e.lines)), seals: make([][]lang.Seal, len(e.lines))}
		for j := range e.lines {
			if e.Private || e.lines[j].Private {
				k.gone[j] = private
			}
		}
		p.kept = append(p.kept, k)
	}
	p.whole.Update(context.Background(), list)
	p.names = p.findNames()
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

// settle makes the public session, and seals or leaves out the lines that read what
// is not in it, until none is left.
func (p *publication) settle() {
	for {
		p.build()
		if !p.closeGaps() && !p.keepBack() && !p.lean() {
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
	p.out.index()
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
		e := k.public(p.out.settings.Hides("money"))
		p.out.entries = append(p.out.entries, e)
		list = append(list, kernel.Entry{Key: e.Key, Title: e.said, Date: e.Date, Lines: e.lines, Tables: e.tables})
	}
	p.out.index()
	p.out.Session = kernel.New(p.whole.Style())
	p.out.Session.Update(context.Background(), list)
}

// public is the entry with the lines that may be read, and the places of its text
// leading to them. A note that tells of money can be left out with what hide takes.
func (k *keptEntry) public(noMoney bool) *Entry {
	e := *k.e
	e.lines, e.spans, e.seals = nil, nil, map[int][]lang.Seal{}
	k.now = make([]int, len(k.e.lines))
	for j := range k.e.lines {
		k.now[j] = -1
		if k.gone[j] != none {
			continue
		}
		k.now[j] = len(e.lines)
		l := k.e.lines[j]
		if noMoney && l.Stmt != nil && namesMoney(l.Stmt.Note) {
			l = withoutNote(l)
		}
		if seals := k.seals[j]; seals != nil {
			l = sealed(l, seals)
			e.seals[len(e.lines)] = seals
		}
		e.lines, e.spans = append(e.lines, l), append(e.spans, k.e.spans[j])
	}
	return &e
}

func withoutNote(l kernel.Line) kernel.Line {
	if before, _, found := strings.Cut(l.Text, l.Stmt.Text); found {
		l.Text = before + l.Stmt.Text
	}
	st := *l.Stmt
	st.Note = ""
	l.Stmt = &st
	return l
}

// sealed is a line whose working is not told: it is read again without it.
func sealed(l kernel.Line, seals []lang.Seal) kernel.Line {
	l.Text = l.Stmt.TextWithout(l.Text, seals)
	var st *lang.Stmt
	var err *calc.Error
	var p lang.Parser
	switch {
	case l.Cell:
		st, err = p.ParseSlotCell(l.Stmt.Kind, l.Stmt.Name, l.Text)
	case l.Slot:
		st, err = p.ParseSlot(l.Text)
	default:
		st, err = p.Parse(l.Text)
	}
	if err == nil && st != nil {
		l.Stmt = st
	}
	l.Stmt = l.Stmt.Sealed(seals)
	return l
}
