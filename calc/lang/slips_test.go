package lang

import (
	"strings"
	"testing"

	"scarph/calc"
)

// TestSlips: what is easily mistyped is refused with what to write instead, never
// taken for another number.
func TestSlips(t *testing.T) {
	for _, c := range []struct {
		text, code, hint string
	}{
		{`beam +- 1/16"`, "syntax", "+/- follows a number"},
		{`$5`, "syntax", "42.50 USD"},
		{`3 in 12`, "syntax", "3:12"},
		{`found beam 5 mm`, "syntax", "found beam = 5 mm"},
		{`widths[2]`, "syntax", "at(widths, 2)"},
		{`9..1`, "domain", "1..9"},
		{`"oak" < "ash"`, "kind", "=="},
		{`round(3.4)`, "unknown-func", "round_up"},
		{`2' -3"`, "number", `2' - 3"`},
		{`1e308 * 10`, "limit", "units"},
		{`[1e308, 2] * 10`, "limit", "units"},
		{`sum(["a"])`, "kind", ""},
		{`true == 1`, "kind", "only like"},
		{`f(x) = 3`, "name", "f = …"},
		{`thwart-height = 8"`, "name", "joined: thwart_height"},
		{`in = 3"`, "name", "it is a unit"},
		{`3/8" x 6"`, "syntax", "by"},
		{`spend 20 dollars on oak`, "unknown-unit", "20 USD"},
		{`made rib 24`, "syntax", "made rib: 24"},
		{`15 deg 30 min`, "syntax", "15° 30'"},
		{`3h30`, "syntax", "3 h 30 min"},
		{`part breast hook: 1 of 1" by 2" by 3" in oak`, "part", "breast_hook"},
	} {
		st, err := Parse(c.text)
		if err == nil && st.Expr != nil {
			_, err = st.Expr.Eval(&Frame{Vars: make([]calc.Value, len(st.Expr.Needs)), Sources: make([]int32, st.Expr.Spreads)})
		}
		if err == nil || string(err.Code) != c.code || !strings.Contains(err.Hint, c.hint) {
			t.Errorf("%s: %+v; want %s with %q", c.text, err, c.code, c.hint)
		}
	}
	for _, text := range []string{"1..0", "20 C° to F°", `"oak" == "oak"`} {
		st, err := Parse(text)
		if err == nil {
			_, err = st.Expr.Eval(&Frame{})
		}
		if err != nil {
			t.Errorf("%s: %v", text, err)
		}
	}
}

// TestOverLength: one divided by two inches is remarked on, half an inch is not.
func TestOverLength(t *testing.T) {
	for text, want := range map[string]bool{`1 / 2"`: true, `1 /2"`: true, `3 / 8 in`: true, `1/2"`: false, `10 / 2.5"`: false, `a / 2"`: false, `1 / 2 mm`: false} {
		st, err := Parse(text)
		if err != nil || len(st.Remarks) > 0 != want {
			t.Errorf("%s: remarks %q, %v", text, st.Remarks, err)
		}
	}
}

// TestExchanged: arguments that bear each other's names are remarked on.
func TestExchanged(t *testing.T) {
	for text, want := range map[string]bool{
		"port_starboard_difference(survey.starboard, survey.port)": true, "port_starboard_difference(survey.port, survey.starboard)": false,
		"port_starboard_difference(a, b)": false, "port_starboard_difference(port, port)": false,
	} {
		st, err := Parse(text)
		if err != nil {
			t.Fatal(err)
		}
		f := &Frame{}
		for range st.Expr.Needs {
			f.Vars = append(f.Vars, calc.Inches(3))
		}
		if _, err := st.Expr.Eval(f); err != nil {
			t.Fatal(err)
		}
		if said := strings.Contains(strings.Join(f.Warnings, ";"), "look exchanged"); said != want {
			t.Errorf("%s: %q", text, f.Warnings)
		}
	}
}

// TestEmptyCells: nothing is asked of an empty cell, and none is taken for nought.
func TestEmptyCells(t *testing.T) {
	gauge := calc.Labelled([]string{"s0", "s1", "s2"}, []calc.Value{calc.Length(.010), calc.NoValue(), calc.Length(.008)})
	for text, want := range map[string]string{
		"count(gauge)": "2", "count(gauge, it > 9 mm)": "1", "sum(taken(gauge))": "18 mm", "all(gauge, it > 7 mm)": "yes", "any(gauge, it < 7 mm)": "no",
		"filter(gauge, it > 0 mm)": "10 mm, 8 mm", "sum(gauge)": "", "map(gauge, it + 1 mm)": "11 mm, —, 9 mm", "sum(gauge, it * 2)": "", "taken(3 mm)": "",
	} {
		st, err := Parse(text)
		if err != nil {
			t.Fatal(text, err)
		}
		v, err := st.Expr.Eval(&Frame{Vars: []calc.Value{gauge}})
		if got := (calc.Style{System: calc.Metric}).Text(v); (err == nil) != (want != "") || err == nil && got != want {
			t.Errorf("%s: %q, %v; want %q", text, got, err, want)
		}
	}
	f := &Frame{Vars: []calc.Value{gauge}}
	st, _ := Parse("all(gauge, it > 7 mm)")
	if _, err := st.Expr.Eval(f); err != nil || len(f.Warnings) != 1 || f.Warnings[0] != "1 of 3 are empty and are passed over" {
		t.Errorf("%q, %v", f.Warnings, err)
	}
}
