package kernel

import (
	"sort"
	"strconv"
	"strings"

	"scarph/calc"
	"scarph/calc/lang"
)

// Posting is a line of the ledger.
type Posting struct {
	Subject string
	Note    string
	Amount  calc.Value // hours, or money of one currency
	Entry   EntryRef
	Place   Place
	Private bool
	// Running is the total of its ledger up to and with it: of hours, or of its currency.
	Running calc.Value
	Money   bool
}

// Total is the sum of a subject, a currency or the hours.
type Total struct {
	Subject string // "" for the grand total
	Amount  calc.Value
}

// Ledger is the hours and the money as of an entry. Money of different currencies
// is never added.
type Ledger struct {
	Postings []Posting
	Hours    []Total // by subject, then the grand total under ""
	Money    []Total // by subject and currency, then the grand totals
}

// Ledger sums the work and spend lines.
func (s *Session) Ledger(asOf int) Ledger {
	s.enter()
	defer s.mu.Unlock()
	v := s.viewAt(asOf)
	var l Ledger
	running := map[calc.Dimension]calc.Value{}
	post := func(r *statement, money bool) {
		res := v.result(r.node)
		if !res.OK() {
			return
		}
		amount := res.Value.Plain()
		total := running[amount.D]
		total.D = amount.D
		total, _ = calc.Add(total, amount)
		running[amount.D] = total
		st := r.line.Stmt
		l.Postings = append(l.Postings, Posting{Subject: st.Name, Note: st.Note, Amount: amount, Entry: r.entry.ref(), Place: r.line.Place, Running: total, Money: money, Private: r.line.Private})
	}
	s.each(lang.Work, v, func(r *statement) { post(r, false) })
	s.each(lang.Spend, v, func(r *statement) { post(r, true) })
	sort.SliceStable(l.Postings, func(i, j int) bool { return l.Postings[i].Entry.Number < l.Postings[j].Entry.Number })
	l.Hours, l.Money = totals(l.Postings, false), totals(l.Postings, true)
	return l
}

// ledgerNames are what the statements that read the ledger are watched under, by the
// kind of line that they read: no value can bear such a name.
var ledgerNames = map[lang.Kind]string{lang.Work: "worked()", lang.Spend: "spent()"}

// noteLedger has the statements that read the ledger linked anew when a line of it
// comes or goes.
func (u *update) noteLedger(r *statement) {
	if name, ok := ledgerNames[r.kind()]; ok {
		u.changedName(name)
	}
}

func (u *update) changedLedger() {
	for _, name := range ledgerNames {
		if len(u.s.watchers[name]) > 0 {
			u.changedName(name)
		}
	}
}

var ledgerKinds = map[lang.Mode]lang.Kind{lang.Worked: lang.Work, lang.Spent: lang.Spend}

// linkLedger enters a statement that reads the ledger as a user of its lines; the
// links follow those of the statement's own needs.
func (s *Session) linkLedger(r *statement) {
	for _, l := range r.links {
		if !l.need.Mode.OfLedger() {
			continue
		}
		for line := range s.kinds[ledgerKinds[l.need.Mode]] {
			if st := line.line.Stmt; st != nil && (l.need.Subject == "" || st.Name == l.need.Subject) {
				r.links = append(r.links, link{need: l.need, node: line.node})
				line.node.addUser(r.node)
			}
		}
	}
}

// postings is the list of the amounts that a need of the ledger asks for, each under
// its day, or under the number of an entry without one.
func (ev *evaluation) postings(need *lang.Need) calc.Value {
	kind := ledgerKinds[need.Mode]
	if need.Subject != "" {
		if err := ev.v.s.unknownSubject(kind, need.Subject); err != nil {
			ev.fail(err, need.Span)
			return calc.Value{}
		}
	}
	items, labels, off := []calc.Value{}, []string{}, 0
	ev.v.s.each(kind, ev.v, func(r *statement) {
		if need.Subject != "" && r.line.Stmt.Name != need.Subject {
			return
		}
		res := ev.v.result(r.node)
		if !res.OK() {
			off++
			return
		}
		label := r.entry.Date
		if label == "" {
			label = "entry_" + strconv.Itoa(r.entry.order+1)
		}
		items, labels = append(items, res.Value.Plain()), append(labels, label)
	})
	if off > 0 {
		ev.res.Warnings = append(ev.res.Warnings, "a "+kind.Word()+" line is wrong and is not counted")
	}
	return calc.Labelled(labels, items)
}

// unknownSubject is the error of a subject that no line of the ledger has.
func (s *Session) unknownSubject(kind lang.Kind, subject string) *calc.Error {
	seen := map[string]bool{}
	var known []string
	for r := range s.kinds[kind] {
		if name := r.line.Stmt.Name; !seen[name] {
			seen[name] = true
			known = append(known, name)
		}
	}
	if seen[subject] {
		return nil
	}
	sort.Strings(known)
	e := calc.Errorf(calc.CodeUnknownItem, "there is no %s line on %s", kind.Word(), subject)
	if near := calc.Nearest(subject, known); near != "" {
		return e.WithHint("did you mean %s?", near)
	}
	if len(known) > 0 {
		return e.WithHint("the subjects are %s", strings.Join(known, ", "))
	}
	return e
}

// totals sums postings by subject and dimension, grand totals last.
func totals(list []Posting, money bool) []Total {
	type key struct {
		subject string
		d       calc.Dimension
	}
	sums := map[key]calc.Value{}
	var order []key
	add := func(k key, x calc.Value) {
		t, ok := sums[k]
		if !ok {
			order = append(order, k)
			t.D = k.d
		}
		t, _ = calc.Add(t, x)
		sums[k] = t
	}
	for _, p := range list {
		if p.Money == money {
			add(key{p.Subject, p.Amount.D}, p.Amount)
			add(key{"", p.Amount.D}, p.Amount)
		}
	}
	sort.SliceStable(order, func(i, j int) bool { return order[i].subject != "" && order[j].subject == "" })
	var out []Total
	for _, k := range order {
		out = append(out, Total{k.subject, sums[k]})
	}
	return out
}
