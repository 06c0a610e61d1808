package notebook

import (
	"math"
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"

	"scarph/calc"
	"scarph/calc/lang"
	"scarph/kernel"
)

// Notes lists what is no error but wants a look: a number typed in the text that is an
// old value of something, a rounded size that is multiplied, and a reading that may be a slip.
func (n *Notebook) Notes(asOf int) []Diagnostic {
	old := n.oldValues(asOf)
	list := n.subjectNotes(asOf)
	var before *Entry
	var whole []Diagnostic // of the file
	for k, e := range n.Entries() {
		if k > asOf {
			break // not yet written on that day
		}
		list = append(list, e.dateNotes(before)...)
		if before == nil || before.File != e.File {
			whole = append(e.File.nearlyCalc(), e.File.twoVersions()...)
		}
		list = append(list, within(whole, e.Section.Span)...)
		before = e
		outs := n.Session.Outcomes(e.Key, asOf)
		typed := e.typed()
		list = append(list, e.typedNumbers(typed, old)...)
		list = append(list, e.leftBehind(typed, n.Session, k, outs)...)
		for i, o := range outs {
			if o.Doubt != "" && i < len(e.spans) {
				list = append(list, e.File.diagnose(e.spans[i], "doubtful", o.Doubt, ""))
			}
			for _, text := range o.Remarks {
				if i < len(e.spans) {
					list = append(list, e.File.diagnose(e.spans[i], "remark", text, ""))
				}
			}
			if text := n.roundedStep(o); text != "" && i < len(e.spans) {
				list = append(list, e.File.diagnose(e.spans[i], "rounded-step", text, ""))
			}
		}
	}
	return list
}

// typedNumber is a literal in the running text.
type typedNumber struct {
	at    calc.Span
	value calc.Value
	text  string
	rest  string // what stands behind it
}

// typed lists the literals in the running text of an entry.
func (e *Entry) typed() []typedNumber {
	var list []typedNumber
	for _, s := range e.prose() {
		text := string(e.File.Src[s.Start:s.End])
		for i := 0; i < len(text); {
			_, w := utf8.DecodeRuneInString(text[i:])
			if !calc.BeginsLiteral(text[i:]) || !wordStart(text, i) {
				i += w
				continue
			}
			l, err := calc.ScanLiteral(text[i:])
			if err != nil || l.Len == 0 {
				for i < len(text) && (unicode.IsDigit(rune(text[i])) || strings.ContainsRune("-.,/", rune(text[i]))) {
					i++
				}
				i++
				continue
			}
			end := i + l.Len
			list = append(list, typedNumber{calc.Span{Start: s.Start + i, End: s.Start + end}, l.Value, strings.TrimSpace(text[i:end]), text[end:]})
			i = end
		}
	}
	return list
}

// typedNumbers finds literals in the running text that equal an old value.
func (e *Entry) typedNumbers(typed []typedNumber, old *oldValues) []Diagnostic {
	var list []Diagnostic
	for _, x := range typed {
		if o := old.like(x); o != nil {
			list = append(list, e.oldNumber(x, "was "+o.name+" until "+o.until, o.name))
		}
	}
	return list
}

func (e *Entry) oldNumber(x typedNumber, was, name string) Diagnostic {
	return e.File.diagnose(x.at, "old-number", x.text+" "+was, "a slot follows the value: {"+name+"}; {then("+name+")} keeps it as it was")
}

// leftBehind finds literals in the running text of entry k that say what a sum of the entry
// came to when it was written, and no longer does. A number alone is taken for no sum.
func (e *Entry) leftBehind(typed []typedNumber, s *kernel.Session, k int, now []kernel.Outcome) []Diagnostic {
	if !slices.ContainsFunc(typed, func(x typedNumber) bool { return !x.value.D.IsNumber() }) {
		return nil
	}
	var list []Diagnostic
	style := s.Style()
	for i, o := range s.Outcomes(e.Key, k) {
		is := now[i].Result
		if o.Kind != "derived" || o.Line.Slot || o.Name == "" || !o.Result.OK() || !is.OK() || !o.Result.Value.IsQuantity() || style.Text(o.Result.Value) == style.Text(is.Value) {
			continue
		}
		for _, x := range typed {
			if shownAs(x.value, o.Result.Value, style) {
				list = append(list, e.oldNumber(x, "was "+o.Name+" when this was written; it is "+style.Text(is.Value)+" now", o.Name))
			}
		}
	}
	return list
}

// shownAs reports whether a typed quantity is what a value is shown as, in either family of
// units.
func shownAs(typed, v calc.Value, style calc.Style) bool {
	if typed.D != v.D || v.D.IsNumber() {
		return false
	}
	for _, text := range [...]string{style.Text(v.Plain()), style.Echo(v.Plain())} {
		text = strings.TrimSuffix(strings.TrimSuffix(text, " strong"), " shy")
		if l, err := calc.ParseLiteral(text); err == nil && l.Value.D == typed.D && math.Abs(l.Value.V-typed.V) <= 1e-9 {
			return true
		}
	}
	return false
}

func wordStart(text string, i int) bool {
	if i == 0 {
		return true
	}
	r, _ := utf8.DecodeLastRuneInString(text[:i])
	return !unicode.IsLetter(r) && !unicode.IsDigit(r) && r != '_' && r != '-' && r != '.' && r != '#'
}

// prose lists the stretches of an entry that are neither calc, table nor slot.
func (e *Entry) prose() []calc.Span {
	var holes []calc.Span
	for _, b := range e.Section.Blocks {
		holes = append(holes, b.Span)
	}
	for _, t := range e.Section.Tables {
		holes = append(holes, t.Span)
	}
	for _, s := range e.Section.Slots {
		holes = append(holes, calc.Span{Start: s.Span.Start - 1, End: s.Span.End + 1})
	}
	var out []calc.Span
	at := e.Section.Span.Start
	if f := e.File.Doc.FrontMatter; f.End > at {
		at = f.End
	}
	for at < e.Section.Span.End {
		next := calc.Span{Start: e.Section.Span.End, End: e.Section.Span.End}
		for _, h := range holes {
			if h.End > at && h.Start < next.Start {
				next = h
			}
		}
		if next.Start > at {
			out = append(out, calc.Span{Start: at, End: next.Start})
		}
		at = max(next.End, at+1)
		if next.Start == e.Section.Span.End {
			break
		}
	}
	return out
}

// roundings are the functions whose result stands on a mark.
var roundings = []string{"nearest(", "round_up(", "round_down(", "round_to_fraction(", "round_up_to_fraction("}

// roundedStep says that a line multiplies a size that was rounded, "" when it does not.
func (n *Notebook) roundedStep(o kernel.Outcome) string {
	st := o.Line.Stmt
	if st == nil || st.Expr == nil || len(st.Expr.Needs) == 0 {
		return ""
	}
	text := st.Expr.Text
	for _, need := range st.Expr.Needs {
		if need.Mode != lang.Now {
			continue
		}
		at := need.Span.Shift(-st.Expr.Span.Start)
		if at.Start < 0 || at.End > len(text) || !(multiplied(text, at) || strings.Contains(text, "mark_positions(")) {
			continue
		}
		if r, ok := n.Session.Value(need.Path, kernel.Now); ok && r.OK() && r.Value.IsQuantity() && r.Value.D.IsNumber() {
			continue // a rounded count is as it should be
		}
		source := n.Session.Written(need.Path, kernel.Now)
		for _, f := range roundings {
			if strings.HasPrefix(source, f) {
				return need.Path + " is rounded; stepped off again and again, what was rounded away gathers. Multiply the unrounded size and round the marks, all from one zero"
			}
		}
	}
	return ""
}

func multiplied(text string, at calc.Span) bool {
	after := strings.TrimLeft(text[at.End:], " ")
	before := strings.TrimRight(text[:at.Start], " ")
	return strings.HasPrefix(after, "*") || strings.HasPrefix(after, "×") || strings.HasSuffix(before, "*") || strings.HasSuffix(before, "×")
}
