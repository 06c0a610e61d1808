package kernel

import (
	"scarph/calc"
	"scarph/calc/lang"
)

// Part is a line of the cut list with its sizes as they stand.
type Part struct {
	Name    string
	Wood    string
	Note    string
	Count   float64
	Made    float64 // how many have been made
	Off     float64 // how many of those are off and not settled
	Sizes   []calc.Field
	Within  calc.Value
	Result  *Result
	Place   Place
	Entry   EntryRef
	Ref     LineRef
	Private bool
}

// Size returns the named size; false when the part has none such.
func (p *Part) Size(name string) (calc.Value, bool) {
	for _, f := range p.Sizes {
		if f.Name == name {
			return f.Value, true
		}
	}
	return calc.Value{}, false
}

// Parts lists the cut list as of an entry, in the journal's order.
func (s *Session) Parts(asOf int) []Part { return s.pieces(lang.PartLine, asOf) }

// Stock lists the boards at hand.
func (s *Session) Stock(asOf int) []Part { return s.pieces(lang.Stock, asOf) }

func (s *Session) pieces(kind lang.Kind, asOf int) []Part {
	s.enter()
	defer s.mu.Unlock()
	v := s.viewAt(asOf)
	var made map[string]*tally
	if kind == lang.PartLine {
		made = s.tallies(v)
	}
	var list []Part
	s.each(kind, v, func(r *statement) {
		st := r.line.Stmt
		res := s.lineResult(r, v)
		p := Part{Name: st.Name, Wood: st.Wood, Note: st.Note, Result: res, Place: r.line.Place, Entry: r.entry.ref(), Ref: LineRef{r.entry.Key, r.index}, Private: r.line.Private}
		if t := made[st.Name]; t != nil {
			p.Made, p.Off = t.count, t.off(v)
		}
		for _, f := range fieldsOf(res.Value) {
			switch f.Name {
			case "count":
				p.Count = f.Value.V
			case "within":
				p.Within = f.Value
			default:
				p.Sizes = append(p.Sizes, f)
			}
		}
		list = append(list, p)
	})
	return list
}
