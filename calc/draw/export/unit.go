package export

import (
	"math"
	"strconv"
	"strings"

	"scarph/calc"
	"scarph/calc/draw"
)

// Unit is what the numbers of a file are counted in.
type Unit struct {
	Name string  // as SVG writes it: mm, in
	Word string  // as people say it: millimetres, inches
	Size float64 // metres
}

// Millimetres and Inches are the two units.
func Millimetres() Unit { return Unit{"mm", "millimetres", 0.001} }
func Inches() Unit      { return Unit{"in", "inches", 0.0254} }

// FindUnit returns the unit with the given name, mm or in.
func FindUnit(name string) (Unit, error) {
	for _, u := range []Unit{Millimetres(), Inches()} {
		if u.Name == strings.ToLower(strings.TrimSpace(name)) {
			return u, nil
		}
	}
	return Unit{}, calc.Errorf(calc.CodeUnknownUnit, "a shape is written in mm or in, not in %s", name)
}

// format writes a number of the file.
func format(v float64) string {
	t := strconv.FormatFloat(math.Round(v*1e4)/1e4, 'f', -1, 64)
	if t == "-0" {
		return "0"
	}
	return t
}

// letterMM is the height of letters in a file, millimetres.
const letterMM = 3.5

// extent is the rectangle that lines and letters take, in the file's units, y down.
type extent struct{ x0, y0, x1, y1 float64 }

// plate lays a scene out with its letters at their true height, in the file's units;
// y runs down.
func plate(s draw.Scene, u Unit) (draw.Plate, extent, error) {
	low, high, ok := s.Bounds()
	if !ok {
		return draw.Plate{}, extent{}, calc.Errorf(calc.CodeDomain, "there is no shape to write")
	}
	if math.Max(math.Max(math.Abs(low.X), math.Abs(low.Y)), math.Max(math.Abs(high.X), math.Abs(high.Y))) > 1e4 {
		return draw.Plate{}, extent{}, calc.Errorf(calc.CodeLimit, "the shape reaches further than 10 km")
	}
	scale := draw.Type / letterMM * 1000 // picture units a metre
	p := s.At(scale)
	k := 1 / scale / u.Size
	e := extent{math.Inf(1), math.Inf(1), math.Inf(-1), math.Inf(-1)}
	grow := func(x0, y0, x1, y1 float64) {
		e = extent{math.Min(e.x0, x0*k), math.Min(e.y0, y0*k), math.Max(e.x1, x1*k), math.Max(e.y1, y1*k)}
	}
	for _, s := range p.Strokes {
		for _, q := range s.Points {
			grow(q.X-s.Radius, q.Y-s.Radius, q.X+s.Radius, q.Y+s.Radius)
		}
	}
	for _, l := range p.Letters {
		grow(l.Bounds())
	}
	for i := range p.Strokes {
		p.Strokes[i].Radius *= k
		for j := range p.Strokes[i].Points {
			q := &p.Strokes[i].Points[j]
			q.X, q.Y = q.X*k, q.Y*k
		}
	}
	for i := range p.Letters {
		q := &p.Letters[i].At
		q.X, q.Y = q.X*k, q.Y*k
	}
	return p, e, nil
}
