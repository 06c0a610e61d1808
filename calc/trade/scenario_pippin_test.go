package trade_test

import (
	"testing"

	"scarph/calc"
)

// pippin is the pram of the metric series: five stations, millimetres.
type pippin struct{ x, chine, sheer, keelHeight, chineHeight, sheerHeight, keel calc.Value }

func millimetres(vs ...float64) calc.Value {
	items := make([]calc.Value, len(vs))
	for i, v := range vs {
		items[i] = calc.Length(v / 1000)
	}
	return calc.Labelled(stationNames[:len(vs)], items)
}

func pippinOffsets(spacing float64) pippin {
	return pippin{
		x:           millimetres(0, spacing, 2*spacing, 3*spacing, 4*spacing),
		chine:       millimetres(260, 430, 500, 480, 400),
		sheer:       millimetres(380, 570, 640, 620, 540),
		keel:        millimetres(0, 0, 0, 0, 0),
		keelHeight:  millimetres(105, -25, -80, -55, 35),
		chineHeight: millimetres(150, 45, 0, 20, 95),
		sheerHeight: millimetres(480, 405, 372, 380, 420),
	}
}

func TestPippinAngles(t *testing.T) {
	p := pippinOffsets(600)
	flare := value(t, "flare_angle", p.chine, p.sheer, p.chineHeight, p.sheerHeight).Items()
	for i, want := range []float64{19.98, 21.25, 20.62, 21.25, 23.30} {
		printed(t, "flare", degrees(flare[i]), want, 0.005)
	}
	for i, want := range []float64{9.82, 9.25, 9.09, 8.88, 8.53} {
		rise := calc.Length(p.chineHeight.Items()[i].V - p.keelHeight.Items()[i].V)
		printed(t, "deadrise", degrees(value(t, "deadrise_angle", p.chine.Items()[i], rise)), want, 0.005)
	}
}

func TestPippinPanels(t *testing.T) {
	strips := func(spacing float64) (side, bottom calc.Value) {
		p := pippinOffsets(spacing)
		keel := value(t, "edge_points", p.x, p.keel, p.keelHeight)
		chine := value(t, "edge_points", p.x, p.chine, p.chineHeight)
		sheer := value(t, "edge_points", p.x, p.sheer, p.sheerHeight)
		for i, want := range []float64{1.27, 0.63, 0.63, 2.05} {
			printed(t, "twist of the side", degrees(value(t, "development_twists", chine, sheer).Items()[i]), want, 0.005)
		}
		for i, want := range []float64{0.57, 0.16, 0.21, 0.35} {
			printed(t, "twist of the bottom", degrees(value(t, "development_twists", keel, chine).Items()[i]), want, 0.005)
		}
		return value(t, "developed_strip", chine, sheer), value(t, "developed_strip", keel, chine)
	}
	side, bottom := strips(600)
	printed(t, "chine", mm(field(t, side, "edge_1_length")), 2448.74, 0.005)
	printed(t, "sheer", mm(field(t, side, "edge_2_length")), 2445.80, 0.005)
	printed(t, "keel", mm(field(t, bottom, "edge_1_length")), 2423.67, 0.005)
	printed(t, "side", mm(field(t, side, "length")), 2448.1, 0.05)
	printed(t, "side across", mm(field(t, side, "width")), 407.5, 0.05)
	printed(t, "bottom", mm(field(t, bottom, "length")), 2425.0, 0.05)
	printed(t, "bottom across", mm(field(t, bottom, "width")), 506.4, 0.05)
	// printed 0.9306: triangles on the other diagonals come to 0.930551 m², on these
	// to 0.930549, so the printed figure rounds the other way
	printed(t, "area of a side", field(t, side, "area").V, 0.93055, 0.000005)
	printed(t, "area of half the bottom", field(t, bottom, "area").V, 1.0663, 0.00005)

	side, bottom = strips(585)
	printed(t, "chine at 585", mm(field(t, side, "edge_1_length")), 2389.94, 0.005)
	printed(t, "side at 585", mm(field(t, side, "length")), 2389.3, 0.05)
	printed(t, "side across at 585", mm(field(t, side, "width")), 407.5, 0.05)
	printed(t, "bottom at 585", mm(field(t, bottom, "length")), 2365.6, 0.05)
	printed(t, "bottom across at 585", mm(field(t, bottom, "width")), 506.4, 0.05)
	printed(t, "area of a side at 585", field(t, side, "area").V, 0.9081, 0.00005)
	printed(t, "area of half the bottom at 585", field(t, bottom, "area").V, 1.0401, 0.00005)
	flat := func(what string, edge calc.Value, want [5][2]float64) {
		for i, w := range want {
			printed(t, what, mm(edge.Items()[i].Items()[0]), w[0], 0.05)
			printed(t, what, mm(edge.Items()[i].Items()[1]), w[1], 0.05)
		}
	}
	flat("side, lower edge", field(t, side, "edge_1"), [5][2]float64{{0, 0}, {617.1, -36.6}, {1207.7, -53.7}, {1793.3, -41.6}, {2387.0, 0}})
	flat("side, upper edge", field(t, side, "edge_2"), [5][2]float64{{-2.2, 351.1}, {617.4, 349.6}, {1207.5, 343.8}, {1792.9, 344.7}, {2384.6, 353.9}})
	flat("bottom, keel edge", field(t, bottom, "edge_1"), [5][2]float64{{0, 0}, {599.0, -17.8}, {1186.6, -23.6}, {1772.1, -16.9}, {2363.7, 0}})
	flat("bottom, chine edge", field(t, bottom, "edge_2"), [5][2]float64{{-1.9, 263.9}, {596.8, 417.8}, {1184.1, 482.7}, {1769.6, 469.0}, {2361.3, 404.5}})
}
