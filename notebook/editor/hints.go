package editor

import (
	"strings"

	"scarph/calc"
	"scarph/calc/lang"
	"scarph/kernel"
	"scarph/notebook"
)

// inlayHints writes the live value behind each statement and slot.
func (s *Server) inlayHints(p inlayHintParams) (any, error) {
	doc, ok := s.document(p.TextDocument)
	if !ok {
		return []inlayHint{}, nil
	}
	list := []inlayHint{}
	span := doc.text.span(p.Range, s.encoding)
	for _, e := range doc.source().Entries() {
		first, next := e.LinesIn(span)
		for i := first; i < next; i++ {
			o, ok := doc.j.book.Session.Outcome(kernel.LineRef{Entry: e.Key, Index: i}, kernel.Now)
			if !ok {
				continue
			}
			if label := hintOf(o, doc.j.book.Session.Style()); label != "" {
				h := inlayHint{Position: doc.text.position(hintPlace(e, i), s.encoding), Label: "▸ " + label, PaddingLeft: true}
				if c := cautionText(o.Result); c != "" {
					h.Label += " ⚠"
					h.Tooltip = &markup{Kind: "plaintext", Value: c}
				}
				list = append(list, h)
			}
		}
	}
	return list, nil
}

// hintPlace is where the hint of a line stands: behind the statement, before its
// note; behind the brace that closes a slot.
func hintPlace(e *notebook.Entry, i int) int {
	l, span := e.Line(i), e.Span(i)
	if l.Slot || l.Cell && inBraces(e, i) {
		return span.End + 1
	}
	if st := l.Stmt; st != nil && !l.Cell {
		if at := strings.Index(l.Text, st.Text); at >= 0 {
			return span.Start + at + len(st.Text)
		}
	}
	return span.End
}

// hintOf says what a line came to, "" where that would say nothing new.
func hintOf(o kernel.Outcome, style calc.Style) string {
	r := o.Result
	switch {
	case r.Err != nil:
		return "" // a diagnostic says it
	case !r.OK():
		return r.Trouble()
	case o.Line.Cell && o.Displaced == nil && (o.Line.Stmt == nil || o.Line.Stmt.Expr == nil || len(o.Line.Stmt.Expr.Needs) == 0):
		return "" // the number stands there
	case o.Check != nil:
		return kernel.WordedCheck(o.Check.Holds, o.Check.Left, o.Check.Right, r.Cautions, style)
	case len(o.Made) > 0:
		return madeHint(worst(o.Made))
	case o.Displaced != nil && o.Displaced.Result.OK():
		return clipped(style.Text(r.Value)) + ", now " + clipped(style.Text(o.Displaced.Result.Value)) + " (" + o.Displaced.Kind + " " + o.Displaced.Entry.When() + ")"
	}
	if st := o.Line.Stmt; st != nil {
		switch st.Kind {
		case lang.Work, lang.Spend, lang.Stock, lang.Settle:
			return ""
		}
		if st.Expr != nil && st.Expr.Literal != nil && st.Kind.IsReading() {
			return style.Echo(r.Value) // the number itself stands there already
		}
	}
	return clipped(style.Text(r.Value))
}

// worst is what was made and is off, or the last where nothing is.
func worst(list []kernel.Made) kernel.Made {
	for _, m := range list {
		if m.Off {
			return m
		}
	}
	return list[len(list)-1]
}

func madeHint(m kernel.Made) string {
	switch {
	case m.Err != nil:
		return ""
	case m.Off:
		return "off"
	case m.Settled != nil:
		return m.Settled.How
	}
	return "still right"
}

// clipped shortens a text that would push the line out of sight.
func clipped(s string) string {
	const most = 80
	if r := []rune(s); len(r) > most {
		return string(r[:most-1]) + "…"
	}
	return s
}

// cautionText is what must be said beside a result.
func cautionText(r *kernel.Result) string {
	var list []string
	for _, c := range lang.CautionsOf(r.Cautions) {
		list = append(list, "Caution. "+c.Text())
	}
	return strings.Join(list, "\n")
}
