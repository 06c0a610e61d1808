package trade

import (
	"os"
	"strings"
	"testing"
)

// TestSignaturesStand holds the names and the order of the arguments that journals
// call the functions of the trade by, and the class of their cautions: a line is
// name(arguments) and the class, if any. Arguments may be added behind, if they can be
// left out.
func TestSignaturesStand(t *testing.T) {
	text, err := os.ReadFile("testdata/signatures.txt")
	if err != nil {
		t.Fatal(err)
	}
	lines := strings.Split(strings.TrimSpace(string(text)), "\n")
	if len(lines) != 160 {
		t.Errorf("%d functions, not 160", len(lines))
	}
	for _, line := range lines {
		call, class, _ := strings.Cut(line, ") ")
		name, list, _ := strings.Cut(strings.TrimSuffix(call, ")"), "(")
		args := strings.Split(list, ", ")
		f, ok := Find(name)
		if !ok || f.Name != name {
			t.Errorf("there is no %s", name)
			continue
		}
		if f.Caution.Letter() != class {
			t.Errorf("%s carries caution %q, not %q", name, f.Caution.Letter(), class)
		}
		for i, p := range f.Params {
			switch {
			case i < len(args) && p.Name != args[i]:
				t.Errorf("%s: argument %d is %s, not %s", name, i+1, p.Name, args[i])
			case i >= len(args) && !p.Optional:
				t.Errorf("%s wants %s, which is not in its signature", name, p.Name)
			}
		}
		if len(f.Params) < len(args) {
			t.Errorf("%s takes %d arguments, not %d", name, len(f.Params), len(args))
		}
	}
}
