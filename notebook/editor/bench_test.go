package editor

import (
	"fmt"
	"strings"
	"testing"
	"time"
)

// generated is a journal made to size: entries of ten statements each, sums of sums,
// with running text, slots and a table now and then.
func generated(statements, files int) map[string]string {
	out := map[string]string{"journal.md": "---\ntitle: Made to size\n---\nThe base is {base}.\n\n```calc\nbase = 3 in\n```\n"}
	per := statements / files
	n := 0
	for i := range files {
		var b strings.Builder
		fmt.Fprintf(&b, "---\ndate: %04d-%02d-%02d\n---\n", 1990+i/336, 1+i/28%12, 1+i%28)
		for k := 0; k < per; k++ {
			if k%10 == 0 {
				fmt.Fprintf(&b, "\nWords about the day's work, {v_%d} of them, and {base to mm} more.\n\n```calc\n", n)
			}
			switch {
			case n%10 == 0:
				fmt.Fprintf(&b, "v_%d = %d in + base\n", n, n%97+1)
			default:
				fmt.Fprintf(&b, "v_%d = (v_%d + v_%d) / 2 - 1/8 in   # the next\n", n, n-1, n/10*10)
			}
			n++
			if k%10 == 9 {
				b.WriteString("```\n")
			}
		}
		out[fmt.Sprintf("e%05d.md", i)] = b.String()
	}
	return out
}

// keystrokes types a digit and takes it back, at the ¦ of an open file's text, and
// waits for what that did: diagnostics are on their way and the hints of a screenful
// have come.
func keystrokes(b *testing.B, c *client, name, piece string) {
	end := c.at(name, piece)["position"].(position)
	screen := object{"textDocument": object{"uri": c.uri(name)}, "range": textRange{position{max(0, end.Line-25), 0}, position{end.Line + 25, 0}}}
	c.ask("textDocument/inlayHint", screen, nil)
	i := 0
	var worst time.Duration
	for b.Loop() {
		begin := time.Now()
		c.versions[name]++
		text, rg := "1", textRange{end, end}
		if i%2 == 1 {
			text, rg = "", textRange{end, position{end.Line, end.Character + 1}}
		}
		i++
		c.say("textDocument/didChange", object{"textDocument": object{"uri": c.uri(name), "version": c.versions[name]}, "contentChanges": []object{{"range": rg, "text": text}}})
		var hints []inlayHint
		c.ask("textDocument/inlayHint", screen, &hints)
		if len(hints) == 0 {
			b.Fatal("no hints")
		}
		worst = max(worst, time.Since(begin))
	}
	b.ReportMetric(float64(worst.Microseconds())/1000, "worst-ms")
}

// BenchmarkKeystroke types in a small file of a journal of 10,000 statements, in a
// reading that ten others hang on, and in one that the whole journal hangs on.
func BenchmarkKeystroke(b *testing.B) {
	files := generated(10_000, 1000)
	for _, k := range []struct{ what, name, piece string }{
		{"ten hang on it", "e00500.md", "v_5000 = 5¦4 in"},
		{"nothing hangs on it", "e00500.md", "v_5009 = (v_5008 + v_5000) / 2¦ - 1/8 in"},
		{"the whole journal hangs on it", "journal.md", "base = 3¦ in"},
	} {
		b.Run(k.what, func(b *testing.B) {
			c := begin(b, everything, files)
			c.open(k.name)
			keystrokes(b, c, k.name, k.piece)
			c.end()
		})
	}
}

// BenchmarkKeystrokeOneFile types in a file that holds 10,000 statements by itself.
func BenchmarkKeystrokeOneFile(b *testing.B) {
	files := generated(10_000, 1)
	c := begin(b, everything, files)
	c.open("e00000.md")
	keystrokes(b, c, "e00000.md", "v_5000 = 5¦4 in")
	c.end()
}
