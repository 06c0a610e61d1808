package draw_test

import (
	"math"
	"strings"
	"testing"

	"scarph/calc"
	"scarph/calc/draw"
)

func recordsPictures() map[string]picture {
	dated := func(rows ...any) []draw.Dated {
		var out []draw.Dated
		for i := 0; i < len(rows); i += 3 {
			out = append(out, draw.Dated{Day: rows[i].(float64), Label: rows[i+1].(string), Value: rows[i+2].(float64)})
		}
		return out
	}
	moisture := dated(0., "9 Jan", .168, 7., "16 Jan", .155, 14., "23 Jan", .139, 28., "6 Feb", .121, 56., "6 Mar", .102, 91., "10 Apr", .082)
	for i := range moisture {
		moisture[i].Spread = .01
	}
	return map[string]picture{
		"hours_and_money": {&draw.Running{
			Hours: dated(0., "9 Jan", 3., 7., "16 Jan", 5.5, 14., "23 Jan", 4., 21., "30 Jan", 8., 29., "7 Feb", 12., 36., "14 Feb", 8.),
			Money: []draw.Purse{{Currency: "EUR", Days: dated(14., "23 Jan", 1019.77, 15., "24 Jan", 272.25, 30., "8 Feb", 86.4, 36., "14 Feb", 42.15)}}}, inchStyle},
		"moisture": {&draw.Moisture{Readings: moisture, Low: .09, High: .11}, inchStyle},
		"weights": {&draw.Weights{Items: []draw.Weighed{{Name: "sides", Guess: 22, Weighed: 23.4}, {Name: "bottom planking", Guess: 25.8, Weighed: 25.1},
			{Name: "frames and chine logs", Guess: 40, Weighed: nan}, {Name: "paint", Guess: 5.9, Weighed: 5.9}}}, inchStyle},
		"sensitivity": {&draw.Sensitivity{Of: "thwart length", Items: []draw.Influence{{Name: "half-breadth at the thwart", Part: calc.Length(inch / 16)}, {Name: "plank thickness", Part: calc.Length(-inch / 32)}, {Name: "flare", Part: calc.Length(.1e-3)}}}, inchStyle},
		"ripple": {&draw.Ripple{Items: []draw.Moved{
			{Name: "flare at station 5", Before: calc.Angle(12.9 * deg), After: calc.Angle(15.9 * deg)}, {Name: "bottom frame 5", Before: calc.Length(45.9375 * inch), After: calc.Length(43.9375 * inch)},
			{Name: "chine, true length", Before: calc.Length(183.3125 * inch), After: calc.Length(183.1875 * inch)}, {Name: "frame places", Before: calc.Length(14.3125 * inch), After: calc.Length(14.3125 * inch)}}}, inchStyle},
	}
}

const deg = math.Pi / 180

// TestRecordFigures: the bars, steps and ends of the records are the numbers given.
func TestRecordFigures(t *testing.T) {
	all := recordsPictures()
	steps := paths(all["hours_and_money"].kind, 0, draw.Heavy)[0].Points
	near(t, "hours to the last day", steps[len(steps)-1].Y, 3+5.5+4+8+12+8, 1e-12)
	near(t, "hours before the second day", steps[3].Y, 3, 1e-12)
	money := paths(all["hours_and_money"].kind, 1, draw.Heavy)[0].Points
	near(t, "money to the last day", money[len(money)-1].Y, 1019.77+272.25+86.4+42.15, 1e-9)
	bars := paths(all["sensitivity"].kind, 0, draw.Plain)
	for i, want := range []float64{inch / 16, inch / 32, .1e-3} {
		near(t, "bar of the ±", bars[i].Points[1].X, want, 1e-12)
	}
	moves := paths(all["ripple"].kind, 0, draw.Heavy)
	for i, want := range []float64{3 / 12.9, -2 / 45.9375, -.125 / 183.3125, 0} {
		near(t, "share of the change", moves[i].Points[1].X, want, 1e-9)
	}
	for name, words := range map[string]string{"sensitivity": "most of it from half-breadth at the thwart, ± 1/16\"", "ripple": "3 have moved: flare at station 5 from 12.9° to 15.9°",
		"hours_and_money": "40.5 h from 9 Jan to 14 Feb and 1420.57 EUR from 23 Jan to 14 Feb", "moisture": "8.2 %, under the 9 % to 11 %", "weights": "of 3 parts weighed"} {
		if d := all[name].kind.Describe(all[name].style); !strings.Contains(d, words) {
			t.Errorf("%s: %q does not say %q", name, d, words)
		}
	}
	// √(2² + 1²) sixteenths of an inch and a tenth of a millimetre; without the first, the rest
	notes := all["sensitivity"].kind.Sheet(metric).Notes
	if len(notes) != 2 || notes[0] != "All together ± 1.8 mm likely, ± 2.5 mm at worst." || notes[1] != "Were half-breadth at the thwart exact, ± 0.8 mm would be left." {
		t.Errorf("%q", notes)
	}
}

// TestLongRipple: of a whole table only what moved is drawn, the rest is counted.
func TestLongRipple(t *testing.T) {
	d := &draw.Ripple{}
	for i := 0; i < 100; i++ {
		m := draw.Moved{Name: "cell", Before: calc.Length(1), After: calc.Length(1)}
		if i%2 == 0 {
			m.After = calc.Length(1.01)
		}
		d.Items = append(d.Items, m)
	}
	sheet := d.Sheet(metric)
	if n := len(sheet.Panels[0].Scene.Labels); n != 2*40+2 || len(sheet.Notes) != 2 || sheet.Notes[0] != "10 more values have moved." || sheet.Notes[1] != "50 values are unchanged." {
		t.Errorf("%d labels, notes %q", n, sheet.Notes)
	}
}

// TestLongNames: a long name gives way to its figures, and keeps its last words.
func TestLongNames(t *testing.T) {
	d := &draw.Ripple{Items: []draw.Moved{
		{Name: "found survey of the boat, sheer half starboard, st 4", Before: calc.Length(23.625 * inch), After: calc.Length(22.625 * inch)},
		{Name: strings.Repeat("endless", 20), Before: calc.Length(1), After: calc.Length(2)},
	}}
	svg := d.SVG(inchStyle)
	for _, want := range []string{">… sheer half starboard, st 4</text>", `>1' 11 5/8&quot; → 1' 10 5/8&quot;</text>`, `→ 6' 6 3/4&quot;`, "<title>found survey of the boat"} {
		if !strings.Contains(svg, want) {
			t.Errorf("%q is missing", want)
		}
	}
	if strings.Contains(svg, "endless</text>") {
		t.Error("a word too long for the picture is in it")
	}
}

// TestMostMoved: of many, those that moved by the largest share are drawn, in their order,
// and what moved beyond the scale is drawn to its end.
func TestMostMoved(t *testing.T) {
	d := &draw.Ripple{Most: 3}
	for _, k := range []float64{1.01, 1.5, .9, 1.02, 1.2} {
		d.Items = append(d.Items, draw.Moved{Name: "a", Before: calc.Length(1), After: calc.Length(k)})
	}
	moves := paths(d, 0, draw.Heavy)
	for i, want := range []float64{.5, -.1, .2} {
		near(t, "share", moves[i].Points[1].X, want, 1e-9)
	}
	if sheet := d.Sheet(metric); len(moves) != 3 || sheet.Notes[0] != "2 more values have moved." {
		t.Errorf("%d drawn, %q", len(moves), sheet.Notes)
	}
	d.Farthest = .3
	moves = paths(d, 0, draw.Heavy)
	for i, want := range []float64{.3, -.1, .2} {
		near(t, "share to scale", moves[i].Points[1].X, want, 1e-9)
	}
	if sheet := d.Sheet(metric); len(sheet.Notes) != 2 || sheet.Notes[1] != "One value has moved beyond the scale, to a cross at its end." {
		t.Errorf("%q", sheet.Notes)
	}
}
