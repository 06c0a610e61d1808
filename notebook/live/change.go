package live

import (
	"errors"
	"net/http"
	"strings"

	"scarph/calc"
	"scarph/kernel"
	"scarph/notebook"
)

// maxChange bounds a change that is not a whole text or a photo.
const maxChange = 64 << 10

// done says what a change did.
type done struct {
	// Sheet is the ripple's number.
	Sheet int `json:"sheet"`
	// Said is one sentence for the page to say.
	Said string `json:"said"`
	// Where is the address of the entry that was written in.
	Where string `json:"where,omitempty"`
	Undo  string `json:"undo,omitempty"`
}

// keep writes a number that was tried: as a correction of a reading where it stands,
// or as a new reading in today's entry, which is made if there is none.
func (s *visit) keep(w http.ResponseWriter, r *http.Request) {
	var q struct {
		Name  string `json:"name"`
		Value string `json:"value"`
		// At is the reading to correct, ENTRY|INDEX; "" writes a new one.
		At   string `json:"at"`
		Kind string `json:"kind"`
		Note string `json:"note"`
	}
	if !receive(w, r, &q) {
		return
	}
	if q.At != "" {
		ref, ok := lineRef(q.At)
		if !ok {
			refuse(w, http.StatusBadRequest, "request", "the request cannot be read")
			return
		}
		if err := s.fits(ref, q.Value); err != nil {
			fault(w, err, q.Value)
			return
		}
		value := q.Value
		if e, ok := s.book.Entry(ref.Entry); ok {
			value = asInCell(value, e.Unit(ref.Index))
		}
		edit, err := s.book.Correction(ref, value)
		if err != nil {
			fault(w, err, q.Value)
			return
		}
		s.apply(w, r, "the correction of "+calc.Words(q.Name), edit)
		return
	}
	if !isKind(q.Kind) {
		refuse(w, http.StatusBadRequest, "request", "a reading is found, built, revised, drawn or a guess")
		return
	}
	value := s.tried(q.Name, q.Value)
	if _, err := s.book.Session.WhatIf(map[string]string{q.Name: value}); err != nil {
		fault(w, err, q.Value)
		return
	}
	edit, err := s.book.NewReading(s.today(), q.Kind, q.Name, value, q.Note)
	if err != nil {
		fault(w, err, q.Value)
		return
	}
	remark := ""
	if h, ok := s.book.Session.History(q.Name, kernel.Now); ok {
		if why := s.notedOnly(&h, q.Kind); why != "" {
			remark = " It is noted only: " + why + "."
		}
	}
	s.apply(w, r, "the new reading of "+calc.Words(q.Name), edit, remark)
}

// fits refuses a number that cannot stand where a reading stands: 19 where a length
// is wanted. In a table a bare number takes the unit of its row or column.
func (s *visit) fits(ref kernel.LineRef, value string) *calc.Error {
	o, ok := s.book.Session.Outcome(ref, kernel.Now)
	if !ok || o.Name == "" || !o.Result.OK() {
		return nil // the notebook says what is wrong
	}
	if o.Line.Cell && isBareNumber(o.Line.Text) && isBareNumber(value) {
		return nil
	}
	_, err := s.book.Session.WhatIf(map[string]string{o.Name: s.tried(o.Name, value)})
	return err
}

func isKind(word string) bool {
	for _, k := range kinds {
		if k.Word == word {
			return true
		}
	}
	return false
}

// asExpression lets a number be given as a table of offsets writes it.
func asExpression(value string) string {
	if v := strings.TrimSpace(value); calc.LooksLikeOffset(v) {
		return `offset("` + v + `")`
	}
	return value
}

// settle writes what was done about a part that was off.
func (s *visit) settle(w http.ResponseWriter, r *http.Request) {
	var q struct {
		Thing string `json:"thing"`
		Count string `json:"count"` // "" for all that are off
		How   string `json:"how"`
		To    string `json:"to"`
		Note  string `json:"note"`
	}
	if !receive(w, r, &q) {
		return
	}
	line := "settle " + q.Thing + ": "
	if n := strings.TrimSpace(q.Count); n != "" {
		line += n + " "
	}
	line += q.How
	if to := strings.TrimSpace(q.To); to != "" {
		line += " to " + to
	}
	edit, err := s.book.NewStatement(s.today(), line, q.Note)
	if err != nil {
		e := *err
		e.Span = calc.Span{}
		fault(w, &e, line)
		return
	}
	if err := s.book.Session.SettleFault(line); err != nil {
		e := *err
		e.Span = calc.Span{}
		fault(w, &e, line)
		return
	}
	s.apply(w, r, calc.Words(q.Thing)+" "+q.How, edit)
}

// undo takes back the last change that a page wrote.
func (s *visit) undo(w http.ResponseWriter, r *http.Request) {
	label := s.book.UndoLabel()
	if label == "" {
		refuse(w, http.StatusConflict, "nothing", "there is nothing to take back")
		return
	}
	c, err := s.change(func(n *notebook.Notebook) (notebook.Change, error) { return n.Undo(r.Context()) })
	if err != nil {
		s.failed(w, err)
		return
	}
	e := s.tell(c, s.book.UndoLabel())
	answer(w, done{Sheet: e.Sheet, Said: "Taken back: " + label + ".", Undo: s.book.UndoLabel()})
}

// apply writes an edit, tells the open pages, and answers what it did.
func (s *visit) apply(w http.ResponseWriter, r *http.Request, label string, edit notebook.Edit, remarks ...string) {
	c, err := s.change(func(n *notebook.Notebook) (notebook.Change, error) { return n.Apply(r.Context(), label, edit) })
	if err != nil {
		s.failed(w, err)
		return
	}
	e := s.tell(c, s.book.UndoLabel())
	d := done{Sheet: e.Sheet, Said: "Kept: " + label + ".", Undo: s.book.UndoLabel()}
	for _, x := range s.book.Entries() {
		if x.File.Path == edit.Path && (edit.Create || x.Section.Span.Start <= edit.Span.Start && edit.Span.Start <= x.Section.Span.End) {
			d.Where = href(x)
			d.Said = "Kept in “" + x.Title + "”: " + label + "."
		}
	}
	d.Said += strings.Join(remarks, "")
	if t := recastWords(c.Ripple, s.book.Session.Style()); t != "" {
		d.Said += " " + t
	}
	answer(w, d)
}

// failed says why nothing was written.
func (s *visit) failed(w http.ResponseWriter, err error) {
	var conflict *notebook.ConflictError
	if errors.As(err, &conflict) {
		refuse(w, http.StatusConflict, "conflict", conflict.Error())
		return
	}
	refuse(w, http.StatusInternalServerError, "write", "nothing was written: "+plainError(err))
}

// readBack says how a number is understood while it is typed, without keeping
// anything; with steps it is first moved by so many marks.
func (s *visit) readBack(w http.ResponseWriter, r *http.Request) {
	g := s.glance(r)
	q := r.URL.Query()
	name, text := q.Get("name"), strings.TrimSpace(q.Get("value"))
	if text == "" {
		refuse(w, http.StatusUnprocessableEntity, "empty", "a number is wanted")
		return
	}
	was, ok := s.book.Session.Value(name, kernel.Now)
	if !ok {
		refuse(w, http.StatusNotFound, "unknown", "nothing is named "+name)
		return
	}
	var out struct {
		Value string `json:"value"` // as it can be typed
		Text  string `json:"text"`
		Also  string `json:"also"`
		By    string `json:"by"`
		Note  string `json:"note,omitempty"` // what is to be known of it
	}
	expr := s.tried(name, text)
	first := expr
	if step := q.Get("step"); step != "" && was.OK() {
		sign := " + "
		if q.Get("down") != "" {
			sign = " - "
		}
		expr = "(" + expr + ")" + sign + step
	}
	// the kernel judges whether the number can stand where the old one does
	if _, err := s.book.Session.WhatIf(map[string]string{name: expr}); err != nil {
		fault(w, err, text)
		return
	}
	res, err := s.book.Session.Eval(r.Context(), expr, kernel.Now)
	if err != nil || !res.OK() {
		refuse(w, http.StatusUnprocessableEntity, "value", "that is no number")
		return
	}
	out.Value, out.Text, out.Also = text, g.style.Text(res.Value), g.style.Echo(res.Value)
	if unit := s.unitOf(name); unit != "" && isBareNumber(text) {
		out.Note = "a bare number is in " + unit + " here"
	}
	if expr != first {
		out.Value = typed(res.Value, g.style)
		if calc.LooksLikeOffset(text) && res.Value.D == calc.DimLength {
			out.Value = calc.FormatOffset(res.Value.V)
		}
	}
	if was.OK() {
		if gone := plusGone(was.Value, res.Value, g.style); gone != "" {
			out.Note = gone
		}
	}
	if was.OK() && was.Value.IsQuantity() && res.Value.IsQuantity() && was.Value.D == res.Value.D {
		if d := res.Value.V - was.Value.V; d != 0 {
			out.By = moreOrLess(calc.Of(d, was.Value.D), g.style)
		}
	}
	answer(w, out)
}

// plainError is an error without the folder that the journal lies in.
func plainError(err error) string {
	var path interface{ Unwrap() error }
	for errors.As(err, &path) {
		inner := path.Unwrap()
		if inner == nil {
			break
		}
		err = inner
	}
	return err.Error()
}
