package docs

import (
	"os"
	"strings"
	"testing"

	"scarph/calc/lang"
	"scarph/kernel"
	"scarph/notebook"
)

// TestLanguagePageWorks: the page of the language is a journal without problems, and
// nothing of the language is left out of it.
func TestLanguagePageWorks(t *testing.T) {
	n, err := notebook.Open("language.md")
	if err != nil {
		t.Fatal(err)
	}
	for _, d := range n.Problems(kernel.Now) {
		t.Errorf("%s:%d:%d: %s (%s)", d.File, d.Line, d.Column, d.Message, d.Hint)
	}
	for _, c := range n.Session.Checks(kernel.Now) {
		if !c.Holds {
			t.Errorf("check %s does not hold", c.Text)
		}
	}
	src, err := os.ReadFile("language.md")
	if err != nil {
		t.Fatal(err)
	}
	text := string(src)
	for _, w := range lang.Words() {
		if !strings.Contains(text, "\n"+w+" ") {
			t.Errorf("no block of the page shows a line that begins with %s", w)
		}
	}
	for _, f := range lang.FormNames() {
		if !strings.Contains(text, f+"(") {
			t.Errorf("the page does not show %s(…)", f)
		}
	}
}

// TestLinksLead: every link from one page to another leads to a file.
func TestLinksLead(t *testing.T) {
	files, err := os.ReadDir(".")
	if err != nil {
		t.Fatal(err)
	}
	for _, f := range files {
		if !strings.HasSuffix(f.Name(), ".md") {
			continue
		}
		b, err := os.ReadFile(f.Name())
		if err != nil {
			t.Fatal(err)
		}
		for _, part := range strings.Split(string(b), "](")[1:] {
			dest, _, _ := strings.Cut(part, ")")
			dest, _, _ = strings.Cut(dest, "#")
			if dest == "" || strings.Contains(dest, ":") || strings.ContainsAny(dest, " ,") {
				continue
			}
			if _, err := os.Stat(dest); err != nil {
				t.Errorf("%s: the link to %s leads nowhere", f.Name(), dest)
			}
		}
	}
}
