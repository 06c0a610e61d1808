package examples

import (
	"strings"
	"testing"

	"scarph/kernel"
)

func TestQuilletSides(t *testing.T) {
	n := open(t, "quillet")
	judge(t, n, "", []figure{
		{"lines.sheer_half", "mm", 0.00501, []float64{19.05, 336.55, 533.40, 631.83, 657.23, 615.95, 495.30}},
		{"sides", "mm", 1e-9, []float64{0, -7, -12, -19, -6, -3, -3}},
		{"tape", "mm", 0.005, []float64{1.41, 2.83, 2.83, 2.83, 2.83, 2.83, 2.12}},
		{"times_the_tape", "", 0.005, []float64{0, 2.47, 4.24, 6.72, 2.12, 1.06, 1.41}},
		{"stands_out", "", 0.005, []float64{2.47, 4.24, 6.72, 2.12}},
		{"middle", "mm", 1e-9, []float64{20, 334.5, 533, 631.5, 658, 617.5, 495.5}},
		{"spread_of(middle)", "mm", 0.005, []float64{0.71, 1.41, 1.41, 1.41, 1.41, 1.41, 1.06}},
		{"off_the_paper", "mm", 0.00501, []float64{0.95, -2.05, -0.40, -0.33, 0.78, 1.55, 0.20}},
		one("all_stations.root_mean_square", "mm", 1.096, 0.0005),
		one("all_stations.mean", "mm", 0.10, 0.005),
		one("abs(sides.st_3) / 2", "mm", 9.5, 1e-9),
		one("survey.starboard.st_3", "mm", 641, 1e-9), // kept
		one("sides_if_misread", "mm", -9, 1e-9),
		one("middle_if_misread", "mm", 626.5, 1e-9),
		one("off_if_misread", "mm", -5.3, 0.05),
	})
	r, ok := n.Session.Value("sides", kernel.Now)
	if !ok || len(r.Warnings) == 0 || !strings.Contains(strings.Join(r.Warnings, "\n"), "starboard fuller by ") {
		t.Errorf("the fuller side is not named: %q", r.Warnings)
	}
	if h, ok := n.Session.History("stem_rake", kernel.Now); !ok || len(h.Readings) != 2 || h.Readings[0].Kind != "drawn" || h.Readings[1].Kind != "found" {
		t.Error("the stem's rake has not its two readings")
	}
}

func TestQuilletKeelAndStem(t *testing.T) {
	judge(t, open(t, "quillet"), "", []figure{
		one("hogged", "mm", 15.5, 1e-9),
		{"keel_rise", "mm", 0.005, []float64{0, 7.17, 13.33, 15.50, 14.67, 8.83, 0}},
		one("best_fit_line(pairs(keel_at, keel_down)).slope * 1000", "", 0, 0.0005),
		one("best_fit_line(pairs(keel_at, keel_down)).offset", "mm", 32, 0.005),
		{"off_straight", "mm", 0.005, []float64{8, 1, -5, -7, -6, 0, 9}},
		one("bent.radius", "mm", 71297, 0.5),
		{"bent.residuals", "mm", 0.005, []float64{0.77, -1.00, -0.26, -0.01, 0.74, 0, -0.23}},
		one("twisted", "°", 0.397, 0.0005),
		one("spread_of(twisted)", "°", 0.120, 0.0005),
		one("times_its_error", "", 3.3, 0.05),
		one("stem_rake", "°", 13.431, 0.0005),
		one("spread_of(stem_rake)", "°", 0.277, 0.0005),
		one("stem_off", "°", 0.931, 0.0005),
		one("stem_times", "", 3.4, 0.05),
	})
}

func TestQuilletWood(t *testing.T) {
	n := open(t, "quillet")
	judge(t, n, "", []figure{
		one("rib_mean", "mm", 152.1, 1e-9),
		one("rib_mean", "in", 5.988, 0.0005),
		one("drawn(rib_spacing)", "mm", 152.4, 1e-9),
		one("rib_scatter", "mm", 3.143, 0.0005),
		{"lost", "%", 0.05, []float64{14.7, 16.8, 12.6, 20.0, 27.4, 15.8}},
		one("plank_mean", "mm", 7.8, 1e-9),
		one("strake_wet", "mm", 119.381, 0.0005),
		one("opened", "mm", 1.38, 0.005),
		one("sheer_arc.radius", "mm", 6432.1, 0.05),
		{"sheer_arc.residuals", "mm", 0.005, []float64{0.15, -0.29, 0.22, -0.42, 0.70, -0.46, 0.11}},
	})
	r, ok := n.Session.Value("lost", kernel.Now)
	if !ok || r.Cautions == 0 || len(r.Warnings) == 0 || !strings.HasPrefix(r.Warnings[0], "five: more than a quarter") {
		t.Errorf("the fifth strake is not named: %q", r.Warnings)
	}
}
