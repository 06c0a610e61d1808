package curve

import (
	"errors"
	"math"
	"testing"
)

func near(t *testing.T, what string, got, want, tol float64) {
	t.Helper()
	if math.IsNaN(got) || math.Abs(got-want) > tol*math.Max(1, math.Abs(want)) {
		t.Errorf("%s: got %.12g, want %.12g", what, got, want)
	}
}

func TestIntegrateIsExactForPowers(t *testing.T) {
	for n := 0; n <= 15; n++ {
		got := gauss(func(x float64) float64 { return math.Pow(x, float64(n)) }, 0, 1)
		near(t, "one panel of xⁿ", got, 1/float64(n+1), 1e-14)
	}
	near(t, "sine", Integrate(math.Sin, 0, math.Pi), 2, 1e-13)
	near(t, "odd function", Integrate(func(x float64) float64 { return x * x * x }, -1, 1), 0, 1e-13)
	near(t, "nothing", Integrate(func(float64) float64 { return 0 }, 0, 1), 0, 0)
}

func TestNaturalHandWorked(t *testing.T) {
	// Points (0,0) (1,1) (2,0): by symmetry y'' at the middle is −3, so the curve
	// is y = 3x/2 − x³/2 up to the middle.
	s, err := Natural([]float64{0, 1, 2}, []float64{0, 1, 0})
	if err != nil {
		t.Fatal(err)
	}
	for _, x := range []float64{0, 0.25, 0.5, 0.9, 1} {
		near(t, "height", s.At(x), 1.5*x-0.5*x*x*x, 1e-14)
		near(t, "mirror", s.At(2-x), s.At(x), 1e-14)
		near(t, "slope", s.Slope(x), 1.5-1.5*x*x, 1e-14)
		near(t, "second", s.Second(x), -3*x, 1e-14)
	}
	near(t, "area", s.Area(0, 2), 2*(0.75-0.125), 1e-13)
	near(t, "radius at the top", s.Radius(1), 1.0/3, 1e-14)
	if !math.IsInf(s.Radius(0), 1) {
		t.Error("a free end is straight")
	}
}

func TestNaturalStraightLineAndLength(t *testing.T) {
	s, err := Natural([]float64{0, 1, 4, 9}, []float64{1, 3, 9, 19})
	if err != nil {
		t.Fatal(err)
	}
	near(t, "on the line", s.At(2.7), 1+2*2.7, 1e-13)
	near(t, "length", s.Length(), 9*math.Sqrt(5), 1e-13)
	near(t, "part", s.LengthBetween(2, 5), 3*math.Sqrt(5), 1e-13)
	near(t, "backwards", s.LengthBetween(5, 2), -3*math.Sqrt(5), 1e-13)
	near(t, "past the end goes on straight", s.At(11), 23, 1e-13)
	near(t, "no bend past the end", s.Second(11), 0, 0)
}

// A natural spline through a sine at points where its own second derivative
// vanishes at both ends comes nearer as the fourth power of the spacing.
func TestNaturalConverges(t *testing.T) {
	worst := func(n int) float64 {
		xs, ys := make([]float64, n+1), make([]float64, n+1)
		for i := range xs {
			xs[i] = math.Pi * float64(i) / float64(n)
			ys[i] = math.Sin(xs[i])
		}
		s, err := Natural(xs, ys)
		if err != nil {
			t.Fatal(err)
		}
		w := 0.0
		for i := range 1000 {
			x := math.Pi * float64(i) / 1000
			w = math.Max(w, math.Abs(s.At(x)-math.Sin(x)))
		}
		return w
	}
	if r := worst(8) / worst(16); r < 14 || r > 18 {
		t.Errorf("halving the spacing divides the error by %.3g, not 16", r)
	}
}

func TestSplineIsSmooth(t *testing.T) {
	xs := []float64{0, 1, 2.5, 4, 4.5, 7}
	s, err := Natural(xs, []float64{0, 3, 2, 5, 5.2, 1})
	if err != nil {
		t.Fatal(err)
	}
	const h = 1e-9
	for _, x := range xs[1 : len(xs)-1] {
		near(t, "slope across a pin", s.Slope(x-h), s.Slope(x+h), 1e-7)
		near(t, "bend across a pin", s.Second(x-h), s.Second(x+h), 1e-7)
	}
	near(t, "first end", s.Second(0), 0, 0)
	near(t, "last end", s.Second(7), 0, 0)
	for _, y := range []float64{1.5, 2.5, 4.9} {
		for _, x := range s.Crossings(y) {
			near(t, "crossing", s.At(x), y, 1e-12)
		}
	}
	if n := len(s.Crossings(2.5)); n != 4 {
		t.Errorf("the curve crosses 2.5 four times, found %d", n)
	}
}

func TestRefusals(t *testing.T) {
	var rise *NotRisingError
	if _, err := Natural([]float64{0, 2, 2}, []float64{0, 1, 2}); !errors.As(err, &rise) || rise.Index != 2 {
		t.Errorf("equal positions: %v", err)
	}
	var few *TooFewError
	if _, err := Natural([]float64{0}, []float64{0}); !errors.As(err, &few) {
		t.Errorf("one point: %v", err)
	}
	if _, err := LeaveOneOut([]float64{0, 1, 2, 3}, []float64{0, 1, 2, 3}); !errors.As(err, &few) || few.Want != 5 {
		t.Errorf("four stations: %v", err)
	}
	var unequal *UnequalError
	if _, err := Broken([]float64{0, 1}, []float64{0}); !errors.As(err, &unequal) {
		t.Errorf("unequal lists: %v", err)
	}
	if _, err := CircleThrough(Point{0, 0}, Point{1, 1}, Point{5, 5}); !errors.Is(err, ErrInLine) {
		t.Errorf("points in line: %v", err)
	}
	if _, _, err := FitCircle([]Point{{0, 0}, {1, 1}, {5, 5}, {7, 7}}); !errors.Is(err, ErrInLine) {
		t.Errorf("points in line: %v", err)
	}
	if _, _, err := FitLine([]float64{1, 1}, []float64{0, 1}); !errors.Is(err, ErrInLine) {
		t.Errorf("one x: %v", err)
	}
	if _, err := Through([]Point{{0, 0}, {0, 0}}); !errors.As(err, &rise) {
		t.Errorf("a point repeated: %v", err)
	}
}

func TestBrokenAndInverse(t *testing.T) {
	xs, ys := []float64{0, 1, 3, 4}, []float64{0, 2, 2, 0}
	line, err := Broken(xs, ys)
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range [][2]float64{{0, 0}, {0.5, 1}, {2, 2}, {3.5, 1}, {4, 0}, {5, -2}} {
		near(t, "broken line", line.At(c[0]), c[1], 1e-14)
	}
	found, err := Inverse(xs, ys, 1)
	if err != nil || len(found) != 2 {
		t.Fatalf("inverse: %v %v", found, err)
	}
	near(t, "up", found[0], 0.5, 1e-14)
	near(t, "down", found[1], 3.5, 1e-14)
	if found, _ = Inverse(xs, ys, 2); len(found) != 2 || found[0] != 1 || found[1] != 3 {
		t.Errorf("a level piece gives its ends: %v", found)
	}
	if found, _ = Inverse(xs, ys, 3); found != nil {
		t.Errorf("never reached: %v", found)
	}
}

func TestPolyline(t *testing.T) {
	square := []Point{{10, 10}, {13, 10}, {13, 14}, {10, 14}}
	near(t, "length", PolylineLength(square), 10, 1e-15)
	near(t, "area", PolygonArea(square), 12, 1e-15)
	low, high := Bounds(square)
	if low != square[0] || high != square[2] {
		t.Errorf("bounds %v %v", low, high)
	}
	met := LineMeets(square, Point{0, 12}, Point{1, 0})
	if len(met) != 1 || met[0] != (Point{13, 12}) {
		t.Errorf("meets %v", met)
	}
}

func TestPathRoundsACircle(t *testing.T) {
	const n = 96
	var points []Point
	for i := 0; i <= n; i++ {
		a := 2 * math.Pi * float64(i) / n
		points = append(points, Point{math.Cos(a), math.Sin(a)})
	}
	p, err := Through(points)
	if err != nil {
		t.Fatal(err)
	}
	// the free ends flatten the curve there, hence only five figures
	near(t, "circumference", p.Length(), 2*math.Pi, 2e-5)
	met := p.Meets(Point{0, 0.5}, Point{1, 0})
	if len(met) != 2 {
		t.Fatalf("a level line meets the circle twice: %v", met)
	}
	near(t, "right", met[0].X, math.Sqrt(0.75), 1e-5)
	near(t, "left", met[1].X, -math.Sqrt(0.75), 1e-5)
	middle := p.At(p.Chords() / 2)
	near(t, "opposite point", middle.X, -1, 1e-6)
	near(t, "broken line", PolylineLength(p.Polyline(20)), p.Length(), 1e-5)
}

func TestCircles(t *testing.T) {
	c, err := CircleThrough(Point{0, 0}, Point{60, 4.5}, Point{120, 0})
	if err != nil {
		t.Fatal(err)
	}
	near(t, "radius by chord²/8h + h/2", c.Radius, 120*120/(8*4.5)+4.5/2, 1e-13)
	near(t, "centre", c.Centre.X, 60, 1e-13)
	near(t, "centre below", c.Centre.Y, 4.5-c.Radius, 1e-13)

	var points []Point
	for i := range 9 {
		a := 1.2 + 0.08*float64(i)
		points = append(points, Point{3 + 7*math.Cos(a), -2 + 7*math.Sin(a)})
	}
	fit, residuals, err := FitCircle(points)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "radius", fit.Radius, 7, 1e-9)
	near(t, "centre x", fit.Centre.X, 3, 1e-9)
	near(t, "centre y", fit.Centre.Y, -2, 1e-9)
	for _, r := range residuals {
		near(t, "residual", r, 0, 1e-9)
	}
}

func TestFitLine(t *testing.T) {
	l, residuals, err := FitLine([]float64{0, 1, 2, 3}, []float64{2.1, 4.9, 8.2, 11.1})
	if err != nil {
		t.Fatal(err)
	}
	near(t, "slope", l.Slope, 3.03, 1e-13)
	near(t, "offset", l.Offset, 2.03, 1e-13)
	sum, moment := 0.0, 0.0
	for i, r := range residuals {
		sum += r
		moment += r * float64(i)
	}
	near(t, "residuals balance", sum, 0, 1e-13)
	near(t, "and turn nothing", moment, 0, 1e-13)
}

func TestLeaveOneOut(t *testing.T) {
	residuals, err := LeaveOneOut([]float64{0, 20, 40, 60, 80}, []float64{0, 8, 13.5, 15, 16})
	if err != nil {
		t.Fatal(err)
	}
	near(t, "middle", residuals[2], 0.6875, 1e-13)
	// by hand: without 60 the batten's second derivatives at 20 and 40 follow from
	// two equations, and it reads 15 + 16/23
	near(t, "next to the end", residuals[3], -16.0/23, 1e-13)
	if Worst(residuals) != 3 || residuals[0] != 0 || residuals[4] != 0 {
		t.Errorf("residuals %v", residuals)
	}
	straight, _ := LeaveOneOut([]float64{0, 1, 2, 3, 4}, []float64{0, 1, 2, 4, 4})
	if Worst(straight) != 3 {
		t.Errorf("the station moved off the line is the worst: %v", straight)
	}
}
