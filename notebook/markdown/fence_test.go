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
		"info":             {"```calc  private \na\n```", "[private] a"},
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

// TestFenceHeads: a head that cannot be understood is an error, and keeps its block from
// being published; one that is of another language is no block of ours.
func TestFenceHeads(t *testing.T) {
	for _, head := range []string{
		"calc Private", "calc PRIVATE", "calc privat", "calc (private)", "calc private=true", "calc, private", "calc private once",
		"calc:private", "calc_private", "calc-private", "calcprivate", "CALCPRIVAT", "{calc private}", "{.calc .private}", "private calc", "private", "Private",
		"calc draft", "calc #private", "calc “private”", "calc\u00a0private", "calc private calc", "calc\tprivate,", "calc.private",
	} {
		for _, fence := range []string{"```", "~~~~"} {
			d := Parse([]byte("x\n\n" + fence + head + "\na = 1\n" + fence + "\n"))
			if len(d.Problems) != 1 || !strings.Contains(d.Problems[0].Hint, "calc private") || d.text(d.Problems[0].Span) != head {
				t.Errorf("%s: %+v", head, d.Problems)
			}
			if b := d.Sections[0].Blocks; len(b) != 1 || !b[0].Private || len(b[0].Lines) != 1 {
				t.Errorf("%s: not kept private", head)
			}
		}
	}
	for head, private := range map[string]bool{"calc": false, "Calc": false, "CALC": false, "calc private": true, "Calc private": true, "calc\t private\t": true} {
		d := Parse([]byte("```" + head + "\na = 1\n```\n"))
		if b := d.Sections[0].Blocks; len(d.Problems) != 0 || len(b) != 1 || b[0].Private != private {
			t.Errorf("%s: %+v", head, d.Problems)
		}
	}
	for _, head := range []string{"", "go", "calculate", "text calculus", "privateer", "c++ calcium"} {
		d := Parse([]byte("```" + head + "\na = 1\n```\n"))
		if len(d.Problems) != 0 || len(d.Sections[0].Blocks) != 0 {
			t.Errorf("%q is taken for a calc block: %+v", head, d.Problems)
		}
	}
}
