package trade_test

import (
	"math"
	"strings"
	"testing"

	"scarph/calc"
)

func pounds(v calc.Value) float64 { return v.V / 0.45359237 }

// skiffTable is the skiff's table of offsets as a journal has it, chine corrected.
func skiffTable(t *testing.T) calc.Value {
	s := sorrelOffsets(t)
	return calc.Fields(
		calc.Field{Name: "x", Value: s.x},
		calc.Field{Name: "sheer_height", Value: s.sheerHeight}, calc.Field{Name: "chine_height", Value: s.chineHeight},
		calc.Field{Name: "sheer_half", Value: s.sheer}, calc.Field{Name: "chine_half", Value: s.chine},
	)
}

// TestSkiffAfloat: the skiff alone and loaded, by trapezoids on nine stations, to
// half of the last printed digit.
func TestSkiffAfloat(t *testing.T) {
	table := skiffTable(t)
	fresh, rule := calc.Str("fresh"), calc.Str("trapezoid")

	scales := value(t, "scale_reading_weight", calc.Mass(125*0.45359237), calc.Mass(146*0.45359237), calc.Inches(168))
	printed(t, "weight on two scales", pounds(field(t, scales, "total")), 271, 1e-9)
	printed(t, "its centre", 6+inches(field(t, scales, "centre")), 96.509, 0.0063) // reckoned with 96.5
	alone := value(t, "draft_for", table, calc.Mass(271*0.45359237), fresh, rule)
	printed(t, "draft alone", inches(field(t, alone, "draft")), 2.103, 0.0005)
	printed(t, "buoyancy alone", inches(field(t, alone, "centre_of_buoyancy")), 99.50, 0.005)

	loaded := value(t, "draft_for", table, calc.Mass(631*0.45359237), fresh, rule)
	water := field(t, loaded, "water_height")
	printed(t, "draft loaded", inches(field(t, loaded, "draft")), 3.852, 0.0005)
	h := value(t, "hydrostatics", table, water, fresh, rule)
	printed(t, "buoyancy loaded", inches(field(t, h, "centre_of_buoyancy")), 102.62, 0.005)
	printed(t, "sinks one inch", field(t, h, "sinks_one_inch").V/(0.45359237/0.0254), 229, 0.5)
	long := field(t, h, "longitudinal_metacentric_radius")
	moment := value(t, "moment_to_trim_one_inch", calc.Mass(631*0.45359237), long, calc.Inches(172))
	printed(t, "trims one inch", pounds(moment), 2535, 0.5)

	items := func(passenger, gear float64) calc.Value {
		row := func(lb, in float64) calc.Value { return calc.Listed(calc.Mass(lb*0.45359237), calc.Inches(in)) }
		return calc.Listed(row(271, 96.51), row(170, 88), row(150, passenger), row(40, gear))
	}
	buoyancy := field(t, h, "centre_of_buoyancy")
	for _, c := range []struct{ passenger, gear, centre, trim float64 }{{142, 120, 106.52, 0.971}, {124, 60, 98.44, -1.041}} {
		centre := value(t, "centre_of_weight", items(c.passenger, c.gear))
		printed(t, "centre of the load", inches(centre), c.centre, 0.005)
		arm := calc.Length(centre.V - buoyancy.V)
		printed(t, "trim", inches(value(t, "trim_change", calc.Mass(631*0.45359237), arm, moment)), c.trim, 0.0005)
	}
	printed(t, "freeboard at 5", inches(value(t, "freeboards", table, water).Items()[5]), 14.27, 0.005)

	// the tilted water line agrees in the sense of the trim and nearly in its size:
	// the figures above let the moment stand still, but the flat bow lifts out of the
	// water or goes into it, and that changes it by some hundredths
	weights := calc.Listed(calc.Mass(271*0.45359237), calc.Mass(170*0.45359237), calc.Mass(150*0.45359237), calc.Mass(40*0.45359237))
	at := func(passenger, gear float64) calc.Value {
		places := calc.Listed(calc.Inches(96.51), calc.Inches(88), calc.Inches(passenger), calc.Inches(gear))
		r := call(t, "trim_for", table, weights, places, fresh, calc.Str("as the buoyancy"), rule)
		if len(r.Warnings) == 0 || !strings.Contains(r.Warnings[len(r.Warnings)-1], "by the ") {
			t.Errorf("the trim is not said in words: %q", r.Warnings)
		}
		return r.Value
	}
	over172 := func(v calc.Value) float64 { return 172 * math.Tan(field(t, v, "angle").V) }
	printed(t, "trim, tilted, by the stern", over172(at(142, 120)), 0.971, 0.03)
	printed(t, "trim, tilted, by the bow", over172(at(124, 60)), -1.041, 0.06)

	first := value(t, "persons_by_size", calc.Inches(180), calc.Inches(55.5))
	printed(t, "persons, first guess", first.V, 4, 0)
	oars := value(t, "oar_length", calc.Inches(51))
	printed(t, "oars", inches(oars), 98.21, 0.005)
	hours := value(t, "repeated_part_time", calc.Of(5*3600, calc.DimTime), calc.Number(12), calc.Number(0.85))
	printed(t, "twelve frames", hours.V/3600, 41.222, 0.0005)
}

// TestSkiffBottomAndLaunch: the bottom by Simpson's rule before and after the slip
// was found, and the trim measured with a rule on launching day.
func TestSkiffBottomAndLaunch(t *testing.T) {
	s := sorrelOffsets(t)
	for chine, want := range map[*calc.Value]float64{&s.chineRead: 43.177, &s.chine: 42.760} {
		half := value(t, "area_under", *chine, calc.Inches(22.5), calc.Str("simpson first"))
		printed(t, "bottom", 2*half.V/(12*12*0.0254*0.0254), want, 0.0005)
	}
	const measured = "(4 1/8 in ± 1/8 in - (3 3/4 in ± 1/8 in)) / 112.5 in * 172 in"
	printed(t, "trim over 172 in", number(t, measured)/0.0254, 0.573, 0.0005)
	printed(t, "its tolerance", number(t, "spread_of("+measured+")")/0.0254, 0.27, 0.005)
	printed(t, "0.971 in: how far outside", number(t, "difference_stands_out("+measured+" - 0.971 in).ratio"), 1.47, 0.01)
	if v, _, err := evaluate("difference_stands_out(" + measured + " - 0.971 in).stands_out"); err != nil || v.True() {
		t.Errorf("outside one tolerance, inside two: %v %v", v, err)
	}
}

// TestSkiffPartsMade: what was made before the numbers moved, made less now.
func TestSkiffPartsMade(t *testing.T) {
	for _, c := range []struct{ made, now, off float64 }{
		{22.984, 22.040, 0.944}, {45.968, 44.080, 1.887}, {18.467, 18.715, -0.249}, {0.0443, 0.0576, -0.0133}, {43.9375, 44.0803, -0.1428},
	} {
		off := call(t, "made_against_now", calc.Inches(c.made), calc.Inches(c.now))
		printed(t, "made less now", inches(off.Value), c.off, 0.0011) // sizes are printed to a thousandth
		if side := map[bool]string{true: "large", false: "small"}[c.off > 0]; len(off.Warnings) != 1 || !strings.Contains(off.Warnings[0], side) {
			t.Errorf("the sign is not said in words: %q", off.Warnings)
		}
	}
}

// pramTable is the pram's table of offsets.
func pramTable(spacing float64) calc.Value {
	p := pippinOffsets(spacing)
	return calc.Fields(
		calc.Field{Name: "chine_half", Value: p.chine}, calc.Field{Name: "sheer_half", Value: p.sheer},
		calc.Field{Name: "keel_height", Value: p.keelHeight}, calc.Field{Name: "chine_height", Value: p.chineHeight},
		calc.Field{Name: "sheer_height", Value: p.sheerHeight}, calc.Field{Name: "x", Value: p.x},
	)
}

// TestPramAfloat: load against draft at both spacings, by Simpson's rule on five
// stations, to half of the last printed digit.
func TestPramAfloat(t *testing.T) {
	for spacing, rows := range map[float64][][4]float64{
		600: {{38, 2.8, 82.8, 1410.0}, {118, 50.9, 130.9, 1328.9}, {158, 71.1, 151.1, 1314.2}},
		585: {{38, 3.5, 83.5, 1373.3}, {118, 52.4, 132.4, 1293.9}, {158, 73.1, 153.1, 1280.7}},
	} {
		for _, want := range rows {
			r := call(t, "draft_for", pramTable(spacing), calc.Mass(want[0]), calc.Of(1000, calc.DimDensity))
			if len(r.Warnings) > 0 {
				t.Errorf("five stations are Simpson's: %q", r.Warnings)
			}
			printed(t, "water over base", mm(field(t, r.Value, "water_height")), want[1], 0.05)
			printed(t, "draft", mm(field(t, r.Value, "draft")), want[2], 0.05)
			printed(t, "buoyancy", mm(field(t, r.Value, "centre_of_buoyancy")), want[3], 0.05)
		}
	}
	printed(t, "weight that sinks a millimetre", (158-118)/(153.1-132.4), 1.93, 0.005)
	printed(t, "oars", mm(value(t, "oar_length", calc.Length(1.12))), 2181, 0.5)
}
