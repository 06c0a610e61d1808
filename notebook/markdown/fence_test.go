package markdown

import (
	"fmt"
	"strings"
	"testing"
)

func TestFences(t *testing.T) {
	for name, c := range map[string]struct{ src, want string }{
		"plain":            {"```calc\na = 1\nb = 2\n```\n", "[] a = 1|b = 2"},
		"tildes":           {"~~~~ calc\na\n~~~\n~~~~", "[] a|~~~"},
		"info":             {"```calc  private once \na\n```", "[private once] a"},
		"tab in the info":  {"```\tcalc\tprivate\na\n```", "[private] a"},
		"capital":          {"```Calc\na\n```", "[] a"},
		"none":             {"```calculate\na\n```\n\n```\ncalc\n```\n\n    ```calc\n", ""},
		"empty":            {"```calc\n```", "[] "},
		"blank lines":      {"```calc\n\na\n\n\nb\n\n```", "[] |a|||b|"},
		"CRLF":             {"```calc\r\na\r\n\r\nb\r\n```\r\n", "[] a||b"},
		"indented":         {"  ```calc\n  a\n b\n    c\n  ```", "[] a|b|  c"},
		"list":             {"1. x\n\n   ```calc\n   a\n\n     b\n   ```\n", "[] a||  b"},
		"list with tabs":   {"-\t```calc\n\ta\n\t\tb\n\t```\n", "[] a|\tb"},
		"quote":            {"> ```calc\n> a\n>\n>b\n> ```\n", "[] a||b"},
		"list in a quote":  {"> - ```calc\n>   a\n>\n>   b\n>   ```\n", "[] a||b"},
		"definition":       {"x\n: y\n\n  ```calc\n  a\n  ```\n", "[] a"},
		"note":             {"x[^1]\n\n[^1]:\n    ```calc\n    a\n    ```\n", "[] a"},
		"two":              {"```calc\na\n```\n```calc\nb\n```", "[] a;[] b"},
		"broken bytes":     {"```calc\n\xff\x00\n```", "[] \xff\x00"},
		"after a mark":     {"\xef\xbb\xbf```calc\na\n```", "[] a"},
		"after the matter": {"---\na: b\n---\n```calc\na\n```", "[] a"},
	} {
		d := Parse([]byte(c.src))
		var got []string
		for _, b := range d.Sections[0].Blocks {
			var lines []string
			for _, l := range b.Lines {
				lines = append(lines, l.Text)
			}
			got = append(got, "["+b.Info+"] "+strings.Join(lines, "|"))
			if text := d.text(b.Span); !strings.HasSuffix(text, "```") && !strings.HasSuffix(text, "~~~") {
				t.Errorf("%s: the block is %q", name, text)
			}
		}
		if s := strings.Join(got, ";"); s != c.want {
			t.Errorf("%s: %q, want %q", name, s, c.want)
		}
		if len(d.Problems) > 0 {
			t.Errorf("%s: %+v", name, d.Problems)
		}
	}
}

func TestFenceNeverClosed(t *testing.T) {
	for _, src := range []string{
		"```calc\na", "```calc\na\n", "```calc", "```calc\n", "> ```calc\n> a\n\nb", "> ```calc\n> a\n```\nb", "- ```calc\n  a\n\nb",
		"~~~calc\na\n```\n", "````calc\na\n```\n",
	} {
		d := Parse([]byte(src))
		if len(d.Problems) != 1 || d.Problems[0].Code != "syntax" || len(d.Sections[0].Blocks) != 1 {
			t.Errorf("%q: %+v", src, d.Problems)
		}
	}
	d := Parse([]byte("```calc\na"))
	b := d.Sections[0].Blocks[0]
	if got := fmt.Sprint(b.Lines, b.Span); got != "[{a {8 9}}] {0 9}" {
		t.Errorf("without a last line end: %s", got)
	}
	if got := page("```calc\na"); got != "<pre><code class=\"language-calc\">a\n</code></pre>\n" {
		t.Errorf("page %q", got)
	}
}

// TestFenceInNoteThatNobodyRefersTo: its lines count, which is said.
func TestFenceInNoteThatNobodyRefersTo(t *testing.T) {
	d := Parse([]byte("x\n\n[^n]: y {z}\n\n    ```calc\n    a = 1\n    ```\n"))
	if s := d.Sections[0]; len(s.Blocks) != 1 || len(d.Problems) != 1 || d.text(d.Problems[0].Span) != d.text(s.Blocks[0].Span) {
		t.Errorf("%+v", d.Problems)
	}
}
