package trade_test

import (
	"math"
	"strconv"
	"testing"

	"scarph/calc"
)

// closedHull is a hull whose figures are known by a formula. Its sections are given
// by a parameter from 0 at the keel to 1 at the water, at the height depth.
type closedHull struct {
	name                string
	length, beam, depth float64
	section             func(x, s float64) (y, z float64)
	volume, plane       float64
	across, along       float64 // second moments of the water plane
	buoyancy            float64 // over the keel
}

const (
	hullL, hullB, hullT = 8.0, 2.0, 0.5
)

func closedHulls() []closedHull {
	l, b, t := hullL, hullB, hullT
	u := func(x float64) float64 { return 2*x/l - 1 } // −1 at the bow, +1 at the stern
	return []closedHull{
		{"box", l, b, t, func(x, s float64) (float64, float64) { return b / 2, s * t },
			l * b * t, l * b, l * b * b * b / 12, b * l * l * l / 12, t / 2},
		{"wedge", l, b, t, func(x, s float64) (float64, float64) { return b / 2 * s, s * t },
			l * b * t / 2, l * b, l * b * b * b / 12, b * l * l * l / 12, 2 * t / 3},
		// Wigley's hull, a parabola both ways
		{"Wigley", l, b, t, func(x, s float64) (float64, float64) { return b / 2 * (1 - u(x)*u(x)) * s * (2 - s), s * t },
			4.0 / 9 * l * b * t, 2.0 / 3 * l * b, 4.0 / 105 * l * b * b * b, b * l * l * l / 30, 5.0 / 8 * t},
		{"half ellipsoid", l, b, t, func(x, s float64) (float64, float64) {
			r := math.Sqrt(math.Max(0, 1-u(x)*u(x)))
			sin, cos := math.Sincos(s * math.Pi / 2)
			return b / 2 * r * sin, t - t*r*cos
		}, math.Pi / 6 * l * b * t, math.Pi / 4 * l * b, math.Pi / 64 * l * b * b * b, math.Pi / 64 * b * l * l * l, 5.0 / 8 * t},
		{"half cylinder", l, b, b / 2, func(x, s float64) (float64, float64) {
			sin, cos := math.Sincos(s * math.Pi / 2)
			return b / 2 * sin, b/2 - b/2*cos
		}, math.Pi * b * b / 8 * l, l * b, l * b * b * b / 12, b * l * l * l / 12, b / 2 * (1 - 4/(3*math.Pi))},
	}
}

// table cuts the hull at n + 1 stations of m + 1 points each.
func (h closedHull) table(n, m int) calc.Value {
	xs := make([]calc.Value, n+1)
	for i := range xs {
		xs[i] = calc.Length(h.length * float64(i) / float64(n))
	}
	fields := []calc.Field{{Name: "x", Value: calc.Listed(xs...)}}
	for k := 0; k <= m; k++ {
		ys, zs := make([]calc.Value, n+1), make([]calc.Value, n+1)
		for i := range xs {
			y, z := h.section(xs[i].V, float64(k)/float64(m))
			if k == m {
				z = h.depth
			}
			ys[i], zs[i] = calc.Length(y), calc.Length(z)
		}
		name := "line_" + strconv.Itoa(k)
		fields = append(fields, calc.Field{Name: name + "_half", Value: calc.Listed(ys...)}, calc.Field{Name: name + "_height", Value: calc.Listed(zs...)})
	}
	return calc.Fields(fields...)
}

// figures returns volume, KB and water plane of the hull cut so and read so.
func (h closedHull) figures(t *testing.T, n, m int, rule, sections string) map[string]float64 {
	t.Helper()
	args := []calc.Value{h.table(n, m), calc.Length(h.depth), calc.Str(rule), calc.Str(sections)}
	p := value(t, "waterplane", args...)
	d := value(t, "hydrostatics", args[0], args[1], calc.Of(1000, calc.DimDensity), args[2], args[3])
	return map[string]float64{
		"volume": field(t, d, "volume").V, "buoyancy": field(t, d, "buoyancy_over_base").V, "plane": field(t, p, "area").V,
		"across": field(t, p, "transverse_moment").V, "along": field(t, p, "longitudinal_moment").V,
	}
}

func (h closedHull) exact() map[string]float64 {
	return map[string]float64{"volume": h.volume, "buoyancy": h.buoyancy, "plane": h.plane, "across": h.across, "along": h.along}
}

// TestFlatSidedHullsAreExact: box and wedge come out to the last digits, for their
// sections are polygons and their lengths straight.
func TestFlatSidedHullsAreExact(t *testing.T) {
	for _, h := range closedHulls()[:2] {
		for _, rule := range []string{"simpson first", "what fits"} {
			got := h.figures(t, 4, 1, rule, "straight")
			for what, want := range h.exact() {
				if math.Abs(got[what]-want) > 1e-13*want {
					t.Errorf("%s, %s: %s is %.16g, want %.16g", h.name, rule, what, got[what], want)
				}
			}
		}
	}
}

// TestOrderOfConvergence doubles stations or points of a section again and again:
// the error falls by 2 to the power of the order. Simpson's rules have order 4 on a
// smooth line and 1.5 where the water plane ends bluff, as on the ellipsoid;
// trapezoids have 2 and 1.5; sections in straight pieces have 2, and bent as battens
// 3, for a free end does not bend as the hull does there.
func TestOrderOfConvergence(t *testing.T) {
	hulls := map[string]closedHull{}
	for _, h := range closedHulls() {
		hulls[h.name] = h
	}
	for _, c := range []struct {
		hull, what, rule, sections string
		stations                   bool // refined along the hull, else round the section
		order, slack               float64
	}{
		{"Wigley", "across", "simpson first", "straight", true, 4, 0.1},
		{"Wigley", "along", "simpson first", "straight", true, 4, 0.1},
		{"Wigley", "across", "simpson second", "straight", true, 4, 0.15},
		{"Wigley", "plane", "trapezoid", "straight", true, 2, 0.05},
		{"Wigley", "along", "trapezoid", "straight", true, 2, 0.1},
		{"Wigley", "volume", "simpson first", "straight", false, 2, 0.05},
		{"Wigley", "buoyancy", "simpson first", "straight", false, 2, 0.1},
		{"Wigley", "volume", "simpson first", "batten", false, 3, 0.3},
		{"half ellipsoid", "plane", "simpson first", "straight", true, 1.5, 0.05},
		{"half ellipsoid", "plane", "trapezoid", "straight", true, 1.5, 0.05},
		{"half ellipsoid", "volume", "trapezoid", "straight", true, 2, 0.1},
		{"half ellipsoid", "volume", "simpson first", "straight", false, 2, 0.05},
		{"half cylinder", "volume", "simpson first", "straight", false, 2, 0.05},
		{"half cylinder", "volume", "simpson first", "round", false, 3, 0.3},
		{"half cylinder", "buoyancy", "simpson first", "round", false, 3, 0.3},
		{"half cylinder", "volume", "simpson first", "batten", false, 3, 0.3},
	} {
		h := hulls[c.hull]
		want := h.exact()[c.what]
		var errors []float64
		for k := range 3 {
			n, m := 6<<k, 2
			if c.what == "volume" { // fine enough round the section not to hide the rule
				m = 512
			}
			if !c.stations {
				n, m = 4, 4<<k
			}
			if c.hull == "half ellipsoid" && c.stations {
				n *= 4
			}
			got := h.figures(t, n, m, c.rule, c.sections)[c.what]
			errors = append(errors, math.Abs(got-want)/want)
		}
		order := math.Log2(errors[1] / errors[2])
		t.Logf("%-14s %-8s %-14s %-8s errors %.2e %.2e %.2e, order %.2f", c.hull, c.what, c.rule, c.sections, errors[0], errors[1], errors[2], order)
		if math.Abs(order-c.order) > c.slack {
			t.Errorf("%s, %s by %s, %s sections: order %.2f, want %.2f (errors %.3g)", c.hull, c.what, c.rule, c.sections, order, c.order, errors)
		}
	}
}

// TestSimpsonIsExactForParabolas: each water line of Wigley's hull is a parabola, so
// three stations give its plane, and its volume, as well as any more.
func TestSimpsonIsExactForParabolas(t *testing.T) {
	w := closedHulls()[2]
	coarse, fine := w.figures(t, 2, 64, "simpson first", "straight"), w.figures(t, 12, 64, "simpson first", "straight")
	for _, what := range []string{"plane", "volume", "buoyancy"} {
		if math.Abs(coarse[what]-fine[what]) > 1e-12*fine[what] {
			t.Errorf("%s: %.15g on 3 stations, %.15g on 13", what, coarse[what], fine[what])
		}
	}
	if math.Abs(coarse["plane"]-w.plane) > 1e-12 {
		t.Errorf("plane %.15g, want %.15g", coarse["plane"], w.plane)
	}
}

// TestStationsAsTheyCome: half-spaced ends and uneven spaces integrate what even
// stations do.
func TestStationsAsTheyCome(t *testing.T) {
	cubic := func(x float64) float64 { return 1 + x*(2+x*(3-x)) }
	area := func(x float64) float64 { return x + x*x + x*x*x - x*x*x*x/4 }
	for _, c := range []struct {
		rule string
		xs   []float64
		tol  float64
	}{
		{"simpson first", []float64{0, 1, 2, 3, 4}, 1e-13},
		{"simpson first", []float64{0, 0.25, 0.5, 1, 1.5, 2, 2.5, 2.75, 3}, 1e-13}, // half-spaced ends
		{"simpson second", []float64{0, 1, 2, 3, 3.5, 4, 4.5}, 1e-13},
		{"simpson both", []float64{0, 1, 2, 3, 4, 5}, 1e-13},
		{"simpson both", []float64{0, 1, 2, 3}, 1e-13},
		{"what fits", []float64{0, 0.5, 1, 2, 3, 4, 5, 6}, 1e-13},
		{"parabolas", []float64{0, 1, 2.5, 3, 3.25}, 0.04}, // exact for parabolas only
		{"trapezoid", []float64{0, 0.1, 0.3, 0.7, 1.1, 1.4, 1.9, 2.2}, 0.02},
	} {
		var ys, xs []calc.Value
		for _, x := range c.xs {
			xs, ys = append(xs, calc.Length(x)), append(ys, calc.Length(cubic(x)))
		}
		got := value(t, "area_under", calc.Listed(ys...), calc.Listed(xs...), calc.Str(c.rule)).V
		if want := area(c.xs[len(c.xs)-1]); math.Abs(got-want) > c.tol*math.Abs(want) {
			t.Errorf("%s over %v: %.15g, want %.15g", c.rule, c.xs, got, want)
		}
	}
}

// TestMeasuredStations: stations that stand a little off their marks keep Simpson's
// rule, without a remark, and the ± of their places goes through smoothly.
func TestMeasuredStations(t *testing.T) {
	const off = "area_under([0 in, 6.1 in, 9.4 in, 10.2 in, 8.8 in], [0 in, 24.1 in, 47.9 in, 72 in, 96.2 in])"
	v, remarks, err := evaluate(off)
	if err != nil || len(remarks) > 0 {
		t.Fatalf("%v %q", err, remarks)
	}
	printed(t, "area", v.V/0.0254/0.0254, 742.4, 2.5)
	at := func(text string) string {
		return "area_under([0 in, 6.1 in, 9.4 in, 10.2 in, 8.8 in], [0 in, " + text + ", 48 in, 72 in, 96 in])"
	}
	slope := (number(t, at("24.01 in")) - number(t, at("23.99 in"))) / 0.02 / 16
	printed(t, "± of a sixteenth", number(t, "spread_of("+at("24 in ± 1/16 in")+")"), math.Abs(slope), 1e-6*math.Abs(slope))
	// a ± that is next to nothing against the boat's length keeps its digits
	printed(t, "a tiny ±", number(t, "spread_of("+at("24 in ± 0.00001 in")+")"), math.Abs(slope)*16e-5, 1e-6*math.Abs(slope)*16e-5)
	// what does not hang on a reading carries nothing of it
	if v, _, _ := evaluate("hull_volume(hull_from_lines(5 ft, [[2 ft, 2 ft, 2 ft], [2 ft, 2 ft, 2 ft]], [[0 ft, 0 ft, 0 ft], [3 ft ± 0.01 ft, 3 ft, 3 ft]]), 1 ft)"); len(v.Terms()) != 0 {
		t.Errorf("the sheer of a box is in the volume below the water: %v", v.Terms())
	}
}
