package kernel

import (
	"context"
	"fmt"
	"math"
	"strings"
	"testing"

	"scarph/calc"
)

// TestEndGauge is the calibration of an end gauge.
// Source: JCGM 100:2008 (GUM), H.1: l = 50.000838 mm, combined standard uncertainty
// 32 nm to first order (31.66 nm unrounded).
func TestEndGauge(t *testing.T) {
	third := 1 / math.Sqrt(3)
	s := open(entryOf("gum", "", fmt.Sprintf(`
		found l_s = 50.000623 mm ± 0.025 µm
		found d = 0.215 µm ± %.10g µm
		found alpha_s = 11.5 ± %.10g
		found delta_alpha = 0 ± %.10g
		found theta = -0.1 K
		found theta_spread = 0 K ± %.10g K
		found delta_theta = 0 K ± %.10g K
		micro = 1 / 1000000 / (1 K)
		l = l_s + d - l_s * (delta_alpha * micro * (theta + theta_spread) + alpha_s * micro * delta_theta)`,
		math.Sqrt(5.8*5.8+3.9*3.9+6.7*6.7)/1000, 2*third, third, math.Sqrt(0.2*0.2+0.5*0.5/2), 0.05*third)))
	r, ok := s.Value("l", Now)
	if !ok || !r.OK() {
		t.Fatalf("l: %+v", r)
	}
	if got := r.Value.V * 1000; math.Abs(got-50.000838) > 5e-7 {
		t.Errorf("l is %.7f mm, want 50.000838", got)
	}
	if got := r.Value.Likely() * 1e9; math.Abs(got-31.66) > 0.01 {
		t.Errorf("the ± of l is %.3f nm, want 31.66", got)
	}
	why := s.Why(r)
	if len(why) != 4 || why[0].Name != "l_s" || why[1].Name != "delta_theta" {
		t.Errorf("why: %+v", why)
	}
}

// TestCorrelatedReadings is the simultaneous measurement of resistance and reactance:
// three quantities from the same five observations, correlated through them. The
// correlation is carried by sources that the readings share.
// Source: JCGM 100:2008 (GUM), H.2, tables H.2 to H.4: R = 127.732(71), X = 219.847(295),
// Z = 254.260(236) Ω, r(X, Z) = 0.993. Recomputed from the observations: u(R) 0.07107,
// u(X) 0.29558, u(Z) 0.23634, r(R, X) −0.58843, r(X, Z) 0.99251.
func TestCorrelatedReadings(t *testing.T) {
	obs := [3][5]float64{{5.007, 4.994, 5.005, 4.990, 4.999}, {19.663e-3, 19.639e-3, 19.640e-3, 19.685e-3, 19.678e-3}, {1.0456, 1.0438, 1.0468, 1.0428, 1.0433}}
	var mean [3]float64
	var cov, c [3][3]float64
	for i := range obs {
		for _, x := range obs[i] {
			mean[i] += x / 5
		}
	}
	for i := range obs {
		for j := range obs {
			for k := range 5 {
				cov[i][j] += (obs[i][k] - mean[i]) * (obs[j][k] - mean[j]) / 20
			}
		}
	}
	for i := range 3 { // Cholesky
		for j := 0; j <= i; j++ {
			sum := cov[i][j]
			for k := 0; k < j; k++ {
				sum -= c[i][k] * c[j][k]
			}
			if i == j {
				c[i][i] = math.Sqrt(sum)
			} else {
				c[i][j] = sum / c[j][j]
			}
		}
	}
	var b strings.Builder
	b.WriteString("found e_1 = 0 ± 1\nfound e_2 = 0 ± 1\nfound e_3 = 0 ± 1\n")
	for i, name := range []string{"volts", "amps", "phase"} {
		fmt.Fprintf(&b, "%s = %.17g + %.17g * e_1 + %.17g * e_2 + %.17g * e_3\n", name, mean[i], c[i][0], c[i][1], c[i][2])
	}
	b.WriteString("phi = phase * 1 rad\nresist = volts / amps * cos(phi)\nreact = volts / amps * sin(phi)\nimpede = volts / amps\n")
	s := open(entryOf("gum", "", b.String()))
	get := func(name string) calc.Value {
		r, ok := s.Value(name, Now)
		if !ok || !r.OK() {
			t.Fatalf("%s: %+v", name, r)
		}
		return r.Value
	}
	for name, want := range map[string][2]float64{"resist": {127.7322, 0.07107}, "react": {219.8465, 0.29558}, "impede": {254.2597, 0.23634}} {
		v := get(name)
		if math.Abs(v.V-want[0]) > 5e-4 || math.Abs(v.Likely()-want[1]) > 1e-4 {
			t.Errorf("%s is %.4f ± %.5f, want %.4f ± %.5f", name, v.V, v.Likely(), want[0], want[1])
		}
	}
	for _, p := range []struct {
		a, b string
		r    float64
	}{{"resist", "react", -0.58843}, {"resist", "impede", -0.48526}, {"react", "impede", 0.99251}} {
		x, y := get(p.a), get(p.b)
		dot := 0.0
		for _, s := range x.Terms() {
			for _, u := range y.Terms() {
				if s.Source == u.Source {
					dot += s.S * u.S
				}
			}
		}
		if r := dot / x.Likely() / y.Likely(); math.Abs(r-p.r) > 2e-4 {
			t.Errorf("r(%s, %s) is %.5f, want %.5f", p.a, p.b, r, p.r)
		}
	}
}

// TestStacks adds tolerances: ten parts of ± 0.1 are ± 1.0 at worst and ± 0.316 likely.
// Source: root-sum-square and worst-case stacking, common practice; figures from the
// rule itself.
func TestStacks(t *testing.T) {
	var b strings.Builder
	sum := "stack = 0 mm"
	for i := range 10 {
		fmt.Fprintf(&b, "part_%d = 5 mm ± 0.1 mm\n", i)
		sum += fmt.Sprintf(" + part_%d", i)
	}
	s := New(calc.Style{System: calc.Metric, Worst: true})
	s.Update(context.Background(), []Entry{entryOf("a", "", b.String()+sum)})
	r, _ := s.Value("stack", Now)
	near(t, "worst", r.Value.Worst()*1000, 1)
	near(t, "likely", r.Value.Likely()*1000, 0.316227766)
	if got := s.Style().Text(r.Value); got != "50 ± 1 mm" {
		t.Errorf("shown as %q", got)
	}
}
