package paper_test

import (
	"bytes"
	"errors"
	"math"
	"os"
	"path/filepath"
	"testing"

	"scarph/calc"
	"scarph/calc/draw"
	"scarph/calc/draw/paper"
)

const inch = 0.0254

func points(scale float64, xy ...float64) []draw.Point {
	var out []draw.Point
	for i := 0; i+1 < len(xy); i += 2 {
		out = append(out, draw.Point{X: xy[i] * scale, Y: xy[i+1] * scale})
	}
	return out
}

func bottomHalf() *draw.ExpandedPanel {
	return &draw.ExpandedPanel{Name: "bottom half", Stations: []string{"st 0", "st 1", "st 2", "st 3", "st 4"},
		Edge1: points(.001, 0, 0, 599, -17.8, 1186.6, -23.6, 1772.1, -16.9, 2363.7, 0),
		Edge2: points(.001, -1.9, 263.9, 596.8, 417.8, 1184.1, 482.7, 1769.6, 469, 2361.3, 404.5)}
}

func frameMarks() *draw.TickStrip {
	marks := make([]float64, 12)
	for i := range marks {
		marks[i] = float64(i) * 157.5 / 11 * inch
	}
	return &draw.TickStrip{Marks: marks}
}

func mould() *draw.Frame {
	return &draw.Frame{Name: "station 5", Section: points(inch, 0, .125, 22.04, .125, 27.0, 18.125), Bevels: []float64{0, .055, .077}, Face: "after"}
}

func patterns() []paper.Named {
	return []paper.Named{
		{Name: "bottom half", Flat: bottomHalf()}, {Name: "mould 5", Flat: mould()},
		{Name: "frame places", Flat: frameMarks()}, {Name: "camber", Flat: &draw.CamberMould{Beam: .17, Camber: .02}},
	}
}

func options() paper.Options {
	return paper.Options{Title: "Sorrel", Revision: "C", Date: "2027-03-06", Style: calc.Style{System: calc.Metric}}
}

func tile(t *testing.T, o paper.Options, flats ...paper.Named) []byte {
	t.Helper()
	var b bytes.Buffer
	if err := paper.Tile(&b, flats, o); err != nil {
		t.Fatal(err)
	}
	if dir := os.Getenv("SCARPH_LOOK"); dir != "" { // to look at it
		if err := os.WriteFile(filepath.Join(dir, t.Name()+".pdf"), b.Bytes(), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	return b.Bytes()
}

func paperNamed(t *testing.T, name string) paper.Page {
	t.Helper()
	p, err := paper.FindPage(name)
	if err != nil {
		t.Fatal(err)
	}
	return p
}

// TestBarsOnEverySheet reads every sheet back: 100 mm across and upright, and 4 in.
func TestBarsOnEverySheet(t *testing.T) {
	for _, name := range []string{"A4", "Letter", "A3", "roll", "roll 36 in"} {
		o := options()
		o.Page = paperNamed(t, name)
		for i, s := range read(t, tile(t, o, patterns()...)) {
			if s.bars(100, false) != 1 || s.bars(101.6, false) != 1 || s.bars(100, true) != 1 {
				t.Errorf("%s, sheet %d: bars %d %d %d", name, i+1, s.bars(100, false), s.bars(101.6, false), s.bars(100, true))
			}
			if !near(s.width, o.Page.Width) && !near(s.height, o.Page.Width) && i > 0 {
				t.Errorf("%s, sheet %d is %.1f by %.1f mm", name, i+1, s.width, s.height)
			}
		}
	}
}

// outline returns the line of a sheet that has as many points as the shape's and lies
// nearest to it, and how far off the worst of its points is, in millimetres; nil when
// there is none.
func (s *sheet) outline(want []draw.Point) (line []draw.Point, off float64) {
	off = math.Inf(1)
	for _, l := range s.lines {
		if len(l) != len(want) {
			continue
		}
		worst := 0.0
		for k := range want {
			worst = math.Max(worst, math.Abs(l[k].X-l[0].X-1000*(want[k].X-want[0].X)))
			worst = math.Max(worst, math.Abs(l[0].Y-l[k].Y-1000*(want[k].Y-want[0].Y)))
		}
		if worst < off {
			line, off = l, worst
		}
	}
	return line, off
}

// TestTrueSize compares every point of the outline on every sheet with the shape in
// metres, and asks that each crossing mark lies at the same place of the shape on the
// sheets that share it: sheets joined at their crosses then are the shape.
func TestTrueSize(t *testing.T) {
	shapes := map[string]draw.Flat{"panel": bottomHalf(), "mould": mould(), "transom": &draw.Transom{Half: points(inch, 0, 0, 17.875, .4, 22.75, 16.49)},
		"frame":  &draw.Frame{Section: points(inch, 0, .125, 22.04, .125, 27.0, 18.125), Moulded: 2.25 * inch},
		"camber": &draw.CamberMould{Beam: 1.9, Camber: .21, Arc: true},
		"stem":   &draw.Stem{Rabbet: points(inch, 0, 2, 1.4, 6, 3.1, 10, 5.2, 14, 7.8, 18, 11, 22), Angles: []float64{.4, .42, .45, .5, .55, .6}, Plank: .016}}
	for name, shape := range shapes {
		for _, page := range []string{"A4", "Letter", "A3", "roll 610 mm"} {
			scene := shape.Outline(calc.Style{})
			want := heaviest(scene)
			o := options()
			o.Page = paperNamed(t, page)
			seen := map[[2]int]int{} // crosses by their place on the shape, in tenths of a millimetre
			outlines, missing := 0, 0
			for i, s := range read(t, tile(t, o, paper.Named{Name: name, Flat: shape}))[1:] {
				got, off := s.outline(want)
				if got == nil || off > 0.05 && name == "stem" {
					missing++
					continue // a sheet with rulings, a centreline or the stem's other lines alone
				}
				outlines++
				if off > 0.05 {
					t.Fatalf("%s on %s, sheet %d: a point is %.3f mm off", name, page, i+2, off)
				}
				for _, c := range s.crosses() {
					seen[[2]int{int(math.Round((c.X - got[0].X) * 10)), int(math.Round((c.Y - got[0].Y) * 10))}]++
				}
			}
			if outlines == 0 {
				t.Errorf("%s on %s: no outline", name, page)
			}
			lonely := 0
			for place, n := range seen {
				if n == 1 && !neighbour(seen, place) {
					lonely++
				}
			}
			if lonely > missing*8 { // a sheet without the outline has up to eight crosses, which are not placed here
				t.Errorf("%s on %s: %d of %d crosses have no partner", name, page, lonely, len(seen))
			}
		}
	}
}

func neighbour(seen map[[2]int]int, p [2]int) bool {
	for dx := -1; dx <= 1; dx++ {
		for dy := -1; dy <= 1; dy++ {
			if (dx != 0 || dy != 0) && seen[[2]int{p[0] + dx, p[1] + dy}] > 0 {
				return true
			}
		}
	}
	return false
}

// heaviest returns the longest heavy line of a scene.
func heaviest(s draw.Scene) []draw.Point {
	var best []draw.Point
	for _, p := range s.Paths {
		if p.Pen == draw.Heavy && len(p.Points) > len(best) {
			best = p.Points
		}
	}
	return best
}

// TestStripTicks finds every tick of a strip at its running distance from the zero,
// on whichever sheets it lies.
func TestStripTicks(t *testing.T) {
	strip := frameMarks()
	pages := read(t, tile(t, options(), paper.Named{Name: "strip", Flat: strip}))
	found := map[int]bool{}
	for _, s := range pages[1:] {
		// every sheet carries the whole frame of the strip, placed where its cells are
		for _, frame := range s.lines {
			if len(frame) != 4 || !near(frame[1].X-frame[0].X, 1000*strip.Marks[11]) {
				continue
			}
			for _, l := range s.lines {
				if len(l) != 2 || !near(math.Abs(l[0].Y-l[1].Y), 12) || !near(l[0].X, l[1].X) || math.Abs(l[0].Y-frame[0].Y) > 46 {
					continue
				}
				for i, m := range strip.Marks {
					if near(l[0].X-frame[0].X, 1000*m) {
						found[i] = true
					}
				}
			}
		}
	}
	if len(found) != len(strip.Marks) {
		t.Errorf("ticks found: %v", found)
	}
}

// TestSameBytes: the same shapes and options give the same file.
func TestSameBytes(t *testing.T) {
	if !bytes.Equal(tile(t, options(), patterns()...), tile(t, options(), patterns()...)) {
		t.Error("two prints of the same patterns differ")
	}
}

// TestRefusesToPrint what has no shape or no end.
func TestRefusesToPrint(t *testing.T) {
	huge := &draw.Part{Thick: 1, Width: 5, Length: 50}
	for name, flats := range map[string][]paper.Named{
		"nothing": nil, "no drawing": {{Name: "x"}}, "empty": {{Name: "x", Flat: &draw.TickStrip{}}},
		"no number": {{Name: "x", Flat: &draw.ExpandedPanel{Edge1: []draw.Point{{X: math.NaN()}}, Edge2: []draw.Point{{}}}}},
		"too long":  {{Name: "x", Flat: &draw.TickStrip{Marks: []float64{0, 1e6}}}},
		"too many":  {{Name: "x", Flat: huge}},
		"one point": {{Name: "x", Flat: &draw.TickStrip{Marks: []float64{0}}}},
	} {
		err := paper.Tile(&bytes.Buffer{}, flats, options())
		var e *calc.Error
		if name == "one point" {
			if err != nil { // a strip of one mark is an edge with a tick: it prints
				t.Errorf("%s: %v", name, err)
			}
			continue
		}
		if !errors.As(err, &e) {
			t.Errorf("%s: %v", name, err)
		}
	}
	for _, name := range []string{"A5", "roll 3 m", "roll wide", ""} {
		if p, err := paper.FindPage(name); err == nil {
			t.Errorf("paper %q is %v", name, p)
		}
	}
}
