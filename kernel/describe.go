package kernel

import (
	"scarph/calc"
	"scarph/calc/lang"
	"scarph/calc/trade"
)

// Description is all that is known of a name or a word; one of its pointers is set,
// or, for a word such as found that also chooses a reading, Form and Word.
type Description struct {
	Name     string
	Value    *Known
	Function *trade.Function
	Form     *lang.Form
	Word     *lang.WordHelp
	Unit     *calc.Unit
}

// Known is all that is known of a value.
type Known struct {
	Result *Result
	// History holds the readings of the value, or of the one that the name is a part of.
	History History
	// Formula is how it is worked out, Filled the same with the numbers put in.
	Formula, Filled string
	// Sum is what the sum gives, when a reading has displaced it.
	Sum *Result
	// Causes are the readings that its ± comes from, the largest part first.
	Causes  []Cause
	HangsOn []string // the values that use it
	Members []string
}

// Describe tells about a name or a word as of an entry: a value first, then what the
// language and the trade know. A sheet, if not nil, is asked first; false when the word
// means nothing.
func (s *Session) Describe(name string, asOf int, h *Sheet) (Description, bool) {
	d := Description{Name: name}
	if h != nil {
		if res, ok := h.Value(name); ok {
			d.Value = &Known{Result: res, History: History{Name: name, Kind: "scratch", Result: res}, Causes: s.Why(res), Members: res.Value.Labels()}
			return d, true
		}
	}
	if res, ok := s.Value(name, asOf); ok {
		k := &Known{Result: res, Causes: s.Why(res), HangsOn: s.HangsOn(name), Members: s.Members(name)}
		bearer, _ := s.Bearer(name)
		k.History, _ = s.History(bearer, asOf)
		k.Formula, k.Filled = s.Formula(bearer, asOf)
		k.Sum = s.sumUnder(bearer, asOf)
		d.Value = k
		return d, true
	}
	if f, ok := trade.Find(name); ok {
		d.Function = f
		return d, true
	}
	for _, f := range lang.Forms() {
		if f.Name == name {
			d.Form = &f
		}
	}
	if w, ok := lang.AboutWord(name); ok {
		d.Word = &w
	}
	if d.Form != nil || d.Word != nil {
		return d, true
	}
	if u, ok := calc.FindUnit(name); ok {
		d.Unit = u
		return d, true
	}
	return Description{}, false
}

// Bearer splits a path into the name that bears readings, or is put together from
// names that do, and the fields that follow it: of thwart.length, thwart. A cell named
// column first gives its name row first. It is "" when nothing bears any part of the path.
func (s *Session) Bearer(path string) (name string, fields []string) {
	s.enter()
	defer s.mu.Unlock()
	n, fields := s.resolve(path)
	if n == nil {
		return "", nil
	}
	return n.bearer().name, fields
}

// sumUnder is what the sum of a name gives when a reading has displaced it, nil when
// none has.
func (s *Session) sumUnder(name string, asOf int) *Result {
	s.enter()
	defer s.mu.Unlock()
	n := s.nodes[name]
	if n == nil {
		return nil
	}
	v := s.viewAt(asOf)
	w := v.winner(n)
	if w == nil || isDerived(w) {
		return nil
	}
	var sum *Result
	for _, r := range n.readings {
		if r != w && r.entry.order <= v.upTo && r.refused == nil && isDerived(r) {
			sum = v.evaluate(r)
		}
	}
	return sum
}

// NearestName is the name most like a mistyped one, among those of values, functions
// and words; "" when none is near.
func (s *Session) NearestName(name string) string {
	list := append(s.Names(), trade.Names()...)
	return calc.Nearest(name, append(list, append(lang.FormNames(), lang.Words()...)...))
}

// IsTable reports whether a name is that of a data table.
func (s *Session) IsTable(name string) bool {
	s.enter()
	defer s.mu.Unlock()
	return s.tables[name] != nil
}
