package kernel

import (
	"sort"

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
