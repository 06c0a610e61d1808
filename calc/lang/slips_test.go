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
