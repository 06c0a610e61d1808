package notebook

import (
	"context"
	"strings"
	"testing"

	"scarph/calc"
	"scarph/kernel"
)

func TestResultHTML(t *testing.T) {
	s := kernel.New(calc.Style{})
	s.Update(context.Background(), []kernel.Entry{{Key: "a"}})
	for _, c := range [][2]string{
		{`2 in`, `<div class="result"><span class="value">2&#34;</span> <span class="echo">50.8 mm</span></div>`},
		{`"<script>"`, `<div class="result"><span class="value">&lt;script&gt;</span></div>`},
		{`[1 in, 2 in]`, `<tr><th scope="row">2</th><td><span class="value">2&#34;</span></td></tr></table>`},
		{`hopper_miter(4, 16°)`, `<th scope="row">cross cut</th>`},
		{`scarf_length(5/8 in, 8)`, `<p class="caution"><strong>Caution.</strong> A bench figure`},
	} {
		r, err := s.Eval(context.Background(), c[0], kernel.Now)
		if err != nil || !r.OK() {
			t.Fatal(c[0], err, r)
		}
		if got := ResultHTML(r, calc.Style{}); !strings.Contains(got, c[1]) || strings.Contains(got, "<script") {
			t.Errorf("%s\n got %s\nwant %s", c[0], got, c[1])
		}
	}
}
