package kernel

import (
	"math"

	"scarph/calc"
	"scarph/calc/lang"
)

// Shape is a value as other programs read it: on a terminal asked for JSON, in the
// messages of the kernel, in the data of a published series.
type Shape struct {
	Kind      string           `json:"kind"`
	Text      string           `json:"text"`
	SI        any              `json:"si"`
	Dimension string           `json:"dimension"`
	PlusMinus any              `json:"plus_minus"`
	Fields    map[string]Shape `json:"fields,omitempty"`
	Labels    []string         `json:"labels,omitempty"`
	Cautions  []string         `json:"cautions"`
	Warnings  []string         `json:"warnings,omitempty"`
	SVG       string           `json:"svg,omitempty"`
}

// ShapeOf gives a value the shape of JSON: the text a person reads, the number in SI
// base units (an array for a list, null for a text), and the dimension as a word.
func ShapeOf(x calc.Value, style calc.Style) Shape {
	s := Shape{Kind: x.Kind().String(), Text: style.Text(x), Cautions: []string{}}
	switch x.Kind() {
	case calc.Quantity:
		s.SI, s.Dimension = number(x.V), x.D.Word()
		if len(x.Terms()) > 0 {
			u := x.Likely()
			if style.Worst {
				u = x.Worst()
			}
			s.PlusMinus = number(u)
		}
	case calc.Truth:
		s.SI, s.Dimension = x.V != 0, "truth"
	case calc.List:
		s.listShape(x)
		s.Labels = x.Labels()
	case calc.Record:
		s.Dimension = "record"
		s.Fields = map[string]Shape{}
		for i, it := range x.Items() {
			s.Fields[x.Labels()[i]] = ShapeOf(it, style)
		}
	case calc.Picture:
		s.Dimension = "drawing"
		if d := x.X.Drawing; d != nil {
			s.SVG = d.SVG(style)
		}
	default:
		s.Dimension = x.Kind().String()
	}
	return s
}

func (s *Shape) listShape(x calc.Value) {
	si := make([]any, len(x.Items()))
	plus := make([]any, len(x.Items()))
	any := false
	for i, it := range x.Items() {
		if i == 0 {
			s.Dimension = elementWord(it)
		} else if s.Dimension != elementWord(it) {
			s.Dimension = "mixed"
		}
		if it.IsQuantity() {
			si[i] = number(it.V)
			if len(it.Terms()) > 0 {
				plus[i], any = number(it.Likely()), true
			}
			continue
		}
		e := ShapeOf(it, calc.Style{})
		si[i] = e.SI
		if it.Kind() == calc.Text {
			si[i] = it.Text()
		}
	}
	s.SI = si
	if any {
		s.PlusMinus = plus
	}
}

func elementWord(x calc.Value) string {
	if x.IsQuantity() {
		return x.D.Word()
	}
	return x.Kind().String()
}

// number is a float that JSON can carry.
func number(v float64) any {
	if math.IsNaN(v) || math.IsInf(v, 0) {
		return nil
	}
	return v
}

// ShapeOfResult is ShapeOf with the remarks and cautions of a result.
func ShapeOfResult(r *Result, style calc.Style) Shape {
	s := ShapeOf(r.Value, style)
	s.Warnings = r.Warnings
	if c := cautionWords(r.Cautions); c != nil {
		s.Cautions = c
	}
	return s
}

// Fault is an error as other programs read it.
type Fault struct {
	Code    string `json:"code"`
	Message string `json:"message"`
	Column  int    `json:"column"`
	Hint    string `json:"hint"`
}

// FaultOf gives an error the shape of JSON; column counts runes of text from 1.
func FaultOf(err *calc.Error, text string) Fault {
	start := min(max(err.Span.Start, 0), len(text))
	return Fault{Code: string(err.Code), Message: err.Message, Column: 1 + len([]rune(text[:start])), Hint: err.Hint}
}

// cautionWords are the cautions given as bits from A = 1, each after its letter.
func cautionWords(bits uint8) []string {
	var list []string
	for _, c := range lang.CautionsOf(bits) {
		list = append(list, c.Letter()+": "+c.Text())
	}
	return list
}
