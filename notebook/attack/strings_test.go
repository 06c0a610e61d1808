// Package attack_test shows hostile journals by every way there is, and asks that
// nothing in them runs, loads, or leads anywhere.
package attack_test

import (
	"encoding/hex"
	"os"
	"regexp"
	"strings"
	"testing"
)

var (
	signs = strings.NewReplacer("␤", "\n", "␍", "\r", "␉", "\t", "␀", "\x00", "␛", "\x1b", "␇", "\a", "␈", "\b", "␌", "\f", "␁", "\x01", "␡", "\x7f")
	lone  = regexp.MustCompile(`⟦([0-9a-f]+)⟧`)
)

// attacks reads the strings of testdata/attacks.
func attacks(t testing.TB) []string {
	t.Helper()
	text, err := os.ReadFile("../../testdata/attacks/strings.txt")
	if err != nil {
		t.Fatal(err)
	}
	_, body, _ := strings.Cut(string(text), "\n\n")
	var list []string
	for _, line := range strings.Split(body, "\n") {
		if line == "" || strings.HasPrefix(line, "§ ") {
			continue
		}
		list = append(list, lone.ReplaceAllStringFunc(signs.Replace(line), func(m string) string {
			b, _ := hex.DecodeString(strings.Trim(m, "⟦⟧"))
			return string(b)
		}))
	}
	if len(list) < 500 {
		t.Fatalf("only %d strings were read", len(list))
	}
	return list
}
