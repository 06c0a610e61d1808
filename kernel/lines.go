package kernel

import (
	"scarph/calc"
	"scarph/calc/lang"
)

// Outcome is what a page shows of one line: the statement with its result.
type Outcome struct {
	Ref    LineRef
	Line   *Line
	Entry  EntryRef
	Result *Result
	// Name is the value's canonical name, for a line that is a reading or that
	// consists of one name.
	Name string
	Kind string // chosen, drawn, found, built, guess, revised, derived, answer, check, part …
	// Displaced is the later reading that counts in place of this one, nil when this
	// one does; From and On say what it is and since when.
	Displaced *Reading
	// Steps are the readings that counted between this one and the one that displaced
	// it in the end, oldest first; of very many the first and the last, with so many
	// Skipped in the middle.
	Steps   []*Reading
	Skipped int
	// Before is the reading that this one displaced.
	Before *Reading
	// First is the reading that a refused second naming clashes with.
	First *Reading
	// Off is, for a derived value that a reading has displaced, reading − sum.
	Off *calc.Value
	// Moved is set when the latest reading of a value shown in running text
	// displaced an earlier one.
	Moved bool
	// Doubt is what makes a reading doubtful that is no error; it is among the warnings too.
	Doubt string
	// Check is filled for checks, Made for made and settle lines.
	Check *Check
	Made  []Made
	// Remarks are what is to be said of the line in the light of others; they stand among
	// the result's warnings as well.
	Remarks []string
}

// EntryRef names an entry.
type EntryRef struct {
	Key, Title, Date string
	Number           int // from 1
}

func (e *entry) ref() EntryRef {
	return EntryRef{Key: e.Key, Title: e.Title, Date: e.Date, Number: e.order + 1}
}

// Entries lists the entries in the journal's order.
func (s *Session) Entries() []EntryRef {
	s.enter()
	defer s.mu.Unlock()
	list := make([]EntryRef, len(s.entries))
	for i, e := range s.entries {
		list[i] = e.ref()
	}
	return list
}

// Now is the order of the last entry: the journal as it stands.
const Now = 1 << 30

// OrderOn is the order of the last entry dated on or before a day, −1 when all are later.
func (s *Session) OrderOn(date string) int {
	s.enter()
	defer s.mu.Unlock()
	return s.orderOn(date)
}

// Outcomes lists the lines of an entry with their results as of the entry with
// the given order (Now for the journal as it stands).
func (s *Session) Outcomes(key string, asOf int) []Outcome {
	s.enter()
	defer s.mu.Unlock()
	e := s.byKey[key]
	if e == nil {
		return nil
	}
	v := s.viewAt(asOf)
	list := make([]Outcome, len(e.stmts))
	for i, r := range e.stmts {
		list[i] = s.outcome(r, v)
	}
	return list
}

// Remarkable lists those lines of an entry that are wrong or that say more than their
// value: checks, parts made, readings beside others. Of a long entry they are few.
func (s *Session) Remarkable(key string, asOf int) []Outcome {
	s.enter()
	defer s.mu.Unlock()
	e := s.byKey[key]
	if e == nil {
		return nil
	}
	v := s.viewAt(asOf)
	var list []Outcome
	for _, r := range e.stmts {
		if !s.isPlain(r, v) {
			list = append(list, s.outcome(r, v))
		}
	}
	return list
}

// isPlain reports whether a line is the only reading of its name, or an answer, and has
// worked out.
func (s *Session) isPlain(r *statement, v *view) bool {
	switch {
	case r.entry.order > v.upTo || r.refused != nil:
		return false
	case r.node.nameless() && r.kind() != lang.Answer, len(r.node.readings) > 1:
		return false
	}
	return v.result(r.node).OK()
}

// Outcome is the result of one line as of an entry.
func (s *Session) Outcome(ref LineRef, asOf int) (Outcome, bool) {
	s.enter()
	defer s.mu.Unlock()
	r := s.statementAt(ref)
	if r == nil {
		return Outcome{}, false
	}
	return s.outcome(r, s.viewAt(asOf)), true
}

func (s *Session) statementAt(ref LineRef) *statement {
	e := s.byKey[ref.Entry]
	if e == nil || ref.Index < 0 || ref.Index >= len(e.stmts) {
		return nil
	}
	return e.stmts[ref.Index]
}

func (s *Session) outcome(r *statement, v *view) Outcome {
	o := Outcome{Ref: LineRef{r.entry.Key, r.index}, Line: r.line, Entry: r.entry.ref(), Result: s.lineResult(r, v), Kind: r.kind().Word()}
	switch {
	case r.entry.order > v.upTo: // not yet written
	case !r.node.nameless():
		s.readingOutcome(r, v, &o)
		if o.Doubt = s.doubtOf(r, v); o.Doubt != "" {
			c := *o.Result
			c.Warnings = append(c.Warnings[:len(c.Warnings):len(c.Warnings)], o.Doubt)
			o.Result = &c
		}
	case r.kind() == lang.Answer:
		s.answerOutcome(r, v, &o)
	case r.kind() == lang.Check:
		c := s.check(r, v)
		o.Check = &c
	case r.kind() == lang.Settle:
		if e := s.settleFault(r); o.Result.OK() && e != nil {
			o.Result = s.helped(&Result{Err: e, Reading: r})
		}
	case r.kind() == lang.MadeLine:
		t := s.tallyOf(r.line.Stmt.Name, v)
		o.Made = s.made(r, v, t)
	}
	s.remarked(r, v, &o)
	return o
}

// lineResult is what a line itself came to, which for a displaced reading is not
// what its name stands at.
func (s *Session) lineResult(r *statement, v *view) *Result { return s.helped(s.ownResult(r, v)) }

func (s *Session) ownResult(r *statement, v *view) *Result {
	if r.entry.order > v.upTo {
		return &Result{Err: calc.Errorf(calc.CodeNoReading, "not yet written on that day"), Reading: r}
	}
	if r.node.nameless() {
		return v.result(r.node).Result
	}
	if r.refused != nil {
		return &Result{Err: r.refused, Reading: r}
	}
	d := v.result(r.node)
	if d.Reading == r {
		return d.Result
	}
	return v.evaluate(r)
}

func (s *Session) readingOutcome(r *statement, v *view, o *Outcome) {
	o.Name = r.node.name
	if isDerived(r) {
		o.Kind = "derived"
	}
	if r.refused != nil {
		for _, x := range r.node.readings {
			if x.refused == nil && x.before(r) {
				o.First = s.readingOf(x, v)
				break
			}
		}
		return
	}
	w := v.winner(r.node)
	if w != r && w != nil {
		o.Displaced = s.readingOf(w, v)
		o.Steps, o.Skipped = s.between(r, w, v)
		if isDerived(r) && o.Result.OK() && o.Displaced.Result.OK() {
			if d, err := calc.Sub(o.Displaced.Result.Value.Plain(), o.Result.Value.Plain()); err == nil {
				d = calc.Of(d.V, d.D)
				o.Off = &d
			}
		}
		return
	}
	b := displacedBy(r)
	if b == nil {
		return
	}
	o.Before = s.readingUntil(r.node, b, v)
	if b.entry == r.entry && r.node.overWorked(r) != nil && o.Result.OK() && o.Before.Result.OK() {
		if e := unlike(r.node.name, o.Before.Result.Value, o.Result.Value); e != nil {
			o.Result = &Result{Err: e.At(r.line.Stmt.Expr.Span), Reading: r}
		}
	}
}

// Since is when another reading first took the place of a displaced one.
func (o *Outcome) Since() EntryRef {
	if len(o.Steps) > 0 {
		return o.Steps[0].Entry
	}
	return o.Displaced.Entry
}

// isDerived reports whether a bare naming or a revision is a sum of other values.
func isDerived(r *statement) bool {
	if k := r.kind(); k != lang.Chosen && k != lang.Revised || r.line.Stmt == nil || r.line.Stmt.Expr == nil {
		return false
	}
	return len(r.line.Stmt.Expr.Needs) > 0 || r.line.Stmt.Expr.Sealed
}

// answerOutcome fills in what a slot or line that consists of one name can tell
// of that name.
func (s *Session) answerOutcome(r *statement, v *view, o *Outcome) {
	if len(r.links) != 1 || r.links[0].node == nil || r.line.Stmt == nil || r.line.Stmt.Expr == nil {
		return
	}
	l := r.links[0]
	if l.need.Mode != lang.Now || r.line.Stmt.Expr.Text != l.need.Path {
		return
	}
	o.Name = l.need.Path
	w := v.winner(l.node)
	if w == nil || len(l.fields) > 0 {
		o.Kind = "derived"
		return
	}
	o.Name = l.node.name
	o.Kind = w.kind().Word()
	if isDerived(w) {
		o.Kind = "derived"
	}
	if b := displacedBy(w); b != nil && w.entry != b.entry {
		o.Before = s.readingUntil(l.node, b, v)
		o.Moved = true
	}
}

// RefOf names the line that gave a result its number.
func (s *Session) RefOf(r *Result) LineRef {
	if r == nil || r.Reading == nil {
		return LineRef{}
	}
	s.enter()
	defer s.mu.Unlock()
	return LineRef{r.Reading.entry.Key, r.Reading.index}
}
