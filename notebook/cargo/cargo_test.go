package cargo

import (
	"encoding/json"
	"math"
	"reflect"
	"testing"

	"scarph/calc"
	"scarph/calc/lang"
	"scarph/kernel"
	"scarph/notebook/results"
)

func TestRoundTrip(t *testing.T) {
	spread := calc.WithTerms(calc.Length(1.0/3), []calc.Term{{Source: -1_000_007, S: 0.1}, {Source: -1_000_003, S: -2e-9}})
	j := &Journal{
		Style: calc.Style{System: calc.Metric, Nearest: 0.0254 / 16, Angle: calc.RisePerFoot, Worst: true}, Hide: []string{"money"}, Buying: results.Buying{Waste: 0.35, OfAdded: true, Kerf: 0.003175},
		Entries: []Entry{{Key: "a.md", Title: "A \"quoted\" </script> \u2028 title\n", Date: "2027-01-01", Tables: []kernel.Table{{Name: "t", Rows: []string{"a"}, Columns: []string{"b", "c"}}}, Lines: []Line{
			{Text: `beam = 4' 7 1/2" ± 1/16" # ½ °`},
			{Text: "beam to mm", Kind: Slot, Plain: true},
			{Text: "38", Kind: Cell, Name: "t.a.b", Reading: "drawn", Unit: "mm"},
			{Text: "x = 0", Seals: []lang.Seal{{Expr: 0, Value: spread}, {Expr: 2, Value: calc.Fields(calc.Field{Name: "a", Value: calc.Labelled([]string{"s", "t"}, []calc.Value{calc.Of(math.Inf(1), calc.DimAngle), calc.Str("ash 🛶")})}, calc.Field{Name: "b", Value: calc.Bool(true)}, calc.Field{Name: "c", Value: calc.NoValue()})}}},
		}, Of: []int{1, 0, 2, 0}}, {Key: "#2", Date: "2027-01-01"}},
		Names: []string{"", "beam", "t.a.b"}, Reads: [][]int{{1, 2}, {}, {1}},
	}
	text := j.Encode()
	if !json.Valid(text) {
		t.Fatalf("this is no JSON: %s", text)
	}
	back, ok := Decode(string(text))
	if !ok {
		t.Fatal("it cannot be read back")
	}
	for i, s := range back.Entries[0].Lines[3].Seals {
		if want := j.Entries[0].Lines[3].Seals[i].Value; !calc.Same(s.Value, want) {
			t.Errorf("sealed %v, was %v", s.Value, want)
		}
	}
	if !reflect.DeepEqual(back, j) {
		t.Errorf("\n%+v\n%+v", back, j)
	}
}

func TestDecodeRefuses(t *testing.T) {
	for _, s := range []string{"", "[", "{\"a\"", "{\"a\":1", "nonsense", "[1,]", `{"a":"\q"}`, `{"names":"a ","reads":""}`, `{"names":"a ","reads":"1,"}`, `{"names":"a ","reads":"0"}`, `{"names":"a ","reads":",","entries":[{"lines":["a = 1"]}]}`, `{"entries":[{"lines":["a = 1"],"of":"0,"}]}`, `{"a":"\u12"}`, "{} {}"} {
		if _, ok := Decode(s); ok {
			t.Errorf("%q is taken for a journal", s)
		}
	}
}

// TestParseAgrees reads texts as the standard library does.
func TestParseAgrees(t *testing.T) {
	for _, s := range []string{`{"a":[1,-2.5e-7,true,false,null,"x\u00e9\ud83d\udef6\n\"\\"],"b":{}}`, `[]`, ` [ [ 1 ] , { "x" : "" } ] `} {
		var want any
		if err := json.Unmarshal([]byte(s), &want); err != nil {
			t.Fatal(err)
		}
		got, ok := parse(s)
		a, _ := json.Marshal(got)
		b, _ := json.Marshal(want)
		if !ok || string(a) != string(b) && !(string(a) == "null" && string(b) == "[]") {
			t.Errorf("%s reads as %s", s, a)
		}
	}
}
