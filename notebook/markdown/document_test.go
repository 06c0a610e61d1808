package markdown

import (
	"strings"
	"testing"
)

// page renders the whole of a file as written.
func page(src string) string {
	d := Parse([]byte(src))
	var b strings.Builder
	for _, s := range d.Sections {
		for _, block := range d.Render(s, nil, Options{}) {
			b.WriteString(block)
		}
	}
	return b.String()
}

func TestSections(t *testing.T) {
	d := Parse([]byte("# Log\n\nBefore.\n\n## 2027-05-02: The *sides* of {boat}\n\nText.\n\n### 2027-05-03 too deep\n\n## 2027-05-09\n"))
	var got []string
	for _, s := range d.Sections {
		got = append(got, s.Date+"|"+s.Title)
		if s.Heading == nil {
			t.Errorf("section %s has no heading", s.Date)
		}
	}
	want := "|Log;2027-05-02|The sides of {boat};2027-05-09|"
	if s := strings.Join(got, ";"); s != want {
		t.Errorf("sections %s, want %s", s, want)
	}
}
