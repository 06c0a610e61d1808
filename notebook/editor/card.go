package editor

import (
	"strings"

	"scarph/calc"
	"scarph/calc/lang"
	"scarph/calc/trade"
	"scarph/kernel"
)

// card gathers what a hover shows, as Markdown or as plain text.
type card struct {
	b    strings.Builder
	rich bool
}

// para writes a paragraph.
func (c *card) para(s string) {
	if s = strings.TrimSpace(s); s == "" {
		return
	}
	if c.b.Len() > 0 {
		c.b.WriteString("\n\n")
	}
	c.b.WriteString(s)
}

// strong sets a word off from those around it.
func (c *card) strong(s string) string {
	if c.rich {
		return "**" + c.text(s) + "**"
	}
	return s
}

// text is text that someone typed, without meaning to Markdown.
func (c *card) text(s string) string {
	if !c.rich {
		return s
	}
	var b strings.Builder
	for _, r := range s {
		if strings.ContainsRune("\\`*_{}[]<>#+-!|~&", r) {
			b.WriteByte('\\')
		}
		b.WriteRune(r)
	}
	return b.String()
}

// code writes lines of the calc language.
func (c *card) code(lines ...string) {
	if c.rich {
		c.para("```calc\n" + strings.Join(lines, "\n") + "\n```")
		return
	}
	c.para(strings.Join(lines, "\n"))
}

// list writes lines under one another.
func (c *card) list(lines []string) {
	mark := "  "
	if c.rich {
		mark = "- "
	}
	c.para(mark + strings.Join(lines, "\n"+mark))
}

// caution writes a safety remark.
func (c *card) caution(text string) {
	if text == "" {
		return
	}
	if c.rich {
		c.para("> ⚠ **Caution.** " + c.text(text))
		return
	}
	c.para("⚠ Caution. " + text)
}

func (c *card) markup() *markup {
	if c.rich {
		return &markup{"markdown", c.b.String()}
	}
	return &markup{"plaintext", c.b.String()}
}

// newCard begins a card in the form that the client shows.
func (s *Server) newCard() *card {
	for _, f := range s.client.TextDocument.Hover.ContentFormat {
		if f == "markdown" {
			return &card{rich: true}
		}
	}
	return &card{}
}

// about fills the card with a description.
func (c *card) about(d kernel.Description, style calc.Style) {
	switch {
	case d.Value != nil:
		c.value(d.Name, d.Value, style)
	case d.Function != nil:
		c.function(d.Function)
	case d.Unit != nil:
		c.para(c.strong(d.Unit.Symbol) + " · unit of " + d.Unit.D.Word())
		if !d.Unit.D.HasMoney() && d.Unit.Zero == 0 {
			c.para(c.text("1 " + d.Unit.Symbol + " is " + siText(d.Unit)))
		}
		c.para(c.text("Source: " + d.Unit.Source))
	default:
		if d.Word != nil {
			c.para(c.strong(d.Word.Word) + " · " + c.text(d.Word.Summary))
			c.code(d.Word.Example)
		}
		if d.Form != nil {
			c.para(c.strong(d.Form.Call) + " · " + c.text(d.Form.Summary))
		}
	}
}

func siText(u *calc.Unit) string {
	v := calc.Style{System: calc.Metric}.Text(calc.Of(u.Factor, u.D))
	if o := (calc.Style{}).Text(calc.Of(u.Factor, u.D)); o != v {
		v += " or " + o
	}
	return v
}

// value tells of a value: what it is, how it is worked out, its readings, its ±, what
// uses it.
func (c *card) value(name string, k *kernel.Known, style calc.Style) {
	head := c.strong(name)
	if k.History.Kind != "" {
		head += " · " + k.History.Kind
	}
	if k.Result.OK() {
		head += " · " + c.text(clipped(style.Text(k.Result.Value)))
		if e := style.Echo(k.Result.Value); e != "" {
			head += " (" + c.text(e) + ")"
		}
	} else {
		head += " · " + c.text(k.Result.Trouble())
	}
	c.para(head)
	if k.Formula != "" {
		c.code(name+" = "+k.Formula, strings.Repeat(" ", len([]rune(name)))+" = "+k.Filled)
	}
	if k.Sum != nil && k.Sum.OK() {
		c.para(c.text("The sum gives " + style.Text(k.Sum.Value) + "; a reading has taken its place."))
	}
	c.readings(k.History, style)
	if len(k.Causes) > 0 {
		var list []string
		for _, x := range k.Causes {
			list = append(list, c.text(style.Text(plus(x.Part))+" from "+x.Name+", "+x.Reading.Kind+" "+x.Reading.Entry.When()))
		}
		c.para("± comes from")
		c.list(list)
	}
	if len(k.Members) > 0 {
		c.para(c.text("Parts: " + some(k.Members)))
	}
	if len(k.HangsOn) > 0 {
		c.para(c.text("Used by " + some(k.HangsOn)))
	}
	for _, w := range k.Result.Warnings {
		c.para(c.text("Note: " + w))
	}
	c.cautions(k.Result)
}

// plus is a contribution without its sign.
func plus(x calc.Value) calc.Value {
	if x.V < 0 {
		x.V = -x.V
	}
	return x
}

// some lists names, the first dozen of many.
func some(names []string) string {
	const most = 12
	if len(names) > most {
		return strings.Join(names[:most], ", ") + " and " + calc.Style{}.Text(calc.Number(float64(len(names)-most))) + " more"
	}
	return strings.Join(names, ", ")
}

func (c *card) cautions(r *kernel.Result) {
	if r.OK() {
		for _, k := range lang.CautionsOf(r.Cautions) {
			c.caution(k.Text())
		}
	}
}

// readings lists the readings of a value, unless it has but one that is a sum.
func (c *card) readings(h kernel.History, style calc.Style) {
	if len(h.Readings) < 2 && h.Kind == "derived" || len(h.Readings) == 0 {
		return
	}
	var list []string
	for _, r := range h.Readings {
		line := r.Kind + " "
		if r.Result.OK() {
			line += clipped(style.Text(r.Result.Value))
		} else {
			line += r.Result.Trouble()
		}
		if r.Counts {
			line = c.strong(line)
		} else {
			line = c.text(line)
		}
		line += c.text(", " + r.Entry.When())
		if r.Until != nil {
			line += c.text(", until " + r.Until.When())
		}
		if r.Note != "" {
			line += c.text(": " + r.Note)
		}
		list = append(list, line)
	}
	c.list(list)
}

// function tells of a function: the entry of the registry is its documentation.
func (c *card) function(f *trade.Function) {
	c.para(c.strong(f.Signature()) + " · " + c.text(f.Summary))
	var list []string
	for i := range f.Params {
		p := f.Params[i]
		line := c.strong(p.Name) + " " + c.text(p.What())
		if p.Optional {
			line += ", may be left out"
		}
		if p.Doc != "" && p.Doc != p.What() {
			line += c.text(": " + p.Doc)
		}
		list = append(list, line)
	}
	if len(list) > 0 {
		c.list(list)
	}
	for _, row := range [][2]string{{"Gives", f.Result}, {"Formula", f.Formula}, {"Limits", f.Limits}, {"Source", f.Source}} {
		if row[1] != "" {
			c.para(c.text(row[0] + ": " + row[1]))
		}
	}
	c.caution(f.Caution.Text())
}
