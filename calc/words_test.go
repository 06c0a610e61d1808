package calc_test

import (
	"testing"

	"scarph/calc"
)

func TestWords(t *testing.T) {
	for name, want := range map[string]string{
		"beam": "beam", "chine_half.st_5": "chine half, st 5", "moisture.oak._2027_01_09": "moisture, oak, 2027-01-09", "_2027_01_09": "2027-01-09",
		"offsets.sheer._4": "offsets, sheer, 4", "_2027_1_9": "2027 1 9", "": "", "_": "",
	} {
		if got := calc.Words(name); got != want {
			t.Errorf("%s: %q, want %q", name, got, want)
		}
	}
}
