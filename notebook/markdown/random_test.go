package markdown

import (
	"flag"
	"math/rand/v2"
	"strings"
	"testing"
)

var randomDocuments = flag.Int("documents", 5000, "how many random documents are read and rendered")

// morsels are what random documents are put together from: every sign that
// means something, alone and in its usual company.
var morsels = strings.Split("{|}|{a}|{a b}|{(x)}|{-1}|{=q|\\{|\\|`|``|*|**|_|~~|[|]|(|)|](u)|](u \"t\")|![|![a]|[^1]|[^1]: |[^2]|[r]|[r]: /u '{t}'|"+
	"<b>|</b>|<i title=\"x\">|</i>|<div>|</div>|<details>|</details>|<summary>|</summary>|<p>|</p>|<dl>|</dl>|<dt>|</dt>|<dd>|</dd>|<br>|<hr>|"+
	"<script>|</script>|<!--|-->|<![CDATA[|]]>|<?|?>|<a href=x>|</a>|<http://a.b>|<javascript:x>|<|>|&|&amp;|&#0;|&lt;|\"|'|=|\x00|\xff|\xe2\x80|ⅷ|é|\u2028|"+
	"- |+ |* |1. |2) |> |# |## |### |---|===|***|    |\t|  | |```|```calc|~~~calc p|~~~|```go|: |- [ ] |- [x] |--|...|"+
	"## 2027-05-02|2027-05-02|word|a = 1|x", "|")

// lines are what only makes sense at the start of a line.
var lines = []string{
	"\n", "\n\n", "\r\n", "\n| a: | b |\n|---|---|\n| c | {d} |\n", "\n| drawn t (mm): | a | a |\n|:-|-:|:-:|\n| x | 1 | 2 | 3 |\n| | | |\n",
	"\n```calc\na = 1\n```\n", "\n> ", "\n- ", "\n  ", "\n\t", "\n> - ", "\n[^1]: ", "\n    ", "\n: ", "\r", "\n| ", "|\n",
	"\n![{a}](b.jpg \"{c}\")\n", "\n<details>\n<summary>a</summary>\n\n", "\n\n</details>\n\n", "\n## 2027-05-03 day\n",
}

func randomDocument(r *rand.Rand) []byte {
	var b strings.Builder
	for range r.IntN(60) {
		if r.IntN(4) == 0 {
			b.WriteString(lines[r.IntN(len(lines))])
		} else {
			b.WriteString(morsels[r.IntN(len(morsels))])
		}
		if r.IntN(6) == 0 {
			b.WriteByte(' ')
		}
	}
	return []byte(b.String())
}

func TestRandomDocuments(t *testing.T) {
	n := *randomDocuments
	if testing.Short() || raceEnabled {
		n /= 10
	}
	for seed := range n {
		src := randomDocument(rand.New(rand.NewPCG(uint64(seed), 1)))
		if checkDocument(t, src); t.Failed() {
			t.Fatalf("seed %d, %q", seed, src)
		}
	}
}
