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
	if len(short) != 2 || short[0] != (Short{"long", 1}) || short[1] != (Short{"thick", 1}) {
		t.Errorf("%+v", short)
	}
	// a piece of the board's own size leaves nothing, and wants no cut
	list, short = lay([]kernel.Part{board("whole", "oak", 1, 0.875, 6, 96)}, []kernel.Part{board("", "oak", 1, 0.875, 6, 96)}, kerf)
	if len(short) != 0 || list[0].Strips[0].Left != 0 || list[0].LeftWidth != 0 {
		t.Errorf("%+v %+v", list, short)
	}
}
