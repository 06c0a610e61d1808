package draw_test

import (
	"math"

	"scarph/calc/draw"
)

func points(scale float64, xy ...float64) []draw.Point {
	var out []draw.Point
	for i := 0; i+1 < len(xy); i += 2 {
		out = append(out, draw.Point{X: xy[i] * scale, Y: xy[i+1] * scale})
	}
	return out
}

// sidePanel is the expanded side of the skiff.
func sidePanel() *draw.ExpandedPanel {
	return &draw.ExpandedPanel{Name: "side", Stations: stations(9),
		Edge1: points(inch, 0, 0, 23.74, -.73, 47.13, -1.17, 70.12, -1.30, 92.82, -1.14, 115.35, -1.01, 137.87, -.84, 160.46, -.55, 183.15, 0),
		Edge2: points(inch, -1.60, 19.94, 23.43, 19.44, 47.28, 19.08, 70.38, 18.69, 93.08, 18.21, 115.60, 17.71, 138.10, 17.28, 160.67, 16.85, 183.34, 16.49)}
}

func shapesPictures() map[string]picture {
	return map[string]picture{
		"panel": {sidePanel(), inchStyle},
		"panel_metric": {&draw.ExpandedPanel{Name: "bottom half", Stations: stations(5),
			Edge1: points(.001, 0, 0, 599, -17.8, 1186.6, -23.6, 1772.1, -16.9, 2363.7, 0),
			Edge2: points(.001, -1.9, 263.9, 596.8, 417.8, 1184.1, 482.7, 1769.6, 469, 2361.3, 404.5)}, metric},
		"transom":      {&draw.Transom{Half: points(inch, 0, 0, 17.875, .4, 22.75, 16.49), Bevels: degrees(4.1, 12.2376)}, inchStyle},
		"mould":        {&draw.Frame{Name: "station 5", Section: points(inch, 0, .125, 22.04, .125, 27.0, 18.125), Bevels: degrees(0, 3.2, 4.4), Face: "after"}, inchStyle},
		"frame":        {&draw.Frame{Name: "5", Section: points(inch, 0, .125, 22.04, .125, 27.0, 18.125), Moulded: 2.25 * inch, Bevels: degrees(0, 3.2, 4.4), Face: "forward"}, inchStyle},
		"frame_bent":   {&draw.Frame{Name: "3", Section: points(.001, 0, 0, 200, 25, 420, 110, 560, 280, 610, 480), Moulded: .04, Bent: true}, metric},
		"stem":         {&draw.Stem{Rabbet: points(inch, 0, 2, 1.4, 6, 3.1, 10, 5.2, 14, 7.8, 18, 11, 22), Angles: degrees(22, 24, 26, 28, 31, 35), Plank: .625 * inch}, inchStyle},
		"camber_mould": {&draw.CamberMould{Beam: 48 * inch, Camber: 2 * inch}, inchStyle},
		"camber_arc":   {&draw.CamberMould{Beam: 1.2, Camber: .06, Arc: true, Depth: .04}, metric},
		"part":         {&draw.Part{Name: "side frame", Thick: .875 * inch, Width: 2.25 * inch, Length: 18.7154 * inch, Ends: [2]float64{15.9 * math.Pi / 180, 0}}, inchStyle},
		"part_long":    {&draw.Part{Name: "chine log", Thick: .038, Width: .038, Length: 4.65}, metric},
		"sheet_layout": {&draw.SheetLayout{Long: 2.44, Across: 1.22, Pieces: []draw.Piece{
			{Name: "side", Long: 2.3893, Across: .4075}, {Name: "bottom half", Y: .41, Long: 2.3656, Across: .5064},
			{Name: "side", Sheet: 1, Long: 2.3893, Across: .4075}, {Name: "bottom half", Sheet: 1, Y: .41, Long: 2.3656, Across: .5064}}}, metric},
		"board_layout": {&draw.BoardLayout{Stock: 96 * inch, Kerf: inch / 8, Sticks: [][]float64{inches(67), inches(67), inches(44, 44), inches(44, 31), inches(31, 31, 31)}}, inchStyle},
	}
}
