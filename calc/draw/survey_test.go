package draw_test

import "scarph/calc/draw"

func quilletMap() *draw.DeviationMap {
	q := quillet()
	d := &draw.DeviationMap{Stations: q.Stations, At: q.At, Drawn: q.Lines[0].Half}
	for _, r := range q.Found {
		d.Found = append(d.Found, draw.Found{Station: r.Station, Hand: r.Hand, Value: r.Half, Spread: r.HalfSpread})
	}
	return d
}

func quilletHog() *draw.Hog {
	return &draw.Hog{At: millimetres(0, 500, 1000, 1500, 2000, 2500, 3000), Readings: millimetres(40, 33, 27, 25, 26, 32, 41)}
}

func surveyPictures() map[string]picture {
	sheer := points(.001, 0, 412, 250, 449, 500, 477, 750, 494, 1000, 503, 1250, 500, 1500, 489)
	return map[string]picture{
		"deviation_map":  {quilletMap(), metric},
		"deviation_inch": {quilletMap(), inchStyle},
		"hog":            {quilletHog(), metric},
		"twist":          {&draw.Twist{Port: .412, Starboard: .405, PortSpread: .0015, StarboardSpread: .0015, Breadth: 1.01}, metric},
		"best_arc":       {&draw.BestFit{Points: sheer, Arc: true}, metric},
		"best_line":      {&draw.BestFit{Points: points(.001, 0, 2.1, 1000, 4.9, 2000, 8.2, 3000, 11.1)}, metric},
	}
}
