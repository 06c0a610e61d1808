package kernel

import (
	"strings"
	"testing"

	"scarph/calc"
)

// TestRippleOfACell names the cell and its row, each once.
func TestRippleOfACell(t *testing.T) {
	s := open(entryOf("a", "", "table o: c0 c1\n+ r0 0-1-0 0-2-0\n+ r1 1-0-0 1-1-0\nlast = o.r0.c1 + 1 in\npart p: 2 of 1\" by 2\" by 3' in oak"))
	for _, name := range []string{"o.r0.c1", "o.c1.r0"} {
		r, err := s.WhatIf(map[string]string{name: "3 in"})
		if err != nil {
			t.Fatal(err)
		}
		var names []string
		for _, m := range r.Fields() {
			names = append(names, m.Name)
		}
		if got := strings.Join(names, " "); got != "o.r0.c1 last o.r0" {
			t.Errorf("%s moves %s", name, got)
		}
		if z := ShapeOfRipple(r, nil, calc.Style{}); len(z.Changed) != 3 {
			t.Errorf("%s: %d in JSON", name, len(z.Changed))
		}
	}
	for _, c := range []struct{ name, value string }{{"p", "3"}, {"last", "3"}, {"last", `"oak"`}, {"last", "[1 in]"}} {
		if _, err := s.WhatIf(map[string]string{c.name: c.value}); err == nil || !strings.Contains(err.Message, c.name+" is ") {
			t.Errorf("%s = %s: %v", c.name, c.value, err)
		}
	}
}
