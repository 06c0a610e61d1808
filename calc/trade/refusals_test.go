package trade_test

import (
	"strings"
	"testing"

	"scarph/calc"
)

// TestRefusals provokes what the functions refuse, and asks for the code and for the
// words that name the likely slip.
func TestRefusals(t *testing.T) {
	const pts = "[[0 in, 0 in], [24 in, 9 in], [48 in, 14 in], [72 in, 16 in]]"
	const two = "[[0 in, 0 in, 0 in], [24 in, 0 in, 0 in]]"
	for _, c := range []struct {
		call  string
		code  calc.Code
		words string
	}{
		// measuring
		{"feet_inches_eighths(2, 12, 5)", calc.CodeOffset, "is this 3-0-5?"},
		{"feet_inches_eighths(1, 11, 8)", calc.CodeOffset, "did you mean one more inch, 2-0-0?"},
		{"feet_inches_eighths(1, 2.5, 1)", calc.CodeDomain, "whole number"},
		{"feet_inches_eighths(1, -2, 1)", calc.CodeOffset, "below zero"},
		{"round_to_fraction(7 in, 10)", calc.CodeDomain, "2, 4, 8, 16, 32 or 64"},
		{"round_up_to_fraction(7 mm, 1)", calc.CodeDomain, "2, 4, 8, 16, 32 or 64"},
		{"stepped_error(17 in, 9, 5)", calc.CodeDomain, "2, 4, 8, 16, 32 or 64"},
		{"mark_positions(0, 0 in, 3)", calc.CodeDomain, "more than zero"},
		{"mark_positions(0, 1 in, 0)", calc.CodeDomain, "from 1 to"},
		{"mark_positions(5, 1 in, 2)", calc.CodeBareNumber, "5 in"},
		{"mark_positions(0, 1 in, 1000000)", calc.CodeDomain, "10000"},
		{"burned_start(1 in, 49 in)", calc.CodeDomain, "swapped"},
		{"fairness(map(1..2001, it * 1 in), map(1..2001, it * 1 in))", calc.CodeLimit, "up to 2000 of a kind; offsets has 2001"},
		{"batten_length(map(1..2001, [it * 1 in, 1 in]))", calc.CodeLimit, "points has 2001"},
		{"mean_reading([])", calc.CodeShape, "empty"},
		{"mean_reading([1203, 1205])", calc.CodeBareNumber, "1203 mm"},
		{"mean_reading([1203 mm, 3 lb])", calc.CodeDimension, "mass"},
		{"reading_scatter([3 mm])", calc.CodeShape, "no scatter"},
		{"combined_tolerance([1 mm, -2 mm])", calc.CodeDomain, "below zero"},
		{"scale_length(3, 1.1)", calc.CodeBareNumber, "3 in"},
		{"scale_length(3 kn, 1.1)", calc.CodeDimension, "speed"},
		{"scale_length(3 in, 0)", calc.CodeDomain, "more than zero"},
		// triangles and bevels
		{"angle_from_rise_run(0 in, 0 in)", calc.CodeZero, "neither"},
		{"bevel_in_twelfths(86°)", calc.CodeDomain, "-85°"},
		{"bevel_width(7/8 in, 80°)", calc.CodeDomain, "75°"},
		{"bevel_width(17°, 7/8 in)", calc.CodeDimension, "thickness"},
		{"saw_tilt_from_bevel(30°)", calc.CodeDomain, "beyond the saw"},
		{"diagonal_square_check(3 in, 4 in, 0 in, 2 in)", calc.CodeDomain, "length"},
		{"station_bevel(3 in, 4 in, 0 in)", calc.CodeDomain, "distance"},
		{"flare_angle(18 in, 25 in, 4 in, 4 in)", calc.CodeZero, "no height"},
		{"rolling_bevel([[57 in, 18°], [78 in, 21.5°]], 79 in)", calc.CodeDomain, "a bevel past the last station is a guess"},
		{"rolling_bevel([[57 in, 18°], [78 in, 21.5°]], 56 in)", calc.CodeDomain, "draw it"},
		{"rolling_bevel([[57 in, 18°], [50 in, 21.5°]], 56 in)", calc.CodeDomain, "must rise"},
		{"rolling_bevel([[57 in, 18 in], [78 in, 21.5°]], 66 in)", calc.CodeDimension, "angle"},
		{"rolling_bevel([[57 in, 18°]], 57 in)", calc.CodeShape, "at least 2"},
		{`rolling_bevel([[57 in, 18°], [78 in, 21°]], 66 in, "guess")`, calc.CodeUnknownItem, `"batten" or "straight"`},
		{"bevel_error_gap(19°, 80°, 1 in)", calc.CodeDomain, "angle_wanted"},
		{"compound_transom_bevel(61°, 1°, 1°)", calc.CodeDomain, "plan_angle"},
		{"hopper_miter(2, 16°)", calc.CodeDomain, "sides"},
		{"hopper_miter(4, 90°)", calc.CodeDomain, "slope"},
		{"expanded_transom([[1 in, 1 in]], 14°)", calc.CodeShape, "at least 2"},
		{"knee_angle(0°, 46°, 0°)", calc.CodeDomain, "side_flare"},
		// spacing
		{`spaces_from_frames(11, "all")`, calc.CodeUnknownItem, `"both"`},
		{"frame_spacing(158.5 in, 1)", calc.CodeDomain, "2 or more"},
		{"frames_needed(158.5 in, 0 in)", calc.CodeDomain, "more than zero"},
		{`clear_gap(42 in, 4 in, 11, "gaps at ends")`, calc.CodeDomain, "the pieces alone"},
		{`clear_gap(42 in, 4 in, 1, "tight to ends")`, calc.CodeZero, "gaps at ends"},
		{"pieces_to_fill(42 in, 3 in, -1 in)", calc.CodeDomain, "gap"},
		{"lining_off_widths(7 in, 7, 1 in)", calc.CodeDomain, "lap"},
		{"lining_off_shares(28 in, [1, 0], 0)", calc.CodeDomain, "plank 2"},
		{"lining_off_marks([3 in, 1/2 in], 3/4 in)", calc.CodeDomain, "lap"},
		{"mould_offset_for_planking(1/2 in, 5/8 in, 14°)", calc.CodeDomain, "leaves nothing"},
		{"strongback_height(22 in, 40 in)", calc.CodeDomain, "floor"},
		{"thwart_length(1/2 in, 5/8 in, 10°, 0)", calc.CodeDomain, "leave nothing"},
		// curves
		{"arc_radius(4 in, 48 in)", calc.CodeDomain, "more than half a circle"},
		{"arc_rise(48 in, 20 in)", calc.CodeDomain, "at least half the chord"},
		{"arc_height_at(48 in, 2 in, 25 in)", calc.CodeDomain, "past the end"},
		{"camber_parabola(48 in, 2 in, -25 in)", calc.CodeDomain, "past the end"},
		{"camber_for_beam(50 in, 2 in, 48 in)", calc.CodeDomain, "longer than the mould"},
		{"circle_through_three_points([0 in, 0 in], [1 in, 1 in], [2 in, 2 in])", calc.CodeDomain, "straight line"},
		{"circle_through_three_points([0 in, 0 in], [1 in], [2 in, 2 in])", calc.CodeShape, "p2"},
		{"batten_curve([[0 in, 0 in], [24 in, 9 in]], 12 in)", calc.CodeShape, "at least 3"},
		{"batten_curve([[0 in, 0 in], [112 1/2 in, 9 in], [90 in, 3 in]], 12 in)", calc.CodeDomain, "must rise"},
		{"batten_curve(" + pts + ", 73 in)", calc.CodeDomain, "past the last station"},
		{"batten_slope(" + pts + ", -1 in)", calc.CodeDomain, "before the first station"},
		{"batten_length([[0 in, 1 in, 2 in]])", calc.CodeShape, "point of 2"},
		{"batten_curve([[0, 0], [24, 9], [48, 14]], 12 in)", calc.CodeBareNumber, "what?"},
		{"second_differences([1 in, 2 in])", calc.CodeShape, "at least 3"},
		{"second_differences([1 in, 2 in, 3 in], [0 in, 1 in])", calc.CodeShape, "2 positions but 3 values"},
		{"fairness_bump([0 in, 1 in, 2 in, 3 in], [0 in, 1 in, 2 in, 3 in])", calc.CodeShape, "at least 5"},
		{"fairness([0 in, 1 in, 2 in, 3 in, 4 in], [0 in, 1 in, 2 in, 2 in, 4 in])", calc.CodeDomain, "must rise"},
		{"fairness([0 in, 1 in, 2 in, 3 in], [0 in, 1 in, 2 in, 3 in, 4 in])", calc.CodeShape, "counted 5 has none"},
		{"batten_sag(9 GPa, 0 mm, 20 mm, 1 m, 500 kg/m^3)", calc.CodeDomain, "width"},
		{"bending_strain(5/8 in, 0 in)", calc.CodeDomain, "radius"},
		// lines
		{"offset_at([0 in, 24 in], [0 in, 9 in], 25 in)", calc.CodeDomain, "no guess"},
		{"offset_at([0 in, 24 in, 48 in], [0 in, 9 in], 3 in)", calc.CodeShape, "3 positions but 2 values"},
		{`offset_at([0 in, 24 in], "sheer", 3 in)`, calc.CodeKind, "no table"},
		{"offset_at([0 in, 24 in], [0 in, 9], 3 in)", calc.CodeBareNumber, "9 in"},
		{"interpolate([0 in, 10 in], [1 lb, 2 lb], 11 in)", calc.CodeDomain, "past the last"},
		{"interpolate([0 in, 10 in], [1 lb, 2 lb], 5)", calc.CodeBareNumber, "5 in"},
		{"interpolate([0 in, 10 in], [1 lb, 2 in], 5 in)", calc.CodeDimension, "length"},
		{"position_where([0 in, 10 in], [1 lb, 2 lb], 3 lb)", calc.CodeDomain, "never reaches"},
		{"position_where([0 in, 10 in, 20 in], [1 lb, 2 lb, 1 lb], 1.5 lb)", calc.CodeDomain, "positions_where"},
		{"position_where([0 in, 10 in], [1 lb, 2 lb], 3 in)", calc.CodeDimension, "mass"},
		{"scale_beam_only(3 lb, 1.1)", calc.CodeDimension, "mass"},
		{"scale_beam_only(90°, 1.1)", calc.CodeDomain, "under 90°"},
		{"girth_at_station([[0 in, 0 in]])", calc.CodeShape, "at least 2"},
		{`girth_at_station([[0 in, 0 in], [0 in, 0 in]], "batten")`, calc.CodeDomain, "stands twice"},
		{"diagonal_distance([[18.5 in, 1 in], [25 in, 19 in]], 60 in, 35°)", calc.CodeDomain, "does not meet"},
		{"waterline_half_breadth([18.5 in, 1 in], [25 in, 19 in], 20 in)", calc.CodeDomain, "not within the section"},
		{"waterline_half_breadth([18.5 in, 1 in], [25 in, 1 in], 1 in)", calc.CodeZero, "no height"},
		{"section_half_breadth([[0 in, 0 in], [18.5 in, 1 in]], 2 in)", calc.CodeDomain, "does not meet"},
		{"stem_rabbet_offset(5/8 in, 7°)", calc.CodeDomain, "8°"},
		// panels
		{"triangle_point(12 in, 30 in, 45 in)", calc.CodeDomain, "check the tape"},
		{"edge_points([0 in, 1 in], [0 in, 1 in], [0 in])", calc.CodeShape, "2 positions but 1 value"},
		{"developed_strip(" + two + ", [[0 in, 6 in, 18 in]])", calc.CodeShape, "at each"},
		{"developed_strip([[0 in, 0 in, 0 in], [0 in, 0 in, 0 in]], " + two + ")", calc.CodeDomain, "stands still"},
		{"development_twist_check([[0 in, 0 in, 0 in]], [[0 in, 6 in, 18 in]])", calc.CodeShape, "at least 2"},
		{"spiling_offset([1 in, 1 in], [3 in])", calc.CodeShape, "1 datums"},
		{"spiling_offset([1 in, 1 in], 3)", calc.CodeBareNumber, "3 in"},
		{"stock_width_for_sweep(5 in, 3 in, -1 in)", calc.CodeDomain, "margin"},
		{"lap_bevel(3/4 in, 1/8 in, 15°)", calc.CodeDomain, "run out"},
	} {
		v, _, err := evaluate(c.call)
		switch {
		case err == nil:
			t.Errorf("%s gives %s", c.call, calc.Style{}.Text(v))
		case err.Code != c.code || !strings.Contains(strings.ReplaceAll(err.Error(), "−", "-"), c.words):
			t.Errorf("%s: [%s] %v; want [%s] and %q", c.call, err.Code, err, c.code, c.words)
		}
	}
}

// TestRemarks asks for the remark on a result that is still given.
func TestRemarks(t *testing.T) {
	for call, words := range map[string]string{
		"scale_length(3 in, 5)":                                                  "another boat",
		"angle_from_rise_run(72 in, 21 in)":                                      "is more than the run",
		"saw_tilt_from_bevel(104.5°)":                                            "75.5°",
		"diagonal_square_check(121 in, 120 in, 116 in, 60 in)":                   "check the tape",
		"flare_angle(18 in, 25 in, 22 in, 4 in)":                                 "swapped",
		"bevel_error_gap(19°, 21.5°, 1 1/2 in)":                                  "1.89 mm (0.0744 in) still to plane off",
		"bevel_error_gap(21.5°, 19°, 1 1/2 in)":                                  "1.89 mm (0.0744 in) short",
		"compound_transom_bevel(9°, 16°, 14°)":                                   "the forward face is the larger",
		"compound_transom_bevel(-9°, 0°, 0°)":                                    "the after face is the larger",
		"stepped_error(17 7/9 in, 9, 16)":                                        `1/4" short`,
		"stepped_error(17.72 in, 9, 4)":                                          "past",
		"pieces_to_fill(42 in, 3 in, 3/4 in)":                                    "0.5455 in",
		"pieces_to_fill(32 in, 3 in, 1/8 in)":                                    "do not go in whole",
		"bottom_planks_count(162 in, 5 3/8 in, 1/16 in)":                         "the last plank",
		"bending_strain(5/8 in, 20 in)":                                          "over 1 %",
		"scale_beam_only(20 in, 1.3)":                                            "0.8 to 1.2",
		"offset_at([0 in, 24 in, 48 in], [0 in, 9 in, 14 in], 30 in)":            "between stations",
		"interpolate([0 in, 24 in], [1 lb, 2 lb], 3 in)":                         "straight line",
		"section_half_breadth([[0 in, 3 in], [4 in, 0 in], [8 in, 3 in]], 2 in)": "outermost",
		"spiling_offset([1 in, 2 in], [3 in, 3 in])":                             "was it changed?",
		"batten_sag(9 GPa, 20 mm, 5 mm, 4 m, 500 kg/m^3)":                        "no small one",
	} {
		_, warnings, err := evaluate(call)
		if err != nil || !strings.Contains(strings.Join(warnings, "; "), words) {
			t.Errorf("%s: %q %v; want %q", call, warnings, err, words)
		}
	}
	// over a list, a remark names the elements it is about unless it is about all
	over := value(t, "flare_angle", calc.Labelled([]string{"st_1", "st_2"}, []calc.Value{calc.Inches(3), calc.Inches(4)}), calc.Inches(9), calc.Inches(0), calc.Inches(18))
	r := call(t, "bevel_error_gap", calc.Degrees(20), over, calc.Inches(2))
	if len(r.Warnings) != 2 || !strings.HasPrefix(r.Warnings[0], "st 1: ") || !strings.HasPrefix(r.Warnings[1], "st 2: ") {
		t.Errorf("remarks over a list: %q", r.Warnings)
	}
	r = call(t, "scale_length", over, calc.Number(9))
	if len(r.Warnings) != 1 || strings.HasPrefix(r.Warnings[0], "st") {
		t.Errorf("one remark for all: %q", r.Warnings)
	}
	for _, call := range []string{
		"offset_at([0 in, 24 in, 48 in], [0 in, 9 in, 14 in], 24 in)", "scale_length(3 in, 2)", "bending_strain(5/8 in, 60 in)",
		"angle_from_rise_run(21 in, 72 in)", "diagonal_square_check(121 1/4 in, 120 3/4 in, 116 in, 34 in)", "saw_tilt_from_bevel(90°)",
	} {
		if _, warnings, err := evaluate(call); err != nil || len(warnings) != 0 {
			t.Errorf("%s: %q %v; want no remark", call, warnings, err)
		}
	}
}

// TestOffsetText never shows 1-12-0 or 0-11-8, and turns the whole group for what is
// below zero.
func TestOffsetText(t *testing.T) {
	for _, c := range []struct {
		in          float64
		eighths, to string
	}{
		{0, "0-0-0", "0-0-0"}, {11.95, "1-0-0", "1-0-0-"}, {11.999, "1-0-0", "1-0-0"}, {23.9375, "2-0-0", "1-11-7+"},
		{-27.625, "-2-3-5", "-2-3-5"}, {-0.0625, "-0-0-1", "-0-0-0+"}, {0.02, "0-0-0", "0-0-0"}, {0.04, "0-0-0", "0-0-0+"},
		{12.1, "1-0-1", "1-0-1"}, {12.09, "1-0-1", "1-0-1-"}, {47.96875, "4-0-0", "4-0-0"},
	} {
		for unit, want := range map[string]string{"eighths": c.eighths, "sixteenths": c.to} {
			if got := value(t, "offset_text", calc.Inches(c.in), calc.Str(unit)).Text(); got != want {
				t.Errorf("%g in to %s: %s, want %s", c.in, unit, got, want)
			}
		}
	}
}

// TestOffsetAtReadsTables: a table with a row a line, a table with a row a station,
// empty cells, and names that are almost right.
func TestOffsetAtReadsTables(t *testing.T) {
	stations := []string{"st_0", "st_1", "st_2", "st_3"}
	in := func(vs ...float64) []calc.Value {
		out := make([]calc.Value, len(vs))
		for i, v := range vs {
			out[i] = calc.Inches(v)
			if v < 0 {
				out[i] = calc.NoValue()
			}
		}
		return out
	}
	lines := calc.Fields(
		calc.Field{Name: "x", Value: calc.Labelled(stations, in(0, 24, 48, 72))},
		calc.Field{Name: "sheer_half", Value: calc.Labelled(stations, in(0, 9, 14, 16))},
		calc.Field{Name: "chine_half", Value: calc.Labelled(stations, in(0, -1, 10, 12))},
	)
	var byStation []calc.Field
	for i, s := range stations {
		byStation = append(byStation, calc.Field{Name: s, Value: calc.Labelled([]string{"station", "sheer_half"},
			in([]float64{0, 24, 48, 72}[i], []float64{0, 9, 14, 16}[i]))})
	}
	for _, table := range []calc.Value{lines, calc.Fields(byStation...)} {
		r := call(t, "offset_at", table, calc.Str("sheer_half"), calc.Inches(60))
		printed(t, "by name", inches(r.Value), 15.2, 1e-9)
		if len(r.Warnings) != 1 || !strings.Contains(r.Warnings[0], "between st 2 and st 3") {
			t.Errorf("remarks: %q", r.Warnings)
		}
	}
	row, _ := lines.Member("sheer_half")
	printed(t, "by row", inches(value(t, "offset_at", lines, row, calc.Inches(60))), 15.2, 1e-9)
	at := value(t, "offset_at", lines, calc.Str("sheer_half"), calc.Listed(calc.Inches(24), calc.Inches(60)))
	printed(t, "over a list of places", inches(at.Items()[1]), 15.2, 1e-9)
	printed(t, "past an empty cell", inches(value(t, "offset_at", lines, calc.Str("chine_half"), calc.Inches(24), calc.Str("straight"))), 5, 1e-9)

	noStations := calc.Fields(calc.Field{Name: "sheer_half", Value: row})
	for _, c := range []struct {
		table, line calc.Value
		code        calc.Code
		words       string
	}{
		{lines, calc.Str("sheer_haf"), calc.CodeUnknownItem, "did you mean sheer_half?"},
		{noStations, calc.Str("sheer_half"), calc.CodeTable, "a row named x"},
		{calc.Inches(3), row, calc.CodeKind, "list of lengths"},
	} {
		f := find(t, "offset_at")
		if _, err := f.Invoke([]calc.Value{c.table, c.line, calc.Inches(3)}); err == nil || err.Code != c.code || !strings.Contains(err.Error(), c.words) {
			t.Errorf("%v; want [%s] %q", err, c.code, c.words)
		}
	}
}
