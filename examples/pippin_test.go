package examples

import (
	"testing"

	"scarph/kernel"
)

func TestPippinAsPublished(t *testing.T) {
	n := open(t, "pippin")
	judge(t, n, "2027-03-16", []figure{
		one("loa", "mm", 2400, 1e-9),
		one("greatest_beam", "mm", 1280, 1e-9),
		{"deadrise", "°", 0.005, []float64{9.82, 9.25, 9.09, 8.88, 8.53}},
		{"flare", "°", 0.005, []float64{19.98, 21.25, 20.62, 21.25, 23.30}},
		{"[side.edge_1_length, side.edge_2_length, bottom.edge_1_length]", "mm", 0.005, []float64{2448.74, 2445.80, 2423.67}},
		{"[side.length, side.width, bottom.length, bottom.width]", "mm", 0.05, []float64{2448.1, 407.5, 2425.0, 506.4}},
		{"twist.side", "°", 0.005, []float64{1.27, 0.63, 0.63, 2.05}},
		{"twist.bottom", "°", 0.005, []float64{0.57, 0.16, 0.21, 0.35}},
		// printed 0.9306: triangles on the other diagonals round the other way
		one("side.area", "m^2", 0.93055, 0.000005),
		one("bottom.area", "m^2", 1.0663, 0.00005),
	})
}

func TestPippinShortened(t *testing.T) {
	n := open(t, "pippin")
	judge(t, n, "", []figure{
		one("too_long", "mm", 8.1, 0.05),
		one("scarf_length(ply, 8)", "mm", 48, 1e-9),
		one("loa", "mm", 2340, 1e-9),
		one("side.edge_1_length", "mm", 2389.94, 0.005),
		{"[side.length, side.width, bottom.length, bottom.width]", "mm", 0.05, []float64{2389.3, 407.5, 2365.6, 506.4}},
		one("sheet.length - side.length", "mm", 50.7, 0.05),
		{"[side.area, bottom.area]", "m^2", 0.00005, []float64{0.9081, 1.0401}},
		{"deadrise", "°", 0.005, []float64{9.82, 9.25, 9.09, 8.88, 8.53}},
		{"flare", "°", 0.005, []float64{19.98, 21.25, 20.62, 21.25, 23.30}},
		one("stacked", "mm", 913.9, 0.05),
		one("stacked_both", "mm", 1827.8, 0.06), // twice a rounded figure
		one("sheets_for_panels", "", 2, 0),
		{"side.edge_1", "mm", 0.05, []float64{0, 0, 617.1, -36.6, 1207.7, -53.7, 1793.3, -41.6, 2387.0, 0}},
		{"side.edge_2", "mm", 0.05, []float64{-2.2, 351.1, 617.4, 349.6, 1207.5, 343.8, 1792.9, 344.7, 2384.6, 353.9}},
		{"bottom.edge_1", "mm", 0.05, []float64{0, 0, 599.0, -17.8, 1186.6, -23.6, 1772.1, -16.9, 2363.7, 0}},
		{"bottom.edge_2", "mm", 0.05, []float64{-1.9, 263.9, 596.8, 417.8, 1184.1, 482.7, 1769.6, 469.0, 2361.3, 404.5}},
		one("panel_area", "m^2", 3.8964, 0.00011), // the printed areas are rounded
		one("panels_mass", "kg", 12.624, 0.0008),  // printed from areas rounded to a square centimetre
		one("fillet", "cm^3", 150.19, 0.005),
		one("oars", "mm", 2181, 0.5),
	})
	// the bow board was cut before the change, and is right
	if got := words(t, n, "2027-03-30", "bow_board"); got["length"] != "right" || got["width"] != "right" {
		t.Errorf("the bow board: %v", got)
	}
	if r, ok := n.Session.Value("flare", kernel.Now); !ok || !r.OK() {
		t.Error("the flare is gone")
	}
}

func TestPippinUnmoved(t *testing.T) {
	n := open(t, "pippin")
	ripple, err := n.Session.WhatIf(map[string]string{"spacing": "600 mm"})
	if err != nil {
		t.Fatal(err)
	}
	still := map[string]bool{}
	for _, name := range n.Session.UnmovedBy(ripple) {
		still[name] = true
	}
	for _, name := range []string{"deadrise", "flare", "greatest_beam", "bow_board"} {
		if !still[name] {
			t.Errorf("%s is not said to stand still", name)
		}
	}
	moved := map[string]bool{}
	for _, m := range ripple.Moved {
		moved[m.Name] = true
	}
	for _, name := range []string{"loa", "side", "bottom"} {
		if !moved[name] {
			t.Errorf("%s is not said to move", name)
		}
	}
}

func TestPippinAfloat(t *testing.T) {
	n := open(t, "pippin")
	for day, rows := range map[string][3][3]float64{
		"2027-03-16": {{2.8, 82.8, 1410.0}, {50.9, 130.9, 1328.9}, {71.1, 151.1, 1314.2}},
		"2027-05-25": {{3.5, 83.5, 1373.3}, {52.4, 132.4, 1293.9}, {73.1, 153.1, 1280.7}},
	} {
		for i, load := range []string{"38 kg", "118 kg", "158 kg"} {
			at := "draft_for(offsets, " + load + ", 1000 kg/m^3)"
			judge(t, n, day, []figure{
				one(at+".water_height", "mm", rows[i][0], 0.05),
				one(at+".draft", "mm", rows[i][1], 0.05),
				one(at+".centre_of_buoyancy", "mm", rows[i][2], 0.05),
			})
		}
	}
	judge(t, n, "", []figure{
		{"[empty.draft, with_me.draft, with_both.draft]", "mm", 0.05, []float64{83.5, 132.4, 153.1}},
		one("deeper", "mm", 4.6, 0.05),
		one("sinks", "kg/mm", 1.93, 0.0095), // printed from drafts rounded to a tenth
		one("heavier", "kg", 8.9, 0.05),
	})
}
