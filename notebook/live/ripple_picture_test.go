package live

import (
	"context"
	"strings"
	"testing"

	"scarph/calc"
	"scarph/calc/lang"
	"scarph/kernel"
)

// TestRipplePicture: what a try would move is drawn before and after; one value alone is
// not.
func TestRipplePicture(t *testing.T) {
	s := kernel.New(calc.Style{})
	var e kernel.Entry
	e.Key = "journal"
	for _, text := range []string{`run = 8' 10"`, `spacing = run / 8`, `half = run / 2`, `alone = 3 in`} {
		st, err := lang.Parse(text)
		if err != nil {
			t.Fatal(err)
		}
		e.Lines = append(e.Lines, kernel.Line{Text: text, Stmt: st})
	}
	s.Update(context.Background(), []kernel.Entry{e})
	x, err := s.WhatIf(map[string]string{"run": `9'`})
	if err != nil {
		t.Fatal(err)
	}
	picture := string(ripplePicture(x.Fields(), calc.Style{}))
	for _, want := range []string{"<title>Before and after</title>", ">spacing</text>", `1' 1 1/4&quot; → 1' 1 1/2&quot;`, "more by 1.89 %"} {
		if !strings.Contains(picture, want) {
			t.Errorf("%q is missing in %s", want, picture)
		}
	}
	if x, err = s.WhatIf(map[string]string{"alone": `4 in`}); err != nil || ripplePicture(x.Fields(), calc.Style{}) != "" {
		t.Error("one value is drawn", err)
	}
}
