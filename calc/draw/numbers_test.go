package draw_test

import (
	"math"
	"math/rand"
	"reflect"
	"testing"

	"scarph/calc"
	"scarph/calc/draw"
)

// drawnPoints are the points of a panel's lines and marks.
func drawnPoints(k draw.Kind, panel int) []draw.Point {
	var all []draw.Point
	scene := k.Sheet(calc.Style{}).Panels[panel].Scene
	for _, p := range scene.Paths {
		all = append(all, p.Points...)
	}
	for _, m := range scene.Marks {
		all = append(all, m.At)
	}
	return all
}

// TestPointsAreTheNumbers: each drawing has a point wherever its numbers say that there
// is one, to a hundredth of a millimetre (or of a day, or of a share).
func TestPointsAreTheNumbers(t *testing.T) {
	all := map[string]picture{}
	for _, more := range []map[string]picture{stripsPictures(), shapesPictures(), surveyPictures(), recordsPictures()} {
		for name, p := range more {
			all[name] = p
		}
	}
	want := map[string][]draw.Point{}
	add := func(name string, xy ...float64) { want[name] = append(want[name], points(1, xy...)...) }

	for _, m := range all["tick_strip"].kind.(*draw.TickStrip).Marks {
		add("tick_strip", m, 0, m, 1)
	}
	f := all["fairness"].kind.(*draw.Fairness)
	for i, x := range f.At {
		add("fairness", x, f.Values[i])
	}
	panel := sidePanel()
	want["panel"] = append(append(want["panel"], panel.Edge1...), panel.Edge2...)
	for _, p := range all["transom"].kind.(*draw.Transom).Half {
		add("transom", p.X, p.Y, -p.X, p.Y)
	}
	for _, p := range all["mould"].kind.(*draw.Frame).Section {
		add("mould", p.X, p.Y, -p.X, p.Y)
	}
	want["frame"] = all["frame"].kind.(*draw.Frame).Section
	// the inner line of a frame lies its breadth inside: level over the bottom, and at the
	// head square to the side, which leans 4.96 in in 18
	side := math.Hypot(4.96, 18)
	add("frame", 0, (.125+2.25)*inch, (27-2.25*18/side)*inch, (18.125+2.25*4.96/side)*inch)
	// the crown of 2 in in 4 ft is 1 1/2 in at the quarters; the arc √(3.03² − 0.3²) − 2.97 m at 300 mm
	// (by hand)
	add("camber_mould", -12*inch, 1.5*inch, 12*inch, 1.5*inch, 0, 2*inch, 24*inch, 0)
	add("camber_arc", .3, .0451119, 0, .06, -.6, 0)
	add("part", 0, 0, 18.7154*inch, 0, 18.7154*inch, 2.25*inch, -2.25*math.Tan(15.9*math.Pi/180)*inch, 2.25*inch)
	add("sheet_layout", 0, .41, 2.3656, .41+.5064, 2.3893, .4075, 2.44, 1.22)
	add("board_layout", 67*inch, 5, 44*inch, 2, 44.125*inch, 2, (44.125+31)*inch, 2, 96*inch, 1)
	for _, r := range quillet().Found {
		q := quillet()
		add("deviation_map", q.At[r.Station], r.Half-q.Lines[0].Half[r.Station])
	}
	hog := quilletHog()
	for i, x := range hog.At {
		add("hog", x, -hog.Readings[i])
	}
	add("twist", -.505, .0035, .505, -.0035)
	want["best_arc"] = all["best_arc"].kind.(*draw.BestFit).Points
	want["best_line"] = all["best_line"].kind.(*draw.BestFit).Points
	add("moisture", 0, .168, 28, .121, 91, .082)
	add("weights", 22, 4, 23.4, 4, 25.8, 3, 25.1, 3, 40, 2, 5.9, 1)

	for name, list := range want {
		got := drawnPoints(all[name].kind, 0)
		for _, w := range list {
			if !through(draw.Path{Points: got}, w.X, w.Y) {
				t.Errorf("%s has no point at %.5f, %.5f", name, w.X, w.Y)
			}
		}
	}
	bevels := all["bevel_strip"].kind.(*draw.BevelStrip)
	got := drawnPoints(bevels, 1)
	for i, x := range bevels.At {
		for _, a := range []float64{bevels.Bevels[i], bevels.Made[i]} {
			if !through(draw.Path{Points: got}, x, a) {
				t.Errorf("the bevel strip has no point at %g, %g", x, a)
			}
		}
	}
}

// TestEveryKindHasAGolden: no kind of drawing is without a picture that was looked at.
func TestEveryKindHasAGolden(t *testing.T) {
	have := map[reflect.Type]bool{}
	for _, p := range pictures() {
		have[reflect.TypeOf(p.kind)] = true
	}
	for name, k := range (source{rand.New(rand.NewSource(1))}).kinds() {
		if !have[reflect.TypeOf(k)] {
			t.Errorf("the %s has no picture", name)
		}
	}
}

// TestEmptyKinds: a drawing of nothing is a picture that says so.
func TestEmptyKinds(t *testing.T) {
	for name, k := range (source{rand.New(rand.NewSource(1))}).kinds() {
		empty := reflect.New(reflect.TypeOf(k).Elem()).Interface().(draw.Kind)
		for _, s := range []calc.Style{inchStyle, metric} {
			examine(t, name+" of nothing", empty, s)
		}
		if f, ok := empty.(draw.Flat); ok {
			scene := f.Outline(inchStyle)
			if _, _, ok := scene.Bounds(); ok && len(scene.Paths) > 0 {
				t.Errorf("the %s of nothing has an outline", name)
			}
		}
	}
}

// TestHugeAndTiny: a boat for a flea and one for a giant are drawn like any other.
func TestHugeAndTiny(t *testing.T) {
	all := pictures()
	for _, name := range names(all) {
		for _, k := range []float64{1e-9, 1e-4, 1e4, 1e9} {
			grown := scaled(reflect.ValueOf(all[name].kind), k).Interface().(draw.Kind)
			examine(t, name, grown, all[name].style)
		}
	}
}

// scaled copies a value with every number in it multiplied, but those that are angles or
// shares.
func scaled(v reflect.Value, k float64) reflect.Value {
	out := reflect.New(v.Type()).Elem()
	switch v.Kind() {
	case reflect.Float64:
		out.SetFloat(v.Float() * k)
	case reflect.Pointer:
		if !v.IsNil() {
			out = reflect.New(v.Type().Elem())
			out.Elem().Set(scaled(v.Elem(), k))
		}
	case reflect.Slice:
		out = reflect.MakeSlice(v.Type(), v.Len(), v.Len())
		for i := 0; i < v.Len(); i++ {
			out.Index(i).Set(scaled(v.Index(i), k))
		}
	case reflect.Struct:
		if x, ok := v.Interface().(calc.Value); ok {
			if x.IsQuantity() {
				x.V *= k
			}
			return reflect.ValueOf(x)
		}
		for i := 0; i < v.NumField(); i++ {
			switch v.Type().Field(i).Name {
			case "Bevels", "Made", "Angles", "Ends":
				out.Field(i).Set(v.Field(i))
			default:
				out.Field(i).Set(scaled(v.Field(i), k))
			}
		}
	default:
		out.Set(v)
	}
	return out
}
