package trade_test

import (
	"math"
	"strings"
	"testing"

	"scarph/calc"
	"scarph/calc/trade"
)

// benchGroups are the groups of tape, bevel, batten and panel, whose functions are
// geometry through and through.
var benchGroups = map[string]bool{
	"Measuring and rounding": true, "Triangles, bevels and angles": true, "Spacing and layout": true,
	"Curves, camber, arcs, battens and fairness": true, "Table of offsets and lines": true, "Developed (expanded) panels": true,
}

// sample returns the arguments of the function's first worked check.
func sample(t *testing.T, f *trade.Function) []calc.Value {
	t.Helper()
	text := f.Checks[0].Call
	begin := strings.Index(text, f.Name+"(")
	if begin < 0 {
		t.Fatalf("%s: its first check does not call it", f.Name)
	}
	begin += len(f.Name) + 1
	var args []calc.Value
	depth, from, quoted := 0, begin, false
	for i := begin; i < len(text); i++ {
		switch text[i] {
		case '"':
			quoted = !quoted
		case '(', '[':
			depth++
		case ']':
			depth--
		case ')', ',':
			if quoted || text[i] == ',' && depth > 0 {
				continue
			}
			if text[i] == ')' && depth > 0 {
				depth--
				continue
			}
			v, _, err := evaluate(strings.TrimSpace(text[from:i]))
			if err != nil {
				t.Fatalf("%s: %v", text, err)
			}
			args = append(args, v)
			from = i + 1
			if text[i] == ')' {
				return args
			}
		}
	}
	t.Fatalf("%s: no closing bracket", text)
	return nil
}

// resized multiplies every length by k, every area by its square, and so on.
func resized(x calc.Value, k float64) calc.Value {
	if items := x.Items(); items != nil {
		out := make([]calc.Value, len(items))
		for i, it := range items {
			out[i] = resized(it, k)
		}
		return x.WithItems(out)
	}
	if x.IsQuantity() {
		x.V *= math.Pow(k, float64(x.D.Exponents().Length)/2)
	}
	return x
}

// alike compares numbers and structure, and lets texts differ.
func alike(a, b calc.Value, tol float64) bool {
	if a.Kind() != b.Kind() || a.D != b.D || len(a.Items()) != len(b.Items()) {
		return false
	}
	for i := range a.Items() {
		if !alike(a.Items()[i], b.Items()[i], tol) {
			return false
		}
	}
	return math.Abs(a.V-b.V) <= tol*math.Max(math.Abs(a.V), math.Abs(b.V))+1e-12
}

// TestScaleLaw: a boat of twice the size has lengths twice as long, areas four
// times, and the same angles and counts.
func TestScaleLaw(t *testing.T) {
	inInches := map[string]string{
		"feet_inches_eighths": "counts of feet and inches", "offset_text": "marks of a rule", "round_to_fraction": "marks of a rule",
		"round_up_to_fraction": "marks of a rule", "rounding_residue": "marks of a rule", "stepped_error": "marks of a rule",
		"bevel_in_twelfths": "in twelve inches", "rolling_bevel_mark": "in twelve inches, per foot", "batten_sag": "weight does not scale",
	}
	for _, f := range trade.All() {
		if !benchGroups[f.Group] || inInches[f.Name] != "" {
			continue
		}
		args := sample(t, f)
		once, err := f.Invoke(args)
		if err != nil {
			t.Errorf("%s: %v", f.Name, err)
			continue
		}
		for _, k := range []float64{0.5, 3.7} {
			bigger := make([]calc.Value, len(args))
			for i, a := range args {
				bigger[i] = resized(a, k)
			}
			if f.Name == "stock_width_for_sweep" && len(args) < 3 {
				t.Fatal("the margin must be given")
			}
			again, err := f.Invoke(bigger)
			if err != nil {
				t.Errorf("%s: %v", f.Name, err)
			} else if !alike(again.Value, resized(once.Value, k), 1e-9) {
				t.Errorf("%s does not scale by %g: %s, want %s", f.Name, k, calc.Style{}.Text(again.Value), calc.Style{}.Text(resized(once.Value, k)))
			}
		}
	}
}

// TestSpreadsOverLists: a list where a quantity is wanted gives a list.
func TestSpreadsOverLists(t *testing.T) {
	for _, f := range trade.All() {
		if !benchGroups[f.Group] {
			continue
		}
		args := sample(t, f)
		once, err := f.Invoke(args)
		if err != nil {
			t.Errorf("%s: %v", f.Name, err)
			continue
		}
		for i := range args {
			if k := f.Params[i].Kind; k != trade.Scalar && k != trade.Count && k != trade.Choice {
				continue
			}
			many := append([]calc.Value(nil), args...)
			many[i] = calc.Labelled([]string{"st_1", "st_2"}, []calc.Value{args[i], args[i]})
			r, err := f.Invoke(many)
			if err != nil || len(r.Value.Items()) != 2 || !alike(r.Value.Items()[1], once.Value, 0) || r.Value.Labels()[1] != "st_2" {
				t.Errorf("%s over a list of %s: %s %v", f.Name, f.Params[i].Name, calc.Style{}.Text(r.Value), err)
			}
		}
	}
}

// TestWrongDimensionIsRefused puts a bare number, and then a weight, in the place of
// every length and angle.
func TestWrongDimensionIsRefused(t *testing.T) {
	for _, f := range trade.All() {
		if !benchGroups[f.Group] {
			continue
		}
		args := sample(t, f)
		for i := range args {
			p := f.Params[i]
			if p.AnyDim || p.Kind != trade.Scalar || p.Dim.IsNumber() {
				continue
			}
			for _, c := range []struct {
				wrong calc.Value
				code  calc.Code
			}{{calc.Number(19), calc.CodeBareNumber}, {calc.Mass(19), calc.CodeDimension}} {
				bad := append([]calc.Value(nil), args...)
				bad[i] = c.wrong
				if r, err := f.Invoke(bad); err == nil || err.Code != c.code {
					t.Errorf("%s with %s for %s: %s %v", f.Name, calc.Style{}.Text(c.wrong), p.Name, calc.Style{}.Text(r.Value), err)
				}
			}
		}
	}
}

// TestRoundTrips: what one function does, another undoes.
func TestRoundTrips(t *testing.T) {
	for there, back := range map[string]string{
		"arc_rise(48 in, arc_radius(48 in, 2 in))":                                    "2 in",
		"arc_rise(48 in, arc_radius(48 in, 24 in))":                                   "24 in",
		"arc_length(2 in, 1 in)":                                                      "3.141592653589793 in",
		"arc_height_at(48 in, 2 in, 24 in)":                                           "0 in",
		"arc_height_at(48 in, 2 in, 0)":                                               "2 in",
		"camber_parabola(48 in, 2 in, -24 in)":                                        "0 in",
		"camber_parabola(48 in, 2 in, 15 in) - camber_parabola(48 in, 2 in, -15 in)":  "0 in",
		"camber_for_beam(48 in, 2 in, 48 in)":                                         "2 in",
		`atan(bevel_in_twelfths(17°) / 12 in)`:                                        "17°",
		"bevel_width(7/8 in, 17°)^2 + (7/8 in)^2 - beveled_face_width(7/8 in, 17°)^2": "0 in^2",
		"frame_spacing(158.5 in, frames_needed(158.5 in, 16 in)) * spaces_from_frames(frames_needed(158.5 in, 16 in), \"both\")":   "158.5 in",
		`11 * 3 in + 12 * clear_gap(42 in, 3 in, 11, "gaps at ends")`:                                                              "42 in",
		`7 * lining_off_widths(29.5 in, 7, 3/4 in) - 6 * 3/4 in`:                                                                   "29.5 in",
		`at(lining_off_marks(lining_off_shares(29.5 in, [3, 2, 2, 1], 3/4 in), 3/4 in), 4)`:                                        "29.5 in",
		"hypotenuse(triangle_point(30 in, 25 in, 35 in).x, triangle_point(30 in, 25 in, 35 in).y)":                                 "30 in",
		"flare_angle(25 in, 18.5 in, 22 in, 4 in) - flare_angle(18.5 in, 25 in, 4 in, 22 in)":                                      "0°",
		"compound_transom_bevel(0°, 16°, 0°)":                                                                                      "0°",
		"compound_transom_bevel(0°, 0°, 14°)":                                                                                      "0°",
		"hopper_miter(4, 0°).tilt":                                                                                                 "45°",
		"hopper_miter(6, 0°).cross_cut":                                                                                            "0°",
		"true_rake_bevel(24°, 0°)":                                                                                                 "24°",
		"knee_angle(-5°, 20°, 0°)":                                                                                                 "105°",
		"bevel_error_gap(19°, 19°, 2 in)":                                                                                          "0 in",
		"bevel_error_gap(19°, 21°, 2 in) + bevel_error_gap(21°, 19°, 2 in)":                                                        "0 in",
		`offset(offset_text(27.6875 in, "sixteenths"))`:                                                                            "27.6875 in",
		`offset(offset_text(-27.5625 in, "sixteenths"))`:                                                                           "-27.5625 in",
		"round_to_fraction(7.4219 in, 16) + rounding_residue(7.4219 in, 16)":                                                       "7.4219 in",
		"scale_length(scale_length(620 lb, 1.3), 1 / 1.3)":                                                                         "620 lb",
		"scale_beam_only(scale_beam_only(18°, 1.1), 1 / 1.1)":                                                                      "18°",
		"position_where([0 in, 24 in, 72 in], [0 in, 9 in, 16 in], interpolate([0 in, 24 in, 72 in], [0 in, 9 in, 16 in], 40 in))": "40 in",
		`position_where([0 in, 24 in, 72 in], [0 in, 9 in, 16 in], interpolate([0 in, 24 in, 72 in], [0 in, 9 in, 16 in], 40 in, "batten"), "batten")`: "40 in",
		`girth_at_station([[0 in, 0 in], [3 in, 4 in]], "batten")`:                                                                                     "5 in",
		"batten_length([[0 in, 0 in], [3 in, 4 in], [6 in, 8 in]])":                                                                                    "10 in",
		"mean_reading([4 in, 4 in]) + reading_scatter([4 in, 4 in])":                                                                                   "4 in",
		"expanded_transom([[10 in, 0 in], [10 in, 8 in]], 0°).area":                                                                                    "160 in^2",
	} {
		got, want := number(t, there), number(t, back)
		if math.Abs(got-want) > 1e-10*math.Max(1, math.Abs(want)) {
			t.Errorf("%s = %.12g, want %s, %.12g", there, got, back, want)
		}
	}
}

// TestRises: more of this gives more of that.
func TestRises(t *testing.T) {
	for _, call := range []string{
		"arc_radius(48 in, 2 in / it)", "arc_length(48 in, 2 in * it)", "bevel_width(1 in, 10° * it)", "beveled_face_width(1 in, 10° * it)",
		"true_rake_bevel(24°, 10° * it)", "plumb_expansion(16 in, 10° * it)", "compound_transom_bevel(9° * it, 16°, 14°)",
		"knee_angle(0°, 5° * it, 20°)", "frames_needed(100 in * it, 16 in)", "lining_off_widths(20 in * it, 7, 1/2 in)",
		"mould_offset_for_planking(10 in * it, 5/8 in, 14°)", "thwart_length(10 in * it, 5/8 in, 14°, 0)",
		"bending_strain(1/4 in * it, 30 in)", "batten_sag(9 GPa, 20 mm, 20 mm, 1 m * it, 500 kg/m^3)",
		"triangle_point(30 in + 1 in * it, 25 in, 35 in).x", "lap_bevel(3/4 in, 1 in, 5° * it)", "stem_rabbet_offset(5/8 in, 60° / it)",
		"combined_tolerance([1 mm, 1 mm * it])",
	} {
		last := math.Inf(-1)
		for i, v := range mustList(t, "map([1, 2, 3], "+call+")") {
			if v.V <= last {
				t.Errorf("%s does not rise at %d", call, i+1)
			}
			last = v.V
		}
	}
}

// TestMirroredPanel: turning a panel end for end changes neither its outline nor its
// area by more than the diagonals do; a flat rectangle comes out exactly.
func TestMirroredPanel(t *testing.T) {
	square := "developed_strip([[0 in, 0 in, 0 in], [30 in, 0 in, 40 in]], [[0 in, 7 in, 0 in], [30 in, 7 in, 40 in]])"
	for field, want := range map[string]string{"length": "50 in", "width": "7 in", "area": "350 in^2", "twist": "0°", "diagonal_1": "hypotenuse(7 in, 50 in)", "diagonal_2": "hypotenuse(7 in, 50 in)"} {
		if got, want := number(t, square+"."+field), number(t, want); math.Abs(got-want) > 1e-12 {
			t.Errorf("%s: %g, want %g", field, got, want)
		}
	}
	// a panel that runs to a point at both ends
	leaf := "developed_strip([[0 in, 0 in, 0 in], [10 in, 0 in, 0 in], [20 in, 0 in, 0 in]], [[0 in, 0 in, 0 in], [10 in, 3 in, 4 in], [20 in, 0 in, 0 in]])"
	if got := number(t, leaf+".area"); math.Abs(got-50*0.0254*0.0254) > 1e-12 {
		t.Errorf("a pointed panel has %g m²", got)
	}
	// a cone is developable: laid flat by fine strips its edges keep their radii
	const n, half, small, large = 400, 0.3, 1.0, 2.0
	var e1, e2 []calc.Value
	for i := 0; i <= n; i++ {
		a := math.Pi * float64(i) / n
		at := func(r float64) calc.Value {
			return calc.Listed(calc.Length(r*math.Sin(half)*math.Cos(a)), calc.Length(r*math.Sin(half)*math.Sin(a)), calc.Length(r*math.Cos(half)))
		}
		e1, e2 = append(e1, at(small)), append(e2, at(large))
	}
	cone := value(t, "developed_strip", calc.Listed(e1...), calc.Listed(e2...))
	sector := math.Pi * math.Sin(half)
	printed(t, "area of the cone", field(t, cone, "area").V, sector/2*(large*large-small*small), 1e-5)
	printed(t, "diagonal of the cone", field(t, cone, "diagonal_1").V, math.Sqrt(small*small+large*large-2*small*large*math.Cos(sector)), 1e-5)
}

// TestPlusMinusGoesThrough: the ± of a reading comes out as the calculus says.
func TestPlusMinusGoesThrough(t *testing.T) {
	for _, c := range []struct {
		call string
		want string
	}{
		{"hypotenuse(3 in ± 0.1 in, 4 in)", "0.06 in"},
		{"hypotenuse(3 in ± 0.1 in, 4 in ± 0.1 in)", "0.1 in"},
		{"bevel_width(1 in ± 0.01 in, 45°)", "0.01 in"},
		{"mean_reading([4 in ± 0.1 in, 4 in ± 0.1 in, 5 in ± 0.1 in, 5 in ± 0.1 in])", "0.05 in"},
		{"round_to_fraction(7.4219 in ± 0.1 in, 16)", "0.1 in"},
		{"interpolate([0 in, 10 in], [1 in ± 0.1 in, 2 in], 5 in)", "0.05 in"},
		{"circle_through_three_points([0 in, 0 in], [60 in, 4.5 in ± 0.1 in], [120 in, 0 in]).radius", "8.83889 in"},
		{`at(fairness([0 in, 8 in, 13.5 in ± 0.5 in, 15 in, 16 in], [0 in, 20 in, 40 in, 60 in, 80 in]).residuals, 3)`, "0.5 in"},
		{"frames_needed(158.5 in ± 1 in, 16 in)", "0"},
	} {
		got := number(t, "spread_of("+c.call+")")
		want := number(t, c.want)
		if math.Abs(got-want) > 1e-5*want+1e-12 {
			t.Errorf("± of %s: %.9g, want %.9g", c.call, got, want)
		}
	}
}
