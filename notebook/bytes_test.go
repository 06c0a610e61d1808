package notebook

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"math/rand"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"scarph/calc/lang"
	"scarph/kernel"
)

// pieces are what a random document is made of: whatever may stand in a file, whole
// or broken, with readings among it.
var pieces = []string{
	"\n", "\r\n", "\n\n", " ", "\t", "x", "Text {%s} and more.", "# Heading {%s + 1 in}\n\n", "> quote\n", "- item\n  ", "\x00", "\xff\xfe", "\xc3", "\r", "*", "**", "`", "```\n", "~~~\r\n", "<div>", "<!-- ", " -->",
	"```calc\n%s = 4' 1 1/2\"   # from the plan\n```\n", "```calc\r\n  drawn %s = 12 mm ± 1 mm\r\n```\r\n", "~~~calc\n%s = 3\t\n~~~\n", "\n\n```calc\n%s=2 ft 3 in#x\n```", "> ```calc\n> %s = 5 in\n> ```\n",
	"- a\n\n  ```calc\n  %s = 6 in\n  ```\n", "\n\n| %s: | a | b (mm) |\n|--|--|--|\n| one | 1-10-5 | 12 |\n| two | {1 in} | |\n\n", "\n| drawn %s: | a |\r\n|:--|--:|\r\n| ü | 3\u00a0in |\r\n\r\n",
	"![alt {%s}](a.jpg)\n", "[^1]: note\n", "é ½ ⅜ ″ 日本語 🙂 ", "\u2028", "\ufeff", "---\n", "{{", "\\{", "{", "}", "|", "## 2027-05-02 a day\n\n",
}

func randomDocument(rnd *rand.Rand) []byte {
	var b strings.Builder
	if rnd.Intn(4) == 0 {
		b.WriteString("\ufeff")
	}
	if rnd.Intn(3) == 0 {
		b.WriteString([]string{"---\ntitle: T\n---\n", "---\r\ntitle: \"T\"\r\nboat: B\r\n---\r\n", "---\ntitle: [\n---\n"}[rnd.Intn(3)])
	}
	for i := 0; i < 3+rnd.Intn(20); i++ {
		p := pieces[rnd.Intn(len(pieces))]
		b.WriteString(strings.ReplaceAll(p, "%s", fmt.Sprintf("v%d", rnd.Intn(30))))
	}
	return []byte(b.String())
}

// TestAllOtherBytesStay revises readings of random documents and asks that nothing but
// the number's own bytes has changed, that the reading now has that number, and that
// taking it back gives the file it was.
func TestAllOtherBytesStay(t *testing.T) {
	documents := 100
	if os.Getenv("SCARPH_LONG") != "" {
		documents = 20_000
	}
	dir := t.TempDir()
	modes := []os.FileMode{0o600, 0o644, 0o660, 0o400 | 0o200}
	revised, added := 0, 0
	for seed := range documents {
		rnd := rand.New(rand.NewSource(int64(seed)))
		src := randomDocument(rnd)
		p := filepath.Join(dir, "x.md")
		os.RemoveAll(p)
		mode := modes[rnd.Intn(len(modes))]
		if err := os.WriteFile(p, src, mode); err != nil {
			t.Fatal(err)
		}
		os.Chmod(p, mode)
		n := mustOpenAt(t, p)
		if f, _ := n.File("x.md"); !bytes.Equal(f.Src, src) {
			t.Fatalf("seed %d: the file is not read as it is", seed)
		}
		for _, e := range n.Entries() {
			for i := range e.lines {
				if rnd.Intn(8) == 0 {
					continue
				}
				if reviseLine(t, n, e.Key, i, src, rnd) {
					revised++
				}
				if t.Failed() {
					t.Fatalf("seed %d: %q", seed, src)
				}
			}
		}
		if addReading(t, n, src, rnd) {
			added++
		}
		if info, err := os.Stat(p); err != nil || info.Mode() != mode {
			t.Errorf("seed %d: the mode is %v, was %v", seed, info.Mode(), mode)
		}
		if t.Failed() {
			t.Fatalf("seed %d: %q", seed, src)
		}
	}
	t.Logf("%d documents, %d readings corrected, %d added: all other bytes stayed, and came back when taken back", documents, revised, added)
	if revised < documents/4 || added < documents/4 {
		t.Error("too few readings were met")
	}
}

func mustOpenAt(t *testing.T, p string) *Notebook {
	t.Helper()
	n, err := Open(p)
	if err != nil {
		t.Fatal(err)
	}
	return n
}

// reviseLine corrects one line of the document, if it is a reading, and takes it back.
func reviseLine(t *testing.T, n *Notebook, key string, i int, src []byte, rnd *rand.Rand) bool {
	t.Helper()
	e, _ := n.Entry(key)
	value := []string{`4' 2"`, "1 in", "7 mm", `2' 6 3/8" ± 1/16"`, "12"}[rnd.Intn(5)]
	if e.lines[i].Cell && rnd.Intn(2) == 0 {
		value = "2-3-5+"
	}
	edit, cerr := n.Correction(kernel.LineRef{Entry: key, Index: i}, value)
	if cerr != nil {
		return false
	}
	was := e.lines[i].Stmt // nil for a cell that could not be read
	c, err := n.Apply(context.Background(), "x", edit)
	if err != nil {
		t.Errorf("line %q: %v", e.lines[i].Text, err)
		return false
	}
	f, _ := n.File("x.md")
	now, _ := os.ReadFile(filepath.Join(n.Root(), "x.md"))
	want := string(src[:edit.Span.Start]) + value + string(src[edit.Span.End:])
	if string(now) != want || !bytes.Equal(f.Src, now) {
		t.Errorf("line %q: the file is\n%q, want\n%q", e.lines[i].Text, now, want)
	}
	is, ok := n.Entry(key)
	if !ok || i >= len(is.lines) {
		t.Errorf("line %d is gone", i)
	} else if st := is.lines[i].Stmt; st == nil || was != nil && (st.Name != was.Name || st.Kind != was.Kind) || st.Expr == nil || !sameLiteral(st.Expr.Text, value) {
		t.Errorf("line %d reads %q after %q was put in; ripple %+v", i, is.lines[i].Text, value, c.Ripple)
	}
	if _, err := n.Undo(context.Background()); err != nil {
		t.Error(err)
	}
	if now, _ := os.ReadFile(filepath.Join(n.Root(), "x.md")); !bytes.Equal(now, src) {
		t.Errorf("taken back, the file is\n%q, was\n%q", now, src)
	}
	return true
}

func sameLiteral(a, b string) bool { return strings.TrimSpace(a) == strings.TrimSpace(b) }

// addReading writes a new reading into an entry and asks that all that was there is
// still there, in its order, and nothing else has come but one piece.
func addReading(t *testing.T, n *Notebook, src []byte, rnd *rand.Rand) bool {
	t.Helper()
	day := []string{"2027-05-02", "2027-05-03"}[rnd.Intn(2)]
	edit, cerr := n.NewReading(day, "found", "newly", "3 in", "a note")
	if cerr != nil {
		t.Errorf("new reading: %v", cerr)
		return false
	}
	if _, err := n.Apply(context.Background(), "x", edit); err != nil {
		t.Errorf("new reading: %v", err)
		return false
	}
	now, _ := os.ReadFile(filepath.Join(n.Root(), "x.md"))
	extra := len(now) - len(src)
	at := edit.Span.Start
	if edit.Span.Start != edit.Span.End || extra <= 0 || !bytes.Equal(now[:at], src[:at]) || !bytes.Equal(now[at+extra:], src[at:]) {
		t.Errorf("the file is\n%q, was\n%q", now, src)
	}
	if _, err := lang.Parse("found newly = 3 in   # a note"); err != nil {
		t.Error(err)
	}
	if _, err := n.Undo(context.Background()); err != nil {
		t.Error(err)
	}
	if now, _ := os.ReadFile(filepath.Join(n.Root(), "x.md")); !bytes.Equal(now, src) {
		t.Errorf("taken back, the file is\n%q, was\n%q", now, src)
	}
	return true
}

// TestOldEditIsRefused: an edit thought out on a text that has changed since is refused.
func TestOldEditIsRefused(t *testing.T) {
	n := journalIn(t, map[string]string{TitlePage: small})
	e, _ := n.NewReading("2027-05-02", "found", "beam", "4'", "")
	if _, err := n.Apply(context.Background(), "x", e); err != nil {
		t.Fatal(err)
	}
	var c *ConflictError
	if _, err := n.Apply(context.Background(), "x", e); !errors.As(err, &c) {
		t.Errorf("the same entry made twice: %v", err)
	}
}
