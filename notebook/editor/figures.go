package editor

import (
	"strings"
	"unicode"
	"unicode/utf8"

	"scarph/calc"
	"scarph/kernel"
)

// mostSlots is the most values that a figure is offered to follow.
const mostSlots = 5

// slots offers to make a typed figure, in running text or in a cell of a table, a slot
// that follows the value it equals.
func (s *Server) slots(doc *document, offset int) []change {
	at, lit, cell, ok := doc.figureAt(offset)
	if !ok {
		return nil
	}
	style := doc.j.book.Session.Style()
	tail := ""
	if lit.System != calc.Both && lit.System != systemOf(style) && lit.Value.D == calc.DimLength {
		if tail = " to mm"; lit.System == calc.FeetInches {
			tail = ` to 1/16"`
		}
	}
	var list []change
	offer := func(expr, why string) {
		if len(list) < mostSlots {
			with := "{" + expr + tail + "}"
			list = append(list, change{title: "Write " + with + why, kind: rewrite, span: at, with: with})
		}
	}
	for _, d := range doc.j.book.Session.Dimensions(kernel.Now) {
		if !d.Cell && !d.Row && d.Name != cell && d.Result.OK() && equals(lit.Value, d.Result.Value, style) {
			offer(d.Name, "")
		}
	}
	for _, h := range doc.j.book.Session.Histories(kernel.Now) {
		for _, r := range h.Readings {
			if r.Until != nil && !r.Cell && r.Result.OK() && equals(lit.Value, r.Result.Value, style) {
				offer("then("+h.Name+")", ", which it was until "+r.Until.When())
				break
			}
		}
	}
	return list
}

func systemOf(st calc.Style) calc.System {
	if st.System == calc.Metric {
		return calc.Metric
	}
	return calc.FeetInches
}

// equals reports whether a typed figure says a value, as far as the journal shows it.
func equals(typed, x calc.Value, style calc.Style) bool {
	if !x.IsQuantity() || typed.D != x.D {
		return false
	}
	words := func(v calc.Value) string {
		t := style.Text(calc.Of(v.V, v.D))
		return strings.TrimSuffix(strings.TrimSuffix(t, " shy"), " strong")
	}
	d := typed.V - x.V
	return d < 1e-9 && d > -1e-9 || !typed.D.IsNumber() && words(typed) == words(x)
}

// figureAt finds the literal at an offset outside of the calc language, with the name
// of the cell when it stands in a data table.
func (d *document) figureAt(offset int) (calc.Span, calc.Literal, string, bool) {
	if _, ok := d.placeAt(offset); ok || d.inBlock(offset) {
		return calc.Span{}, calc.Literal{}, "", false
	}
	cell := ""
	if m, ok := d.mentionAt(offset); ok {
		if strings.Count(m.path, ".") != 2 {
			return calc.Span{}, calc.Literal{}, "", false // a label
		}
		cell = m.path
		if v, err := calc.ParseOffset(d.text.src[m.span.Start:m.span.End]); err == nil {
			return m.span, calc.Literal{Value: v, System: calc.FeetInches}, cell, true
		}
	}
	line := d.text.line(d.text.lineOf(offset))
	src := d.text.src[line.Start:line.End]
	for i := 0; i < len(src) && line.Start+i <= offset; {
		_, w := utf8.DecodeRuneInString(src[i:])
		if !calc.BeginsLiteral(src[i:]) || !beginsWord(src, i) {
			i += w
			continue
		}
		l, err := calc.ScanLiteral(src[i:])
		if err != nil || l.Len == 0 {
			i += w
			continue
		}
		if at := (calc.Span{Start: line.Start + i, End: line.Start + i + l.Len}); offset <= at.End {
			return at, l, cell, true
		}
		i += l.Len
	}
	return calc.Span{}, calc.Literal{}, "", false
}

func (d *document) inBlock(offset int) bool {
	f := d.source()
	if m := f.Doc.FrontMatter; offset < m.End {
		return true
	}
	if e := f.EntryAt(offset); e != nil {
		for _, b := range e.Section.Blocks {
			if b.Span.Start <= offset && offset <= b.Span.End {
				return true
			}
		}
	}
	return false
}

func beginsWord(s string, i int) bool {
	r, _ := utf8.DecodeLastRuneInString(s[:i])
	return i == 0 || !unicode.IsLetter(r) && !unicode.IsDigit(r) && r != '_' && r != '-' && r != '.'
}
