package draw

import (
	"math"

	"scarph/calc"
	"scarph/calc/curve"
)

// Fairness judges the stations of a line by the batten through the others: the
// line as it runs, and under it how far each station stands off, magnified.
type Fairness struct {
	Name     string // of the line, or ""
	Stations []string
	At       []float64 // metres, rising
	Values   []float64 // metres
}

// residuals returns how far each inner station stands off the batten through the
// others, and the worst of those that are judged; −1 when none can be.
func (d *Fairness) residuals() ([]float64, int) {
	if len(d.At) != len(d.Values) {
		return nil, -1
	}
	for i := range d.At {
		if !finite(Point{X: d.At[i], Y: d.Values[i]}) {
			return nil, -1
		}
	}
	r, err := curve.LeaveOneOut(d.At, d.Values)
	if err != nil {
		return nil, -1
	}
	return r, 2 + curve.Worst(r[2:len(r)-2])
}

// Sheet implements Kind.
func (d *Fairness) Sheet(s calc.Style) Sheet {
	o := Offsets{Stations: d.Stations, At: d.At}
	first, last := o.along()
	x := Range{first, last}
	residuals, worst := d.residuals()
	sheet := Sheet{Title: d.title(), Panels: []Panel{d.line(x, worst)}}
	if worst < 0 {
		sheet.Notes = []string{"It takes five stations or more to judge a line by its neighbours."}
		return sheet
	}
	sheet.Panels = append(sheet.Panels, d.bumps(s, x, residuals, worst))
	sheet.Keys = []Key{{Shape: Dot, Text: "judged by the others"}, {Shape: Ring, Text: "end effect: the batten runs free there"}}
	sheet.Notes = []string{sentence(d.verdict(s, residuals, worst))}
	return sheet
}

func (d *Fairness) title() string {
	if d.Name == "" {
		return "Fairness"
	}
	return "Fairness of " + d.Name
}

// line draws the line as it was read, the worst station picked out.
func (d *Fairness) line(x Range, worst int) Panel {
	var c Scene
	var points []Point
	for i, v := range d.Values {
		points = append(points, Point{X: at(d.At, i), Y: v})
	}
	c.Line(Plain, Bend(points)...)
	for i, p := range points {
		c.Mark(Mark{At: p, Shape: Dot, Bold: i == worst, Saying: nameAt(d.Stations, i)})
	}
	return Panel{Head: "As read", Scene: c, Tall: 70, X: x}
}

// bumps draws the residuals, those at the ends left out.
func (d *Fairness) bumps(s calc.Style, x Range, residuals []float64, worst int) Panel {
	b := bars{names: d.Stations, at: d.At, values: append([]float64(nil), residuals...), bold: worst, x: x}
	n := len(residuals)
	b.values[0], b.values[n-1] = math.NaN(), math.NaN()
	b.hollow = func(i int) bool { return i == 1 || i == n-2 }
	b.cut = math.Max(1.5*math.Abs(residuals[worst]), 1e-4)
	b.saying = func(i int) string { return moreOrLess(s, residuals[i]) }
	return Panel{Head: "Off the batten through the others", Scene: b.scene(s), Tall: 120, X: x, Y: b.reach()}
}

func moreOrLess(s calc.Style, v float64) string {
	if v < 0 {
		return small(s, -v) + " less than the batten"
	}
	return small(s, v) + " more than the batten"
}

func (d *Fairness) verdict(s calc.Style, residuals []float64, worst int) string {
	v := residuals[worst]
	if math.Abs(v) < 1e-9 {
		return "every station lies on the batten through the others"
	}
	return "worst is " + nameAt(d.Stations, worst) + ", " + moreOrLess(s, v) + ": mend the worst, then look again"
}

// SVG implements calc.Drawing.
func (d *Fairness) SVG(s calc.Style) string { return svgOf(d, s) }

// Describe implements calc.Drawing.
func (d *Fairness) Describe(s calc.Style) string {
	r, worst := d.residuals()
	t := d.title() + ", " + count(len(d.Values), "station", "stations")
	if worst < 0 {
		return sentence(t + ", too few to judge")
	}
	return sentence(t + ": " + d.verdict(s, r, worst))
}
