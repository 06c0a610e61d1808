package draw_test

import "scarph/calc/draw"

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
		"hours_and_money": {&draw.Running{Currency: "EUR",
			Hours: dated(0., "9 Jan", 3., 7., "16 Jan", 5.5, 14., "23 Jan", 4., 21., "30 Jan", 8., 29., "7 Feb", 12., 36., "14 Feb", 8.),
			Money: dated(14., "23 Jan", 1019.77, 15., "24 Jan", 272.25, 30., "8 Feb", 86.4, 36., "14 Feb", 42.15)}, inchStyle},
		"moisture": {&draw.Moisture{Readings: moisture, Low: .09, High: .11}, inchStyle},
		"weights": {&draw.Weights{Items: []draw.Weighed{{Name: "sides", Guess: 22, Weighed: 23.4}, {Name: "bottom planking", Guess: 25.8, Weighed: 25.1},
			{Name: "frames and chine logs", Guess: 40, Weighed: nan}, {Name: "paint", Guess: 5.9, Weighed: 5.9}}}, inchStyle},
		"sensitivity": {&draw.Sensitivity{Of: "thwart length", Items: []draw.Influence{{Name: "half-breadth at the thwart", Text: `± 1/16"`, Size: 2}, {Name: "plank thickness", Text: `± 1/32"`, Size: -1}, {Name: "flare", Text: `± 0.004"`, Size: .13}}}, inchStyle},
		"ripple": {&draw.Ripple{Items: []draw.Moved{{Name: "flare at station 5", Before: "12.9°", After: "15.9°", Change: .2314}, {Name: "bottom frame 5", Before: `3' 9 15/16"`, After: `3' 7 15/16"`, Change: -.0439},
			{Name: "chine, true length", Before: `15' 3 5/16"`, After: `15' 3 3/16"`, Change: -.0006}, {Name: "frame places", Before: `14 5/16"`, After: `14 5/16"`}}}, inchStyle},
	}
}
