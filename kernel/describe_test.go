package kernel

import (
	"context"
	"testing"

	"scarph/calc"
)

func TestDescribe(t *testing.T) {
	s := scratched()
	h := s.NewSheet()
	h.Line(context.Background(), "gap = 1/8\" ± 1/32\"", Now)
	for name, kind := range map[string]string{
		"beam": "value", "inside": "value", "thwart.length": "value", "offsets.sheer.st_1": "value", "offsets.st_1.sheer": "value", "offsets": "value", "gap": "value",
		"frame_spacing": "function", "map": "form", "found": "word", "mm": "unit", "EUR": "unit", "lost": "value",
	} {
		d, ok := s.Describe(name, Now, h)
		if z := ShapeOfDescription(d, calc.Style{}); !ok || z.Kind != kind {
			t.Errorf("%s: %v %+v", name, ok, z)
		}
	}
	if _, ok := s.Describe("no_such_thing", Now, nil); ok {
		t.Error("a word without meaning is described")
	}
	if near := s.NearestName("frame_spacin"); near != "frame_spacing" {
		t.Errorf("nearest: %s", near)
	}
}

func TestDescribeValue(t *testing.T) {
	s := scratched()
	d, _ := s.Describe("inside", Now, nil)
	z := ShapeOfDescription(d, calc.Style{})
	if z.Formula != "beam - 2 * planking" || z.Filled != `4' 1 3/4" ± 1/16" - 2 * 7/16"` || z.Echo != "1241.4 mm" {
		t.Errorf("%+v", z)
	}
	if len(z.Causes) != 1 || z.Causes[0].Name != "beam" || z.Causes[0].Date != "2027-02-01" {
		t.Errorf("causes %+v", z.Causes)
	}
	if len(z.HangsOn) != 1 || z.HangsOn[0] != "thwart" {
		t.Errorf("hangs on it: %v", z.HangsOn)
	}
	d, _ = s.Describe("beam", Now, nil)
	z = ShapeOfDescription(d, calc.Style{})
	if z.Formula != "" || len(z.History.Readings) != 2 || *z.History.Readings[0].Until != "2027-02-01" {
		t.Errorf("%+v", z.History)
	}
	d, _ = s.Describe("thwart.length", Now, nil)
	if z = ShapeOfDescription(d, calc.Style{}); z.History == nil || z.History.Name != "thwart" {
		t.Errorf("%+v", z)
	}
	d, _ = s.Describe("lost", Now, nil)
	if z = ShapeOfDescription(d, calc.Style{}); z.Value != nil || z.Error == "" {
		t.Errorf("%+v", z)
	}
}

// TestDescribeDisplacedSum tells what the sum gives when a reading displaced it.
func TestDescribeDisplacedSum(t *testing.T) {
	s := open(entryOf("a", "2027-01-01", "a = 2 in\nb = a * 2"), entryOf("b", "2027-01-02", "found b = 4 1/8\""))
	d, _ := s.Describe("b", Now, nil)
	if z := ShapeOfDescription(d, calc.Style{}); z.Sum == nil || z.Sum.Text != `4"` {
		t.Errorf("%+v", z)
	}
	d, _ = s.Describe("b", 0, nil)
	if d.Value.Sum != nil {
		t.Error("before the reading, nothing has displaced the sum")
	}
}

func TestBearer(t *testing.T) {
	s := scratched()
	for path, want := range map[string]string{"beam": "beam", "thwart.length": "thwart", "offsets.st_1.sheer": "offsets.sheer.st_1", "offsets.sheer": "offsets.sheer", "nothing.x": "", "beam.x.y": "beam"} {
		if got, _ := s.Bearer(path); got != want {
			t.Errorf("%s: %q", path, got)
		}
	}
}
