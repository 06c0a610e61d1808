package live

import (
	"math"
	"strings"

	"scarph/calc"
	"scarph/kernel"
)

// inWords writes a sum as people say it: names as words, signs as they are drawn.
func inWords(expr string) string {
	var b strings.Builder
	quoted := false
	list := []rune(expr)
	for i, c := range list {
		before, after := neighbour(list, i-1), neighbour(list, i+1)
		switch {
		case c == '"' && !isDigit(before) && before != ' ' || c == '"' && quoted:
			quoted = !quoted
			b.WriteRune(c)
		case quoted:
			b.WriteRune(c)
		case c == '_' && isLetter(before) && (isLetter(after) || isDigit(after)):
			b.WriteByte(' ')
		case c == '.' && isLetter(after):
			b.WriteByte(' ')
		case c == '*' && before == ' ':
			b.WriteRune('×')
		case c == '/' && before == ' ':
			b.WriteRune('÷')
		case c == '-' && before == ' ':
			b.WriteRune('−')
		default:
			b.WriteRune(c)
		}
	}
	return b.String()
}

func neighbour(list []rune, i int) rune {
	if i < 0 || i >= len(list) {
		return 0
	}
	return list[i]
}

func isLetter(c rune) bool { return c >= 'a' && c <= 'z' || c >= 'A' && c <= 'Z' || c > 127 }
func isDigit(c rune) bool  { return c >= '0' && c <= '9' }

// moreOrLess says by how much a value moved: "1/4\" more", "2.99° less".
func moreOrLess(by calc.Value, style calc.Style) string {
	size := calc.Of(math.Abs(by.V), by.D)
	text := style.Text(size)
	if by.D == calc.DimLength && style.System != calc.Metric {
		// what a tape cannot show is said in thousandths
		fine := calc.Style{Nearest: 0.0254 / 64}.Text(size)
		if strings.HasSuffix(fine, "shy") || strings.HasSuffix(fine, "strong") || strings.HasPrefix(fine, "0.") {
			fine = thousandths(size)
		}
		text = fine
	}
	if by.V < 0 {
		return text + " less"
	}
	return text + " more"
}

// thousandths is a length in thousandths of an inch.
func thousandths(size calc.Value) string {
	const mil = 0.0254 / 1000
	n := math.Round(size.V / mil)
	if n == 0 {
		return "less than 0.001 in"
	}
	return calc.Style{}.Text(calc.Length(n * mil).Shown(calc.InUnit("in")))
}

// resultText is a result as people read it, or what it waits for.
func resultText(r *kernel.Result, style calc.Style) string {
	switch {
	case r == nil:
		return "not there"
	case r.OK():
		return valueText(r.Value, style)
	case r.Err != nil:
		return "fault: " + r.Err.Message
	}
	return "waits for " + strings.Join(r.Waits, ", ")
}

// valueText is a value in one line; of a record or a long list only how many there are.
func valueText(v calc.Value, style calc.Style) string {
	if n := len(v.Items()); n > 6 || n > 1 && v.Kind() == calc.Record {
		return style.Text(calc.Number(float64(n))) + " values"
	}
	if v.Kind() == calc.Picture {
		return "a drawing"
	}
	return style.Text(v)
}

// sentences joins what is wrong and the hint about it, each with its one stop at the end.
func sentences(message, hint string) string {
	text := stopped(message)
	if hint != "" {
		text += " " + stopped(upperFirst(hint))
	}
	return text
}

// stopped ends a sentence with a full stop, where it has no sign of its own at its end.
func stopped(s string) string {
	if s == "" || strings.HasSuffix(s, ".") || strings.HasSuffix(s, "?") || strings.HasSuffix(s, "!") || strings.HasSuffix(s, "…") {
		return s
	}
	return s + "."
}

func upperFirst(s string) string {
	if s == "" {
		return s
	}
	r := []rune(s)
	return strings.ToUpper(string(r[:1])) + string(r[1:])
}
