package trade_test

import (
	"strings"
	"testing"

	"scarph/calc"
)

var stationNames = []string{"st_0", "st_1", "st_2", "st_3", "st_4", "st_5", "st_6", "st_7", "st_8"}

// row reads a row of a table of offsets.
func row(t *testing.T, text string) calc.Value {
	t.Helper()
	var items []calc.Value
	for _, s := range strings.Fields(text) {
		v, err := calc.ParseOffset(s)
		if err != nil {
			t.Fatal(err)
		}
		items = append(items, v)
	}
	return calc.Labelled(stationNames[:len(items)], items)
}

// sorrel is the skiff's table of offsets; stations stand 22 1/2 in apart.
type sorrel struct{ x, sheerHeight, chineHeight, sheer, chineRead, chine calc.Value }

func sorrelOffsets(t *testing.T) sorrel {
	x := value(t, "mark_positions", calc.Inches(0), calc.Inches(22.5), calc.Number(9))
	return sorrel{
		x:           calc.Labelled(stationNames, x.Items()),
		sheerHeight: row(t, "2-2-0 1-11-2 1-9-1 1-7-5 1-6-5 1-6-1 1-6-1 1-6-4 1-7-2"),
		chineHeight: row(t, "0-6-0 0-3-3 0-1-4 0-0-3 0-0-0 0-0-1 0-0-6 0-1-7 0-3-4"),
		sheer:       row(t, "0-0-5 0-11-2 1-6-7 1-11-7 2-2-6 2-3-6 2-3-2 2-1-4 1-10-6"),
		chineRead:   row(t, "0-0-5 0-7-6 1-1-7 1-6-4 1-9-4 1-11-5 1-10-1 1-8-3 1-5-7"),
		chine:       row(t, "0-0-5 0-7-6 1-1-7 1-6-4 1-9-4 1-10-5 1-10-1 1-8-3 1-5-7"),
	}
}

func TestSorrelFlareAndChineLogs(t *testing.T) {
	s := sorrelOffsets(t)
	read := value(t, "flare_angle", s.chineRead, s.sheer, s.chineHeight, s.sheerHeight).Items()
	mended := value(t, "flare_angle", s.chine, s.sheer, s.chineHeight, s.sheerHeight).Items()
	wantRead := []float64{9.987, 14.294, 15.601, 15.742, 12.907, 16.434, 17.133, 17.199}
	wantMended := []float64{9.987, 14.294, 15.601, 15.742, 15.893, 16.434, 17.133, 17.199}
	twelfths := []float64{2.113, 3.057, 3.351, 3.383, 3.417, 3.540, 3.699, 3.714}
	gaps := []float64{-0.0796, 0.0384, 0.0751, 0.0791, 0.0833, 0.0987, 0.1187, 0.1205}
	for i := range wantRead {
		printed(t, "flare as read", degrees(read[i+1]), wantRead[i], 0.0005)
		printed(t, "flare mended", degrees(mended[i+1]), wantMended[i], 0.0005)
		printed(t, "in twelve", inches(value(t, "bevel_in_twelfths", mended[i+1])), twelfths[i], 0.0005)
		printed(t, "log sawn at the bad bevel", inches(value(t, "bevel_error_gap", read[5], mended[i+1], calc.Inches(1.5))), gaps[i], 0.00005)
	}
	// the saw set to a round 13°
	saw := calc.Degrees(13)
	printed(t, "st 5", inches(value(t, "bevel_error_gap", saw, mended[5], calc.Inches(1.5))), 0.0808, 0.00005)
	printed(t, "transom", inches(value(t, "bevel_error_gap", saw, mended[8], calc.Inches(1.5))), 0.1180, 0.00005)
	short := call(t, "bevel_error_gap", saw, mended[1], calc.Inches(1.5))
	printed(t, "st 1", inches(short.Value), -0.0822, 0.00005)
	if len(short.Warnings) != 1 || !strings.Contains(short.Warnings[0], "2.09 mm (0.0822 in) short") {
		t.Errorf("the sign is not said in words: %q", short.Warnings)
	}
	// the heel of a 2 1/4 in frame
	printed(t, "heel", inches(value(t, "bevel_error_gap", read[5], mended[5], calc.Inches(2.25))), 0.1250, 0.00005)
}

func TestSorrelScalingAndSheer(t *testing.T) {
	k := calc.Number(15.0 / 14)
	printed(t, "spacing", inches(value(t, "scale_length", calc.Inches(21), k)), 22.5, 1e-12)
	printed(t, "beam", inches(value(t, "scale_length", calc.Inches(51.75), k)), 55.446, 0.0005)
	printed(t, "weight", value(t, "scale_length", calc.Mass(1), k).V, 1.22996, 0.000005)
	s := sorrelOffsets(t)
	printed(t, "spring of the sheer", inches(value(t, "sheer_drop", s.sheerHeight.Items()[0], s.sheerHeight.Items()[6], s.sheerHeight.Items()[8])), 4.5, 1e-12)
}

func TestSorrelFormsAndFrames(t *testing.T) {
	s := sorrelOffsets(t)
	legs := value(t, "strongback_height", calc.Inches(36), s.sheerHeight).Items()
	for i, want := range []float64{10, 12.75, 14.875, 16.375, 17.375, 17.875, 17.875, 17.5, 16.75} {
		printed(t, "leg", inches(legs[i]), want, 1e-9)
	}
	square := value(t, "diagonal_square_check", calc.Inches(183.375), calc.Inches(183.125), calc.Inches(180), calc.Inches(34.4))
	printed(t, "out of square", inches(square), 0.1273, 0.00005)

	flare := value(t, "flare_angle", s.chineRead, s.sheer, s.chineHeight, s.sheerHeight)
	mended := value(t, "flare_angle", s.chine, s.sheer, s.chineHeight, s.sheerHeight)
	forms := func(chine calc.Value, plank float64, flare calc.Value) []calc.Value {
		// the stem's own half-breadth takes no plank
		body := calc.Labelled(stationNames[1:], chine.Items()[1:])
		return value(t, "mould_offset_for_planking", body, calc.Inches(plank), calc.Labelled(stationNames[1:], flare.Items()[1:])).Items()
	}
	first := forms(s.chineRead, 0.625, flare)
	for i, want := range []float64{7.125, 13.25, 17.875, 20.875, 22.984, 21.5, 19.75, 17.25} {
		printed(t, "form as read, to a sixteenth", inches(first[i]), want, 0.03125)
	}
	printed(t, "form 5 as read", inches(first[4]), 22.984, 0.0005)
	thin := forms(s.chine, 0.5625, mended)
	for i, want := range []float64{7.1788, 13.2945, 17.9160, 20.9156, 22.0401, 21.5385, 19.7864, 17.2862} {
		printed(t, "form for 9/16 planking", inches(thin[i]), want, 0.00005)
		if i != 4 {
			small := inches(thin[i]) - inches(first[i])
			if small < 0.0634 || small > 0.0655 {
				t.Errorf("form %d was made %.4f in small, not 0.0635 to 0.0654", i+1, small)
			}
		}
	}

	run := calc.Inches(157.5)
	printed(t, "frames", inches(value(t, "frame_spacing", run, calc.Number(12))), 14.3182, 0.00005)
	printed(t, "the fence-post slip", inches(run)/value(t, "spaces_from_frames", calc.Number(12), calc.Str("one")).V, 13.125, 1e-9)
	off := value(t, "stepped_error", calc.Inches(157.5/11), calc.Number(11), calc.Number(16))
	printed(t, "stepped off", inches(off), -1.0/16, 1e-9)
	marks := value(t, "mark_positions", calc.Inches(0), calc.Inches(157.5/11), calc.Number(12))
	rounded := value(t, "round_to_fraction", marks, calc.Number(16)).Items()
	for i, want := range []float64{0, 14.3125, 28.625, 42.9375, 57.25, 71.5625, 85.9375, 100.25, 114.5625, 128.875, 143.1875, 157.5} {
		printed(t, "mark from one zero", inches(rounded[i]), want, 1e-9)
	}
	// the half bottom frame, before and after the correction, and in 9/16 planking
	for _, c := range []struct {
		chine, flare calc.Value
		plank, want  float64
	}{
		{s.chineRead, flare, 0.625, 45.9676}, {s.chine, mended, 0.625, 43.9503}, {s.chine, mended, 0.5625, 44.0803},
	} {
		half := value(t, "mould_offset_for_planking", c.chine.Items()[5], calc.Inches(c.plank), c.flare.Items()[5])
		printed(t, "bottom frame", 2*inches(half), c.want, 0.00005)
	}
	for _, c := range []struct {
		chine calc.Value
		want  float64
	}{{s.chineRead, 18.4666}, {s.chine, 18.7154}} {
		rise := s.sheerHeight.Items()[5].V - s.chineHeight.Items()[5].V
		run := s.sheer.Items()[5].V - c.chine.Items()[5].V
		printed(t, "side frame", inches(value(t, "hypotenuse", calc.Length(rise), calc.Length(run))), c.want, 0.00005)
	}
}

func TestSorrelFairness(t *testing.T) {
	s := sorrelOffsets(t)
	for _, c := range []struct {
		line calc.Value
		want []float64
	}{
		{s.chineRead, []float64{0.092, -0.046, 0.274, -0.683, 0.995, -0.749, 0.456}},
		{s.chine, []float64{0.062, 0.039, -0.038, 0.063, -0.005, 0.008, 0.035}},
	} {
		got := field(t, value(t, "fairness", c.line, s.x), "residuals").Items()
		for i, want := range c.want {
			printed(t, "residual", inches(got[i+1]), want, 0.0005)
		}
		if got[0].Kind() != calc.Missing || got[8].Kind() != calc.Missing {
			t.Error("an end was judged")
		}
	}
	judged := call(t, "fairness", s.chineRead, s.x)
	if st := field(t, judged.Value, "station").Text(); st != "st 5" {
		t.Errorf("the worst station is %s", st)
	}
	printed(t, "pulled, the batten reads", inches(field(t, judged.Value, "reading")), 22.6298, 0.00005)
	reading := value(t, "offset_text", field(t, judged.Value, "reading"))
	if reading.Text() != "1-10-5" {
		t.Errorf("in the notation of the table: %s", reading.Text())
	}
	if len(judged.Warnings) != 1 || !strings.HasPrefix(judged.Warnings[0], "st 5 ") || !strings.HasSuffix(judged.Warnings[0], "mend the worst, then look again") {
		t.Errorf("remarks: %q", judged.Warnings)
	}
	// on the sheer nothing is wrong, but the station next to the stem seems so
	sheer := call(t, "fairness", s.sheer, s.x, calc.Inches(0.25))
	printed(t, "sheer at st 1", inches(field(t, sheer.Value, "residuals").Items()[1]), 0.54, 0.005)
	if got := (calc.Style{}).Text(field(t, sheer.Value, "end_effect")); got != "st 1, st 7" {
		t.Errorf("end effect at %s", got)
	}
	if got := field(t, sheer.Value, "advice").Text(); got != `fair within 1/4"` {
		t.Errorf("advice on the sheer: %s", got)
	}
	bump := call(t, "fairness_bump", s.sheer, s.x)
	if len(bump.Warnings) != 3 {
		t.Fatalf("remarks on the sheer: %q", bump.Warnings)
	}
	for i, st := range []string{"st 1 ", "st 7 "} {
		if w := bump.Warnings[i+1]; !strings.HasPrefix(w, st) || !strings.HasSuffix(w, "end effect") {
			t.Errorf("remark on the sheer: %q", w)
		}
	}
}

func TestSorrelSidePanel(t *testing.T) {
	s := sorrelOffsets(t)
	edge1 := value(t, "edge_points", s.x, s.chine, s.chineHeight)
	edge2 := value(t, "edge_points", s.x, s.sheer, s.sheerHeight)
	strip := value(t, "developed_strip", edge1, edge2)
	want := [][4]float64{
		{0, 0, -1.60, 19.94}, {23.74, -0.73, 23.43, 19.44}, {47.13, -1.17, 47.28, 19.08},
		{70.12, -1.30, 70.38, 18.69}, {92.82, -1.14, 93.08, 18.21}, {115.35, -1.01, 115.60, 17.71},
		{137.87, -0.84, 138.10, 17.28}, {160.46, -0.55, 160.67, 16.85}, {183.15, 0, 183.34, 16.49},
	}
	chine, sheer := field(t, strip, "edge_1").Items(), field(t, strip, "edge_2").Items()
	for i, w := range want {
		for k, p := range []calc.Value{chine[i].Items()[0], chine[i].Items()[1], sheer[i].Items()[0], sheer[i].Items()[1]} {
			printed(t, stationNames[i], inches(p), w[k], 0.005)
		}
	}
	printed(t, "over all", inches(field(t, strip, "length")), 184.940, 0.0005)
	printed(t, "across", inches(field(t, strip, "width")), 21.232, 0.0005)
	printed(t, "diagonal", inches(field(t, strip, "diagonal_1")), 184.084, 0.0005)
	printed(t, "other diagonal", inches(field(t, strip, "diagonal_2")), 185.819, 0.0005)
	printed(t, "chine", inches(field(t, strip, "edge_1_length")), 183.176, 0.0005)
	printed(t, "area of a side", field(t, strip, "area").V/0.3048/0.3048, 24.337, 0.0005)

	read := value(t, "developed_strip", value(t, "edge_points", s.x, s.chineRead, s.chineHeight), edge2)
	printed(t, "chine with the bad number", inches(field(t, read, "edge_1_length")), 183.293, 0.0005)
}

func TestSorrelStrakesBottomAndThwart(t *testing.T) {
	s := sorrelOffsets(t)
	for _, c := range []struct {
		station      int
		girth, width float64
	}{{1, 20.181, 7.310}, {4, 19.351, 7.034}, {8, 16.487, 6.079}} {
		at := func(l calc.Value) calc.Value { return l.Items()[c.station] }
		girth := value(t, "girth_at_station", calc.Listed(
			calc.Listed(at(s.chine), at(s.chineHeight)), calc.Listed(at(s.sheer), at(s.sheerHeight))))
		printed(t, "side girth", inches(girth), c.girth, 0.0005)
		width := value(t, "lining_off_widths", girth, calc.Number(3), calc.Inches(0.875))
		printed(t, "strake", inches(width), c.width, 0.0005)
	}
	planks := value(t, "bottom_planks_count", calc.Inches(180.358), calc.Inches(5.375), calc.Inches(3.0/64))
	printed(t, "bottom planks", planks.V, 34, 0)
	for plank, want := range map[float64]float64{0.625: 48.0370, 0.5625: 48.1669} {
		length := value(t, "thwart_length", calc.Inches(24.6991), calc.Inches(plank), calc.Degrees(15.752), calc.Inches(1.0/16))
		printed(t, "thwart", inches(length), want, 0.0001)
	}
}
