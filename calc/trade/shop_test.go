package trade_test

import (
	"math"
	"math/rand"
	"strings"
	"testing"

	"scarph/calc"
	"scarph/calc/trade"
)

// shopGroups are the groups of yard, steam box, glue pot and screw jar.
var shopGroups = map[string]bool{
	"Lumber, plywood and cutting lists": true, "Wood movement and moisture": true, "Fastenings": true,
	"Steam-bending and laminating": true, "Glue, paint and caulking": true,
}

// TestShopRefusals provokes what the shop functions refuse, and asks for the code
// and for the words that name the likely slip.
func TestShopRefusals(t *testing.T) {
	for _, c := range []struct {
		call  string
		code  calc.Code
		words string
	}{
		{"board_feet(5/4, 8 in, 14 ft, 6)", calc.CodeBareNumber, `1 1/4"`},
		{"board_feet(1 in, 8 in, 14 ft, 0)", calc.CodeDomain, "1 or more"},
		{"board_feet(1 in, 8 in, 14 ft, 2.5)", calc.CodeDomain, "whole number"},
		{"board_feet(0 in, 8 in, 14 ft, 1)", calc.CodeDomain, "more than zero"},
		{"lumber_to_buy(118 bd ft, 35)", calc.CodeDomain, "write 35 %"},
		{"lumber_to_buy(118 bd ft, 90 %)", calc.CodeDomain, "from 0%"},
		{"lumber_cost(118 bd ft, 9.50, 35 %)", calc.CodeDimension, "9.50 USD/bd ft"},
		{"lumber_cost(118 bd ft, 3 USD/ft, 0 %)", calc.CodeDimension, "not money"},
		{"lumber_cost(118 bd ft, -3 USD/bd ft, 0 %)", calc.CodeDomain, "below zero"},
		{"scarf_length(5/8 in, 1:8)", calc.CodeDomain, "write 8 for 8 to 1"},
		{"scarfed_stock(16 ft, 0, 5 in)", calc.CodeDomain, "piece_count"},
		{"cut_list([31 in, 97 in], 96 in, 1/8 in)", calc.CodeDomain, "longer than your stock"},
		{"cut_list([31 in, 0 in], 96 in, 1/8 in)", calc.CodeDomain, "no length"},
		{"cut_list([], 96 in, 1/8 in)", calc.CodeShape, "no piece"},
		{"cut_list([31, 2], 96 in, 1/8 in)", calc.CodeBareNumber, "31 in"},
		{"cut_list(map(1..6000, 3 in), 96 in, 1/8 in)", calc.CodeLimit, "5000"},
		{"sheets_needed([[9 ft, 2 ft]])", calc.CodeDomain, "scarf"},
		{"sheets_needed([[3 ft, 7 ft]])", calc.CodeDomain, "across the grain"},
		{"sheets_needed([[3 ft, 0 ft]])", calc.CodeDomain, "no size"},
		{"sheets_needed([])", calc.CodeShape, "no panel"},
		{`panel_weight(1 m^2, 6 mm, "okumee")`, calc.CodeUnknownItem, `"okoume"`},
		{`panel_weight(1 m^2, 6 mm, "cedar")`, calc.CodeUnknownItem, "northern white cedar"},
		{"panel_weight(1 m, 6 mm, 500 kg/m^3)", calc.CodeDimension, "length"},
		{"grain_runout(0 in, 9 in)", calc.CodeDomain, "more than zero"},

		{"moisture_content(54.2 g, 61.8 g)", calc.CodeDomain, "heavier than the wet"},
		{"moisture_content(54.2 g, 0 g)", calc.CodeDomain, "more than zero"},
		{"equilibrium_moisture(70 °F, 50)", calc.CodeDomain, "write 50 %"},
		{"equilibrium_moisture(70 °F, 99 %)", calc.CodeDomain, "from 0% to 98%"},
		{"equilibrium_moisture(70, 50 %)", calc.CodeBareNumber, "70 °F"},
		{"equilibrium_moisture(20 K, 50 %)", calc.CodeDimension, "temperature"},
		{"width_change(5 in, 0.00229, 9, 16)", calc.CodeDomain, "write 9 %"},
		{"width_change(5 in, 0.00229, 9 %, 31 %)", calc.CodeDomain, "from 0% to 30%"},
		{`width_change(5 in, "plywood", 9 %, 16 %)`, calc.CodeUnknownItem, "the table of wood"},
		{`width_change(5 in, "chestnut oak", 9 %, 16 %)`, calc.CodeUnknownItem, "no tangential coefficient of chestnut oak"},
		{"width_change_from_shrinkage(5 in, 4.9, 9 %, 16 %)", calc.CodeDomain, "write 4.9 %"},
		{"movement_by_ring_angle(0.001, 0.002, 91°)", calc.CodeDomain, "ring_angle"},
		{"plank_gap(5 in, 0.08 in, 60)", calc.CodeDomain, "share"},
		{"plank_gap(5 in, -0.08 in, 0.6)", calc.CodeDomain, "0\" or more"},
		{"green_volume_density(0.29, 31 %)", calc.CodeDomain, "from 0% to 30%"},
		{"green_volume_density(29, 12 %)", calc.CodeDomain, "specific_gravity"},

		{"screw_diameter(25)", calc.CodeDomain, "from 0 to 24"},
		{"screw_diameter(7.5)", calc.CodeDomain, "whole number"},
		{"screw_length_for(1/2 in, 2, 1/8 in)", calc.CodeDomain, "no quarter-inch length"},
		{`pilot_hole(0.122 in, "oak")`, calc.CodeUnknownItem, `"softwood" or "hardwood"`},
		{`pilot_hole("no. 5", "softwood")`, calc.CodeUnknownItem, "no root diameter"},
		{`pilot_hole("no. 88", "softwood")`, calc.CodeUnknownItem, "no. 8"},
		{"fastenings_total(8, 9, 0)", calc.CodeDomain, "per_crossing"},
		{"fastenings_to_buy(438, 10, 100)", calc.CodeDomain, "write 10 %"},
		{"fastenings_to_buy(438, 10 %, 0)", calc.CodeDomain, "box_count"},
		{"rivet_length(7/16 in, 7/16 in, 0.109 in, 0)", calc.CodeDomain, "factor"},
		{`rivet_length(7/16 in, 7/16 in, "10 gauge", 1)`, calc.CodeUnknownItem, "more than one"},
		{"clench_nail_length(3/8 in, 3/8 in, 0 in)", calc.CodeDomain, "turn"},
		{"bolt_length(0 in, 0, 5/16 in, 0)", calc.CodeDomain, "grip"},
		{"screw_withdrawal(680, 0.164 in, 7/8 in)", calc.CodeDomain, "specific_gravity"},
		{`nail_withdrawal(0.31, "6p", 1 in)`, calc.CodeUnknownItem, "6d"},

		{"steaming_time(3)", calc.CodeBareNumber, "3 in"},
		{"laminate_spring_back(1, 9 in)", calc.CodeDomain, "plies"},
		{"form_rise_for(9 in, 1)", calc.CodeDomain, "plies"},
		{"ply_thickness_for_radius(14 in, 0.5)", calc.CodeDomain, "strain_limit"},

		{"glue_needed(1.4 m^2, 250 g)", calc.CodeDimension, "250 g/m^2"},
		{"mix_parts(350, 5, 1)", calc.CodeBareNumber, "350 g"},
		{"mix_parts(3 ft, 5, 1)", calc.CodeDimension, "a mass or a volume"},
		{"mix_parts(350 g, 5, 0)", calc.CodeDomain, "parts_hardener"},
		{"fillet_volume(12 mm, 4 m, 180°)", calc.CodeDomain, "corner"},
		{"paint_needed(8 m^2, 11, 3, 10 %)", calc.CodeBareNumber, "what?"},
		{"paint_needed(8 m^2, 11 m^2/L, 3, 10)", calc.CodeDomain, "write 10 %"},
		{"hull_girth_area([36 in], 36 in)", calc.CodeShape, "two girths"},
		{"hull_girth_area([36 in, -1 in], 36 in)", calc.CodeDomain, "below zero"},
		{"dew_point(14 °C, 0 %)", calc.CodeDomain, "from 1%"},
		{"dew_margin(14 °C, 80 %, 3)", calc.CodeBareNumber, "3 °C"},
		{`seam_compound_volume(3 m, 3 mm, 5 mm, "round")`, calc.CodeUnknownItem, `"V" or "square"`},
		{`from_table("wood", "white oak", 3)`, calc.CodeKind, "text between quotes"},
		{`from_table("woods", "white oak", "density")`, calc.CodeUnknownItem, `"wood"`},
		{`from_table("planking", "9/32 in", "length")`, calc.CodeUnknownItem, "planking"},
	} {
		v, _, err := evaluate(c.call)
		switch {
		case err == nil:
			t.Errorf("%s gives %s", c.call, calc.Style{}.Text(v))
		case err.Code != c.code || !strings.Contains(err.Error(), c.words):
			t.Errorf("%s: [%s] %v; want [%s] and %q", c.call, err.Code, err, c.code, c.words)
		}
	}
}

// TestShopRemarks asks for the remark on a result that is still given.
func TestShopRemarks(t *testing.T) {
	for _, c := range [][2]string{
		{"board_feet(3/4 in, 12 in, 12 in, 1)", "counts as a full inch at many yards: that would be 1 bd ft"},
		{"lumber_to_buy(100 bd ft, 30 %)", "130 bd ft"},
		{"scarf_length(5/8 in, 5)", "short for a glued scarf"},
		{"scarf_length(5/8 in, 14)", "longer than any"},
		{"planks_from_thickness(1/2 in, 1/8 in, 5/8 in, 0)", "too thin"},
		{"battens_from_board(1/2 in, 3/4 in, 0)", "narrower"},
		{"grain_runout(1 in, 9 in)", "not for a spar"},
		{"sheets_needed([[5 ft, 3 ft], [5 ft, 3 ft]])", "by area alone it is 1"},
		{"equilibrium_moisture(20 °F, 50 %)", "outside 30 to 130 °F"},
		{"equilibrium_moisture(70 °F, 97 %)", "near fiber saturation"},
		{"width_change(5 in, 0.00229, 9 %, 16 %)", "rough"},
		{"width_change(5 in, 0.229, 9 %, 12 %)", "unlike any wood"},
		{`width_change(5 in, "white oak", 9 %, 12 %)`, "taken as flat-sawn"},
		{`width_change(5 in, "northern white cedar", 9 %, 12 %)`, "not checked against a publication"},
		{`width_change(5 in, "khaya", 9 %, 12 %)`, "at odds with the shrinkage"},
		{`width_change(5 in, "mahogany", 9 %, 12 %)`, "at odds with the shrinkage"},
		{`width_change(5 in, "okoume, radial", 9 %, 12 %)`, "at odds with the shrinkage"},
		{`width_change(5 in, "teak", 9 %, 12 %)`, "0.00186 and 0.00185"},
		{`movement_by_ring_angle("teak", "teak", 45°)`, "at odds with the shrinkage"},
		{`width_change_from_shrinkage(5 in, "northern white cedar", 9 %, 12 %)`, "22%"},
		{"movement_by_ring_angle(0.002, 0.001, 45°)", "swapped"},
		{"plank_gap(5 in, 0.08 in, 0.1)", "cup or lift"},
		{"plank_gap(5 in, 0.8 in, 0.6)", "check the movement"},
		{"screw_length_for(5/8 in, 1.5)", "2 to 2.5"},
		{"screw_length_for(5/8 in, 2.4, 7/8 in)", "come through"},
		{"rivet_length(1/2 in, 1/2 in, 0.1 in, 3)", "1 to 1.5"},
		{"clench_nail_length(1/2 in, 1/2 in, 1 in)", "1/4 to 3/8"},
		{"screw_withdrawal(0.5, 0.2 in, 0.1 in)", "hardly a hold"},
		{"steaming_time(3 in)", "outside 1/8 to 2 in"},
		{"ply_thickness_for_radius(14 in, 2 %)", "try a strip"},
		{"mix_parts(350 g, 1, 5)", "swapped"},
		{"hull_girth_area([3 ft, 3 ft, 3 ft, 3 ft], 1 ft)", "trapezoid"},
		{"cure_time_at(8 h, 20 °F, 20 °C)", "do not cure at all"},
		{"dew_margin(14 °C, 80 %, 12 °C)", "too near"},
		{"dew_margin(14 °C, 80 %, 10 °C)", "it is wet"},
		{`from_table("wood", "teak", "tangential coefficient")`, "at odds with the shrinkage"},
	} {
		_, warnings, err := evaluate(c[0])
		if err != nil || !strings.Contains(strings.Join(warnings, "; "), c[1]) {
			t.Errorf("%s: %q %v; want %q", c[0], warnings, err, c[1])
		}
	}
	for _, text := range []string{
		"board_feet(5/4 in, 8 in, 14 ft, 6)", "width_change(5 in, 0.00229, 9 %, 12 %)", "scarf_length(5/8 in, 8)", `width_change(5 in, "quarter-sawn ash", 9 %, 12 %)`,
		"screw_length_for(5/8 in, 2.4)", "steaming_time(7/8 in)", "hull_girth_area([3 ft, 3 ft, 3 ft], 1 ft)", "dew_margin(14 °C, 50 %, 14 °C)", "lumber_to_buy(3 ft, 0 %)",
	} {
		if _, warnings, err := evaluate(text); err != nil || len(warnings) > 0 {
			t.Errorf("%s: %q %v", text, warnings, err)
		}
	}
}

// TestShopSpreads: a list where a quantity is wanted gives a list, and a weight or a
// bare number where a length is wanted is refused.
func TestShopSpreads(t *testing.T) {
	for _, f := range trade.All() {
		if !shopGroups[f.Group] {
			continue
		}
		args := sample(t, f)
		once, err := f.Invoke(args)
		if err != nil {
			t.Errorf("%s: %v", f.Name, err)
			continue
		}
		for i := range args {
			switch f.Params[i].Kind {
			case trade.Scalar, trade.Count, trade.Choice, trade.Item:
			default:
				continue
			}
			many := append([]calc.Value(nil), args...)
			many[i] = calc.Labelled([]string{"st_1", "st_2"}, []calc.Value{args[i], args[i]})
			r, err := f.Invoke(many)
			if err != nil || len(r.Value.Items()) != 2 || !alike(r.Value.Items()[1], once.Value, 0) {
				t.Errorf("%s over a list of %s: %s %v", f.Name, f.Params[i].Name, calc.Style{}.Text(r.Value), err)
			}
			if p := f.Params[i]; p.AnyDim || p.Dim.IsNumber() || p.Zero {
				continue
			}
			bad := append([]calc.Value(nil), args...)
			bad[i] = calc.Number(19)
			if r, err := f.Invoke(bad); err == nil || err.Code != calc.CodeBareNumber {
				t.Errorf("%s with 19 for %s: %s %v", f.Name, f.Params[i].Name, calc.Style{}.Text(r.Value), err)
			}
		}
	}
}

// TestEveryNamedItem takes each item that a function offers, through its own door.
func TestEveryNamedItem(t *testing.T) {
	taken := 0
	for _, f := range trade.All() {
		for _, p := range f.Params {
			if p.Kind != trade.Item || p.Names == nil {
				continue
			}
			names := p.Names()
			if len(names) == 0 {
				t.Errorf("%s: %s offers no names", f.Name, p.Name)
			}
			for _, n := range names {
				v, err := p.Find(n)
				if err != nil {
					t.Errorf("%s: %s %q: %v", f.Name, p.Name, n, err)
				} else if v.D != p.Dim || v.V <= 0 {
					t.Errorf("%s: %s %q is %s", f.Name, p.Name, n, calc.Style{}.Text(v))
				}
				taken++
			}
		}
	}
	if taken < 300 {
		t.Errorf("only %d items are offered", taken)
	}
}

// TestCutListHolds lays out random pieces: all are there once, no stick is
// overfull, and a stick is opened only when no earlier one had room.
func TestCutListHolds(t *testing.T) {
	rng := rand.New(rand.NewSource(4))
	for range 200 {
		stock, kerf := 96.0, []float64{0, 0.125, 3}[rng.Intn(3)]
		var pieces []calc.Value
		total := 0.0
		for range 1 + rng.Intn(30) {
			l := math.Round(rng.Float64()*95*8)/8 + 0.5
			pieces = append(pieces, calc.Inches(l))
			total += l
		}
		v := value(t, "cut_list", calc.Listed(pieces...), calc.Inches(stock), calc.Inches(kerf))
		layout := field(t, v, "layout").Items()
		laid, count, first := 0.0, 0, math.Inf(1)
		for _, s := range layout {
			used := -kerf
			for _, p := range s.Items() {
				used += kerf + inches(p)
				laid += inches(p)
				count++
			}
			if used > stock+1e-9 {
				t.Fatalf("a stick of %g holds %g", stock, used)
			}
			if top := inches(s.Items()[0]); top > first+1e-9 {
				t.Fatal("sticks do not begin with their longest pieces in falling order")
			} else {
				first = top
			}
		}
		n := len(layout)
		if count != len(pieces) || math.Abs(laid-total) > 1e-6 || float64(n) != field(t, v, "sticks").V {
			t.Fatalf("%d pieces of %g laid, %d of %g given", count, laid, len(pieces), total)
		}
		if float64(n) < total/stock {
			t.Fatalf("%d sticks hold more than they are long", n)
		}
		printed(t, "waste", inches(field(t, v, "waste")), float64(n)*stock-total, 1e-6)
		// two sticks half empty could have been one
		for i := range layout {
			for j := i + 1; j < n; j++ {
				sum := kerf
				for _, p := range append(append([]calc.Value(nil), layout[i].Items()...), layout[j].Items()...) {
					sum += inches(p) + kerf
				}
				if sum-2*kerf <= stock-1e-9 {
					t.Fatalf("sticks %d and %d would go into one", i+1, j+1)
				}
			}
		}
	}
}

func TestSheetsAreNeverTooFew(t *testing.T) {
	rng := rand.New(rand.NewSource(7))
	for range 200 {
		var panels []calc.Value
		area := 0.0
		for range 1 + rng.Intn(12) {
			l, w := 6+rng.Float64()*90, 3+rng.Float64()*45
			panels = append(panels, calc.Listed(calc.Inches(l), calc.Inches(w)))
			area += l * w
		}
		tight := value(t, "sheets_needed", calc.Listed(panels...)).V
		kerfed := value(t, "sheets_needed", calc.Listed(panels...), calc.Length(8*trade.Foot), calc.Length(4*trade.Foot), calc.Inches(0.125)).V
		if tight < area/(96*48) || tight > float64(len(panels)) || kerfed < area/(96*48) {
			t.Fatalf("%g sheets for %g in² in %d panels", tight, area, len(panels))
		}
	}
}

func TestWoodMoves(t *testing.T) {
	// swelling there and back, and by way of a stop between, comes to the same
	near := func(what string, a, b float64) {
		t.Helper()
		printed(t, what, a, b, 1e-12)
	}
	for _, m := range [][3]string{{"7 %", "9 %", "13 %"}, {"14 %", "8 %", "6 %"}, {"10 %", "10 %", "12 %"}} {
		change := func(from, to string) float64 {
			return number(t, "width_change(6 in, 0.0025, "+from+", "+to+")")
		}
		near("by way of a stop", change(m[0], m[1])+change(m[1], m[2]), change(m[0], m[2]))
		near("there and back", change(m[0], m[1]), -change(m[1], m[0]))
		there := number(t, "6 in + width_change_from_shrinkage(6 in, 7.5 %, "+m[0]+", "+m[2]+")")
		back := number(t, "width_change_from_shrinkage(1 m, 7.5 %, "+m[2]+", "+m[0]+")")
		near("eq. 13-1 there and back", there*(1+back), number(t, "6 in"))
	}
	// a wetter or a colder air makes wetter wood
	last := -1.0
	for h := range 99 {
		m := value(t, "equilibrium_moisture", calc.Of(294, calc.DimTemperature), calc.Number(float64(h)/100)).V
		if m <= last {
			t.Fatalf("at %d %% the wood is no wetter", h)
		}
		last = m
	}
	if !(number(t, "equilibrium_moisture(40 °F, 60 %)") > number(t, "equilibrium_moisture(90 °F, 60 %)")) {
		t.Error("warm air leaves wood wetter")
	}
	for d := 0; d < 90; d += 5 {
		a := value(t, "movement_by_ring_angle", calc.Number(0.001), calc.Number(0.002), calc.Degrees(float64(d))).V
		b := value(t, "movement_by_ring_angle", calc.Number(0.001), calc.Number(0.002), calc.Degrees(float64(d+5))).V
		if !(b < a && b >= 0.001-1e-15 && a <= 0.002+1e-15) {
			t.Fatalf("between %d° and %d° the movement goes from %g to %g", d, d+5, a, b)
		}
	}
}

func TestShopRoundTrips(t *testing.T) {
	for _, c := range [][2]string{
		{"form_rise_for(9 in, 6) - laminate_spring_back(6, form_rise_for(9 in, 6))", "9 in"},
		{"mix_parts(350 g, 5, 1).resin + mix_parts(350 g, 5, 1).hardener", "350 g"},
		{"lumber_to_buy(118 bd ft, 35 %) * (1 - 35 %)", "118 bd ft"},
		{"lumber_cost(118 bd ft, 9.50 USD/bd ft, 35 %) / (9.50 USD/bd ft)", "lumber_to_buy(118 bd ft, 35 %)"},
		{"cure_time_at(8 h, 10 °C, 20 °C)", "16 h"}, {"cure_time_at(8 h, 30 °C, 20 °C)", "4 h"},
		{"dew_margin(14 °C, 80 %, 14 °C)", "14 °C - dew_point(14 °C, 80 %)"},
		{"dew_point(60 °F, 100 %)", "60 °F"},
		{"fillet_volume(12 mm, 4 m, 90°)", "fillet_volume(12 mm, 4 m)"},
		{"fillet_volume(24 mm, 4 m)", "4 * fillet_volume(12 mm, 4 m)"},
		{"board_feet(2 in, 8 in, 8 ft, 3)", "6 * board_feet(1 in, 8 in, 8 ft, 1)"},
		{"screw_withdrawal(0.5, 0.2 in, 1 in)", "4 * screw_withdrawal(0.25, 0.2 in, 1 in)"},
		{"nail_withdrawal(0.4, 0.2 in, 1 in)", "32 * nail_withdrawal(0.1, 0.2 in, 1 in)"},
		{"hull_girth_area([2 ft, 3 ft, 2 ft], 3 ft)", "2 * (2 ft * 6 ft + 2/3 * 1 ft * 6 ft)"},
		{`screw_withdrawal("oak, white", "#10", 1 in)`, "screw_withdrawal(0.68, 0.190 in, 1 in)"},
	} {
		got, _, err := evaluate(c[0])
		if err != nil {
			t.Errorf("%s: %v", c[0], err)
			continue
		}
		want, _, err := evaluate(c[1])
		if err != nil || !agree(got, want, 1e-12) {
			t.Errorf("%s = %s (%.12g), want %s (%.12g): %v", c[0], calc.Style{}.Text(got), got.V, c[1], want.V, err)
		}
	}
	// an open corner wants less filler than a square one
	if !(number(t, "fillet_volume(12 mm, 4 m, 120°)") < number(t, "fillet_volume(12 mm, 4 m)")) {
		t.Error("an open corner takes more filler than a square one")
	}
}

func TestShopPlusMinus(t *testing.T) {
	width := calc.WithSpread(calc.Inches(6), 0.0254/16, 1)
	change := value(t, "width_change", width, calc.Number(0.0025), calc.Number(0.07), calc.Number(0.12))
	printed(t, "± of a change", inches(calc.Length(change.Likely())), 0.0625*0.0125, 1e-12)
	meter := calc.WithSpread(calc.Number(0), 0.005, 2)
	change = value(t, "width_change", calc.Inches(6), calc.Number(0.0025), meter, calc.Number(0.12))
	printed(t, "± at the end of the range", inches(calc.Length(change.Likely())), 6*0.0025*0.5, 1e-12)
	cure := value(t, "cure_time_at", calc.Of(8*3600, calc.DimTime), calc.WithSpread(calc.Of(285.15, calc.DimTemperature), 1, 3), calc.Of(293.15, calc.DimTemperature))
	printed(t, "± of a cure", cure.Likely(), cure.V*math.Ln2/10, 1e-3)
	resin := field(t, value(t, "mix_parts", calc.WithSpread(calc.Mass(0.35), 0.006, 4), calc.Number(5), calc.Number(1)), "resin")
	printed(t, "± of the resin", resin.Likely(), 0.005, 1e-9)
	planks := value(t, "planks_from_thickness", calc.WithSpread(calc.Inches(1.75), 0.001, 5), calc.Inches(0.125), calc.Inches(0.625), calc.Inches(0.1875))
	if planks.Likely() != 0 || planks.V != 2 {
		t.Errorf("a count carries a ±: %s", calc.Style{}.Text(planks))
	}
}
