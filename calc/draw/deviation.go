package draw

import (
	"math"
	"sort"
	"strings"

	"scarph/calc"
)

// Found is a reading of one station, metres, with its ±.
type Found struct {
	Station       int
	Hand          Hand
	Value, Spread float64
}

// DeviationMap shows what was found less what was drawn, station by station, port
// and starboard apart, and where both were read, port less starboard.
type DeviationMap struct {
	Stations []string
	At       []float64 // metres; nil for stations equally far apart
	Drawn    []float64
	Found    []Found
}

func (d *DeviationMap) places() []float64 {
	if len(d.At) == len(d.Stations) && len(d.At) > 0 {
		return d.At
	}
	out := make([]float64, len(d.Stations))
	for i := range out {
		out[i] = float64(i)
	}
	return out
}

// off returns a reading less the drawn figure, NaN when there is none.
func (d *DeviationMap) off(f Found) float64 { return f.Value - at(d.Drawn, f.Station) }

// Sheet implements Kind.
func (d *DeviationMap) Sheet(s calc.Style) Sheet {
	places := d.places()
	o := Offsets{At: places}
	first, last := o.along()
	x := Range{first, last}
	out := Sheet{Title: "Found less drawn", Panels: []Panel{d.deviations(s, x, places)}, Keys: d.keys(), Table: d.worst(s)}
	if p, ok := d.sides(s, x, places); ok {
		out.Panels = append(out.Panels, p)
	}
	return out
}

func (d *DeviationMap) keys() []Key {
	var readings []Reading
	for _, f := range d.Found {
		readings = append(readings, Reading{Hand: f.Hand})
	}
	return handKeys(readings)
}

func (d *DeviationMap) deviations(s calc.Style, x Range, places []float64) Panel {
	var c Scene
	b := bars{}
	for _, f := range d.Found {
		b.values, b.spread = append(b.values, d.off(f)), append(b.spread, f.Spread)
	}
	r := b.reach()
	steps, text := lengthSteps(s, r.Low, r.High, 5)
	c.axis(steps, text, x.Low, x.High)
	c.Line(Plain, Point{X: x.Low}, Point{X: x.High})
	for i, name := range d.Stations {
		c.Label(Label{At: Point{X: at(places, i), Y: r.Low}, Text: name, Side: Below, Held: true, Gap: 10, Rank: rankOf(i, len(d.Stations))})
	}
	for _, f := range d.Found {
		c.Mark(Mark{At: Point{X: at(places, f.Station), Y: d.off(f)}, Shape: hands[f.Hand].shape, SpanY: f.Spread,
			Saying: nameAt(d.Stations, f.Station) + ", " + hands[f.Hand].word + " " + spreadText(s, f.Value, f.Spread) + ", drawn " + exact(s, at(d.Drawn, f.Station))})
	}
	return Panel{Head: "Boat less paper, in " + unitWord(s), Scene: c, Tall: 150, X: x, Y: r}
}

// sides draws port less starboard where both were read; what is more than twice its
// own ± is picked out.
func (d *DeviationMap) sides(s calc.Style, x Range, places []float64) (Panel, bool) {
	b := bars{names: d.Stations, at: places, bold: -1, x: x}
	for range d.Stations {
		b.values, b.spread = append(b.values, math.NaN()), append(b.spread, 0)
	}
	any := false
	for _, p := range d.Found {
		for _, q := range d.Found {
			if p.Hand == Port && q.Hand == Starboard && p.Station == q.Station && p.Station >= 0 && p.Station < len(b.values) {
				b.values[p.Station], b.spread[p.Station] = p.Value-q.Value, math.Hypot(p.Spread, q.Spread)
				any = true
			}
		}
	}
	most := 0.0
	for i, v := range b.values {
		if math.Abs(v) > most && math.Abs(v) > 2*b.spread[i] {
			most, b.bold = math.Abs(v), i
		}
	}
	b.hollow = func(i int) bool { return math.Abs(b.values[i]) <= 2*b.spread[i] }
	b.saying = func(i int) string { return fuller(s, b.values[i]) }
	return Panel{Head: "Port less starboard: filled, it stands out from its ±", Scene: b.scene(s), Tall: 120, X: x, Y: b.reach()}, any
}

func fuller(s calc.Style, v float64) string {
	switch {
	case v > 0:
		return "port fuller by " + small(s, v)
	case v < 0:
		return "starboard fuller by " + small(s, -v)
	}
	return "both sides alike"
}

// worst lists the readings that lie furthest from the drawing, ten at most.
func (d *DeviationMap) worst(s calc.Style) [][]string {
	var list []Found
	for _, f := range d.Found {
		if !math.IsNaN(d.off(f)) {
			list = append(list, f)
		}
	}
	sort.SliceStable(list, func(a, b int) bool { return math.Abs(d.off(list[a])) > math.Abs(d.off(list[b])) })
	if len(list) == 0 {
		return nil
	}
	rows := [][]string{{"furthest off", "side", "found", "off"}}
	for _, f := range list[:min(10, len(list))] {
		side := hands[f.Hand].word
		rows = append(rows, []string{nameAt(d.Stations, f.Station), side, onMark(spreadText(s, f.Value, f.Spread)), small(s, d.off(f))})
	}
	return rows
}

func lessMore(signed string) string {
	if less, ok := strings.CutPrefix(signed, "−"); ok {
		return less + " less"
	}
	return signed + " more"
}

// SVG implements calc.Drawing.
func (d *DeviationMap) SVG(s calc.Style) string { return svgOf(d, s) }

// Describe implements calc.Drawing.
func (d *DeviationMap) Describe(s calc.Style) string {
	t := "deviation of " + count(len(d.Found), "found reading", "found readings") + " from the drawing at " + count(len(d.Stations), "station", "stations")
	if w := d.worst(s); w != nil {
		t += "; furthest off is " + w[1][0] + ", " + w[1][1] + ", " + lessMore(w[1][3]) + " than drawn"
	}
	return sentence(t)
}
