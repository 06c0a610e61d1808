package trade_test

import (
	"math"
	"testing"

	"scarph/calc"
	"scarph/calc/lang"
	"scarph/calc/trade"
)

// evaluate evaluates an expression of the calc language that uses no names.
func evaluate(text string) (calc.Value, []string, *calc.Error) {
	s, err := lang.ParseSlot(text)
	if err != nil {
		return calc.Value{}, nil, err
	}
	if n := s.Expr.Needs; len(n) > 0 {
		return calc.Value{}, nil, calc.Errorf(calc.CodeUnknownName, "nothing is named %s", n[0].Path)
	}
	f := &lang.Frame{}
	v, err := s.Expr.Eval(f)
	return v, f.Warnings, err
}

// number evaluates an expression of the calc language to its SI number.
func number(t *testing.T, text string) float64 {
	t.Helper()
	v, _, err := evaluate(text)
	if err != nil {
		t.Fatalf("%s: %v", text, err)
	}
	return v.V
}

func mustList(t *testing.T, text string) []calc.Value {
	t.Helper()
	v, _, err := evaluate(text)
	if err != nil {
		t.Fatalf("%s: %v", text, err)
	}
	return v.Items()
}

func find(t *testing.T, name string) *trade.Function {
	t.Helper()
	f, ok := trade.Find(name)
	if !ok {
		t.Fatalf("no function %s", name)
	}
	return f
}

// call invokes a function of the registry.
func call(t *testing.T, name string, args ...calc.Value) trade.Result {
	t.Helper()
	r, err := find(t, name).Invoke(args)
	if err != nil {
		t.Fatalf("%s: %v", name, err)
	}
	return r
}

func value(t *testing.T, name string, args ...calc.Value) calc.Value {
	t.Helper()
	return call(t, name, args...).Value
}

func field(t *testing.T, v calc.Value, name string) calc.Value {
	t.Helper()
	f, ok := v.Member(name)
	if !ok {
		t.Fatalf("no field %s among %v", name, v.Labels())
	}
	return f
}

// printed reports a figure that is off by more than half of its last printed digit.
func printed(t *testing.T, what string, got, want, half float64) {
	t.Helper()
	if math.IsNaN(got) || math.Abs(got-want) > half*(1+1e-6) {
		t.Errorf("%s: got %.6f, want %.6f", what, got, want)
	}
}

func inches(v calc.Value) float64  { return v.V / 0.0254 }
func degrees(v calc.Value) float64 { return v.V * 180 / math.Pi }
func mm(v calc.Value) float64      { return v.V * 1000 }
