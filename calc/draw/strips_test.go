package draw_test

import (
	"math"

	"scarph/calc/draw"
)

func degrees(vs ...float64) []float64 {
	out := make([]float64, len(vs))
	for i, v := range vs {
		out[i] = v * math.Pi / 180
	}
	return out
}

// slipped is the chine of the skiff with its fifth station read one inch too far.
func slipped() []float64 {
	half := append([]float64(nil), sorrel().Lines[1].Half...)
	half[5] += inch
	return half
}

func stripsPictures() map[string]picture {
	marks := make([]float64, 12)
	for i := range marks {
		marks[i] = float64(i) * 157.5 / 11 * inch
	}
	at := sorrel().At
	bevels := degrees(9.987, 14.294, 15.601, 15.742, 15.893, 16.434, 17.133, 17.199)
	made := degrees(13, 13, 13, 13, 13, 13, 13, 13)
	many := make([]float64, 200)
	for i := range many {
		many[i] = float64(i) * 0.05
	}
	return map[string]picture{
		"tick_strip":        {&draw.TickStrip{Marks: marks}, inchStyle},
		"tick_strip_many":   {&draw.TickStrip{Marks: many}, metric},
		"bevel_strip":       {&draw.BevelStrip{Stations: stations(9)[1:], At: at[1:], Bevels: bevels, Made: made, Thick: 1.5 * inch}, inchStyle},
		"bevel_strip_plain": {&draw.BevelStrip{Stations: stations(9)[1:], At: at[1:], Bevels: bevels}, metric},
		"fairness_cut":      {&draw.Fairness{Name: "sheer half", Stations: stations(9), At: sorrel().At, Values: sorrel().Lines[0].Half}, inchStyle},
		"fairness":          {&draw.Fairness{Name: "the chine", Stations: stations(9), At: at, Values: slipped()}, inchStyle},
		"fairness_mended":   {&draw.Fairness{Name: "the chine", Stations: stations(9), At: at, Values: sorrel().Lines[1].Half}, metric},
	}
}
