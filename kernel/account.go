package kernel

import (
	"slices"
	"sort"
	"strconv"
	"strings"

	"scarph/calc"
	"scarph/calc/lang"
)

// account is a subject of the ledger, or all of it under "". Its node is put together
// from the lines on it, once for all statements that read it.
type account struct {
	kind    lang.Kind
	subject string
}

var ledgerKinds = map[lang.Mode]lang.Kind{lang.Worked: lang.Work, lang.Spent: lang.Spend}

// String is how the account is read: worked("hull").
func (a *account) String() string {
	call, subject := "worked", ""
	if a.kind == lang.Spend {
		call = "spent"
	}
	if a.subject != "" {
		subject = strconv.Quote(a.subject)
	}
	return call + "(" + subject + ")"
}

// account is the node of the account that a need asks for.
func (s *Session) account(need *lang.Need) *node {
	a := account{ledgerKinds[need.Mode], need.Subject}
	n := s.accounts[a]
	if n == nil {
		n = &node{account: &a, parts: []*node{}}
		for r := range s.kinds[a.kind] {
			if a.subject == "" || r.line.Stmt.Name == a.subject {
				n.parts = append(n.parts, r.node)
				r.node.addUser(n)
			}
		}
		n.sortLines()
		s.accounts[a] = n
	}
	return n
}

// accountsOf are the accounts, of those that are read, that change with a line which comes
// or goes.
func (u *update) accountsOf(r *statement) []*node {
	k := r.kind()
	if k != lang.Work && k != lang.Spend {
		return nil
	}
	u.ledger = true
	var list []*node
	for _, subject := range [...]string{"", r.line.Stmt.Name} {
		if n := u.s.accounts[account{k, subject}]; n != nil {
			list = append(list, n)
			u.touch(n)
		}
	}
	return list
}

// post enters a line in its accounts; balance gives it its place.
func (u *update) post(r *statement) {
	for _, n := range u.accountsOf(r) {
		n.parts = append(n.parts, r.node)
		r.node.addUser(n)
	}
}

// strike takes a line out of its accounts; balance takes those that were struck out
// together.
func (u *update) strike(r *statement) {
	for _, n := range u.accountsOf(r) {
		if u.struck == nil {
			u.struck = map[*node]bool{}
		}
		u.struck[r.node] = true
		r.node.removeUser(n)
	}
}

// balance puts in order the accounts in which lines have come or gone, and has put together
// again: all, when their lines stand in another order or under other days; those without a
// line, when a subject may have come or gone, for their error tells which there are.
func (u *update) balance() {
	for _, n := range u.s.accounts {
		if u.days || n.fresh {
			n.parts = slices.DeleteFunc(n.parts, func(x *node) bool { return u.struck[x] })
			n.sortLines()
		}
		if u.days || u.ledger && len(n.parts) == 0 {
			u.touch(n)
		}
	}
}

func (n *node) sortLines() {
	sort.Slice(n.parts, func(i, j int) bool { return n.parts[i].readings[0].before(n.parts[j].readings[0]) })
}

// linesTo is how many lines of an account stand before one for which before is false.
func (n *node) linesTo(before func(*statement) bool) int {
	return sort.Search(len(n.parts), func(i int) bool { return !before(n.parts[i].readings[0]) })
}

// partsOf are the nodes that a node is put together from in this view.
func (v *view) partsOf(n *node) []*node {
	if n.account == nil {
		return n.parts
	}
	return n.parts[:n.linesTo(func(r *statement) bool { return r.entry.order <= v.upTo })]
}

// reckon lists the amounts of an account, each under its day, or under the number of an
// entry without one. What is wrong is not counted.
func (v *view) reckon(n *node) (*Result, *statement) {
	if len(n.parts) == 0 && n.account.subject != "" {
		return &Result{Err: v.s.unknownSubject(n.account)}, nil
	}
	lines := v.partsOf(n)
	items, labels := make([]calc.Value, 0, len(lines)), make([]string, 0, len(lines))
	var newest *statement
	for _, x := range lines {
		d := v.result(x)
		newest = later(newest, d.newest)
		if !d.OK() {
			continue
		}
		e := x.readings[0].entry
		label := e.Date
		if label == "" {
			label = "entry_" + strconv.Itoa(e.order+1)
		}
		items, labels = append(items, d.Value.Plain()), append(labels, label)
	}
	res := &Result{Value: calc.Labelled(labels, items)}
	if len(items) < len(lines) {
		res.Warnings = []string{"a " + lines[0].readings[0].kind().Word() + " line is wrong and is not counted"}
	}
	return res, newest
}

// postings is the list of the amounts that a need of the ledger asks for.
func (ev *evaluation) postings(l link) calc.Value {
	res := ev.v.result(l.node).Result
	if !res.OK() {
		ev.fail(res.Err, l.need.Span)
		return calc.Value{}
	}
	ev.res.Warnings = append(ev.res.Warnings, res.Warnings...)
	return res.Value
}

// unknownSubject is the error of a subject that no line of the ledger has.
func (s *Session) unknownSubject(a *account) *calc.Error {
	var known []string
	for r := range s.kinds[a.kind] {
		known = append(known, r.line.Stmt.Name)
	}
	slices.Sort(known)
	known = slices.Compact(known)
	e := calc.Errorf(calc.CodeUnknownItem, "there is no %s line on %s", a.kind.Word(), a.subject)
	if near := calc.Nearest(a.subject, known); near != "" {
		return e.WithHint("did you mean %s?", near)
	}
	if len(known) > 0 {
		return e.WithHint("the subjects are %s", strings.Join(known, ", "))
	}
	return e
}
