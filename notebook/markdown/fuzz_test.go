package markdown

import (
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// seeds are the examples of the specifications and pieces of journals.
func seeds(t testing.TB) []string {
	var all []string
	for _, path := range []string{"testdata/commonmark-0.31.2.txt", "testdata/gfm-0.29.txt"} {
		for _, e := range specExamples(t, path) {
			all = append(all, e.markdown)
		}
	}
	pieces, err := filepath.Glob("testdata/pieces/*.md")
	if err != nil {
		t.Fatal(err)
	}
	for _, path := range pieces {
		src, err := os.ReadFile(path)
		if err != nil {
			t.Fatal(err)
		}
		all = append(all, string(src))
	}
	return append(all, oddities...)
}

// oddities are texts at the edges of what the parsers agree on.
var oddities = []string{
	"", "\n", "{", "{a", "{a}", "{a}{b}", "\\{a}", "{a\nb}", "{a|b}", "\x00{a\x00}", "\xff{\xff}", "\xef\xbb\xbf{a}",
	"- {a}\n\t- {b}\n\n\t\t{c}\n", ">\t{a}\n>\t\t{b}\n", "1.\t```calc\n\ta = 1\n\n\t\tb = 2\n\t```\n",
	"- ```calc\n  a\n\n\n  b\n", ">```calc\n>\ta\n>\n> b\n", "~~~calc x y\na\n~~~~\n", "```calc\r\na\r\n\r\nb\r\n```\r\n",
	"text\n| a: | b |\n|--|--|\n| c | {d} |\n", "| a: |\n|--|", "> | a: | b |\n> |--|--|\n> | c | `d` | e\n",
	"![{a}](b \"{c}\")", "![a](b \"x\n{c}\")", "> ![a](b \"x\n> {c}\")", "[![{a}](b)](c \"{d}\") {e}", "![a][b]\n\n[b]: c '{d}'",
	"a[^1] b[^1]\n\n[^1]: {c}\n\n    ```calc\n    d\n    ```\n", "[^a]\n\n[^a]: [^b]\n[^b]: [^a] {c}\n", "> [^1]: {a}\n\n[x[^1]](y)",
	"# {a}\n\n## 2027-01-01 {b}\n{c}\n\n2027-02-01\n---\n", "---\na: b\n---\n{c}", "---\na: b\n{c}", "a\n: {b}\n: {c}\n",
	"<b>{a}</b>", "<details>\n<summary>a</summary>\n\n{b}\n\n</details>\n", "*<b>a*</b>", "<dl>\n<dt>a\n<dd>b\n</dl>\n", "<p>\n\na\n\n</p>",
	"[<http://a>](b)", "- [x] {a}\n- [ ] b\n", "a -- b --- c ... d ---- e -- --f", "&lt;{&amp;}", "`{a}` ``{b}`", "[a]: <b> '{c}'\n\n[a]",
	"* a\n\n  <div>\n\n  b\n\n* c\n\n  </div>", "<div\n\n{a}>", "| a: | b |\n|:-|-:|\n| {c} | \\| |\n| | |\n",
}

func TestSeeds(t *testing.T) {
	for i, s := range seeds(t) {
		if raceEnabled && i%10 != 0 {
			continue
		}
		checkDocument(t, []byte(s))
		if t.Failed() {
			t.Fatalf("in %q", s)
		}
		for _, change := range []func(string) string{
			func(s string) string { return strings.ReplaceAll(s, "\n", "\r\n") },
			func(s string) string { return "\xef\xbb\xbf" + s },
			func(s string) string { return strings.TrimRight(s, "\n") },
			func(s string) string { return "> " + strings.ReplaceAll(s, "\n", "\n> ") },
			func(s string) string { return "-\t" + strings.ReplaceAll(s, "\n", "\n\t") },
		} {
			if checkDocument(t, []byte(change(s))); t.Failed() {
				t.Fatalf("in %q", change(s))
			}
		}
	}
}

func FuzzDocument(f *testing.F) {
	for _, s := range seeds(f) {
		f.Add([]byte(s))
	}
	f.Fuzz(func(t *testing.T, src []byte) {
		if len(src) > 1<<16 {
			t.Skip()
		}
		checkDocument(t, src)
	})
}
