package trade_test

import (
	"math"
	"strings"
	"testing"

	"scarph/calc"
)

// read is a reading of v millimetres ± u, each its own source.
func read(source int32, v, u float64) calc.Value {
	return calc.WithSpread(calc.Length(v/1000), u/1000, source)
}

// TestDinghySides: the two sides of the lapstrake dinghy against one another and
// against the drawing, every figure of the survey.
func TestDinghySides(t *testing.T) {
	var drawn, deviations []calc.Value
	rows := []struct {
		drawn                                             string
		drawnMM, port, starboard, u                       float64
		difference, combined, ratio, middle, middleU, off float64
	}{
		{"0-0-6", 19.05, 20, 20, 1, 0, 1.41, 0.00, 20.0, 0.71, 0.95},
		{"1-1-2", 336.55, 331, 338, 2, -7, 2.83, 2.47, 334.5, 1.41, -2.05},
		{"1-9-0", 533.40, 527, 539, 2, -12, 2.83, 4.24, 533.0, 1.41, -0.40},
		{"2-0-7", 631.83, 622, 641, 2, -19, 2.83, 6.72, 631.5, 1.41, -0.33},
		{"2-1-7", 657.23, 655, 661, 2, -6, 2.83, 2.12, 658.0, 1.41, 0.78},
		{"2-0-2", 615.95, 616, 619, 2, -3, 2.83, 1.06, 617.5, 1.41, 1.55},
		{"1-7-4", 495.30, 494, 497, 1.5, -3, 2.12, 1.41, 495.5, 1.06, 0.20},
	}
	for i, r := range rows {
		paper := value(t, "offset", calc.Str(r.drawn))
		printed(t, "drawn", mm(paper), r.drawnMM, 0.00501)
		port, starboard := read(int32(2*i+1), r.port, r.u), read(int32(2*i+2), r.starboard, r.u)
		d := call(t, "port_starboard_difference", port, starboard)
		printed(t, "port less starboard", mm(d.Value), r.difference, 1e-9)
		printed(t, "its ±", 1000*d.Value.Likely(), r.combined, 0.005)
		if r.difference < 0 && (len(d.Warnings) != 1 || !strings.HasPrefix(d.Warnings[0], "starboard fuller by ")) {
			t.Errorf("the fuller side is not named: %q", d.Warnings)
		}
		judged := value(t, "difference_stands_out", d.Value)
		printed(t, "ratio", field(t, judged, "ratio").V, r.ratio, 0.005)
		if got := field(t, judged, "stands_out").True(); got != (i >= 1 && i <= 4) {
			t.Errorf("station %d stands out: %v", i, got)
		}
		middle := value(t, "mean_reading", calc.Listed(port, starboard))
		printed(t, "mean of sides", mm(middle), r.middle, 1e-9)
		printed(t, "its ±", 1000*middle.Likely(), r.middleU, 0.005)
		off := value(t, "deviation_from_drawn", middle, paper)
		printed(t, "mean less drawn", mm(off), r.off, 0.00501)
		drawn, deviations = append(drawn, paper), append(deviations, off)
	}
	all := call(t, "mean_deviation", calc.Labelled([]string{"st_0", "st_1", "st_2", "st_3", "st_4", "st_5", "st_6"}, deviations))
	printed(t, "root mean square", mm(field(t, all.Value, "root_mean_square")), 1.096, 0.0005)
	printed(t, "mean", mm(field(t, all.Value, "mean")), 0.10, 0.005)
	printed(t, "largest", mm(field(t, all.Value, "largest")), -2.05, 0.005)
	if at := field(t, all.Value, "largest_at").Text(); at != "st 1" {
		t.Errorf("the largest stands at %q", at)
	}
	if len(field(t, all.Value, "mean").Terms()) != 14 {
		t.Error("the mean does not carry the ± of its fourteen readings")
	}
	// station 3: 641 as read, against 631 as it may have been
	doubt := value(t, "deviation_from_drawn", value(t, "mean_reading", calc.Listed(read(1, 622, 2), read(2, 631, 2))), drawn[3])
	printed(t, "station 3 with 631", mm(doubt), -5.3, 0.05)
}

// TestDinghyKeelTwistAndRake: hog, twist, rake, ribs, planking and sheer.
func TestDinghyKeelTwistAndRake(t *testing.T) {
	list := func(vs ...float64) calc.Value {
		items := make([]calc.Value, len(vs))
		for i, v := range vs {
			items[i] = calc.Length(v / 1000)
		}
		return calc.Listed(items...)
	}
	keel := []float64{40, 33, 27, 25, 26, 32, 41}
	hog := call(t, "hog", list(keel...), calc.Length(0.5))
	printed(t, "hog", mm(hog.Value), 15.5, 1e-9)
	if len(hog.Warnings) != 1 || !strings.HasPrefix(hog.Warnings[0], "hogged: 15.5 mm") {
		t.Errorf("the hog is not said in words: %q", hog.Warnings)
	}
	over := value(t, "hog_at_stations", list(keel...), calc.Length(0.5)).Items()
	for i, want := range []float64{0, 7.17, 13.33, 15.50, 14.67, 8.83, 0} {
		printed(t, "over the chord", mm(over[i]), want, 0.005)
	}
	var points, sheer []calc.Value
	for i, z := range keel {
		points = append(points, list(500*float64(i), z))
	}
	for i, z := range []float64{412, 449, 477, 494, 503, 500, 489} {
		sheer = append(sheer, list(250*float64(i), z))
	}
	line := value(t, "best_fit_line", calc.Listed(points...))
	printed(t, "slope", field(t, line, "slope").V, 0, 0.0000005)
	printed(t, "height", mm(field(t, line, "offset")), 32, 0.005)
	for i, want := range []float64{8, 1, -5, -7, -6, 0, 9} {
		printed(t, "off the line", mm(field(t, line, "residuals").Items()[i]), want, 0.005)
	}
	arc := value(t, "best_fit_arc", calc.Listed(points...))
	printed(t, "radius of the keel", mm(field(t, arc, "radius")), 71297, 0.5)
	for i, want := range []float64{0.77, -1.00, -0.26, -0.01, 0.74, 0.00, -0.23} {
		printed(t, "off the arc", mm(field(t, arc, "residuals").Items()[i]), want, 0.005)
	}
	arc = value(t, "best_fit_arc", calc.Listed(sheer...))
	printed(t, "radius of the sheer", mm(field(t, arc, "radius")), 6432.1, 0.05)
	for i, want := range []float64{0.15, -0.29, 0.22, -0.42, 0.70, -0.46, 0.11} {
		printed(t, "off the sheer's arc", mm(field(t, arc, "residuals").Items()[i]), want, 0.005)
	}

	twist := call(t, "twist", read(1, 412, 1.5), read(2, 405, 1.5), calc.Length(1.01))
	printed(t, "twist", degrees(twist.Value), 0.397, 0.0005)
	printed(t, "its ±", twist.Value.Likely()*180/math.Pi, 0.120, 0.0005)
	printed(t, "against its error", twist.Value.V/twist.Value.Likely(), 3.3, 0.05)
	if len(twist.Warnings) != 1 || !strings.HasPrefix(twist.Warnings[0], "port high") {
		t.Errorf("the high side is not named: %q", twist.Warnings)
	}
	rake := value(t, "angle_from_rise_run", read(1, 96, 2), read(2, 402, 2))
	printed(t, "rake", degrees(rake), 13.431, 0.0005)
	printed(t, "its ±", rake.Likely()*180/math.Pi, 0.277, 0.0005)
	printed(t, "against 12.5° drawn", (degrees(rake)-12.5)/(rake.Likely()*180/math.Pi), 3.4, 0.05)

	ribs := list(152, 149, 155, 151, 158, 147, 153, 150, 154, 152)
	printed(t, "ribs", mm(value(t, "mean_reading", ribs)), 152.1, 1e-9)
	printed(t, "their scatter", mm(value(t, "reading_scatter", ribs)), 3.143, 0.0005)
	lost := call(t, "wood_lost", calc.Length(0.0095), list(8.1, 7.9, 8.3, 7.6, 6.9, 8.0))
	for i, want := range []float64{14.7, 16.8, 12.6, 20.0, 27.4, 15.8} {
		printed(t, "lost", 100*lost.Value.Items()[i].V, want, 0.05)
	}
	if len(lost.Warnings) != 1 || !strings.HasPrefix(lost.Warnings[0], "element 5: more than a quarter") {
		t.Errorf("the fifth strake is not named: %q", lost.Warnings)
	}
	printed(t, "planking", mm(value(t, "mean_reading", list(8.1, 7.9, 8.3, 7.6, 6.9, 8.0))), 7.8, 1e-9)
	wide := value(t, "shrunk_back_width", calc.Length(0.118), calc.Number(0.11), calc.Number(0.16), calc.Number(0.00234))
	printed(t, "strake", mm(wide), 119.381, 0.0005)
}
