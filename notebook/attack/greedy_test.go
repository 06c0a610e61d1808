package attack_test

import (
	"context"
	"fmt"
	"os"
	"path/filepath"
	"runtime"
	"strings"
	"testing"
	"time"

	"scarph/calc"
	"scarph/kernel"
	"scarph/notebook"
)

// repeated writes a line once for each number from 1 to n; %d in it is that number, %p the
// one before.
func repeated(n int, line string) string {
	var b strings.Builder
	for i := range n {
		b.WriteString(strings.NewReplacer("%d", fmt.Sprint(i+1), "%p", fmt.Sprint(i)).Replace(line))
		b.WriteByte('\n')
	}
	return b.String()
}

func block(lines string) string { return "```calc\n" + lines + "\n```\n" }

// greedy are journals made to take all there is of time or memory. Each says what
// must stand in the first of its problems, "" where it is well and only large.
var greedy = []struct {
	name string
	text func(n int) string // n is 1, or 10 for the full size
	code calc.Code
}{
	{"brackets in one another", func(n int) string {
		return block("x = " + strings.Repeat("(", 900*n) + "1 in" + strings.Repeat(")", 900*n))
	}, calc.CodeLimit},
	{"brackets of lists in one another", func(n int) string { return block("x = " + strings.Repeat("[", 900*n) + strings.Repeat("]", 900*n)) }, calc.CodeLimit},
	{"signs before a number", func(n int) string { return block("x = " + strings.Repeat("-", 300*n) + "1 in") }, ""},
	{"a line of a megabyte", func(n int) string { return block("x = 1 in" + strings.Repeat(" + 1 in", 15_000*n)) }, calc.CodeLimit},
	{"a number of a megabyte", func(n int) string { return block("x = " + strings.Repeat("9", 100_000*n)) }, calc.CodeLimit},
	{"a number of many digits", func(n int) string { return block("x = " + strings.Repeat("9", 400*n) + " in") }, ""},
	{"a tower of powers", func(n int) string { return block("x = 9 ^ 9 ^ 9 ^ 9\ny = 2 ^ 1e6\nz = 1e308 * 1e308") }, ""},
	{"a range of a thousand million", func(int) string { return block("x = sum(1..1000000000)") }, calc.CodeLimit},
	{"ranges in ranges", func(n int) string { return block("x = sum(map(1..1000, sum(map(1..1000, sum(1..1000)))))") }, calc.CodeLimit},
	{"lists of lists of lists", func(n int) string {
		return block("a = map(1..1000, it)\nb = map(1..900, a)\nc = map(1..900, b)\nd = map(1..900, c)")
	}, calc.CodeLimit},
	{"a list that doubles", func(int) string { return block("d_0 = [1, 2]\n" + repeated(40, "d_%d = [d_%p, d_%p]")) }, calc.CodeLimit},
	{"a text that grows", func(n int) string {
		return block("t_0 = \"" + strings.Repeat("x", 1000) + "\"\n" + repeated(40, "u_%d = t_0 + t_0"))
	}, ""},
	{"a name of a megabyte", func(n int) string { return block(strings.Repeat("x", 100_000*n) + " = 1 in") }, calc.CodeLimit},
	{"a note of a megabyte", func(n int) string { return block("x = 1 in # " + strings.Repeat("x", 100_000*n)) }, calc.CodeLimit},
	{"a long chain", func(n int) string { return block("c_0 = 1 in\n" + repeated(1000*n, "c_%d = c_%p + 1 in")) }, ""},
	{"a chain of readings with ±", func(n int) string {
		return block("t_0 = 0 in\n" + repeated(300*n, "r_%d = %d in ± 1/16 in\nt_%d = r_%d + t_%p"))
	}, ""},
	{"a circle of thousands", func(n int) string {
		return block(repeated(500*n, "k_%d = k_%p + 1 in") + fmt.Sprintf("k_0 = k_%d", 500*n))
	}, ""},
	{"thousands of errors", func(n int) string { return block(repeated(1000*n, "e_%d = nothing_%d + 1 in")) }, calc.CodeUnknownName},
	{"thousands of lines that cannot be read", func(n int) string { return block(repeated(1000*n, ")%d( in in")) }, calc.CodeSyntax},
	{"thousands of namings of one name", func(n int) string { return block(repeated(1000*n, "x = %d in")) }, calc.CodeTwice},
	{"thousands of revisions of one value", func(n int) string { return block("x = 1 in\n" + repeated(1000*n, "revise x = %d in")) }, ""},
	{"thousands of slots", func(n int) string { return block("x = 1 in") + repeated(2000*n, "{x} {x + %d in}") }, ""},
	{"thousands of parts, made and revised", func(n int) string {
		return block("w = 2 in\n" + repeated(200*n, "part p_%d: 2 of 1\" by w by 2 ft in larch\nmade p_%d: 1\nrevise w = %d in"))
	}, ""},
	{"thousands of checks", func(n int) string { return block("x = 1 in\n" + repeated(1000*n, "check x < %d in")) }, ""},
	{"a table of many cells", func(n int) string {
		return "| t: |" + strings.Repeat(" c |", 100) + "\n|" + strings.Repeat("--|", 101) + "\n" + repeated(100*n, "| r_%d |"+strings.Repeat(" 1 in |", 100))
	}, ""},
	{"a wide table", func(n int) string {
		return "| t: |" + strings.Repeat("|", 2000*n) + "\n|" + strings.Repeat("-|", 2000*n+1) + "\n| r |" + strings.Repeat(" 1 in |", 2000*n) + "\n"
	}, ""},
	{"slots on one line", func(n int) string { return block("x = 1 in") + "\n" + strings.Repeat("{x} ", 5000*n) }, ""},
	{"wrong slots on one line", func(n int) string { return strings.Repeat("{1 in + 1} é", 2000*n) }, calc.CodeBareNumber},
	{"thousands of entries", func(n int) string {
		return "# T\n\n" + repeated(300*n, "## 2027-01-01 Day %d\n\n```calc\nx_%d = 1 in\n```\n")
	}, ""},
	{"thousands of looks back", func(n int) string {
		return "# T\n\n" + block("x = 1 in") + repeated(100*n, "## 2027-01-01 Day %d\n\n```calc\nrevise x = %d in\ny_%d = x as of entry 1\n```\n")
	}, ""},
	{"thousands of reasons", func(n int) string {
		return block(repeated(100*n, "r_%d = %d in ± 1/16 in") + "s = sum([" + strings.TrimSuffix(strings.ReplaceAll(repeated(100*n, "r_%d,"), "\n", ""), ",") + "])\nwhy(s)")
	}, ""},
	{"quotes in one another", func(n int) string { return strings.Repeat("> ", 2000*n) + "{1 in}" }, ""},
	{"front matter in one another", func(n int) string { return "---\ntitle: " + strings.Repeat("[", 1000*n) + "\n---\n" }, calc.CodeSetting},
	{"front matter that names itself", func(n int) string {
		return "---\na: &a [x,x,x,x,x,x,x,x,x]\nb: &b [*a,*a,*a,*a,*a,*a,*a,*a,*a]\nc: &c [*b,*b,*b,*b,*b,*b,*b,*b,*b]\nd: &d [*c,*c,*c,*c,*c,*c,*c,*c,*c]\ne: &e [*d,*d,*d,*d,*d,*d,*d,*d,*d]\nf: &f [*e,*e,*e,*e,*e,*e,*e,*e,*e]\nhide: [*f,*f,*f,*f,*f,*f,*f,*f]\n---\n"
	}, calc.CodeSetting},
}

// TestGreedyJournals opens journals that ask for more than there is. Each is read, worked
// out and shown to its end; what is too much is refused by an error with its place. The
// figures are written down, not judged: SCARPH_LONG takes the full sizes.
func TestGreedyJournals(t *testing.T) {
	n := 1
	if os.Getenv("SCARPH_LONG") != "" {
		n = 10
	}
	for _, h := range greedy {
		t.Run(h.name, func(t *testing.T) {
			dir := t.TempDir()
			text := h.text(n)
			if err := os.WriteFile(filepath.Join(dir, notebook.TitlePage), []byte(text), 0o644); err != nil {
				t.Fatal(err)
			}
			var before, after runtime.MemStats
			runtime.GC()
			runtime.ReadMemStats(&before)
			start := time.Now()
			b, err := notebook.Open(dir)
			if err != nil {
				t.Fatal(err)
			}
			opened := time.Since(start)
			size := 0
			for _, e := range b.Entries() {
				for _, x := range b.RenderEntry(e, notebook.Page{AsOf: kernel.Now}) {
					size += len(x)
				}
			}
			problems := b.Problems(kernel.Now)
			all := time.Since(start)
			runtime.GC()
			runtime.ReadMemStats(&after)
			t.Logf("%d kB: open after %d ms, shown after %d ms, %d kB of page, %d problems; %.0f MB asked for, %.1f MB kept",
				len(text)/1000, opened.Milliseconds(), all.Milliseconds(), size/1000, len(problems), float64(after.TotalAlloc-before.TotalAlloc)/1e6, (float64(after.HeapAlloc)-float64(before.HeapAlloc))/1e6)
			if h.code != "" && (len(problems) == 0 || problems[0].Code != h.code) {
				t.Errorf("the first problem is not %s: %.300s", h.code, fmt.Sprint(problems))
			}
			if r, err := b.Session.Eval(context.Background(), "2 in + 3 in", kernel.Now); err != nil || !r.OK() {
				t.Errorf("afterwards 2 in + 3 in is %+v, %v", r, err)
			}
		})
	}
}
