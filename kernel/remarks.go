package kernel

import (
	"errors"
	"slices"
	"strings"

	"scarph/calc"
	"scarph/calc/lang"
	"scarph/calc/tables"
)

// remarked adds to an outcome what is to be said of its line in the light of others.
func (s *Session) remarked(r *statement, v *view, o *Outcome) {
	if !o.Result.OK() || r.entry.order > v.upTo {
		return
	}
	switch r.kind() {
	case lang.MadeLine:
		o.Remarks = s.countRemarks(r, v)
	case lang.PartLine, lang.Stock:
		if text := twoSizes(r.line.Stmt); text != "" {
			o.Remarks = append(o.Remarks, text)
		}
		if near := s.woodMeant(r); near != "" {
			o.Remarks = append(o.Remarks, "no wood is known as "+r.line.Stmt.Wood+"; did you mean "+near+"?")
		}
	}
	if len(o.Remarks) > 0 {
		c := *o.Result
		c.Warnings = append(slices.Clone(c.Warnings), o.Remarks...)
		o.Result = &c
	}
}

// twoSizes says which two sizes two are taken for, where the thickness is not given by its
// name either; "" where it is.
func twoSizes(st *lang.Stmt) string {
	if len(st.Sizes) < 2 || st.Sizes[0].Name != "width" || st.Sizes[1].Name != "length" {
		return ""
	}
	for _, z := range st.Sizes {
		if z.Name == "thickness" {
			return ""
		}
	}
	return "two sizes are width and length: " + st.Sizes[0].Expr.Text + " wide, " + st.Sizes[1].Expr.Text + " long; without a thickness no lumber is reckoned"
}

// countRemarks says of a made line how many take the place of others, and whether more
// are made with it than the part line asks for.
func (s *Session) countRemarks(r *statement, v *view) []string {
	st := r.line.Stmt
	n, _ := s.resolve(st.Name)
	if st.Expr == nil || n == nil {
		return nil
	}
	c := s.chronicle(st.Name)
	if _, known := c.tolls[r]; !known {
		c.first(len(c.lines))
	}
	after := c.tolls[r]
	number := func(n float64) string { return s.style.Text(calc.Number(n)) }
	var list []string
	if n := after.instead; n > 0 {
		list = append(list, number(n)+" of these "+verb(n, "takes", "take")+" the place of "+verb(n, "one", "those")+" replaced before")
	}
	d := v.result(n)
	if !d.OK() {
		return list
	}
	if want, ok := d.Value.Member("count"); ok && after.total > want.V {
		list = append(list, "that makes "+number(after.total)+", and the part line asks for "+number(want.V)+"; if some were made in place of others, settle those before: settle "+st.Name+": replaced")
	}
	return list
}

func verb(n float64, one, many string) string {
	if n == 1 {
		return one
	}
	return many
}

// woodMeant is the wood that a misspelt one was likely meant to be, as it is written; ""
// where the wood is known, or is like none that is.
func (s *Session) woodMeant(r *statement) string {
	wood := r.line.Stmt.Wood
	if wood == "" {
		return ""
	}
	var near string
	for _, table := range [...]string{"wood", "plywood"} {
		t, err := tables.Find(table)
		if err != nil {
			continue
		}
		var unknown *calc.Error
		if _, err := t.Item(wood); !errors.As(err, &unknown) || strings.HasPrefix(unknown.Hint, "which?") {
			return ""
		}
		if hint, ok := strings.CutPrefix(unknown.Hint, `did you mean "`); ok && near == "" {
			near = calc.Nearest(wood, []string{strings.TrimSuffix(hint, `"?`)})
		}
	}
	if r.kind() == lang.PartLine {
		var stock []string
		for x := range s.kinds[lang.Stock] {
			if x.line.Stmt.Wood == wood {
				return "" // it lies in the rack
			}
			stock = append(stock, x.line.Stmt.Wood)
		}
		slices.Sort(stock)
		if x := calc.Nearest(wood, stock); x != "" {
			near = x
		}
	}
	if near == "" || len(wood) < 7 && near[0] != wood[0] { // apple is no slip for sapele
		return ""
	}
	return strings.ReplaceAll(near, " ", "_")
}
