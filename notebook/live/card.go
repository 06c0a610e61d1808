package live

import (
	"context"
	"html/template"
	"math"
	"net/http"
	"net/url"
	"strconv"
	"strings"

	"scarph/calc"
	"scarph/calc/lang"
	"scarph/calc/trade"
	"scarph/kernel"
	"scarph/notebook"
)

// card is all that is known of a value, for its template.
type card struct {
	Name, Title   string
	At            string // the line it was opened on, ENTRY|INDEX
	Kind, Since   string
	Text, Also    string
	Decimal       string // what a tape cannot show
	Drawing       template.HTML
	Fault         string
	AsOf          string // the day as of which it is told, "" for now
	Whole         *place // the list or table that it is a part of
	Formula       string // in words
	Filled        string // with the numbers put in
	FilledTried   string // with the tried numbers put in, when they bear on it
	Functions     []function
	From          []place // the values it is worked out from
	Spread        string
	Causes        []cause
	Cautions      []string
	Warnings      []string
	Readings      []reading
	Written       *reading // the one line that works it out, which is no reading
	SumGives      string
	Members       []place
	Hangs, Uses   []place
	Parts         []place
	Trial         *trialSheet
	Tried         string // what it comes to with the numbers that are tried
	CanTry        bool
	Unmeasured    bool   // an empty cell: it may be given its first reading
	Try           string // the number to begin with
	PlusGone      string // that what is tried has no ± any more
	Step          string // of the buttons beside it
	Kinds         []kindChoice
	Today         string
	TodayIsNew    bool
	Writes        bool
	Correctable   bool
	Recasts       string // what was made whose record a correction would change
	correctedLine string
}

// place is a name or an entry with its address and a remark.
type place struct {
	Label, Href, Name, Text string
	Tried                   bool // the text is of numbers that are tried
}

// function is a function of the trade that a sum uses.
type function struct{ Name, Summary, Limits, Source string }

// cause is a reading that the ± comes from.
type cause struct {
	place
	Share string
}

// reading is a row of the card: one statement that gave the value its number.
type reading struct {
	Kind, Day, Href string
	Text, Also      string
	Note, State     string
	Counts          bool
	At              string
	Literal         string // as it is written, when it can be corrected
	Recasts         string // what was made whose record a correction would change
	Fault           bool
}

// kindChoice is a kind that a new reading may have.
type kindChoice struct {
	Word, Label string
	Chosen      bool
	NotedOnly   string // why it would not count
}

// showCard answers with the card of a name, or of the line ENTRY|INDEX.
func (s *visit) showCard(w http.ResponseWriter, r *http.Request) {
	g := s.glance(r)
	q := r.URL.Query()
	c, ok := s.card(&g, q.Get("name"), q.Get("at"))
	if !ok {
		s.missing(w, r, "There is no such value.")
		return
	}
	s.sheet(w, r, "card", c.Title, c)
}

func (s *visit) card(g *glance, name, at string) (*card, bool) {
	k := s.book.Session
	c := &card{Name: name, At: at, Writes: g.Writes && g.Number == 0, Today: notebook.Day(s.today())}
	c.TodayIsNew = !s.hasEntryOn(s.today())
	var o kernel.Outcome
	ref, hasLine := lineRef(at)
	if hasLine {
		if o, hasLine = k.Outcome(ref, g.at()); !hasLine {
			return nil, false
		}
		if c.Name == "" {
			c.Name = o.Name
		}
	}
	if g.Number > 0 {
		for _, e := range k.Entries() {
			if e.Number == g.Number {
				c.AsOf = dayOf(e)
			}
		}
	}
	var result *kernel.Result
	if c.Name != "" {
		var ok bool
		if result, ok = k.Value(c.Name, g.at()); !ok {
			if !hasLine {
				return nil, false
			}
			c.Name, result = "", nil
		}
	}
	if result == nil {
		if !hasLine {
			return nil, false
		}
		result = o.Result
		c.Title, c.Kind = inWords(lineText(&o)), "worked out here"
	}
	if c.Name != "" {
		c.Title = upperFirst(calc.Words(c.Name))
		s.named(c, g)
	}
	s.told(c, g, result)
	s.formula(c, g, ref, hasLine, &o)
	s.trial(c, g)
	if c.Name == "" {
		c.Tried = s.lineIf(g, ref, result)
	}
	return c, true
}

// named fills in what is known of a value by its name: its readings, what hangs on it.
func (s *visit) named(c *card, g *glance) {
	k := s.book.Session
	h, ok := k.History(c.Name, g.at())
	if !ok { // a field of something larger
		whole := c.Name[:strings.LastIndexByte(c.Name, '.')]
		c.Whole = s.place(g, whole)
		if c.Whole != nil {
			c.Kind = "part of " + c.Whole.Label
		}
		return
	}
	c.Name = h.Name
	c.Kind = h.Kind
	var records map[kernel.LineRef][]kernel.Made
	if g.Writes {
		records = k.RecordsFrom(c.Name)
	}
	for i := range h.Readings {
		x := &h.Readings[i]
		if x.Counts {
			c.Since = dayOf(x.Entry)
		}
		c.Readings = append(c.Readings, s.reading(g, x, records[x.Ref]))
	}
	for i, j := 0, len(c.Readings)-1; i < j; i, j = i+1, j-1 {
		c.Readings[i], c.Readings[j] = c.Readings[j], c.Readings[i]
	}
	if len(c.Readings) == 1 && c.Readings[0].Literal == "" {
		c.Written, c.Readings = &c.Readings[0], nil
	}
	hangs := map[string]bool{c.Name: true}
	for _, name := range k.HangsOn(c.Name) {
		hangs[name] = true
		if p := s.place(g, name); p != nil {
			c.Hangs = append(c.Hangs, *p)
		}
	}
	for _, m := range k.MadeList(g.at()) {
		if hangs[m.Thing] {
			would := s.whatIf(g).made[m.Ref]
			text := "made " + dayOf(m.Entry)
			if m.Count > 0 {
				text = g.style.Text(calc.Number(m.Count)) + " " + text
			}
			switch {
			case would != nil && would.Off && !m.Off:
				text += ", would be off"
			case would != nil && !would.Off && m.Off:
				text += ", would be right"
			case m.Off:
				text += ", off now"
			}
			c.Parts = append(c.Parts, place{Label: calc.Words(m.Thing), Href: s.lineHref(g, m.Ref), Text: text, Tried: would != nil && would.Off != m.Off})
		}
	}
	if len(h.Readings) == 0 {
		for _, m := range k.Members(c.Name) {
			if p := s.place(g, c.Name+"."+m); p != nil {
				p.Label = calc.Words(m)
				c.Members = append(c.Members, *p)
			}
		}
	}
	s.uses(c, g)
	c.CanTry = g.Number == 0 && len(h.Readings) > 0 && h.Result.OK() && (h.Result.Value.IsQuantity() || h.Result.Value.Kind() == calc.Text)
	if c.Unmeasured = isUnmeasured(&h); c.Unmeasured {
		c.CanTry = g.Number == 0
	}
	if c.CanTry {
		s.ready(c, g, &h)
	}
}

// ready fills in the form in which another number is tried and kept.
func (s *visit) ready(c *card, g *glance, h *kernel.History) {
	c.Try = strings.TrimSuffix(strings.TrimSuffix(g.style.Text(h.Result.Value.Plain()), " strong"), " shy")
	for _, x := range c.Readings {
		if x.Literal != "" {
			c.Correctable = true
		}
		if x.Recasts != "" && (x.Counts || c.Recasts == "") {
			c.Recasts = x.Recasts
		}
		if x.Counts && x.Literal != "" {
			c.Try = x.Literal
			if unit := s.unitOf(c.Name); unit != "" && isBareNumber(c.Try) {
				c.Try = withUnit(c.Try, unit)
			}
		}
	}
	for _, t := range g.trials {
		if t.Name == c.Name {
			c.Try = t.Text
			if res, err := s.book.Session.Eval(context.Background(), t.Text, kernel.Now); err == nil && res.OK() {
				c.PlusGone = plusGone(h.Result.Value, res.Value, g.style)
			}
		}
	}
	if c.Unmeasured {
		c.Text = "not yet measured"
		if len(g.trials) == 0 {
			c.Try = ""
		}
	}
	c.Step = stepOf(h.Result.Value, g.style)
	chosen := "found"
	switch h.Kind {
	case "chosen", "derived", "revised":
		chosen = "revise"
	case "built", "guess":
		chosen = h.Kind
	}
	for _, z := range kinds {
		z.Chosen = z.Word == chosen
		z.NotedOnly = s.notedOnly(h, z.Word)
		c.Kinds = append(c.Kinds, z)
	}
}

// isUnmeasured reports whether all that is known of a value is an empty cell.
func isUnmeasured(h *kernel.History) bool {
	return len(h.Readings) == 1 && h.Readings[0].Cell && lang.EmptyCell(h.Readings[0].Text)
}

var kinds = []kindChoice{
	{Word: "found", Label: "found: read off the boat or the loft"},
	{Word: "built", Label: "built: as it was made"},
	{Word: "revise", Label: "revised: decided anew"},
	{Word: "drawn", Label: "drawn: from the plan"},
	{Word: "guess", Label: "a guess, until it is measured"},
}

var strengths = map[string]int{"guess": lang.Guessed.Strength(), "drawn": lang.DrawnAs.Strength(), "chosen": lang.Chosen.Strength(), "derived": lang.Chosen.Strength(), "revised": lang.Revised.Strength(), "found": lang.FoundAs.Strength(), "built": lang.BuiltAs.Strength()}

// stepOf is what one press of a step button adds: a mark of the tape, a quarter of a
// degree, or one.
func stepOf(v calc.Value, style calc.Style) string {
	switch {
	case !v.IsQuantity():
		return ""
	case v.D == calc.DimLength && style.System == calc.Metric && style.Nearest > 0:
		return calc.Style{System: calc.Metric, Nearest: style.Nearest}.Text(calc.Length(style.Nearest))
	case v.D == calc.DimLength && style.System == calc.Metric:
		return "1 mm"
	case v.D == calc.DimLength:
		mark := style.Nearest
		if mark == 0 {
			mark = 0.0254 / 16
		}
		return calc.Style{Nearest: mark}.Text(calc.Length(mark))
	case v.D == calc.DimAngle:
		return "1/4°"
	case v.D.IsNumber() && v.V == math.Trunc(v.V):
		return "1"
	}
	return ""
}

// reading makes a row of a reading, to which things were made.
func (s *visit) reading(g *glance, x *kernel.Reading, made []kernel.Made) reading {
	z := reading{Kind: x.Kind, Day: dayOf(x.Entry), Href: s.lineHref(g, x.Ref), Note: x.Note, Counts: x.Counts, At: atText(x.Ref), Text: resultText(x.Result, g.style), Fault: !x.Result.OK()}
	if x.Result.OK() {
		z.Also = g.style.Echo(x.Result.Value)
	}
	switch {
	case x.Counts:
		z.State = "counts"
	case x.Until != nil:
		z.State = "until " + dayOf(*x.Until)
	case x.Result.OK():
		z.State = "noted; a stronger reading counts"
	}
	if o, ok := s.book.Session.Outcome(x.Ref, g.at()); ok {
		z.Literal = literalOf(&o)
	}
	if z.Literal != "" {
		z.Recasts = thingsMade(g, made)
	}
	return z
}

// thingsMade names what was made: "2 thwart (18 April 2027)".
func thingsMade(g *glance, made []kernel.Made) string {
	const most = 6
	var list []string
	for _, m := range made {
		text := calc.Words(m.Thing)
		if m.Count > 0 {
			text = g.style.Text(calc.Number(m.Count)) + " " + text
		}
		list = append(list, text+" ("+dayOf(m.Entry)+")")
	}
	if n := len(list) - most; n > 0 {
		list = append(list[:most], strconv.Itoa(n)+" more")
	}
	return strings.Join(list, ", ")
}

// literalOf is the number of a reading as it is written, "" for a sum.
func literalOf(o *kernel.Outcome) string {
	st := o.Line.Stmt
	switch {
	case st == nil || st.Expr == nil || len(st.Expr.Needs) > 0 || strings.HasPrefix(o.Line.Text, "{"):
		return ""
	case o.Line.Cell:
		return o.Line.Text
	case st.Kind.IsReading():
		return st.Expr.Text
	}
	return ""
}

// uses lists the entries that use a value, once each.
func (s *visit) uses(c *card, g *glance) {
	seen := map[string]bool{}
	for _, ref := range s.book.Session.Uses(c.Name) {
		e, ok := s.book.Entry(ref.Entry)
		if !ok || seen[ref.Entry] {
			continue
		}
		seen[ref.Entry] = true
		c.Uses = append(c.Uses, place{Label: e.Title, Href: s.lineHref(g, ref), Text: notebook.Day(e.Date)})
	}
}

// told fills in the value itself and its ±.
func (s *visit) told(c *card, g *glance, r *kernel.Result) {
	if !r.OK() {
		c.Fault = resultText(r, g.style)
		return
	}
	v := r.Value
	if c.Unmeasured {
		return
	}
	c.Text, c.Also = valueText(v, g.style), g.style.Echo(v)
	if d := v.X; v.Kind() == calc.Picture && d.Drawing != nil {
		c.Text, c.Drawing = "", template.HTML(d.Drawing.SVG(g.style))
	}
	if n := len(v.Items()); n > 0 && len(c.Members) == 0 {
		for i, it := range v.Items() {
			if i == 60 {
				break
			}
			p := place{Label: strconv.Itoa(i + 1), Text: valueText(it, g.style)}
			if v.Labels() != nil {
				p.Label = calc.Words(v.Labels()[i])
				if c.Name != "" {
					p.Name = c.Name + "." + v.Labels()[i]
					p.Href = g.To("/card?name=" + url.QueryEscape(p.Name))
				}
			}
			c.Members = append(c.Members, p)
		}
	}
	if n := max(len(v.Items()), len(c.Members)); n > 1 && len(c.Members) > 0 {
		c.Text = g.style.Text(calc.Number(float64(n))) + " values"
	}
	if v.IsQuantity() && v.D == calc.DimLength && g.style.System != calc.Metric {
		c.Decimal = calc.Style{}.Text(calc.Length(v.V).Shown(calc.InUnit("in")))
	}
	for _, x := range lang.CautionsOf(r.Cautions) {
		c.Cautions = append(c.Cautions, x.Text())
	}
	c.Warnings = r.Warnings
	u := v.Likely()
	if g.style.Worst {
		u = v.Worst()
	}
	if u <= 0 || !v.IsQuantity() {
		return
	}
	c.Spread = "± " + moreOrLess(calc.Of(u, v.D), g.style)
	c.Spread = strings.TrimSuffix(c.Spread, " more")
	causes := s.book.Session.Why(r)
	total := 0.0
	for _, x := range causes {
		total += x.Part.V * x.Part.V
	}
	for _, x := range causes {
		z := cause{place: place{Label: calc.Words(x.Name), Href: s.lineHref(g, x.Reading.Ref), Text: x.Reading.Kind + " " + dayOf(x.Reading.Entry)}}
		z.Share = calc.Style{}.Text(calc.Number(math.Round(100*x.Part.V*x.Part.V/total) / 100).Shown(calc.InUnit("%")))
		c.Causes = append(c.Causes, z)
	}
}

// formula fills in how the value is worked out. A line without a name of its own is
// told by its own sum.
func (s *visit) formula(c *card, g *glance, ref kernel.LineRef, hasLine bool, o *kernel.Outcome) {
	k := s.book.Session
	if c.Name != "" {
		hasLine = false
		if h, ok := k.History(c.Name, g.at()); ok {
			for _, x := range h.Readings {
				if x.Counts || x.Kind == "derived" && !hasLine {
					ref, hasLine = x.Ref, true
				}
				if x.Kind == "derived" && !x.Counts && x.Result.OK() && h.Kind != "derived" {
					c.SumGives = resultText(x.Result, g.style)
				}
			}
		}
		if hasLine {
			*o, hasLine = k.Outcome(ref, g.at())
		}
	}
	if !hasLine || o.Line.Stmt == nil || o.Line.Stmt.Expr == nil {
		return
	}
	text, filled := k.LineFormula(ref, g.at(), g.style)
	if text == "" || c.Name == "" && len(o.Line.Stmt.Expr.Needs) == 1 && o.Line.Stmt.Expr.Needs[0].Path == text {
		return
	}
	c.Formula, c.Filled, c.FilledTried = inWords(text), inWords(filled), inWords(s.filledIf(g, ref, filled))
	for _, need := range o.Line.Stmt.Expr.Needs {
		if p := s.place(g, need.Path); p != nil && !contains(c.From, p.Name) {
			c.From = append(c.From, *p)
		}
	}
	for _, f := range trade.All() {
		if callsFunction(text, f.Name) {
			c.Functions = append(c.Functions, function{f.Name, f.Summary, f.Limits, f.Source})
		}
	}
}

func contains(list []place, name string) bool {
	for _, p := range list {
		if p.Name == name {
			return true
		}
	}
	return false
}

func callsFunction(text, name string) bool {
	for at := 0; ; {
		i := strings.Index(text[at:], name+"(")
		if i < 0 {
			return false
		}
		i += at
		if i == 0 || !isLetter(rune(text[i-1])) && text[i-1] != '_' && !isDigit(rune(text[i-1])) {
			return true
		}
		at = i + 1
	}
}
