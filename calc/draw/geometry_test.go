package draw_test

import (
	"math"
	"strings"
	"testing"

	"scarph/calc"
	"scarph/calc/draw"
)

func near(t *testing.T, what string, got, want, tol float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tol) {
		t.Errorf("%s: %.7g, want %.7g", what, got, want)
	}
}

// paths returns the lines of a pen in the panel of a sheet.
func paths(k draw.Kind, panel int, pen draw.Pen) []draw.Path {
	var out []draw.Path
	for _, p := range k.Sheet(calc.Style{}).Panels[panel].Scene.Paths {
		if p.Pen == pen {
			out = append(out, p)
		}
	}
	return out
}

// through reports whether a line has a point there, to a hundredth of a millimetre.
func through(p draw.Path, x, y float64) bool {
	for _, q := range p.Points {
		if math.Abs(q.X-x) < 1e-5 && math.Abs(q.Y-y) < 1e-5 {
			return true
		}
	}
	return false
}

// TestLinesMeetTheOffsets: every line of the plans passes through every offset.
func TestLinesMeetTheOffsets(t *testing.T) {
	o := sorrel()
	profile, plan := &draw.Profile{Offsets: o}, &draw.HalfBreadth{Offsets: o}
	for k, l := range o.Lines {
		for i, x := range o.At {
			if !through(paths(profile, 0, draw.Plain)[k], x, l.Height[i]) || !through(paths(plan, 0, draw.Plain)[k], x, l.Half[i]) {
				t.Errorf("%s misses station %d", l.Name, i)
			}
		}
	}
	body := paths(&draw.BodyPlan{Offsets: o}, 0, draw.Plain)
	for i := range o.At {
		side := 1.0
		if i > 5 { // the widest station is the fifth
			side = -1
		}
		for _, l := range o.Lines {
			if !through(body[i], side*l.Half[i], l.Height[i]) {
				t.Errorf("section %d misses the %s", i, l.Name)
			}
		}
	}
}

// TestWaterline against the section worked by hand: at station 2 of the pram the water
// stands 52.4 mm over the chine's zero and meets the side from (500, 0) to (640, 372).
func TestWaterline(t *testing.T) {
	p := pippin()
	p.Draft = 0.1324
	water := paths(&draw.HalfBreadth{Offsets: p}, 0, draw.Dashed)[0]
	for _, q := range water.Points {
		if math.Abs(q.X-1.170) < 1e-9 {
			near(t, "half-breadth in the water", q.Y, 0.5+0.14*52.4/372, 1e-9)
			return
		}
	}
	t.Error("the waterline has no point at station 2")
}

// TestOneScale: a drawing of lines or shapes is true along and across, and every point
// of the picture is its point of the boat at that scale.
func TestOneScale(t *testing.T) {
	for name, k := range map[string]draw.Kind{"profile": &draw.Profile{Offsets: sorrel()}, "panel": sidePanel(), "mould": shapesPictures()["mould"].kind} {
		sheet := k.Sheet(calc.Style{})
		sheet = draw.Sheet{Panels: sheet.Panels[:1]}
		plate := sheet.Layout(draw.Wide)
		scene := sheet.Panels[0].Scene
		var want, got []draw.Point
		for _, p := range scene.Paths {
			want = append(want, p.Points...)
		}
		for _, s := range plate.Strokes[:len(scene.Paths)] {
			got = append(got, s.Points...)
		}
		far := 0
		for i := range want {
			if math.Hypot(want[i].X-want[0].X, want[i].Y-want[0].Y) > math.Hypot(want[far].X-want[0].X, want[far].Y-want[0].Y) {
				far = i
			}
		}
		scale := math.Hypot(got[far].X-got[0].X, got[far].Y-got[0].Y) / math.Hypot(want[far].X-want[0].X, want[far].Y-want[0].Y)
		for i := range want {
			near(t, name+", along", got[i].X-got[0].X, scale*(want[i].X-want[0].X), 1e-6)
			near(t, name+", up", got[0].Y-got[i].Y, scale*(want[i].Y-want[0].Y), 1e-6)
		}
	}
}

// TestBendMeetsTheBatten: the flattened curve passes through its points and lies
// within 0.02 mm of a curve flattened a thousand times finer.
func TestBendMeetsTheBatten(t *testing.T) {
	pts := sidePanel().Edge1
	bent := draw.Bend(pts)
	for _, p := range pts {
		if !through(draw.Path{Points: bent}, p.X, p.Y) {
			t.Errorf("misses %v", p)
		}
	}
	c := draw.CamberMould{Beam: 1.2, Camber: .15, Arc: true}
	top := c.Top()
	for i := 1; i < len(top); i++ {
		x := (top[i-1].X + top[i].X) / 2
		near(t, "camber between its points", (top[i-1].Y+top[i].Y)/2, c.Height(x), 2e-5)
	}
}

// TestMarksAndSpreads: a reading lies where it was read, its bar is as long as its ±.
func TestMarksAndSpreads(t *testing.T) {
	q := quillet()
	marks := (&draw.HalfBreadth{Offsets: q}).Sheet(metric).Panels[0].Scene.Marks
	if len(marks) != len(q.Found) {
		t.Fatalf("%d marks for %d readings", len(marks), len(q.Found))
	}
	shapes := map[draw.Hand]draw.Shape{draw.Port: draw.Square, draw.Starboard: draw.Triangle}
	for i, r := range q.Found {
		m := marks[i]
		if m.At.X != q.At[r.Station] || m.At.Y != r.Half || m.SpanY != r.HalfSpread || m.Shape != shapes[r.Hand] {
			t.Errorf("reading %d: %+v", i, m)
		}
	}
	words := (&draw.HalfBreadth{Offsets: q}).SVG(metric)
	for _, w := range []string{"port, found", "starboard, found", "622 ± 2 mm"} {
		if !strings.Contains(words, w) {
			t.Errorf("the picture does not say %q", w)
		}
	}
}

// TestBevelGaps against the table of the flat-bottomed skiff: a log of 1 1/2 in sawn at
// 12.907°, hundred-thousandths of an inch.
func TestBevelGaps(t *testing.T) {
	d := &draw.BevelStrip{Bevels: degrees(9.987, 14.294, 15.601, 15.742, 15.893, 16.434, 17.133, 17.199),
		Made: degrees(12.907, 12.907, 12.907, 12.907, 12.907, 12.907, 12.907, 12.907), Thick: 1.5 * inch}
	for i, want := range []float64{-.0796, .0384, .0751, .0791, .0833, .0987, .1187, .1205} {
		near(t, "to plane off", d.Gap(i)/inch, want, 7e-5) // half its last digit, and half that of the angle
	}
}

// TestWedge draws a bevel at its own angle.
func TestWedge(t *testing.T) {
	k := &draw.BevelStrip{Stations: []string{"st 1"}, At: []float64{0}, Bevels: degrees(16.434)}
	sheet := k.Sheet(calc.Style{})
	sheet = draw.Sheet{Panels: sheet.Panels[:1]}
	p := sheet.Layout(draw.Wide).Strokes[0].Points
	near(t, "the wedge's angle", math.Atan2(p[2].X-p[1].X, p[0].Y-p[1].Y)*180/math.Pi, 16.434, 1e-9)
}

// TestBevelStripOnPaper: the line at each station leans by the bevel, from the station's
// true place.
func TestBevelStripOnPaper(t *testing.T) {
	d := stripsPictures()["bevel_strip"].kind.(*draw.BevelStrip)
	scene := d.Outline(calc.Style{})
	for i, a := range d.Bevels {
		square, lean := scene.Paths[2*i].Points, scene.Paths[2*i+1].Points
		near(t, "the station's place", square[0].X, d.At[i], 1e-12)
		near(t, "square to the edge", square[1].X, square[0].X, 1e-12)
		near(t, "the bevel", math.Atan2(lean[1].X-lean[0].X, lean[1].Y-lean[0].Y), a, 1e-12)
	}
}

// TestFairnessOfTheSlip: leave-one-out by the numbers of the skiff's log.
func TestFairnessOfTheSlip(t *testing.T) {
	f := &draw.Fairness{Stations: stations(9), At: sorrel().At, Values: slipped()}
	marks := f.Sheet(calc.Style{}).Panels[1].Scene.Marks
	for i, want := range []float64{.092, -.046, .274, -.683, .995, -.749, .456} {
		near(t, "residual", marks[i].At.Y/inch, want, 5e-4)
		if (marks[i].Shape == draw.Ring) != (i == 0 || i == 6) || marks[i].Bold != (i == 4) {
			t.Errorf("station %d is marked %+v", i+1, marks[i])
		}
	}
}

// TestFairnessCut: what runs free at an end is not drawn over the stations that are
// judged, but its figure is written.
func TestFairnessCut(t *testing.T) {
	k := stripsPictures()["fairness_cut"].kind
	panel := k.Sheet(calc.Style{}).Panels[1]
	if len(panel.Scene.Marks) != 5 { // of seven inner stations, the first and the last are cut
		t.Errorf("%d marks", len(panel.Scene.Marks))
	}
	worst := 0.0
	for _, m := range panel.Scene.Marks {
		if m.Shape == draw.Dot {
			worst = math.Max(worst, math.Abs(m.At.Y))
		}
	}
	near(t, "worst of the judged", worst/inch, .0788, 5e-5)
	near(t, "as far as it is drawn", panel.Y.High, 1.5*worst, 1e-9)
	if svg := k.SVG(calc.Style{}); !strings.Contains(svg, "↑ 0.541 in") {
		t.Error("the end effect is not told")
	}
}

// TestSurveyFigures: hog, twist and best arc of the surveyed dinghy.
func TestSurveyFigures(t *testing.T) {
	for words, k := range map[string]draw.Kind{
		"hog of 15.5 mm at 1500 mm":                 quilletHog(),
		"a twist of 0.4 ± 0.12°, 3.3 times its ±":   surveyPictures()["twist"].kind,
		"radius 6432.1 mm":                          surveyPictures()["best_arc"].kind,
		"reading 5, 0.7 mm over":                    surveyPictures()["best_arc"].kind,
		"st 3, port, 9.8 mm less than drawn":        quilletMap(),
		"greatest half-breadth 657.2 mm at st 4":    &draw.HalfBreadth{Offsets: quillet()},
		"from 1 1/16\" wide where the plank meets":  shapesPictures()["stem"].kind,
		"the after face stands on the station line": shapesPictures()["mould"].kind,
	} {
		s := metric
		if strings.Contains(words, `"`) {
			s = calc.Style{}
		}
		if d := k.Describe(s); !strings.Contains(d, words) {
			t.Errorf("%q does not say %q", d, words)
		}
	}
}

// TestStemTriplets: width, middle and depth of the rabbet as laid off on the drawing.
func TestStemTriplets(t *testing.T) {
	d := &draw.Stem{Rabbet: points(inch, 0, 0, 0, 10, 0, 20), Angles: degrees(30, 45, 60), Plank: .5 * inch}
	scene := d.Outline(calc.Style{})
	for i, a := range []float64{30, 45, 60} {
		ruling := scene.Paths[i].Points
		near(t, "width", ruling[1].X-ruling[0].X, .5*inch/math.Sin(a*math.Pi/180), 1e-12)
		near(t, "square to an upright stem", ruling[1].Y, ruling[0].Y, 1e-12)
	}
}

// TestSame: two drawings of the same numbers are the same value, and of others not.
func TestSame(t *testing.T) {
	a, b := calc.Drawn(&draw.Profile{Offsets: sorrel()}), calc.Drawn(&draw.Profile{Offsets: sorrel()})
	if !calc.Same(a, b) || calc.Same(a, calc.Drawn(&draw.Profile{Offsets: pippin()})) || calc.Same(a, calc.Drawn(sidePanel())) {
		t.Error("drawings do not compare by what they show")
	}
}
