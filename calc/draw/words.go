package draw

import (
	"math"
	"strconv"
	"strings"

	"scarph/calc"
)

// length writes a length for a drawing: to the nearest mark, without the remark
// that a little is left over, which belongs in a table.
func length(s calc.Style, v float64) string {
	if !written(v) {
		return "—"
	}
	return onMark(s.Text(calc.Length(v)))
}

// onMark leaves out of a length that it is strong or shy of its mark.
func onMark(text string) string {
	return strings.Replace(strings.Replace(text, " strong", "", 1), " shy", "", 1)
}

// exact writes a length with what is left over.
func exact(s calc.Style, v float64) string {
	if !written(v) {
		return "—"
	}
	return s.Text(calc.Length(v))
}

// small writes a small difference of lengths, where a mark of the rule would swallow
// it: decimals of an inch, or tenths of a millimetre.
func small(s calc.Style, v float64) string {
	if !written(v) {
		return "—"
	}
	v *= 1 + 1e-9 // a half that a float has just missed still rounds away from zero
	if s.System == calc.Metric {
		p := 10.0
		if math.Abs(v) < 1e-3 {
			p = 100
		}
		return s.Text(calc.Number(math.Round(v*1e3*p)/p)) + " mm"
	}
	return s.Text(calc.Number(math.Round(v/0.0254*1e3)/1e3)) + " in"
}

// spreadText writes a length with its ±.
func spreadText(s calc.Style, v, u float64) string {
	if !written(v) {
		return "—"
	}
	if !written(u) {
		u = 0
	}
	return s.Text(calc.WithSpread(calc.Length(v), u, 1))
}

func angle(s calc.Style, v float64) string {
	if !written(v) {
		return "—"
	}
	deg := v * 180 / math.Pi
	if s.Angle == calc.DecimalDegrees { // a gauge is read to a tenth
		return s.Text(calc.Number(math.Round(deg*10)/10)) + "°"
	}
	return s.Text(calc.Angle(v))
}

// inTwelve writes a bevel as so much in a foot: 3 7/16" in 12", or 287 mm in 1 m.
func inTwelve(s calc.Style, v float64) string {
	if !(math.Abs(v) < 85*math.Pi/180) {
		return ""
	}
	if s.System == calc.Metric {
		return s.Text(calc.Number(math.Round(1000*math.Tan(v)))) + " in 1000"
	}
	return strings.TrimSuffix(length(s, 12*0.0254*math.Tan(v)), " ") + ` in 12"`
}

func number(v float64) string {
	if !written(v) {
		return "—"
	}
	return calc.Style{}.Text(calc.Number(v))
}

// written reports whether a number can be written at all.
func written(v float64) bool { return math.Abs(v) <= farthest }

func count(n int, one, many string) string {
	if n == 1 {
		return "one " + one
	}
	return strconv.Itoa(n) + " " + many
}

// and joins words: a, b and c.
func and(words []string) string {
	switch n := len(words); n {
	case 0:
		return ""
	case 1:
		return words[0]
	default:
		return strings.Join(words[:n-1], ", ") + " and " + words[n-1]
	}
}

// sentence begins with a capital and ends with a full stop.
func sentence(text string) string { return capital(text) + "." }

func capital(text string) string {
	if text == "" {
		return ""
	}
	r := []rune(text)
	return strings.ToUpper(string(r[0])) + string(r[1:])
}
