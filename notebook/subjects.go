package notebook

import (
	"strings"

	"scarph/calc"
	"scarph/calc/lang"
)

// subjectUse is a subject and how often it is used, at heads and in the ledger.
type subjectUse struct {
	name  string
	plain string
	times int
	first Diagnostic // the place of its first use, with nothing said yet
}

// mostSubjects bounds the comparing of each with each.
const mostSubjects = 1000

// subjectNotes remarks on subjects that are probably another one, misspelt: steam_box
// beside steam box, or a rare one that is a letter or two from one used more often.
func (n *Notebook) subjectNotes(asOf int) []Diagnostic {
	uses := n.subjects(asOf)
	if len(uses) > mostSubjects {
		return nil
	}
	var list []Diagnostic
	for i, x := range uses {
		for k, y := range uses {
			if i == k || y.times < x.times || y.times == x.times && k > i {
				continue
			}
			if x.plain == y.plain || x.times <= 2 && y.times > x.times && isSlipOf(x.plain, y.plain) {
				d := x.first
				d.Message = "the subject " + x.name + " is not " + y.name + ", which is used more often"
				if y.times == x.times {
					d.Message = "the subject " + x.name + " is not " + y.name + ", which stands earlier"
				}
				d.Hint = "write both the same way if one is meant"
				list = append(list, d)
				break
			}
		}
	}
	return list
}

// plainSubject is a subject without what people write now so, now so.
func plainSubject(s string) string {
	return strings.Join(strings.FieldsFunc(strings.ToLower(s), func(r rune) bool { return r == ' ' || r == '_' || r == '-' }), " ")
}

func isSlipOf(a, b string) bool {
	return len(a) >= 5 && a[0] == b[0] && calc.Nearest(a, []string{b}) != ""
}

// subjects lists the subjects of heads and ledger in the order of their first use.
func (n *Notebook) subjects(asOf int) []*subjectUse {
	var list []*subjectUse
	byName := map[string]*subjectUse{}
	use := func(name string, at func() Diagnostic) {
		u := byName[name]
		if u == nil {
			u = &subjectUse{name: name, plain: plainSubject(name), first: at()}
			byName[name] = u
			list = append(list, u)
		}
		u.times++
	}
	heads := map[string]bool{} // files whose head is counted
	for k, e := range n.Entries() {
		if k > asOf {
			break
		}
		if !heads[e.File.Path] {
			heads[e.File.Path] = true
			for _, name := range e.Subjects {
				use(name, func() Diagnostic {
					d := e.File.settingError("subjects", "", "")
					d.Code = "near-subject"
					return d
				})
			}
		}
		for i := range e.lines {
			st := e.lines[i].Stmt
			if st == nil || st.Kind != lang.Work && st.Kind != lang.Spend || st.Name == "" {
				continue
			}
			use(st.Name, func() Diagnostic { return e.File.diagnose(e.spans[i], "near-subject", "", "") })
		}
	}
	return list
}
