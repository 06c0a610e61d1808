package kernel

import (
	"sort"
	"strings"
	"unicode"
	"unicode/utf8"

	"scarph/calc"
	"scarph/calc/lang"
	"scarph/calc/tables"
	"scarph/calc/trade"
)

// MaxProposals is the most that a completion lists.
const MaxProposals = 300

// Completion is what could stand at a place of a statement.
type Completion struct {
	// Span is the part of the text that a proposal takes the place of.
	Span  calc.Span
	Items []Proposal
	// More is set when there were more than MaxProposals.
	More bool
}

// Proposal is one thing that could stand there.
type Proposal struct {
	Text string
	// Kind is value, member, function, form, unit, word, or text (between quotes).
	Kind string
	// Detail is the value of a name, or how a function is called; About tells more.
	Detail, About string
	// Call is set when brackets follow.
	Call bool
}

// Complete lists what could stand in a statement at an offset, with what is typed
// of it already. A sheet, if not nil, adds its names.
func (s *Session) Complete(text string, at int, h *Sheet) Completion {
	at = max(0, min(at, len(text)))
	s.enter()
	defer s.mu.Unlock()
	c := &completer{s: s, h: h, all: text, before: text[:at]}
	if c.quoted() {
		return c.done()
	}
	start := wordStart(c.before)
	c.span = calc.Span{Start: start, End: at}
	c.typed = c.before[start:]
	c.tokens = lang.Tokens(c.before[:start])
	if r, _ := utf8.DecodeRuneInString(c.typed); unicode.IsDigit(r) {
		return c.done() // a number is being typed
	}
	switch {
	case strings.Contains(c.typed, "."):
		c.members()
	case c.afterNumber():
		c.units()
		c.words("to", "by", "of", "in", "within", "and", "or")
	case c.afterWord("to"), c.afterWord("per"):
		c.units()
	case c.afterWoodWord():
		for _, w := range tables.Names("wood") {
			c.add(Proposal{Text: strings.ReplaceAll(w, " ", "_"), Kind: "text"})
		}
	default:
		c.operands()
	}
	return c.done()
}

type completer struct {
	s           *Session
	h           *Sheet
	all, before string
	span        calc.Span
	typed       string
	tokens      []lang.Token
	list        []Proposal
}

// wordStart is where the name or unit that ends at the end of a text begins.
func wordStart(text string) int {
	i := len(text)
	for i > 0 {
		r, w := utf8.DecodeLastRuneInString(text[:i])
		if !(r == '_' || r == '.' || r == '°' || r == '%' || unicode.IsLetter(r) || unicode.IsDigit(r)) {
			break
		}
		i -= w
	}
	r, _ := utf8.DecodeRuneInString(text[i:])
	if unicode.IsDigit(r) && hasLetter(text[i:]) { // 2.5mm: the unit begins after the digits
		for i < len(text) && (unicode.IsDigit(r) || r == '.') {
			i++
			r, _ = utf8.DecodeRuneInString(text[i:])
		}
	}
	return i
}

func hasLetter(s string) bool {
	return strings.ContainsFunc(s, func(r rune) bool { return unicode.IsLetter(r) || r == '°' || r == '%' })
}

// add enters a proposal when it begins with what is typed.
func (c *completer) add(p Proposal) {
	if len(p.Text) >= len(c.typed) && strings.EqualFold(p.Text[:len(c.typed)], c.typed) {
		c.list = append(c.list, p)
	}
}

func (c *completer) done() Completion {
	z := Completion{Span: c.span, Items: c.list}
	if len(z.Items) > MaxProposals {
		z.Items, z.More = z.Items[:MaxProposals], true
	}
	v := c.s.now()
	for i := range z.Items { // the value is worded for those that are shown only
		if p := &z.Items[i]; p.Kind == "value" && p.Detail == "" {
			p.Detail = c.valueOf(p.Text, v)
		}
	}
	return z
}

func (c *completer) valueOf(name string, v *view) string {
	if c.h != nil {
		if j := c.h.names[name]; j != nil {
			return c.s.style.Text(j.result.Value)
		}
	}
	n, fields := c.s.resolve(name)
	if n == nil || len(fields) > 0 {
		return ""
	}
	if res := v.result(n).Result; res.OK() {
		return clipped(c.s.style.Text(res.Value))
	} else {
		return res.Trouble()
	}
}

// clipped shortens a long text for one line of a list.
func clipped(s string) string {
	const most = 60
	if r := []rune(s); len(r) > most {
		return string(r[:most-1]) + "…"
	}
	return s
}

// quoted proposes the texts that an argument takes, when the place lies between quotes.
func (c *completer) quoted() bool {
	closed := c.before + `"`
	list := lang.Tokens(closed)
	if len(list) == 0 {
		return false
	}
	last := list[len(list)-1]
	if last.Kind != lang.QuotedToken || last.Span.End != len(closed) || len(last.Text) < 2 {
		return false
	}
	_, open := utf8.DecodeRuneInString(last.Text)
	c.span = calc.Span{Start: last.Span.Start + open, End: len(c.before)}
	c.typed = c.before[c.span.Start:]
	if n := len(list); n > 1 && list[n-2].Kind == lang.WordToken && list[n-2].Text == "in" {
		c.texts(tables.Names("wood"))
		return true
	}
	name, arg, ok := lang.CallAt(c.before, last.Span.Start)
	if !ok {
		return true
	}
	if f, ok := trade.Find(name); ok && arg < len(f.Params) {
		p := f.Params[arg]
		c.texts(p.Choices)
		if p.Names != nil {
			c.texts(p.Names())
		}
	}
	return true
}

func (c *completer) texts(list []string) {
	for _, t := range list {
		c.add(Proposal{Text: t, Kind: "text"})
	}
}

func (c *completer) last() (lang.Token, bool) {
	if len(c.tokens) == 0 {
		return lang.Token{}, false
	}
	return c.tokens[len(c.tokens)-1], true
}

func (c *completer) afterNumber() bool {
	t, ok := c.last()
	return ok && t.Kind == lang.NumberToken
}

func (c *completer) afterWord(word string) bool {
	t, ok := c.last()
	return ok && t.Text == word && t.Kind != lang.QuotedToken
}

// afterWoodWord reports whether the wood of a part or a board stands here.
func (c *completer) afterWoodWord() bool {
	first := ""
	if len(c.tokens) > 0 {
		first = c.tokens[0].Text
	}
	return (first == "part" || first == "stock") && c.afterWord("in")
}

func (c *completer) units() {
	for _, u := range calc.Units() {
		for _, name := range u.Names {
			if name == u.Symbol || c.typed != "" {
				c.add(Proposal{Text: name, Kind: "unit", Detail: u.D.Word()})
			}
		}
	}
	if len(c.typed) > 0 {
		for _, code := range calc.CurrencyCodes() {
			c.add(Proposal{Text: code, Kind: "unit", Detail: "money"})
		}
	}
}

func (c *completer) words(list ...string) {
	for _, w := range list {
		p := Proposal{Text: w, Kind: "word"}
		if h, ok := lang.AboutWord(w); ok {
			p.Detail, p.About = h.Example, h.Summary
		}
		c.add(p)
	}
}

// members proposes what may stand after a name and a dot.
func (c *completer) members() {
	dot := strings.LastIndexByte(c.typed, '.')
	base := c.typed[:dot]
	c.span.Start += dot + 1
	c.typed = c.typed[dot+1:]
	seen := map[string]bool{}
	put := func(name string) {
		if !seen[name] {
			seen[name] = true
			c.add(Proposal{Text: name, Kind: "member"})
		}
	}
	for _, m := range c.s.members(base) {
		put(m)
	}
	if c.h != nil {
		if j := c.h.names[base]; j != nil {
			for _, m := range j.result.Value.Labels() {
				put(m)
			}
		}
	}
	var further []string
	for name, n := range c.s.nodes {
		if rest, ok := strings.CutPrefix(name, base+"."); ok && len(n.readings) > 0 && !c.s.isCellName(name) {
			word, _, _ := strings.Cut(rest, ".")
			further = append(further, word)
		}
	}
	sort.Strings(further)
	for _, m := range further {
		put(m)
	}
}

// operands proposes names, functions and forms, and at a line's beginning its words.
func (c *completer) operands() {
	if len(c.tokens) == 0 {
		c.words(lang.Words()...)
	}
	var names []string
	for name, n := range c.s.nodes {
		if (n.parts == nil || n.labels != nil) && !c.s.isCellName(name) && strings.HasPrefix(name, c.typed) {
			names = append(names, name)
		}
	}
	if c.h != nil {
		for name, j := range c.h.names {
			if !j.tries {
				names = append(names, name)
			}
		}
		if c.h.last != nil {
			c.add(Proposal{Text: "it", Kind: "word", Detail: clipped(c.s.style.Text(c.h.last.result.Value)), About: "the answer before"})
		}
	}
	sort.Strings(names)
	for _, name := range names {
		c.add(Proposal{Text: name, Kind: "value"})
	}
	for _, f := range lang.Forms() {
		c.add(Proposal{Text: f.Name, Kind: "form", Detail: f.Call, About: f.Summary, Call: true})
	}
	for _, f := range trade.All() {
		c.add(Proposal{Text: f.Name, Kind: "function", Detail: f.Signature(), About: f.Summary, Call: true})
	}
}
