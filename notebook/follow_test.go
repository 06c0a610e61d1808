package notebook

import (
	"context"
	"fmt"
	"math/rand"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"scarph/calc"
	"scarph/kernel"
)

// TestFollowedAndFreshAgree edits files at random and compares, after every step,
// the notebook that followed with one opened fresh: pages, lists and problems.
func TestFollowedAndFreshAgree(t *testing.T) {
	seeds := 12
	if testing.Short() {
		seeds = 3
	}
	for seed := range seeds {
		rnd := rand.New(rand.NewSource(int64(seed)))
		dir := t.TempDir()
		files := []string{TitlePage, "2027-01-09-a.md", "2027-02-01-b.md", "sub/2027-03-01-c.md"}
		write := func(name, text string) {
			p := filepath.Join(dir, name)
			os.MkdirAll(filepath.Dir(p), 0o755)
			if err := os.WriteFile(p, []byte(text), 0o644); err != nil {
				t.Fatal(err)
			}
		}
		name := func() string { return []string{"beam", "depth", "run", "offsets.half.a", "offsets.half"}[rnd.Intn(5)] }
		page := func() string {
			var b strings.Builder
			if rnd.Intn(3) == 0 {
				b.WriteString("---\ntitle: Day\n---\n")
			}
			fmt.Fprintf(&b, "# Heading {%s}\n\nText {%s to mm} and *{then(%s)}*, 1' 6\" and {broken +.\n\n```calc\n", name(), name(), name())
			for range rnd.Intn(5) + 1 {
				switch rnd.Intn(7) {
				case 0:
					fmt.Fprintf(&b, "%s = %d in\n", []string{"beam", "depth", "run"}[rnd.Intn(3)], rnd.Intn(40)+1)
				case 1:
					fmt.Fprintf(&b, "found %s = %d in ± 1/16 in  # note\n", []string{"beam", "depth"}[rnd.Intn(2)], rnd.Intn(40)+1)
				case 2:
					fmt.Fprintf(&b, "check %s < 20 in\n", name())
				case 3:
					fmt.Fprintf(&b, "part p%d: 2 of 1\" by 2\" by beam in larch\nmade p%d: 1\n", rnd.Intn(3), rnd.Intn(3))
				case 4:
					fmt.Fprintf(&b, "revise offsets.half.a = 1-2-%d\n", rnd.Intn(9))
				case 5:
					fmt.Fprintf(&b, "work %d h on %s\n", rnd.Intn(5), "glue")
				default:
					fmt.Fprintf(&b, "run = %s * 2 + depth\n", name())
				}
			}
			b.WriteString("```\n")
			if rnd.Intn(2) == 0 {
				fmt.Fprintf(&b, "\n| %soffsets: | a | b |\n|---|---|---|\n| half | 1-10-%d | {beam} |\n| full | | 3 in |\n", []string{"", "found "}[rnd.Intn(2)], rnd.Intn(8))
			}
			return b.String()
		}
		for _, f := range files {
			write(f, page())
		}
		n, err := Open(dir)
		if err != nil {
			t.Fatal(err)
		}
		for step := range 15 {
			f := files[rnd.Intn(len(files))]
			switch rnd.Intn(6) {
			case 0:
				os.Remove(filepath.Join(dir, f))
			case 1:
				if src, err := os.ReadFile(filepath.Join(dir, f)); err == nil {
					write(f, strings.Replace(string(src), " in", " mm", 1))
				}
			default:
				write(f, page())
			}
			if _, err := n.Refresh(context.Background()); err != nil {
				t.Fatal(err)
			}
			fresh, err := Open(dir)
			if err != nil {
				t.Fatal(err)
			}
			if d := differs(n, fresh); d != "" {
				t.Fatalf("seed %d step %d: %s", seed, step, d)
			}
		}
	}
}

func differs(a, b *Notebook) string {
	if x, y := fmt.Sprint(a.Problems(kernel.Now)), fmt.Sprint(b.Problems(kernel.Now)); x != y {
		return "problems:\n" + x + "\n--\n" + y
	}
	if x, y := fmt.Sprint(a.Notes(kernel.Now)), fmt.Sprint(b.Notes(kernel.Now)); x != y {
		return "notes:\n" + x + "\n--\n" + y
	}
	if len(a.Entries()) != len(b.Entries()) {
		return "entries"
	}
	for i, e := range a.Entries() {
		for _, asOf := range []int{kernel.Now, i} {
			x, y := a.RenderEntry(e, Page{AsOf: asOf, Live: true}), b.RenderEntry(b.Entries()[i], Page{AsOf: asOf, Live: true})
			if strings.Join(x, "\n") != strings.Join(y, "\n") {
				return fmt.Sprintf("%s as of %d:\n%s\n--\n%s", e.Key, asOf, strings.Join(x, "\n"), strings.Join(y, "\n"))
			}
		}
	}
	for _, l := range []string{"dimensions", "cutlist", "rework", "checks", "ledger", "history"} {
		if x, y := a.RenderList(l, Page{AsOf: kernel.Now}), b.RenderList(l, Page{AsOf: kernel.Now}); x != y {
			return l + ":\n" + x + "\n--\n" + y
		}
	}
	return ""
}

// FuzzDocument asks of any file that it opens, that its lines lie where they are said
// to, and that its page can be made.
func FuzzDocument(f *testing.F) {
	for _, s := range []string{small, "---\ntitle: [\n---\n{x}", "# 2027-01-01 A\n{a|b}\n```calc\nx = {y}\n", "| drawn o (mm): | a |\n|-|-|\n| b | 1-2-9 |\n| c | {o.b.a} |", "```calc\r\npart p: 2 of 1\" by 2\"\r\nmade p: 3\r\n```", "\ufeff> ```calc\n> x = 1 in\n"} {
		f.Add([]byte(s))
	}
	f.Fuzz(func(t *testing.T, src []byte) {
		n := &Notebook{Path: "t.md", Single: true, files: map[string]*File{}, overlay: map[string][]byte{"t.md": src}, Session: kernel.New(calc.Style{})}
		if _, err := n.refreshFiles(context.Background(), []string{"t.md"}); err != nil {
			t.Fatal(err)
		}
		for _, e := range n.Entries() {
			for i, l := range e.lines {
				s := e.spans[i]
				if s.Start < 0 || s.End > len(src) || s.Start > s.End {
					t.Fatalf("a line stands at %v of %d bytes", s, len(src))
				}
				if !l.Cell && string(src[s.Start:s.End]) != l.Text && !strings.Contains(l.Text, "\uFFFD") && !strings.Contains(string(src[s.Start:s.End]), "\x00") {
					t.Fatalf("%q stands where %q is said to", src[s.Start:s.End], l.Text)
				}
			}
			n.RenderEntry(e, Page{AsOf: kernel.Now, Live: true})
		}
		for _, d := range n.Problems(kernel.Now) {
			if d.Line < 1 || d.Column < 1 {
				t.Fatalf("a problem without a place: %+v", d)
			}
			_ = d.String()
		}
	})
}
