package kernel

import (
	"math"

	"scarph/calc"
	"scarph/calc/lang"
)

// settleFault says what is wrong with a settle line: nothing was made that it could
// settle, or a size that the thing does not have.
func (s *Session) settleFault(r *statement, v *view) *calc.Error {
	st := r.line.Stmt
	res := v.result(r.node)
	if st == nil || !res.OK() {
		return nil
	}
	made := false
	var fault *calc.Error
	s.each(lang.MadeLine, v, func(m *statement) {
		if m.line.Stmt.Name != st.Name || !m.before(r) || fault != nil {
			return
		}
		made = true
		z := s.sizesOf(m, s.viewAt(m.entry.order))
		if z.err != nil {
			return
		}
		for i, f := range fieldsOf(res.Value) {
			if e := z.settles(f, st.Name); e != nil {
				fault = e.At(st.Sizes[i].Expr.Span)
				return
			}
		}
	})
	if !made {
		return calc.Errorf(calc.CodePart, "nothing of %s has been made before this line", st.Name).At(st.NameSpan).
			WithHint("settle says what was done about what is made; made %s: 2 says that some are", st.Name)
	}
	return fault
}

// settles says why a settled size is none of the thing's, nil when it is one.
func (z sizes) settles(f calc.Field, thing string) *calc.Error {
	k := z.index(f.Name)
	if k < 0 {
		names := make([]string, len(z.sizes))
		for i := range z.sizes {
			names[i] = z.sizes[i].Name
		}
		if f.Name == "" {
			return calc.Errorf(calc.CodePart, "%s has several sizes", thing).WithHint("say which one: %s = …", joined(names))
		}
		e := calc.Errorf(calc.CodeUnknownItem, "%s has no size %s", thing, f.Name)
		if near := calc.Nearest(f.Name, names); near != "" {
			return e.WithHint("did you mean %s?", near)
		}
		return e.WithHint("there are %s", joined(names))
	}
	return unlike("the "+z.sizes[k].Name+" of "+thing, z.sizes[k].Value, f.Value)
}

// countFault says why a number is no count of things made, nil when it is one.
func countFault(n calc.Value, style calc.Style) *calc.Error {
	if n.IsQuantity() && n.D.IsNumber() && n.V == math.Trunc(n.V) && n.V >= 0 {
		return nil
	}
	what := n.What()
	if n.IsQuantity() {
		what = style.Text(n)
	}
	return calc.Errorf(calc.CodePart, "made wants how many, a whole number; this is %s", what).WithHint("write made thwart: 2")
}
