package kernel

import (
	"slices"
	"strings"

	"scarph/calc"
	"scarph/calc/lang"
)

// own notes which names are those of a part's sizes, rib.width of part rib, when the part
// line or a reading of such a name is linked. The names become users of the part, so that
// they are judged again when its line changes.
func (s *Session) own(r *statement) {
	if st := r.line.Stmt; st.Kind == lang.PartLine {
		for _, field := range fieldNames(st) {
			r.node.owns(s.nodes[r.node.name+"."+field])
		}
	} else if i := strings.LastIndexByte(st.Name, '.'); i > 0 && st.Kind.IsReading() && !r.line.Cell {
		if p := s.nodes[st.Name[:i]]; p != nil && p.parts == nil {
			p.owns(r.node)
		}
	}
}

func (n *node) owns(x *node) {
	if x != nil && x.owner != n {
		n.users = slices.DeleteFunc(n.users, func(u *node) bool { return u.owner == n && len(u.readings) == 0 })
		x.owner = n
		n.addUser(x)
	}
}

// fieldNames are the names of what a part's record holds.
func fieldNames(st *lang.Stmt) []string {
	list := []string{"count", "within"}
	for _, z := range st.Sizes {
		list = append(list, z.Name)
	}
	return list
}

// partLine is the part line among the readings, nil when there is none.
func (n *node) partLine() *statement {
	for _, r := range n.readings {
		if r.kind() == lang.PartLine && r.line.Err == nil {
			return r
		}
	}
	return nil
}

// refusedByPart says why a reading cannot stand beside a part of its name, the part line
// before it, or beside a size of a part; nil when it can.
func (n *node) refusedByPart(r, part *statement) *calc.Error {
	if !r.kind().IsReading() {
		return nil
	}
	if part != nil {
		return calc.Errorf(calc.CodePart, "%s is a part; its sizes stand in its part line", n.name).At(r.line.Stmt.NameSpan).
			WithHint("give the size a name of its own, write that name in the part line, and %s that", readWord(r.kind()))
	}
	if n.owner == nil {
		return nil
	}
	p := n.owner.partLine()
	if p == nil {
		return nil
	}
	field := strings.TrimPrefix(n.name, n.owner.name+".")
	for _, name := range fieldNames(p.line.Stmt) {
		if name == field && !readsItself(p.line.Stmt, field, n.name) {
			return calc.Errorf(calc.CodePart, "%s is the %s of the part %s, which stands in its part line", n.name, field, n.owner.name).At(r.line.Stmt.NameSpan).
				WithHint("write it in the part line, or give it a name of its own, %s_%s, and write that in the part line", n.owner.name, field)
		}
	}
	return nil
}

// readWord is the word that a line of a kind begins with, to be said as an order.
func readWord(k lang.Kind) string {
	if k == lang.Revised {
		return "revise"
	}
	return "measure"
}

// readsItself reports whether a part line takes a field from the very name: part rib: 24
// of 3/8" by rib.width by ….
func readsItself(st *lang.Stmt, field, name string) bool {
	e := st.Expr
	switch field {
	case "count":
	case "within":
		e = st.Within
	default:
		for _, z := range st.Sizes {
			if z.Name == field {
				e = z.Expr
			}
		}
	}
	return e == nil || strings.TrimSpace(e.Text) == name
}
