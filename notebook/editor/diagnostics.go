package editor

import (
	"fmt"
	"slices"
	"sort"
	"strings"

	"scarph/calc"
	"scarph/calc/lang"
	"scarph/kernel"
	"scarph/notebook"
)

// source names the server beside each diagnostic.
const source = "scarph"

// spread notes what follows from a change: the diagnostics of every file in which a
// result, a check or a refusal may now be another are due. The wish that hints be asked
// for again is sent.
func (s *Server) spread(j *journal, c notebook.Change) {
	paths := map[string]bool{}
	for _, p := range c.Files {
		paths[p] = true
		j.renamed(p, paths)
	}
	if order := j.orderNow(); order != j.order { // readings may count in another order
		j.order = order
		for _, p := range j.book.Files() {
			paths[p] = true
		}
	}
	entries := map[string]bool{}
	for _, l := range c.Ripple.Lines {
		entries[l.Entry] = true
	}
	for _, m := range c.Ripple.Made {
		entries[m.Ref.Entry] = true
	}
	for key := range entries {
		if e, ok := j.book.Entry(key); ok {
			paths[e.File.Path] = true
		}
	}
	others := false
	for p := range paths {
		j.due[p] = true
		doc := s.docs[j.uri(p)]
		others = others || doc != nil && len(c.Files) > 0 && p != c.Files[0]
	}
	if others {
		s.refreshHints()
	}
	s.dueNotes(j)
}

// publishDue sends the diagnostics of one file that are due, when nobody waits for an
// answer; it reports whether there were any.
func (s *Server) publishDue() bool {
	for _, j := range s.journals {
		for _, p := range sorted(j.due) {
			delete(j.due, p)
			s.publish(j, p)
			return true
		}
	}
	return false
}

func sorted(set map[string]bool) []string {
	list := make([]string, 0, len(set))
	for p := range set {
		list = append(list, p)
	}
	sort.Strings(list)
	return list
}

// orderNow tells the order of the entries in one text.
func (j *journal) orderNow() string {
	var b strings.Builder
	for _, e := range j.book.Entries() {
		b.WriteString(e.Key)
		b.WriteByte(' ')
		b.WriteString(e.Date)
		b.WriteByte('\n')
	}
	return b.String()
}

// naming is a reading that a file gives.
type naming struct {
	name string
	kind lang.Kind
}

// renamed notes which names a changed file no longer gives as it did, and adds the
// files that give them too: whether a second naming is refused hangs on the first.
func (j *journal) renamed(path string, paths map[string]bool) {
	f, _ := j.book.File(path)
	last, known := j.gave[path]
	j.gave[path] = f
	if !known {
		return // the whole journal was looked at when it was opened
	}
	was, now := statements(last), statements(f)
	was, now = withoutEnds(was, now) // those that were taken over are the very same
	before, after := withoutEnds(namings(was), namings(now))
	changed := map[string]bool{}
	for _, n := range slices.Concat(before, after) {
		changed[n.name] = true
	}
	for name := range changed {
		if h, ok := j.book.Session.History(name, kernel.Now); ok {
			for _, r := range h.Readings {
				paths[r.Place.File] = true
			}
		}
	}
}

// statements lists the statements of a file, nil for none.
func statements(f *notebook.File) []*lang.Stmt {
	if f == nil {
		return nil
	}
	n := 0
	for _, e := range f.Entries() {
		n += e.Lines()
	}
	list := make([]*lang.Stmt, 0, n)
	for _, e := range f.Entries() {
		for i := range e.Lines() {
			list = append(list, e.Line(i).Stmt)
		}
	}
	return list
}

func namings(list []*lang.Stmt) (z []naming) {
	for _, st := range list {
		if st != nil && (st.Kind.IsReading() || st.Kind == lang.PartLine) {
			z = append(z, naming{st.Name, st.Kind})
		}
	}
	return z
}

// withoutEnds leaves out what two lists have in common at their beginnings and ends.
func withoutEnds[T comparable](a, b []T) ([]T, []T) {
	for len(a) > 0 && len(b) > 0 && a[0] == b[0] {
		a, b = a[1:], b[1:]
	}
	for len(a) > 0 && len(b) > 0 && a[len(a)-1] == b[len(b)-1] {
		a, b = a[:len(a)-1], b[:len(b)-1]
	}
	return a, b
}

// dueNotes looks for remarks when the keys have been still for a while. That asks the
// whole journal, so it is done beside the goroutine that answers.
func (s *Server) dueNotes(j *journal) {
	if j.notesDue != nil {
		j.notesDue.Stop()
	}
	j.notesDue = s.later(s.pauses.notes, func() {
		if j.open == 0 {
			return
		}
		go func() {
			list := j.book.Notes(kernel.Now)
			s.queue.put(work{do: func() { s.haveNotes(j, list) }})
		}()
	})
}

// haveNotes sends remarks anew where they are not what they were.
func (s *Server) haveNotes(j *journal, list []notebook.Diagnostic) {
	if j.open == 0 || s.ending {
		return
	}
	paths := map[string]bool{}
	for p := range j.notes {
		paths[p] = true
	}
	j.notes = map[string][]notebook.Diagnostic{}
	for _, d := range list {
		j.notes[d.File] = append(j.notes[d.File], d)
		paths[d.File] = true
	}
	for _, p := range sorted(paths) {
		s.publish(j, p)
	}
}

// publish sends the diagnostics of a file, unless they are those sent last.
func (s *Server) publish(j *journal, path string) {
	list := s.diagnose(j, path)
	p := publishParams{URI: j.uri(path), Diagnostics: make([]diagnostic, 0, len(list))}
	if doc := s.docs[p.URI]; doc != nil {
		p.Version = &doc.version
	}
	said := ""
	for _, f := range list {
		p.Diagnostics = append(p.Diagnostics, f.diagnostic)
		said += fmt.Sprint(f.diagnostic, "\n")
	}
	if said == j.published[path] {
		return
	}
	j.published[path] = said
	_ = s.conn.Notify("textDocument/publishDiagnostics", p)
}

// finding is a diagnostic with what it was made of, for quick fixes.
type finding struct {
	diagnostic
	d notebook.Diagnostic
}

// diagnose lists what there is to say of a file: what is wrong, checks that do not
// hold, parts made that are off, remarks.
func (s *Server) diagnose(j *journal, path string) []finding {
	t := j.text(path)
	var list []finding
	add := func(d notebook.Diagnostic, severity int) {
		span := d.Span
		if d.Line == 0 {
			span = t.line(0)
		}
		z := diagnostic{Range: t.textRange(span, s.encoding), Severity: severity, Code: string(d.Code), Source: source, Message: d.Message}
		if d.Hint != "" {
			z.Message += "\n" + d.Hint
		}
		for _, r := range d.Related {
			z.Related = append(z.Related, relatedInfo{Location: s.locationOf(j, kernel.Place{File: r.File, Line: r.Line, Column: r.Column}), Message: r.Text})
		}
		list = append(list, finding{z, d})
	}
	for _, d := range j.book.FileProblems(path) {
		add(d, severityError)
	}
	if f, ok := j.book.File(path); ok {
		for _, e := range f.Entries() {
			for _, o := range j.book.Session.Remarkable(e.Key, kernel.Now) {
				if d, ok := e.Problem(o.Ref.Index, o); ok {
					add(d, severityError)
				} else if d, ok := s.warning(j, e, o.Ref.Index, o); ok {
					add(d, severityWarning)
				}
			}
		}
	}
	for _, d := range j.notes[path] {
		if d.Span.End <= len(t.src) {
			add(d, severityInformation)
		}
	}
	return list
}

// warning is what to say of a line without an error: a check that does not hold, a
// part made that is off.
func (s *Server) warning(j *journal, e *notebook.Entry, line int, o kernel.Outcome) (notebook.Diagnostic, bool) {
	if line >= e.Lines() {
		return notebook.Diagnostic{}, false
	}
	style := j.book.Session.Style()
	d := notebook.Diagnostic{File: e.File.Path, Line: o.Line.Place.Line, Span: e.Span(line)}
	if st := o.Line.Stmt; st != nil && len(st.Text) < d.Span.End-d.Span.Start {
		d.Span.End = d.Span.Start + len(st.Text)
	}
	switch {
	case o.Check != nil && o.Result.OK() && !o.Check.Holds:
		d.Code = "check"
		d.Message = "the check " + strings.TrimPrefix(kernel.WordedCheck(false, o.Check.Left, o.Check.Right, 0, style), "✗ ")
		return d, true
	case len(o.Made) > 0 && worst(o.Made).Off:
		m := worst(o.Made)
		var off []string
		for _, z := range m.Sizes {
			if z.Off {
				off = append(off, calc.Words(z.Name)+" "+z.Words+" (made "+style.Text(z.Made)+", now "+style.Text(z.Now)+")")
			}
		}
		d.Code, d.Message, d.Hint = "rework", m.Thing+" is off: "+strings.Join(off, "; "), "say what was done: settle "+m.Thing+": trimmed, packed, replaced or left"
		if m.Since != nil {
			p := m.Since.Place
			d.Related = []notebook.Related{{File: p.File, Line: p.Line, Column: p.Column, Text: "since this reading"}}
		}
		return d, true
	}
	return d, false
}

// locationOf is a place as the protocol has it, wide as the statement there.
func (s *Server) locationOf(j *journal, p kernel.Place) location {
	z := location{URI: j.uri(p.File)}
	f, ok := j.book.File(p.File)
	if !ok {
		return z
	}
	at := f.Offset(p.Line, p.Column)
	span := calc.Span{Start: at, End: at}
	if e := f.EntryAt(at); e != nil {
		if i, ok := e.LineAt(at); ok {
			if span = e.Span(i); e.Line(i).Stmt != nil {
				span.End = min(span.End, span.Start+len(e.Line(i).Stmt.Text))
			}
		}
	}
	z.Range = j.text(p.File).textRange(span, s.encoding)
	return z
}
