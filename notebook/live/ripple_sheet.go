package live

import (
	"html/template"
	"net/http"
	"strconv"
	"strings"

	"scarph/calc"
	"scarph/kernel"
)

// rippleSheet is what a change moved, or would move, for its template.
type rippleSheet struct {
	Trials []trial // when nothing is kept
	Fault  *kernel.Fault
	Faulty trial // the one that the fault speaks of
	Moved  []movedRow
	// Picture is what moved, drawn; "" where a line says it all.
	Picture template.HTML
	// Recast are the records of what was made that read otherwise now.
	Recast []recastRow
	Advice string
	Checks []checkRow
	Off    []madeRow
	Right  []madeRow // made before the change, and still right
	Still  []place
	Undo   string // what can be taken back
	Number int    // of a ripple that was kept
	Writes bool
}

// trialSheet is a ripple sheet of numbers that are tried.
type trialSheet = rippleSheet

// movedRow is a value that moved.
type movedRow struct {
	place
	From, To, By, Also string
	Fault              bool
}

// checkRow is a check whose answer turned.
type checkRow struct {
	Text, Sides, Note, Href string
	Holds, Quiet, Fault     bool
	Answer                  string
}

// madeRow is something made before the change.
type madeRow struct {
	Label, Thing, Day, Href string
	Count                   string
	Sizes                   []sizeRow
	Off                     bool
	Settled                 string
}

// recastRow is a record of what was made that reads otherwise than before.
type recastRow struct{ Words, Day, Href string }

// sizeRow is a size as made and as it would be made now.
type sizeRow struct{ Name, Made, Now, Words string }

// showRipple answers with the sheet of a kept ripple (?sheet=N), or of the numbers
// that are tried.
func (s *visit) showRipple(w http.ResponseWriter, r *http.Request) {
	g := s.glance(r)
	if len(g.trials) > 0 {
		s.sheet(w, r, "ripple", "What would move", s.trySheet(&g))
		return
	}
	n, _ := strconv.Atoi(r.URL.Query().Get("sheet"))
	x, ok := s.ripples.get(n)
	if !ok {
		s.missing(w, r, "That ripple is no longer kept.")
		return
	}
	z := s.sheetOf(&g, x)
	z.Number = n
	for _, name := range s.book.Session.UnmovedBy(x) {
		if p := s.place(&g, name); p != nil {
			z.Still = append(z.Still, *p)
		}
	}
	if g.Writes && n == s.ripples.latest() {
		z.Undo = s.book.UndoLabel()
	}
	s.sheet(w, r, "ripple", "What moved", z)
}

// trySheet works out what the tried numbers would move.
func (s *visit) trySheet(g *glance) *rippleSheet {
	x, err := s.whatIf(g).ripple, s.whatIf(g).err
	if err != nil {
		f, t := s.tryFault(g, err)
		return &rippleSheet{Trials: g.trials, Fault: &f, Faulty: t}
	}
	z := s.sheetOf(g, x)
	z.Trials = g.trials
	for _, name := range s.book.Session.UnmovedBy(x) {
		if p := s.place(g, name); p != nil {
			z.Still = append(z.Still, *p)
		}
	}
	return z
}

// Refused says why a number cannot be tried.
func (z *rippleSheet) Refused() string {
	return upperFirst(calc.Words(z.Faulty.Name)) + " = " + z.Faulty.Text + " cannot be tried: " + sentences(z.Fault.Message, z.Fault.Hint)
}

// tryFault finds the trial that an error speaks of.
func (s *visit) tryFault(g *glance, err *calc.Error) (kernel.Fault, trial) {
	for _, t := range g.trials {
		if _, e := s.book.Session.WhatIf(map[string]string{t.Name: t.Text}); e != nil {
			if e.Code == calc.CodeUnknownName {
				return kernel.FaultOf(e, t.Name), t
			}
			return kernel.FaultOf(e, t.Text), t
		}
	}
	return kernel.FaultOf(err, ""), g.trials[0]
}

// trial adds to a card what the tried numbers would move.
func (s *visit) trial(c *card, g *glance) {
	if len(g.trials) == 0 {
		return
	}
	c.Trial = s.trySheet(g)
	for _, m := range c.Trial.Moved {
		if m.Name == c.Name {
			c.Tried = m.To
		}
	}
}

func (s *visit) sheetOf(g *glance, x kernel.Ripple) *rippleSheet {
	z := &rippleSheet{Writes: g.Writes && g.Number == 0, Picture: ripplePicture(s.book.Session.PartsFirst(x.Fields()), g.style)}
	for _, m := range s.book.Session.PartsFirst(x.Moved) {
		if row, ok := s.movedRow(g, m); ok {
			z.Moved = append(z.Moved, row)
		}
	}
	for _, k := range x.Checks {
		z.Checks = append(z.Checks, s.checkRow(g, k))
	}
	recast := map[kernel.LineRef]bool{}
	for i := range x.Recast {
		c := &x.Recast[i]
		recast[c.Ref] = true
		z.Recast = append(z.Recast, recastRow{c.Words(g.style), dayOf(c.Entry), s.lineHref(g, c.Ref)})
		z.Advice = kernel.RecastAdvice
	}
	for _, m := range x.Made {
		row := s.madeRow(g, m)
		if m.Off {
			z.Off = append(z.Off, row)
		} else if !recast[m.Ref] {
			z.Right = append(z.Right, row)
		}
	}
	return z
}

func (s *visit) movedRow(g *glance, m kernel.Moved) (movedRow, bool) {
	row := movedRow{From: resultText(m.From, g.style), To: resultText(m.To, g.style)}
	if p := s.place(g, m.Name); p != nil {
		row.place = *p
	} else {
		row.Label, row.Name = calc.Words(m.Name), m.Name
	}
	row.Fault = m.To != nil && !m.To.OK()
	if m.By != nil {
		row.By = moreOrLess(*m.By, g.style)
		row.Also = g.style.Echo(m.To.Value)
	} else if m.From != nil && m.To != nil && m.From.OK() && m.To.OK() {
		if row.By = listMoved(m.From.Value, m.To.Value, g.style); row.By != "" {
			row.From, row.To = "", ""
		}
	}
	return row, true
}

// listMoved says which elements of a list moved: "st 5: 12.9° → 15.9°, 2.99° more".
func listMoved(from, to calc.Value, style calc.Style) string {
	a, b := from.Items(), to.Items()
	if len(a) != len(b) {
		return ""
	}
	var parts []string
	count := 0
	for i := range a {
		if calc.Same(a[i], b[i]) {
			continue
		}
		if count++; count > 3 {
			continue
		}
		label := "number " + strconv.Itoa(i+1)
		if to.Labels() != nil {
			label = calc.Words(to.Labels()[i])
		}
		part := label + ": " + valueText(a[i], style) + " → " + valueText(b[i], style)
		if d, err := calc.Sub(b[i].Plain(), a[i].Plain()); err == nil && b[i].IsQuantity() {
			part += ", " + moreOrLess(calc.Of(d.V, d.D), style)
		}
		parts = append(parts, part)
	}
	if count > 3 {
		parts = append(parts, "and "+strconv.Itoa(count-3)+" more")
	}
	return strings.Join(parts, "; ")
}

func (s *visit) checkRow(g *glance, k kernel.Check) checkRow {
	row := checkRow{Text: inWords(strings.TrimSpace(strings.TrimPrefix(k.Text, "check"))), Note: k.Note, Href: s.lineHref(g, k.Ref), Holds: k.Holds, Quiet: k.Result.Cautions != 0}
	switch {
	case !k.Result.OK():
		row.Answer, row.Fault = resultText(k.Result, g.style), true
	case k.Holds:
		row.Answer = "holds now"
	default:
		row.Answer = "does not hold now"
	}
	if k.Left != nil && k.Right != nil && k.Left.OK() && k.Right.OK() {
		row.Sides = g.style.Text(k.Left.Value) + " against " + g.style.Text(k.Right.Value)
	}
	return row
}

func (s *visit) madeRow(g *glance, m kernel.Made) madeRow {
	row := madeRow{Label: calc.Words(m.Thing), Thing: m.Thing, Day: dayOf(m.Entry), Href: s.lineHref(g, m.Ref), Off: m.Off}
	if m.Count > 0 {
		row.Count = g.style.Text(calc.Number(m.Count))
	}
	for _, z := range m.Sizes {
		if !z.Off && m.Off || !m.Off && z.Words == "right" {
			continue
		}
		name := calc.Words(z.Name)
		if z.Name == m.Thing {
			name = ""
		}
		words := z.Words
		if words != "right" {
			words = kernel.Words(z.By, g.style)
		}
		row.Sizes = append(row.Sizes, sizeRow{name, g.style.Text(z.Made), g.style.Text(z.Now), words})
	}
	if x := m.Settled; x != nil {
		row.Settled = x.How + " " + dayOf(x.Entry)
		if x.Note != "" {
			row.Settled += ": " + x.Note
		}
	}
	return row
}

// Summary says in a sentence how much moves.
func (z *rippleSheet) Summary() string {
	if len(z.Moved) == 0 && len(z.Checks) == 0 {
		return "Nothing else moves."
	}
	parts := []string{counted(len(z.Moved), "value moves", "values move")}
	if len(z.Checks) > 0 {
		parts = append(parts, counted(len(z.Checks), "check turns", "checks turn"))
	}
	if len(z.Off) > 0 {
		parts = append(parts, counted(len(z.Off), "thing made is off", "things made are off"))
	}
	return upperFirst(strings.Join(parts, ", ")) + "."
}

func counted(n int, one, many string) string {
	if n == 1 {
		return "one " + one
	}
	return strconv.Itoa(n) + " " + many
}
