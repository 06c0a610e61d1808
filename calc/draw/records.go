package draw

import (
	"math"

	"scarph/calc"
)

// Dated is a figure of one day. Day counts from any day; Label is how the day is
// written: 9 Jan.
type Dated struct {
	Day   float64
	Label string
	Value float64
	// Spread is ±, 0 when not known.
	Spread float64
}

// days writes the days under a panel.
func days(c *Scene, list []Dated, floor float64) Range {
	o := Offsets{}
	for i, d := range list {
		o.At = append(o.At, d.Day)
		c.Label(Label{At: Point{X: d.Day, Y: floor}, Text: d.Label, Side: Below, Held: true, Gap: 8, Rank: rankOf(i, len(list))})
	}
	first, last := o.along()
	return Range{first, last}
}

// Running is what work and purchases come to from day to day, as running sums.
type Running struct {
	Hours []Dated // hours worked on a day
	Money []Purse
}

// Purse is money of one currency: different ones are never added.
type Purse struct {
	Currency string  // ISO 4217
	Days     []Dated // spent on a day
}

// Sheet implements Kind.
func (d *Running) Sheet(s calc.Style) Sheet {
	out := Sheet{Title: "Hours and money"}
	o := Offsets{}
	for _, list := range d.lists() {
		for _, r := range list {
			o.At = append(o.At, r.Day)
		}
	}
	first, last := o.along()
	x := wide(Range{first, last})
	if len(d.Hours) > 0 {
		p := running(d.Hours, x, hours)
		p.Head = "Hours, running sum"
		out.Panels = append(out.Panels, p)
	}
	for _, m := range d.Money {
		if len(m.Days) == 0 {
			continue
		}
		p := running(m.Days, x, func(v float64) string { return m.text(s, v) })
		p.Head = "Money, running sum"
		if m.Currency != "" {
			p.Head += " in " + m.Currency
		}
		out.Panels = append(out.Panels, p)
	}
	if len(out.Panels) == 0 {
		out.Notes = []string{"Nothing is written down yet."}
	}
	return out
}

func (d *Running) lists() [][]Dated {
	lists := [][]Dated{d.Hours}
	for _, m := range d.Money {
		lists = append(lists, m.Days)
	}
	return lists
}

// wide gives one day alone some room on both sides.
func wide(x Range) Range {
	if x.Low == x.High {
		return Range{x.Low - 0.5, x.High + 0.5}
	}
	return x
}

func (m Purse) text(s calc.Style, v float64) string {
	if x, ok := calc.Money(v, m.Currency); ok && written(v) {
		return s.Text(x)
	}
	return number(round(v, 8)) + " " + m.Currency
}

func hours(v float64) string { return number(round(v, 6)) + " h" }

// running draws the sum as it grows, with its end written out.
func running(list []Dated, x Range, text func(float64) string) Panel {
	var c Scene
	sum, least, most := 0.0, 0.0, 1e-9
	points := []Point{{X: list[0].Day}}
	for _, d := range list {
		if !(math.Abs(d.Value) <= farthest) {
			continue
		}
		points = append(points, Point{X: d.Day, Y: sum})
		sum += d.Value
		least, most = math.Min(least, sum), math.Max(most, sum) // what was brought back counts as less
		points = append(points, Point{X: d.Day, Y: sum})
	}
	days(&c, list, least)
	c.axis(steps(least, most, 1, 4), number, x.Low, x.High)
	c.Line(Heavy, points...)
	end := points[len(points)-1]
	c.Mark(Mark{At: end, Shape: Dot, Bold: true, Saying: list[len(list)-1].Label + ": " + text(sum)})
	c.Label(Label{At: end, Text: text(sum), Side: Above, Bold: true})
	return Panel{Scene: c, Tall: 110, X: x, Y: Range{least, most}}
}

// total returns the sum of the figures.
func total(list []Dated) float64 {
	sum := 0.0
	for _, d := range list {
		if math.Abs(d.Value) <= farthest {
			sum += d.Value
		}
	}
	return sum
}

// SVG implements calc.Drawing.
func (d *Running) SVG(s calc.Style) string { return svgOf(d, s) }

// Describe implements calc.Drawing.
func (d *Running) Describe(s calc.Style) string {
	var parts []string
	tell := func(list []Dated, sum string) {
		if n := len(list); n == 1 || n > 0 && list[0].Label == list[n-1].Label {
			parts = append(parts, sum+" on "+list[0].Label)
		} else if n > 0 {
			parts = append(parts, sum+" from "+list[0].Label+" to "+list[n-1].Label)
		}
	}
	tell(d.Hours, hours(total(d.Hours)))
	for _, m := range d.Money {
		tell(m.Days, m.text(s, total(m.Days)))
	}
	if parts == nil {
		return "Hours and money: nothing is written down yet."
	}
	return sentence("hours and money, running sums: " + and(parts))
}

// Moisture is meter readings over time against the band that is wanted; all are
// shares of the dry weight, 0.12 for 12 %.
type Moisture struct {
	Readings  []Dated
	Low, High float64
}

// Sheet implements Kind.
func (d *Moisture) Sheet(calc.Style) Sheet {
	out := Sheet{Title: "Moisture"}
	if len(d.Readings) == 0 {
		out.Notes = []string{"No reading yet."}
		return out
	}
	var c Scene
	values := []float64{d.Low, d.High}
	for _, r := range d.Readings {
		values = append(values, r.Value-r.Spread, r.Value+r.Spread)
	}
	y := tight(values, 0.01)
	x := wide(days(&c, d.Readings, y.Low))
	c.axis(steps(y.Low, y.High, 0.01, 5), percent, x.Low, x.High)
	c.Paths = append(c.Paths, Path{Points: box(Point{X: x.Low, Y: d.Low}, Point{X: x.High, Y: d.High}), Closed: true, Pen: Dotted, Shaded: true})
	c.Label(Label{At: Point{X: x.High, Y: (d.Low + d.High) / 2}, Text: "wanted", Side: Right, Sliding: true})
	var line []Point
	for _, r := range d.Readings {
		p := Point{X: r.Day, Y: r.Value}
		line = append(line, p)
		c.Mark(Mark{At: p, Shape: Dot, SpanY: r.Spread, Saying: r.Label + ": " + percent(r.Value)})
	}
	c.Line(Plain, line...)
	c.Label(Label{At: line[len(line)-1], Text: percent(d.Readings[len(line)-1].Value), Side: Above, Bold: true})
	out.Panels = []Panel{{Head: "Moisture, of the dry weight", Scene: c, Tall: 150, X: x, Y: y}}
	return out
}

func percent(v float64) string { return number(round(100*v, 4)) + " %" }

// SVG implements calc.Drawing.
func (d *Moisture) SVG(s calc.Style) string { return svgOf(d, s) }

// Describe implements calc.Drawing.
func (d *Moisture) Describe(calc.Style) string {
	n := len(d.Readings)
	if n == 0 {
		return "Moisture: no reading yet."
	}
	last := d.Readings[n-1]
	where := "within"
	switch {
	case last.Value > d.High:
		where = "over"
	case last.Value < d.Low:
		where = "under"
	}
	return sentence("moisture, " + count(n, "reading", "readings") + ": the last, " + last.Label + ", is " + percent(last.Value) + ", " + where + " the " + percent(d.Low) + " to " + percent(d.High) + " that is wanted")
}
