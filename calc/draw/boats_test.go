package draw_test

import (
	"math"
	"strconv"

	"scarph/calc/draw"
)

const inch = 0.0254

func inches(vs ...float64) []float64 {
	out := make([]float64, len(vs))
	for i, v := range vs {
		out[i] = v * inch
	}
	return out
}

func millimetres(vs ...float64) []float64 {
	out := make([]float64, len(vs))
	for i, v := range vs {
		out[i] = v / 1000
	}
	return out
}

func stations(n int) []string {
	out := make([]string, n)
	for i := range out {
		out[i] = "st " + strconv.Itoa(i)
	}
	return out
}

// sorrel is a flat-bottomed skiff of 15 ft in feet, inches and eighths.
func sorrel() draw.Offsets {
	return draw.Offsets{
		Stations: stations(9),
		At:       inches(0, 22.5, 45, 67.5, 90, 112.5, 135, 157.5, 180),
		Lines: []draw.OffsetLine{
			{Name: "sheer", Half: inches(.625, 11.25, 18.875, 23.875, 26.75, 27.75, 27.25, 25.5, 22.75),
				Height: inches(26, 23.25, 21.125, 19.625, 18.625, 18.125, 18.125, 18.5, 19.25)},
			{Name: "chine", Half: inches(.625, 7.75, 13.875, 18.5, 21.5, 22.625, 22.125, 20.375, 17.875),
				Height: inches(6, 3.375, 1.5, .375, 0, .125, .75, 1.875, 3.5)},
		},
	}
}

// pippin is a V-bottomed pram in metres, with a keel.
func pippin() draw.Offsets {
	return draw.Offsets{
		Stations: stations(5),
		At:       millimetres(0, 585, 1170, 1755, 2340),
		Lines: []draw.OffsetLine{
			{Name: "keel", Half: millimetres(0, 0, 0, 0, 0), Height: millimetres(105, -25, -80, -55, 35)},
			{Name: "chine", Half: millimetres(260, 430, 500, 480, 400), Height: millimetres(150, 45, 0, 20, 95)},
			{Name: "sheer", Half: millimetres(380, 570, 640, 620, 540), Height: millimetres(480, 405, 372, 380, 420)},
		},
	}
}

// quillet is a dinghy surveyed at the sheer: drawn, port and starboard.
func quillet() draw.Offsets {
	o := draw.Offsets{
		Stations: stations(7),
		At:       inches(0, 24, 48, 72, 96, 120, 144),
		Lines: []draw.OffsetLine{{Name: "sheer", Half: millimetres(19.05, 336.55, 533.40, 631.83, 657.23, 615.95, 495.30),
			Height: millimetres(640, 560, 505, 480, 478, 500, 540)}},
	}
	o.Found = append(quilletSide(draw.Port, 20, 331, 527, 622, 655, 616, 494),
		quilletSide(draw.Starboard, 20, 338, 539, 641, 661, 619, 497)...)
	return o
}

func quilletSide(hand draw.Hand, mm ...float64) []draw.Reading {
	var out []draw.Reading
	for i, v := range millimetres(mm...) {
		u := 0.002
		switch i {
		case 0:
			u = 0.001
		case 6:
			u = 0.0015
		}
		out = append(out, draw.Reading{Line: 0, Station: i, Hand: hand, Half: v, HalfSpread: u, Height: math.NaN()})
	}
	return out
}
