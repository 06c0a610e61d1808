package editor

import (
	"strings"

	"scarph/calc"
	"scarph/calc/lang"
	"scarph/kernel"
)

// Kinds of code actions.
const (
	quickFix = "quickfix"
	rewrite  = "refactor.rewrite"
)

// change is one way to mend or rewrite a piece of a document.
type change struct {
	title     string
	kind      string
	preferred bool
	span      calc.Span
	with      string
}

// codeActions lists what can be done about the diagnostics in a range, and with the
// figure there.
func (s *Server) codeActions(p codeActionParams) (any, error) {
	list := []codeAction{}
	doc, ok := s.document(p.TextDocument)
	if !ok {
		return list, nil
	}
	in := doc.text.span(p.Range, s.encoding)
	firstLine, lastLine := doc.text.lineOf(in.Start), doc.text.lineOf(in.End)
	add := func(c change, about []diagnostic) {
		if wanted(p.Context.Only, c.kind) {
			edits := map[string][]textEdit{doc.path: {{doc.text.textRange(c.span, s.encoding), c.with}}}
			list = append(list, codeAction{Title: c.title, Kind: c.kind, IsPreferred: c.preferred, Diagnostics: about, Edit: s.workspaceEdit(doc.j, edits)})
		}
	}
	for _, f := range s.diagnose(doc.j, doc.path) {
		if f.Range.End.Line < firstLine || f.Range.Start.Line > lastLine {
			continue // an error may stand at a sign, its cure at the number beside it
		}
		for _, c := range s.mend(doc, f) {
			add(c, []diagnostic{f.diagnostic})
		}
	}
	for _, c := range s.slots(doc, in.Start) {
		add(c, nil)
	}
	return list, nil
}

// wanted reports whether the client asked for a kind of action, by itself or by the
// kind it belongs to.
func wanted(only []string, kind string) bool {
	for _, k := range only {
		if kind == k || strings.HasPrefix(kind, k+".") {
			return true
		}
	}
	return len(only) == 0
}

// mend lists ways to mend what a diagnostic speaks of.
func (s *Server) mend(doc *document, f finding) []change {
	d := f.d
	if d.Span.End > len(doc.text.src) {
		return nil
	}
	old := doc.text.src[d.Span.Start:d.Span.End]
	if word := calc.Suggestion(d.Hint); word != "" && calc.Nearest(old, []string{word}) == word {
		return []change{{title: "Write " + word, kind: quickFix, preferred: true, span: d.Span, with: word}}
	}
	p, ok := doc.placeAt(d.Span.Start)
	switch {
	case d.Code == calc.CodeTwice && ok:
		return otherKinds(p)
	case d.Code == calc.CodeNoReading && ok && p.stmt != nil && p.stmt.Kind == lang.Revised:
		return firstNaming(p)
	case ok && (d.Code == calc.CodeBareNumber || d.Code == calc.CodeDimension && p.stmt != nil && (p.stmt.Kind == lang.Work || p.stmt.Kind == lang.Spend)):
		return s.withUnits(doc, p, d.Span)
	case d.Code == calc.CodeDecimalComma:
		return withoutComma(d.Span, old)
	case d.Code == calc.CodeInchMark && ok:
		return withInchMark(p, d.Span)
	}
	return nil
}

// otherKinds turns a bare second naming into a reading of a kind that may be one.
func otherKinds(p place) []change {
	if p.stmt == nil || p.stmt.Kind != lang.Chosen {
		return nil
	}
	at := p.trimmed().Start
	var list []change
	for i, w := range []string{"revise", "found", "built"} {
		h, _ := lang.AboutWord(w)
		list = append(list, change{title: "Write " + w + " " + p.stmt.Name + ": " + h.Summary, kind: quickFix, preferred: i == 0, span: calc.Span{Start: at, End: at}, with: w + " "})
	}
	return list
}

// firstNaming takes the word revise from a line that names a value for the first time.
func firstNaming(p place) []change {
	at := p.trimmed().Start
	return []change{{title: "Name " + p.stmt.Name + " here for the first time", kind: quickFix, preferred: true, span: calc.Span{Start: at, End: p.stmt.NameSpan.Start + p.span.Start}, with: ""}}
}

// withUnits gives a bare number the units with which its expression has a value.
func (s *Server) withUnits(doc *document, p place, at calc.Span) []change {
	if p.stmt == nil {
		return nil
	}
	units := []string{"in", "ft", "mm", "°", "lb", "kg", "h", "%", "°F", "°C"}
	if doc.j.book.Session.Style().System == calc.Metric {
		units = []string{"mm", "m", "in", "°", "kg", "lb", "h", "%", "°C", "°F"}
	}
	switch p.stmt.Kind {
	case lang.Work:
		units = []string{"h"}
	case lang.Spend:
		if units = []string{doc.j.book.Settings().Currency}; units[0] == "" {
			units = []string{"EUR", "USD"}
		}
	}
	var list []change
	for _, t := range bareNumbers(p, at) {
		for _, u := range units {
			tail := " " + u
			if u == "°" || u == "%" {
				tail = u
			}
			if len(list) < 5 && s.evaluates(doc, p, t.Span, t.Text+tail) {
				list = append(list, change{title: "Write " + t.Text + tail, kind: quickFix, span: t.Span.Shift(p.span.Start), with: t.Text + tail})
			}
		}
	}
	return list
}

// bareNumbers lists the numbers without a unit in the part of a statement that an
// error speaks of, or, when there is none, in all of it.
func bareNumbers(p place, at calc.Span) []lang.Token {
	var inside, all []lang.Token
	for _, t := range lang.Tokens(p.text) {
		if t.Kind != lang.NumberToken {
			continue
		}
		if l, err := calc.ParseLiteral(t.Text); err != nil || !l.Value.D.IsNumber() || strings.ContainsAny(t.Text, "%:") {
			continue
		}
		all = append(all, t)
		if a := t.Span.Shift(p.span.Start); a.Start >= at.Start && a.End <= at.End {
			inside = append(inside, t)
		}
	}
	if inside != nil {
		return inside
	}
	return all
}

// evaluates reports whether the expression around a place of a statement has a value
// when other text stands there.
func (s *Server) evaluates(doc *document, p place, at calc.Span, with string) bool {
	for _, e := range p.statement().Exprs() {
		if at.Start < e.Span.Start || at.End > e.Span.End {
			continue
		}
		text := p.text[e.Span.Start:at.Start] + with + p.text[at.End:e.Span.End]
		r, err := doc.j.book.Session.Eval(s.ctx, text, kernel.Now)
		return err == nil && r.OK()
	}
	return false
}

// withoutComma writes a number with a comma in it the way it can be read: with a
// point, or, where the comma may part thousands, without.
func withoutComma(at calc.Span, old string) []change {
	i := strings.IndexByte(old, ',')
	if i < 0 {
		return nil
	}
	list := []change{{title: "Write " + old[:i] + "." + old[i+1:], kind: quickFix, span: at, with: old[:i] + "." + old[i+1:]}}
	digits := 0
	for digits < len(old)-i-1 && old[i+1+digits] >= '0' && old[i+1+digits] <= '9' {
		digits++
	}
	if digits == 3 {
		list = append(list, change{title: "Write " + old[:i] + old[i+1:], kind: quickFix, span: at, with: old[:i] + old[i+1:]})
	}
	return list
}

// withInchMark puts the inch mark that is missing behind the number an error ends at.
func withInchMark(p place, at calc.Span) []change {
	end := at.End - p.span.Start
	if end < 0 || end > len(p.text) {
		return nil
	}
	mended := p.text[:end] + `"` + p.text[end:]
	parse := lang.Parse
	if p.slot {
		parse = lang.ParseSlot
	}
	if _, err := parse(mended); err != nil {
		return nil
	}
	return []change{{title: `Write the inch mark`, kind: quickFix, preferred: true, span: calc.Span{Start: at.End, End: at.End}, with: `"`}}
}
