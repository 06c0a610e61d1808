package lang

import (
	"math"
	"testing"

	"scarph/calc"
)

// eval evaluates an expression with a few names given.
func eval(t *testing.T, src string) (calc.Value, *calc.Error) {
	t.Helper()
	s, err := ParseSlot(src)
	if err != nil {
		return calc.Value{}, err
	}
	vars := map[string]calc.Value{
		"beam": calc.Inches(55.5), "frames": calc.Number(12), "run": calc.Inches(157.5),
		"flare": calc.Labelled([]string{"st_1", "st_2"}, []calc.Value{calc.Degrees(10), calc.Degrees(14)}),
	}
	f := &Frame{}
	for _, n := range s.Expr.Needs {
		v, ok := vars[n.Path]
		if !ok && len(n.Path) > 6 && n.Path[:6] == "flare." {
			v, err = Member(vars["flare"], n.Path[6:])
			if err != nil {
				return v, err
			}
		} else if !ok {
			return v, calc.Errorf(calc.CodeUnknownName, "nothing is named %s", n.Path).At(n.Span)
		}
		f.Vars = append(f.Vars, v)
	}
	v, err := s.Expr.Eval(f)
	return v, err
}

// TestFieldsOfFields: what follows a dot behind a bracket is a field, or a field of a field,
// and nothing else.
func TestFieldsOfFields(t *testing.T) {
	table := calc.Fields(calc.Field{Name: "sheer", Value: calc.Labelled([]string{"st_1", "st_2"}, []calc.Value{calc.Inches(1), calc.Inches(2)})})
	for src, want := range map[string]string{`at([it_all, it_all], 2).sheer.st_2`: `2"`, `(it_all).sheer . st_1`: `1"`} {
		s, err := ParseSlot(src)
		if err != nil {
			t.Fatalf("%s: %v", src, err)
		}
		f := &Frame{Vars: []calc.Value{table}}
		if v, err := s.Expr.Eval(f); err != nil || (calc.Style{}).Text(v) != want {
			t.Errorf("%s is %v, %v; want %s", src, v, err, want)
		}
	}
	for _, src := range []string{`(beam).1/2"`, `(beam)."oak"`, `(beam).to`} {
		if _, err := ParseSlot(src); err == nil || err.Code != calc.CodeSyntax {
			t.Errorf("%s: %v", src, err)
		}
	}
}

func TestEval(t *testing.T) {
	const in = 0.0254
	deg := math.Pi / 180
	for src, want := range map[string]float64{
		`run / (frames - 1)`: 157.5 / 11 * in, `2' 6" + 3/8"`: 30.375 * in, `beam - 2 * 7/16"`: 54.625 * in,
		`-2^2`: -4, `2^3^2`: 512, `1/2"`: .5 * in, `1 / 2"`: 1 / (2 * in), `3 * 1:12`: .25, `frame_spacing(158.5 in, 9) / 2"`: 19.8125 / 2,
		`sum([2 in, 3 in])`: 5 * in, `sum(1..4, it ^ 2)`: 30, `count(1..9, it > 3)`: 6, `at(map(1..3, it * 2"), 3)`: 6 * in,
		`1 < 2 and 2 < 3 ? 4 in : 5 in`: 4 * in, `flare.st_2`: 14 * deg, `sum(map(flare, tan(it)))`: math.Tan(10*deg) + math.Tan(14*deg),
		`solve(2 * it + 3 in, 24 in, 0 in, 20 in)`: 10.5 * in, `max([3 in, 5 in]) - min(3 in, 1 ft)`: 2 * in,
		`nearest(run / (frames - 1), 1/16")`: 14.3125 * in, `sum(map([1,2,3], it + sum(map([1,1], it))))`: 12,
		`offset("1-10-5")`: 22.625 * in, `20 °C - 68 °F`: 0, `-8 °C`: 265.15, `-40 °F - (-40 °C)`: 0, `2 × 3 − 1`: 5, `not (1 > 2) ? 1 : 0`: 1, `3 min + 30 s`: 210,
		`(4 ft2)^(1/2)`: 2 * .3048, `it`: math.NaN(), `abs(-3 in)`: 3 * in, `12 in * 2 in / 3 in`: 8 * in,
	} {
		v, err := eval(t, src)
		if math.IsNaN(want) {
			if err == nil {
				t.Errorf("%s: want an error", src)
			}
			continue
		}
		if err != nil {
			t.Errorf("%s: %v", src, err)
		} else if math.Abs(v.V-want) > 1e-12*math.Max(1, math.Abs(want)) {
			t.Errorf("%s: %v, want %v", src, v.V, want)
		}
	}
}

// TestErrors provokes each refusal of the language and asks for its place.
func TestErrors(t *testing.T) {
	for _, c := range []struct {
		src   string
		code  calc.Code
		start int
	}{
		{`beam + 19`, calc.CodeBareNumber, 5}, {`beam + 3 lb`, calc.CodeDimension, 5}, {`beam +`, calc.CodeSyntax, 5},
		{`(beam + 3"`, calc.CodeSyntax, 0}, {`beam )`, calc.CodeSyntax, 5}, {`beam frames`, calc.CodeSyntax, 5},
		{`2 beam`, calc.CodeUnknownUnit, 2}, {`19 furlong`, calc.CodeUnknownUnit, 3}, {`frame_spaceing(3 in, 2)`, calc.CodeUnknownFunc, 0},
		{`frame_spacing(3 in)`, calc.CodeArguments, 0}, {`frame_spacing(3, 9)`, calc.CodeBareNumber, 0}, {`frame_spacing(3 in, 1)`, calc.CodeDomain, 0},
		{`1-10-5`, calc.CodeOffsetDash, 0}, {`2' 6`, calc.CodeInchMark, 0}, {`1,5 + 2`, calc.CodeDecimalComma, 0}, {`"oak`, calc.CodeSyntax, 0},
		{`beam; beam`, calc.CodeSyntax, 4}, {`beam = 3`, calc.CodeSyntax, 5}, {`{beam}`, calc.CodeSyntax, 0}, {`flare.st_9`, calc.CodeUnknownItem, -1},
		{`1 / 0`, calc.CodeZero, 2}, {`1..1000000`, calc.CodeLimit, 1}, {`flare + [1°]`, calc.CodeShape, 6}, {`sum(beam)`, calc.CodeKind, 0},
		{`beam & 1`, calc.CodeSyntax, 5}, {`beam ± 1/16"`, calc.CodeSyntax, 5}, {`then(2 + 3)`, calc.CodeArguments, 0}, {`[1, 2][1]`, calc.CodeSyntax, -1},
		{`5 USD + 3 EUR`, calc.CodeCurrency, 6}, {`20 °C + 20 °C`, calc.CodeTemperature, 7}, {`(-2)^(1/2)`, calc.CodeDomain, 4}, {`beam to`, calc.CodeSyntax, 5},
		{`beam to furlong`, calc.CodeUnknownUnit, -1}, {`beam to mm to in`, calc.CodeSyntax, -1}, {`a of b`, calc.CodeSyntax, -1}, {`"x" + 1`, calc.CodeKind, 4},
	} {
		_, err := eval(t, c.src)
		if err == nil || err.Code != c.code {
			t.Errorf("%s: %v, want code %s", c.src, err, c.code)
			continue
		}
		if c.start >= 0 && err.Span.Start != c.start {
			t.Errorf("%s: error at %v, want %d (%v)", c.src, err.Span, c.start, err)
		}
	}
}

func TestStatements(t *testing.T) {
	for _, c := range []struct {
		src  string
		kind Kind
		name string
		n    int // expressions
	}{
		{`drawn  beam = 4' 7 1/2"     # as drawn on the plans`, DrawnAs, "beam", 1}, {`found sheer = 1' 9 1/8" ± 1/16"`, FoundAs, "sheer", 1},
		{`frames = 12`, Chosen, "frames", 1}, {`revise chine_bevel = 10° to 1/4°`, Revised, "chine_bevel", 1},
		{`part side_frame: 2 * frames of 7/8" by 2 1/4" by frame_length in white_oak, heel = heel_bevel, within 1/16"`, PartLine, "side_frame", 6},
		{`part thwart: 2 of 3/4" by 7" by 12 in in larch`, PartLine, "thwart", 4}, {`part dowel: 3 of 2 ft`, PartLine, "dowel", 2},
		{`made side_frame: 8`, MadeLine, "side_frame", 1}, {`made chine_log to saw_angle, chine_length within 1/16"`, MadeLine, "chine_log", 3},
		{`settle side_frame: trimmed to 43 15/16"`, Settle, "side_frame", 1}, {`settle thwart: replaced  # floorboards`, Settle, "thwart", 0},
		{`check abs(diagonal.port - diagonal.starboard) <= 1/8"`, Check, "", 3}, {`check (2 > 1)`, Check, "", 1}, {`work 3.5 h on framing`, Work, "framing", 1},
		{`spend 48.20 USD on "bronze screws"  # no. 8`, Spend, "bronze screws", 1}, {`stock 3 of 1" by 8" by 14 ft in cedar`, Stock, "cedar", 4},
		{`frame_spacing * 2`, Answer, "", 1}, {`revise offsets.chine_half.st_5 = 1-10-5 ± 1/16"  # read again`, Revised, "offsets.chine_half.st_5", 1},
		{`diagonal.port = 15' 3 3/8"`, Chosen, "diagonal.port", 1}, {`x = then(beam) - beam as of entry 3`, Chosen, "x", 1},
	} {
		s, err := Parse(c.src)
		if err != nil {
			t.Errorf("%s: %v", c.src, err)
			continue
		}
		if s.Kind != c.kind || s.Name != c.name || len(s.Exprs()) != c.n {
			t.Errorf("%s: kind %s name %q with %d expressions, want %s %q %d", c.src, s.Kind.Word(), s.Name, len(s.Exprs()), c.kind.Word(), c.name, c.n)
		}
	}
	for src, code := range map[string]calc.Code{
		`in = 3`: calc.CodeName, `mm = 3 in`: calc.CodeName, `check = 3`: calc.CodeName, `sheer height = 3 in`: calc.CodeName, `3 = x`: calc.CodeName,
		`drawn`: calc.CodeSyntax, `part x: 3`: calc.CodePart, `made x`: calc.CodePart, `settle x: burnt`: calc.CodePart, `work 3 h`: calc.CodeSyntax,
		`x =`: calc.CodeSyntax, `= 3`: calc.CodeSyntax, `revise offsets.a.b = 1-12-3`: calc.CodeOffset, `x = 1-10-5`: calc.CodeOffsetDash,
		`check a = b`: calc.CodeSyntax, `x = "a`: calc.CodeSyntax, `stock 3 of 1"`: calc.CodePart, `USD = 3`: calc.CodeName, `settle x: trimed`: calc.CodePart,
	} {
		_, err := Parse(src)
		if err == nil || err.Code != code {
			t.Errorf("%s: %v, want code %s", src, err, code)
		} else if err.Span.End <= err.Span.Start {
			t.Errorf("%s: the error has no place", src)
		}
	}
	if s, err := Parse("   # only a note"); s != nil || err != nil {
		t.Errorf("a note alone gives %v, %v", s, err)
	}
}

func FuzzParse(f *testing.F) {
	for _, s := range []string{`beam = 4' 7 1/2" ± 1/16" # note`, `part a: 2 of 3/4" by 7" by x in larch, within 1/16"`, `made a to b, c within 1°`, `map(1..3, it*2)`, `x as of entry 3`, `"text" + 1`, `revise o.a.b = 1-10-5`, `((((`, `then(x)`, `2½" × 3`} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, src string) {
		s, err := Parse(src)
		if err != nil {
			if err.Span.Start < 0 || err.Span.Start > len(src)+1 || err.Span.End < err.Span.Start {
				t.Errorf("%q: error %v at %v", src, err, err.Span)
			}
			return
		}
		if s == nil {
			return
		}
		for _, e := range s.Exprs() {
			if e.Span.Start < 0 || e.Span.End > len(src) || src[e.Span.Start:e.Span.End] != e.Text {
				t.Errorf("%q: the span %v is not %q", src, e.Span, e.Text)
			}
			fr := &Frame{Vars: make([]calc.Value, len(e.Needs))}
			e.Eval(fr) //nolint // the value does not matter here, only that nothing panics
		}
	})
}
