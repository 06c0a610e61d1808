package trade_test

import (
	"testing"

	"scarph/calc"
)

// TestShopFiguresOfTheBoats: the figures of the yard and the bench in the journals
// of a cedar skiff and a plywood pram, to half of the last printed
// digit, or to what the rounding of what goes in leaves.
func TestShopFiguresOfTheBoats(t *testing.T) {
	for _, c := range []struct {
		call string
		unit string
		want float64
		half float64
	}{
		// the skiff: boards at 35 % and 30 % waste of what is bought
		{"lumber_to_buy(91.428 bd ft, 35 %)", "bd ft", 140.658, 0.0005},
		{"lumber_cost(91.428 bd ft, 7.25 USD/bd ft, 35 %)", "USD", 1019.77, 0.005},
		{"lumber_to_buy(22.688 bd ft, 30 %)", "bd ft", 32.411, 0.0005},
		{"lumber_cost(22.688 bd ft, 8.40 USD/bd ft, 30 %)", "USD", 272.25, 0.0061},                // 22.688 is rounded
		{"lumber_cost(48.667 bd ft + 43.177 bd ft, 7.25 USD/bd ft, 35 %)", "USD", 1024.42, 0.011}, // each area is rounded to half a thousandth
		// thinner planks: shorter screws and scarfs
		{"screw_length_for(5/8 in, 2.4)", "in", 1.5, 1e-9},
		{"screw_length_for(9/16 in, 2.4)", "in", 1.25, 1e-9},
		{"scarf_length(9/16 in, 8)", "in", 4.5, 1e-9},
		{"fastenings_total(3 * 2, 12, 2)", "", 144, 0},
		// the bottom: shed and riverside, and a plank of 5 3/8 in between them
		{"equilibrium_moisture(58 °F, 55 %)", "%", 10.24, 0.005},
		{"equilibrium_moisture(65 °F, 80 %)", "%", 16.11, 0.005},
		{`width_change(5.375 in, "northern white cedar", 10 %, 16 %)`, "in", 0.0739, 0.00005},
		{`plank_gap(5.375 in, width_change(5.375 in, "northern white cedar", 10 %, 16 %), 60 %)`, "in", 0.0443, 0.00005},
		{`width_change(5.375 in, "northern white cedar", 8.2 %, 16 %)`, "in", 0.0960, 0.00005},
		{`plank_gap(5.375 in, width_change(5.375 in, "northern white cedar", 8.2 %, 16 %), 60 %)`, "in", 0.0576, 0.00005},
		// the pram: panels, fillets, and the sheets that hold a side and a bottom half each
		{"panel_weight(2 * 0.9081 m^2 + 2 * 1.0401 m^2, 6 mm, 540 kg/m^3)", "kg", 12.624, 0.0005},
		{"fillet_volume(12 mm, 2 * 2.43 m)", "mL", 150.19, 0.005},
		{"scarf_length(6 mm, 8)", "mm", 48, 1e-9},
		{"sheets_needed([[2389.3 mm, 407.5 mm], [2389.3 mm, 407.5 mm], [2365.6 mm, 506.4 mm], [2365.6 mm, 506.4 mm]], 2440 mm, 1220 mm)", "", 2, 0},
	} {
		got, _, err := evaluate(c.call)
		if err != nil {
			t.Errorf("%s: %v", c.call, err)
			continue
		}
		one, _, err := evaluate("1 " + c.unit)
		if err != nil || got.D != one.D {
			t.Errorf("%s is %s, not in %s", c.call, got.D.A(), c.unit)
			continue
		}
		printed(t, c.call, got.V/one.V, c.want, c.half)
	}
	// the flat panels of the first spacing are longer than the sheet
	_, _, err := evaluate("sheets_needed([[2448.1 mm, 407.5 mm]], 2440 mm, 1220 mm)")
	if err == nil || err.Code != calc.CodeDomain {
		t.Errorf("a panel 8.1 mm too long: %v", err)
	}
}
