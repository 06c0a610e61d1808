package draw

import (
	"math"

	"scarph/calc"
)

// CamberMould is the mould of a deck beam: the crown over a chord.
type CamberMould struct {
	Beam, Camber float64
	Arc          bool    // an arc of a circle; else a parabola
	Depth        float64 // of the stock under the chord; 0 for half the camber
}

// Height returns the height of the crown over the chord at a distance from the centre.
func (d *CamberMould) Height(x float64) float64 {
	half := d.Beam / 2
	if !d.Arc {
		return d.Camber * (1 - x*x/(half*half))
	}
	if d.Camber == 0 {
		return 0
	}
	r := (half*half + d.Camber*d.Camber) / (2 * d.Camber)
	return math.Sqrt(math.Max(0, r*r-x*x)) - (r - d.Camber)
}

// Top returns the crown as a line within 0.01 mm of the true one.
func (d *CamberMould) Top() []Point {
	// the sag of a chord of length c in a curve of second derivative k is k c²/8
	k := 8 * d.Camber / (d.Beam * d.Beam)
	if d.Arc { // steepest at the ends
		k *= 4
	}
	n := 16
	if want := d.Beam * math.Sqrt(k/(8*hair)); want > 16 {
		n = int(math.Ceil(math.Min(4000, want)))
	}
	points := make([]Point, 0, n+1)
	for i := 0; i <= n; i++ {
		x := d.Beam * (float64(i)/float64(n) - 0.5)
		points = append(points, Point{X: x, Y: d.Height(x)})
	}
	return points
}

func (d *CamberMould) depth() float64 {
	if d.Depth > 0 {
		return d.Depth
	}
	return d.Camber / 2
}

func (d *CamberMould) scene() Scene {
	var c Scene
	if !(d.Beam > 0) || !(d.Camber >= 0) || d.Beam > farthest || d.Camber > farthest {
		return c
	}
	half := d.Beam / 2
	c.Line(Chain, Point{X: -half}, Point{X: half})
	for _, x := range d.places() {
		c.Line(Fine, Point{X: x}, Point{X: x, Y: d.Height(x)})
	}
	c.Ring(Heavy, append(d.Top(), Point{X: half, Y: -d.depth()}, Point{X: -half, Y: -d.depth()})...)
	return c
}

// places are the centre and the eighths of the beam, where the crown is laid off.
func (d *CamberMould) places() []float64 {
	var out []float64
	for i := -3; i <= 3; i++ {
		out = append(out, d.Beam*float64(i)/8)
	}
	return out
}

// Sheet implements Kind.
func (d *CamberMould) Sheet(s calc.Style) Sheet {
	c := d.scene()
	half := d.Beam / 2
	if len(c.Paths) == 0 {
		return Sheet{Title: "Camber mould", Panels: []Panel{{Scene: c}}}
	}
	for _, x := range d.places() {
		c.Label(Label{At: Point{X: x, Y: d.Height(x)}, Text: length(s, d.Height(x)), Side: Above, Turned: true, Held: true, Gap: 5})
	}
	c.Size(Size{From: Point{X: -half, Y: -d.depth()}, To: Point{X: half, Y: -d.depth()}, Off: -16, Text: length(s, d.Beam)})
	table := [][]string{{"from the centre", "over the chord"}}
	for i := 0; i <= 4; i++ {
		x := d.Beam * float64(i) / 8
		table = append(table, []string{exact(s, x), exact(s, d.Height(x))})
	}
	return Sheet{Title: "Camber mould", Panels: []Panel{{Scene: c}}, Table: table}
}

// Outline implements Flat.
func (d *CamberMould) Outline(s calc.Style) Scene {
	c := d.scene()
	if len(c.Paths) == 0 {
		return c
	}
	for _, x := range d.places() {
		c.Label(Label{At: Point{X: x}, Text: exact(s, math.Abs(x)) + " out, " + exact(s, d.Height(x)) + " up", Side: Below})
	}
	return c
}

// SVG implements calc.Drawing.
func (d *CamberMould) SVG(s calc.Style) string { return svgOf(d, s) }

// Describe implements calc.Drawing.
func (d *CamberMould) Describe(s calc.Style) string {
	way := "a parabola"
	if d.Arc {
		way = "an arc"
	}
	return sentence("camber mould of " + length(s, d.Camber) + " in " + length(s, d.Beam) + ", " + way +
		": " + exact(s, d.Height(d.Beam/4)) + " over the chord at the quarters")
}
