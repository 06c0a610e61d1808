package draw_test

import (
	"encoding/xml"
	"io"
	"math"
	"math/rand"
	"strings"
	"testing"

	"scarph/calc"
	"scarph/calc/draw"
)

// examine asks of a picture what every picture must be: well-formed, with a title, a
// description and a role, without style attributes, with numbers that are numbers,
// and with no two texts over one another.
func examine(t *testing.T, name string, k draw.Kind, s calc.Style) {
	t.Helper()
	svg := k.SVG(s)
	if d := k.Describe(s); d == "" || strings.Contains(d, "NaN") {
		t.Errorf("%s: described as %q", name, d)
	}
	for _, bad := range []string{"NaN", "Inf", "style=", "%!"} {
		if strings.Contains(svg, bad) {
			t.Errorf("%s: the picture has %s", name, bad)
		}
	}
	for _, good := range []string{`role="img"`, "<title>", "<desc>", `viewBox="0 0 `} {
		if !strings.Contains(svg, good) {
			t.Errorf("%s: the picture has no %s", name, good)
		}
	}
	for d := xml.NewDecoder(strings.NewReader(svg)); ; {
		if _, err := d.Token(); err == io.EOF {
			break
		} else if err != nil {
			t.Fatalf("%s: %v", name, err)
		}
	}
	sheet := k.Sheet(s)
	plate := sheet.Layout(draw.Wide)
	if !(plate.Width > 0) || !(plate.Height > 0) || plate.Height > 1e5 {
		t.Errorf("%s: a plate of %g by %g", name, plate.Width, plate.Height)
	}
	clear(t, name, plate)
}

// clear reports texts that lie over one another or off the plate.
func clear(t *testing.T, name string, p draw.Plate) {
	t.Helper()
	for i, a := range p.Letters {
		ax0, ay0, ax1, ay1 := a.Bounds()
		if ax0 < -0.5 || ay0 < -0.5 || ax1 > p.Width+0.5 || ay1 > p.Height+0.5 {
			t.Errorf("%s: %q lies off the plate", name, a.Text)
		}
		for _, b := range p.Letters[i+1:] {
			bx0, by0, bx1, by1 := b.Bounds()
			if ax0 < bx1 && bx0 < ax1 && ay0 < by1 && by0 < ay1 {
				t.Errorf("%s: %q lies over %q", name, a.Text, b.Text)
			}
		}
	}
}

// TestEveryPicture examines all kinds in four styles.
func TestEveryPicture(t *testing.T) {
	all := pictures()
	for _, name := range names(all) {
		for _, s := range []calc.Style{{}, metric, {Angle: calc.RisePerFoot}, {System: calc.Metric, Angle: calc.DegreesMinutes, Nearest: 1e-3}} {
			examine(t, name, all[name].kind, s)
		}
	}
}

// awkward numbers: nothing, no number, no end, the tiny and the huge.
var awkward = []float64{0, 0, math.NaN(), math.Inf(1), math.Inf(-1), 1e300, -1e300, 1e13, 1e11, 5e-324, 1e-9, -1, 1, 0.5, 2}

type source struct{ *rand.Rand }

func (r source) number() float64 {
	if r.Intn(3) == 0 {
		return awkward[r.Intn(len(awkward))]
	}
	return r.NormFloat64()
}

func (r source) numbers(n int) []float64 {
	out := make([]float64, n)
	for i := range out {
		out[i] = r.number()
	}
	return out
}

func (r source) points(n int) []draw.Point {
	out := make([]draw.Point, n)
	for i := range out {
		out[i] = draw.Point{X: r.number(), Y: r.number()}
	}
	return out
}

func (r source) names(n int) []string {
	words := []string{"st 1", "", "a name as long as a whole sentence, which no column holds", `<&">`, "船尾", "é\x00", strings.Repeat("W", 80)}
	out := make([]string, n)
	for i := range out {
		out[i] = words[r.Intn(len(words))]
	}
	return out
}

// value is a length, an angle, nothing, or a word.
func (r source) value() calc.Value {
	return []calc.Value{calc.Length(r.number()), calc.Angle(r.number()), calc.NoValue(), calc.Str("none")}[r.Intn(4)]
}

func (r source) dated(n int) []draw.Dated {
	names := r.names(n)
	out := make([]draw.Dated, n)
	for i := range out {
		out[i] = draw.Dated{Day: r.number(), Label: names[i], Value: r.number(), Spread: r.number()}
	}
	return out
}

// kinds makes one of each kind out of awkward numbers and lists of any length.
func (r source) kinds() map[string]draw.Kind {
	n := func() int { return []int{0, 1, 2, 3, 5, 9, 40}[r.Intn(7)] }
	hand := func() draw.Hand { return draw.Hand(r.Intn(3)) }
	o := draw.Offsets{Stations: r.names(n()), At: r.numbers(n()), Draft: r.number(), Bent: r.Intn(2) == 0}
	for i := 0; i < n()%10; i++ {
		o.Lines = append(o.Lines, draw.OffsetLine{Name: r.names(1)[0], Half: r.numbers(n()), Height: r.numbers(n())})
		o.Found = append(o.Found, draw.Reading{Line: r.Intn(6) - 1, Station: r.Intn(6) - 1, Hand: hand(), Half: r.number(), Height: r.number(), HalfSpread: r.number(), HeightSpread: r.number()})
		o.Centres = append(o.Centres, draw.Centre{Name: r.names(1)[0], X: r.number(), Height: r.number()})
	}
	d := &draw.DeviationMap{Stations: r.names(n()), At: r.numbers(n()), Drawn: r.numbers(n())}
	for i := 0; i < n(); i++ {
		d.Found = append(d.Found, draw.Found{Station: r.Intn(6) - 1, Hand: hand(), Value: r.number(), Spread: r.number()})
	}
	w, v, q, sl, bl := &draw.Weights{}, &draw.Sensitivity{Of: "x"}, &draw.Ripple{}, &draw.SheetLayout{Long: r.number(), Across: r.number()}, &draw.BoardLayout{Stock: r.number(), Kerf: r.number()}
	for i := 0; i < n(); i++ {
		t := r.names(3)
		w.Items = append(w.Items, draw.Weighed{Name: t[0], Guess: r.number(), Weighed: r.number()})
		v.Items = append(v.Items, draw.Influence{Name: t[0], Part: calc.Length(r.number())})
		q.Items = append(q.Items, draw.Moved{Name: t[0], Before: r.value(), After: r.value()})
		sl.Pieces = append(sl.Pieces, draw.Piece{Name: t[0], Sheet: r.Intn(20), X: r.number(), Y: r.number(), Long: r.number(), Across: r.number()})
		bl.Sticks = append(bl.Sticks, r.numbers(n()%6))
	}
	return map[string]draw.Kind{
		"body plan": &draw.BodyPlan{Offsets: o}, "profile": &draw.Profile{Offsets: o}, "half-breadth": &draw.HalfBreadth{Offsets: o},
		"tick strip":  &draw.TickStrip{Names: r.names(n()), Marks: r.numbers(n())},
		"bevel strip": &draw.BevelStrip{Stations: r.names(n()), At: r.numbers(n()), Bevels: r.numbers(n()), Made: r.numbers(n()), Thick: r.number()},
		"fairness":    &draw.Fairness{Name: r.names(1)[0], Stations: r.names(n()), At: r.numbers(n()), Values: r.numbers(n())},
		"panel":       &draw.ExpandedPanel{Name: r.names(1)[0], Stations: r.names(n()), Edge1: r.points(n()), Edge2: r.points(n())},
		"transom":     &draw.Transom{Half: r.points(n()), Bevels: r.numbers(n())},
		"frame":       &draw.Frame{Name: r.names(1)[0], Section: r.points(n()), Moulded: r.number(), Bevels: r.numbers(n()), Face: "after", Bent: r.Intn(2) == 0},
		"stem":        &draw.Stem{Rabbet: r.points(n()), Angles: r.numbers(n()), Plank: r.number()},
		"camber":      &draw.CamberMould{Beam: r.number(), Camber: r.number(), Arc: r.Intn(2) == 0, Depth: r.number()},
		"part":        &draw.Part{Name: r.names(1)[0], Thick: r.number(), Width: r.number(), Length: r.number(), Ends: [2]float64{r.number(), r.number()}},
		"sheets":      sl, "boards": bl, "deviation": d,
		"hog":     &draw.Hog{At: r.numbers(n()), Readings: r.numbers(n()), Spread: r.numbers(n())},
		"twist":   &draw.Twist{Port: r.number(), Starboard: r.number(), PortSpread: r.number(), StarboardSpread: r.number(), Breadth: r.number()},
		"fit":     &draw.BestFit{Points: r.points(n()), Arc: r.Intn(2) == 0},
		"running": &draw.Running{Hours: r.dated(n()), Money: []draw.Purse{{Currency: "EUR", Days: r.dated(n())}, {Currency: "shells", Days: r.dated(n())}}}, "moisture": &draw.Moisture{Readings: r.dated(n()), Low: r.number(), High: r.number()},
		"weights": w, "sensitivity": v, "ripple": q,
	}
}

// TestAwkwardNumbers: whatever comes in, a picture comes out, and whatever is flat has
// an outline of numbers.
func TestAwkwardNumbers(t *testing.T) {
	rounds := 40
	if testing.Short() {
		rounds = 20
	}
	for seed := 0; seed < rounds; seed++ {
		r := source{rand.New(rand.NewSource(int64(seed)))}
		kinds := r.kinds()
		for name, k := range kinds {
			s := []calc.Style{{}, metric}[seed%2]
			examine(t, name, k, s)
			if f, ok := k.(draw.Flat); ok {
				scene := f.Outline(s)
				if low, high, ok := scene.Bounds(); ok && math.Max(high.X-low.X, high.Y-low.Y) < 100 {
					p := scene.At(3700)
					for _, l := range p.Letters {
						if x0, y0, _, _ := l.Bounds(); math.IsNaN(x0+y0) || math.IsInf(x0+y0, 0) {
							t.Errorf("%s: a letter at %g, %g", name, x0, y0)
						}
					}
				}
			}
			if t.Failed() {
				t.Fatalf("%s, seed %d", name, seed)
			}
		}
	}
}
