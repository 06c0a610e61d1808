package trade

import (
	"math"

	"scarph/calc"
	"scarph/calc/draw"
)

// isDrawing gives a function of a picture what all of them have.
func isDrawing(f *Function) {
	f.Result = "drawing"
	f.Stepped = true // its readings carry their ± into the picture
	f.Eval = bounded(f.Eval)
}

// mostDrawn bounds the lists of a drawing: more can be drawn, but not read.
const mostDrawn = 500

// bounded refuses lists too long to be looked at.
func bounded(eval func(*Call) (calc.Value, error)) func(*Call) (calc.Value, error) {
	return func(c *Call) (calc.Value, error) {
		for i, p := range c.fn.Params {
			if n := longest(c.Value(i)); n > mostDrawn {
				return calc.Value{}, calc.Errorf(calc.CodeLimit, "%s draws up to %d of a kind; %s has %d", c.fn.Name, mostDrawn, p.Name, n)
			}
		}
		return eval(c)
	}
}

// longest is the length of the longest list in a value.
func longest(x calc.Value) int {
	n := len(x.Items())
	for _, it := range x.Items() {
		n = max(n, longest(it))
	}
	return n
}

// none is the text that leaves out an argument before one that is given.
const none = "none"

// left reports whether argument i was left out, or is "none".
func left(c *Call, i int) bool {
	return !c.Given(i) || c.Value(i).Kind() == calc.Text && c.Value(i).Text() == none
}

// station names: those of a list's labels, else counted from one.
func stationNames(labels []string, n int) []string {
	names := make([]string, n)
	for i := range names {
		names[i] = trim(float64(i + 1))
		if i < len(labels) {
			names[i] = calc.Words(labels[i])
		}
	}
	return names
}

// spreads returns the ± of each element of a list.
func spreads(x calc.Value) []float64 {
	out := make([]float64, len(x.Items()))
	for i, it := range x.Items() {
		out[i] = it.Likely()
	}
	return out
}

// sameLength refuses two lists that do not go together.
func sameLength(c *Call, i, j int) error {
	a, b := len(c.Value(i).Items()), len(c.Value(j).Items())
	if a == b {
		return nil
	}
	return calc.Errorf(calc.CodeShape, "%s has %s but %s has %d", c.fn.Params[i].Name, several(a, "element"), c.fn.Params[j].Name, b).
		WithHint("give one for each")
}

// rising refuses positions that do not go one way.
func risingPositions(at []float64) error {
	for i := 1; i < len(at); i++ {
		if !(at[i] > at[i-1]) {
			return calc.Errorf(calc.CodeDomain, "station positions must rise: %s comes after %s", In(at[i]), In(at[i-1])).
				WithHint("put the stations in their order from the bow, each once")
		}
	}
	return nil
}

// angles reads argument i, one angle for all n places or a list of them; which says
// what the places are. An argument left out gives nil.
func angles(c *Call, i, n int, which string) ([]float64, error) {
	if left(c, i) {
		return nil, nil
	}
	v := c.Value(i)
	name := c.fn.Params[i].Name
	items := v.Items()
	if v.Kind() != calc.List {
		items = nil
		for k := 0; k < n; k++ {
			items = append(items, v)
		}
	}
	if len(items) == 0 {
		return nil, nil
	}
	if len(items) != n {
		return nil, calc.Errorf(calc.CodeShape, "%s gives %s for %d %s", name, several(len(items), "angle"), n, which).
			WithHint("give one for each, or one for all")
	}
	out := make([]float64, n)
	for k, a := range items {
		switch {
		case a.Kind() == calc.Missing:
			out[k] = math.NaN()
		case !a.IsQuantity():
			return nil, calc.Errorf(calc.CodeKind, "%s wants an angle; this is %s", name, a.What())
		case a.D.IsNumber():
			return nil, calc.Errorf(calc.CodeBareNumber, "%s wants an angle", name).WithHint("%s", calc.WhatUnit(a, calc.DimAngle))
		case a.D != calc.DimAngle:
			return nil, calc.Errorf(calc.CodeDimension, "%s wants an angle; this is %s, %s", name, a.D.A(), calc.Style{}.Text(a))
		case math.Abs(a.V) >= math.Pi/2:
			return nil, calc.Errorf(calc.CodeDomain, "%s: a bevel of %s is no bevel from square", name, degreesText(a.V)).WithHint("count it from square, under 90°")
		default:
			out[k] = a.V
		}
	}
	return out, nil
}

// lengthsOf reads a list of lengths of which some may be missing, as NaN.
func lengthsOf(v calc.Value, what string, d calc.Dimension) ([]float64, error) {
	if v.Kind() != calc.List {
		return nil, calc.Errorf(calc.CodeKind, "%s wants a list; this is %s", what, v.What())
	}
	out := make([]float64, len(v.Items()))
	for k, q := range v.Items() {
		switch {
		case q.Kind() == calc.Missing:
			out[k] = math.NaN()
		case !q.IsQuantity():
			return nil, calc.Errorf(calc.CodeKind, "%s, %s: %s is wanted; this is %s", what, calc.Words(labelAt(v.Labels(), k)), d.A(), q.What())
		case q.D.IsNumber() && !d.IsNumber():
			return nil, calc.Errorf(calc.CodeBareNumber, "%s, %s: %s is wanted", what, calc.Words(labelAt(v.Labels(), k)), d.A()).WithHint("%s", calc.WhatUnit(q, d))
		case q.D != d:
			return nil, calc.Errorf(calc.CodeDimension, "%s, %s: %s is wanted; this is %s", what, calc.Words(labelAt(v.Labels(), k)), d.A(), q.D.A())
		default:
			out[k] = q.V
		}
	}
	return out, nil
}

func drawn(d calc.Drawing) (calc.Value, error) { return calc.Drawn(d), nil }

// flatPointsOf reads argument i, a list of points, as points of a plane.
func flatPointsOf(c *Call, i int, least int) ([]draw.Point, error) {
	pts := planePoints(c, i)
	if len(pts) < least {
		return nil, tooFew(len(pts), least)
	}
	return pts, nil
}
