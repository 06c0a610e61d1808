package draw

import (
	"math"
	"strings"

	"scarph/calc"
)

// Rows of a list stand under one another: the name over the row, its picture, and
// its figures at the right, so that a phone has the whole width for each.

// rowTall is the height of one row in picture units.
const rowTall = 42

// row sets the name and the figures of row i of n; its line lies at the height returned.
// The figures go before the name: of a long name its last words are kept, which tell it
// from others of its table.
func (c *Scene) row(i, n int, name, figures string, x Range) float64 {
	y := float64(n - i)
	name = lastWords(name, Wide-2*edge-textWidth(figures, true)-12)
	c.Label(Label{At: Point{X: x.Low, Y: y + 0.42}, Text: name, Side: Right, Gap: 1, Held: true})
	c.Label(Label{At: Point{X: x.High, Y: y + 0.42}, Text: figures, Side: Left, Gap: 1, Held: true, Bold: true, Rank: 1})
	c.Line(Fine, Point{X: x.Low, Y: y}, Point{X: x.High, Y: y})
	return y
}

// lastWords leaves out the first words of a text that is broader than the room.
func lastWords(text string, room float64) string {
	for cut := text; textWidth(text, false) > room; text = "… " + cut {
		_, rest, ok := strings.Cut(cut, " ")
		if !ok {
			return ""
		}
		cut = rest
	}
	return text
}

// Weighed is a part with the weight that was guessed and what the scale said, kg.
// NaN is not guessed, or not weighed yet.
type Weighed struct {
	Name           string
	Guess, Weighed float64
}

// Weights shows guesses against the scale.
type Weights struct{ Items []Weighed }

// Sheet implements Kind.
func (d *Weights) Sheet(s calc.Style) Sheet {
	var c Scene
	most := 0.0
	for _, w := range d.Items {
		for _, v := range [2]float64{w.Guess, w.Weighed} {
			if v > most && v <= farthest {
				most = v
			}
		}
	}
	x := Range{0, math.Max(most, 1e-9)}
	n := len(d.Items)
	for i, w := range d.Items {
		y := c.row(i, n, w.Name, weightFigures(s, w), x)
		a, b := Point{X: w.Guess, Y: y}, Point{X: w.Weighed, Y: y}
		if finite(a) && finite(b) {
			c.Line(Heavy, a, b)
		}
		c.Mark(Mark{At: a, Shape: Ring, Bold: true, Saying: w.Name + ", guess " + weight(s, w.Guess)})
		c.Mark(Mark{At: b, Shape: Dot, Bold: true, Saying: w.Name + ", weighed " + weight(s, w.Weighed)})
	}
	out := Sheet{Title: weightsTitle, Keys: []Key{{Shape: Ring, Pen: Heavy, Text: "guess"}, {Shape: Dot, Pen: Heavy, Text: "weighed"}}}
	if n > 0 {
		out.Panels = []Panel{{Head: weightsTitle, Scene: c, Tall: rowTall * float64(n), X: x, Y: Range{0.5, float64(n) + 0.5}}}
	}
	return out
}

const weightsTitle = "Guess against scale"

// weight writes a weight as a scale reads it: to a tenth of a pound, or to ten grams;
// what is light, and a difference of less than ten steps, as it is.
func weight(s calc.Style, kg float64) string { return scaled(s, kg, kg) }

// scaled writes a weight as closely as one of about the size of another is read.
func scaled(s calc.Style, kg, of float64) string {
	if !written(kg) {
		return "—"
	}
	step := 0.01
	if s.System != calc.Metric {
		step = 0.1 * pound
	}
	if math.Abs(of) > 20*step && math.Abs(kg) >= 10*step {
		kg = math.Round(kg/step) * step
	}
	return s.Text(calc.Mass(kg))
}

// pound is a pound in kilograms, exactly. Source: NIST Handbook 44, appendix C.
const pound = 0.45359237

func weightFigures(s calc.Style, w Weighed) string {
	switch off := w.Weighed - w.Guess; {
	case math.IsNaN(w.Weighed):
		return "guess " + weight(s, w.Guess)
	case math.IsNaN(w.Guess):
		return weight(s, w.Weighed)
	case off > 0:
		return weight(s, w.Weighed) + ", heavier by " + scaled(s, off, w.Weighed)
	case off < 0:
		return weight(s, w.Weighed) + ", lighter by " + scaled(s, -off, w.Weighed)
	}
	return weight(s, w.Weighed) + ", as guessed"
}

// SVG implements calc.Drawing.
func (d *Weights) SVG(s calc.Style) string { return svgOf(d, s) }

// Describe implements calc.Drawing.
func (d *Weights) Describe(s calc.Style) string {
	both := Weighed{}
	n := 0
	for _, w := range d.Items {
		if finite(Point{X: w.Guess, Y: w.Weighed}) {
			both.Guess, both.Weighed, n = both.Guess+w.Guess, both.Weighed+w.Weighed, n+1
		}
	}
	t := "guess against scale of " + count(len(d.Items), "part", "parts")
	if n > 0 {
		t += "; of " + count(n, "part", "parts") + " weighed, guessed " + weight(s, both.Guess) + ", found " + weightFigures(s, both)
	}
	return sentence(t)
}
