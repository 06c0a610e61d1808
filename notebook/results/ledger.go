package results

import (
	"bytes"

	"scarph/calc"
	"scarph/calc/trade"
	"scarph/kernel"
)

// ledgerPicture draws what the ledger comes to from day to day, in the parts that are
// shown.
func (r *Writer) ledgerPicture(w *bytes.Buffer, l kernel.Ledger) {
	f, ok := trade.Find("hours_and_money")
	if !ok {
		return
	}
	hours, money := r.byDay(l, false), r.byDay(l, true)
	if hours.Kind() != calc.List && money.Kind() != calc.List {
		return
	}
	x, err := f.Invoke([]calc.Value{hours, money})
	if err != nil || x.Value.X == nil || x.Value.X.Drawing == nil {
		return // more days than a picture holds
	}
	w.WriteString(x.Value.X.Drawing.SVG(r.Style))
}

// byDay lists the hours, or the money, each sum under its day; "none" when there is none
// to show.
func (r *Writer) byDay(l kernel.Ledger, money bool) calc.Value {
	none := calc.Str("none")
	if r.hides(map[bool]string{false: "hours", true: "money"}[money]) {
		return none
	}
	var days []string
	var sums []calc.Value
	last := map[calc.Dimension]int{} // where the sum of a kind stands that was entered last
	for _, p := range l.Postings {
		if p.Money != money || r.Public && p.Private {
			continue
		}
		day := p.Entry.Date
		if day == "" {
			day = When(p.Entry)
		}
		if k, ok := last[p.Amount.D]; ok && days[k] == day {
			sums[k], _ = calc.Add(sums[k], p.Amount)
			continue
		}
		last[p.Amount.D] = len(sums)
		days, sums = append(days, day), append(sums, p.Amount)
	}
	if len(sums) == 0 {
		return none
	}
	return calc.Labelled(days, sums)
}
