package results

import (
	"math"
	"testing"

	"scarph/calc"
	"scarph/kernel"
)

func board(name, wood string, count, t, w, l float64) kernel.Part {
	in := func(v float64) calc.Value { return calc.Length(v * 0.0254) }
	return kernel.Part{Name: name, Wood: wood, Count: count, Sizes: []calc.Field{{Name: "thickness", Value: in(t)}, {Name: "width", Value: in(w)}, {Name: "length", Value: in(l)}}}
}

func near(t *testing.T, what string, got, inches float64) {
	t.Helper()
	if math.Abs(got/0.0254-inches) > 1e-9 {
		t.Errorf("%s is %g in, want %g", what, got/0.0254, inches)
	}
}

// TestLayout: a wide board gives strips side by side, with a kerf between them, a kerf
// between pieces, and one that cuts off the rest.
func TestLayout(t *testing.T) {
	const kerf = 0.0254 / 8
	parts := []kernel.Part{board("frame", "oak", 8, 0.75, 2, 18), board("floor", "oak", 1, 0.75, 3, 40), board("thick", "oak", 1, 1.5, 2, 18), board("long", "oak", 1, 0.75, 2, 97)}
	list, short := lay(parts, []kernel.Part{board("", "oak", 3, 0.875, 6, 96)}, kerf)
	if len(list) != 1 || len(list[0].Strips) != 2 {
		t.Fatalf("%+v", list)
	}
	l := list[0]
	near(t, "the rest of the width", l.LeftWidth, 6-3-2-0.25)
	// the floor, then three frames beside it in its strip; five in a strip of their own
	near(t, "first strip", l.Strips[0].Width, 3)
	near(t, "its rest", l.Strips[0].Left, 96-40-3*18-4*0.125+0) // 1 1/2 in
	near(t, "second strip's rest", l.Strips[1].Left, 96-5*18-5*0.125)
	if got := l.Strips[1].Line(calc.Style{}); got != `2" wide: 5 × frame; left over 5 3/8"` {
		t.Error(got)
	}
	if got := l.Board(calc.Style{System: calc.Metric}); got != "22.2 mm by 152.4 mm by 2438.4 mm, no. 1" {
		t.Error(got)
	}
	if len(short) != 2 || short[0].Words(calc.Style{}) != `no board at hand for 1 × long: the longest of oak is 8', and 8' 1" is wanted; out of shorter ones it is scarfed` ||
		short[1].Words(calc.Style{}) != `no board at hand for 1 × thick: the thickest that could do is 7/8", and 1 1/2" is wanted` {
		t.Errorf("%+v", short)
	}
	// the other reasons: the wood, the width, no room left
	_, short = lay([]kernel.Part{board("seat", "elm", 1, 0.75, 4, 20), board("wide", "oak", 1, 0.75, 7, 20), board("many", "oak", 3, 0.75, 6, 90)}, []kernel.Part{board("", "oak", 1, 0.875, 6, 96)}, kerf)
	for i, want := range []string{
		`no board at hand for 1 × wide: the widest that could do is 6", and 7" is wanted`,
		"no board at hand for 2 × many: no room is left on those of oak",
		"no board at hand for 1 × seat: none is of elm; at hand are boards of oak",
	} {
		if i >= len(short) || short[i].Words(calc.Style{}) != want {
			t.Errorf("%+v, want %s", short, want)
		}
	}
	// a piece of the board's own size leaves nothing, and wants no cut
	list, short = lay([]kernel.Part{board("whole", "oak", 1, 0.875, 6, 96)}, []kernel.Part{board("", "oak", 1, 0.875, 6, 96)}, kerf)
	if len(short) != 0 || list[0].Strips[0].Left != 0 || list[0].LeftWidth != 0 {
		t.Errorf("%+v %+v", list, short)
	}
}
