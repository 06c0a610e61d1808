package notebook

import (
	"context"
	"errors"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"scarph/calc"
	"scarph/kernel"
)

// journalIn writes files into a folder and opens them as a journal.
func journalIn(t *testing.T, files map[string]string) *Notebook {
	t.Helper()
	dir := t.TempDir()
	for name, text := range files {
		p := filepath.Join(dir, name)
		if err := os.MkdirAll(filepath.Dir(p), 0o755); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(p, []byte(text), 0o640); err != nil {
			t.Fatal(err)
		}
	}
	n, err := Open(dir)
	if err != nil {
		t.Fatal(err)
	}
	return n
}

func read(t *testing.T, n *Notebook, name string) string {
	t.Helper()
	b, err := os.ReadFile(filepath.Join(n.Root(), name))
	if err != nil {
		t.Fatal(err)
	}
	return string(b)
}

const small = "---\r\ntitle: T\r\n---\r\n# T {beam}\r\n\r\n```calc\r\ndrawn beam = 4' 1 1/2\"   # from the plan\r\ninside = beam - 1\"\r\n```\r\n\r\n| offsets: | a | b |\r\n|--|--|--|\r\n| half | 1-10-5 | |\r\n\xff\x00 end"

func TestCorrectionChangesExactlyTheseBytes(t *testing.T) {
	n := journalIn(t, map[string]string{TitlePage: small})
	h, _ := n.Session.History("beam", kernel.Now)
	e, err := n.Correction(h.Readings[0].Ref, `4' 2"`)
	if err != nil {
		t.Fatal(err)
	}
	c, aerr := n.Apply(context.Background(), "correct beam", e)
	if aerr != nil {
		t.Fatal(aerr)
	}
	if want := strings.Replace(small, `4' 1 1/2"`, `4' 2"`, 1); read(t, n, TitlePage) != want {
		t.Errorf("the file is %q, want %q", read(t, n, TitlePage), want)
	}
	if len(c.Ripple.Moved) != 2 {
		t.Errorf("moved: %+v", c.Ripple.Moved)
	}
	h, _ = n.Session.History("offsets.half.a", kernel.Now)
	if e, err = n.Correction(h.Readings[0].Ref, "1-11-5"); err != nil {
		t.Fatal(err)
	}
	if _, aerr = n.Apply(context.Background(), "cell", e); aerr != nil {
		t.Fatal(aerr)
	}
	if want := strings.Replace(strings.Replace(small, `4' 1 1/2"`, `4' 2"`, 1), "1-10-5", "1-11-5", 1); read(t, n, TitlePage) != want {
		t.Errorf("the file is %q", read(t, n, TitlePage))
	}
	for i := 0; i < 2; i++ {
		if _, err := n.Undo(context.Background()); err != nil {
			t.Fatal(err)
		}
	}
	if read(t, n, TitlePage) != small {
		t.Errorf("after undoing all, the file is %q", read(t, n, TitlePage))
	}
	info, _ := os.Stat(filepath.Join(n.Root(), TitlePage))
	if info.Mode().Perm() != 0o640 {
		t.Errorf("the file's mode is %v", info.Mode())
	}
	if _, err := os.Stat(filepath.Join(n.Root(), RecoveryFolder)); !errors.Is(err, os.ErrNotExist) {
		t.Errorf("the recovery folder was left: %v", err)
	}
}

func TestRefusedCorrections(t *testing.T) {
	n := journalIn(t, map[string]string{TitlePage: small})
	h, _ := n.Session.History("beam", kernel.Now)
	for _, bad := range []string{"", "4' 2\" # note", "3 furlong", "4'\nx = 3", "1-10-5"} {
		if e, err := n.Correction(h.Readings[0].Ref, bad); err == nil {
			t.Errorf("%q is taken as a correction: %+v", bad, e)
		}
	}
}

func TestConflictWritesNothing(t *testing.T) {
	n := journalIn(t, map[string]string{TitlePage: small})
	h, _ := n.Session.History("beam", kernel.Now)
	e, _ := n.Correction(h.Readings[0].Ref, `4' 2"`)
	other := small + " more"
	if err := os.WriteFile(filepath.Join(n.Root(), TitlePage), []byte(other), 0o640); err != nil {
		t.Fatal(err)
	}
	_, err := n.Apply(context.Background(), "x", e)
	var c *ConflictError
	if !errors.As(err, &c) || string(c.Current) != other {
		t.Errorf("want a conflict, got %v", err)
	}
	if read(t, n, TitlePage) != other {
		t.Error("the other's save was overwritten")
	}
}

func TestNewReadingGoesIntoTodaysEntry(t *testing.T) {
	n := journalIn(t, map[string]string{TitlePage: small})
	apply := func(e Edit, err *calc.Error) {
		t.Helper()
		if err != nil {
			t.Fatal(err)
		}
		if _, err := n.Apply(context.Background(), "x", e); err != nil {
			t.Fatal(err)
		}
	}
	apply(n.NewReading("2027-05-02", "found", "beam", `4' 1 3/4" ± 1/16"`, "three readings"))
	apply(n.NewReading("2027-05-02", "revise", "offsets.half.a", "1-11-5", ""))
	want := "---\ntitle: \"2 May 2027\"\ndate: 2027-05-02\n---\n```calc\nfound beam = 4' 1 3/4\" ± 1/16\"   # three readings\nrevise offsets.half.a = 1-11-5\n```\n"
	if got := read(t, n, "2027-05-02.md"); got != want {
		t.Errorf("today's entry is %q, want %q", got, want)
	}
	h, _ := n.Session.History("beam", kernel.Now)
	if len(h.Readings) != 2 || !h.Readings[1].Counts {
		t.Errorf("beam: %+v", h)
	}
	if p := n.Problems(kernel.Now); len(p) != 0 {
		t.Errorf("problems: %v", p)
	}
	for range 2 {
		if _, err := n.Undo(context.Background()); err != nil {
			t.Fatal(err)
		}
	}
	if len(n.Entries()) != 1 {
		t.Errorf("after undo there are %d entries", len(n.Entries()))
	}
}

func TestNewReadingInOneFile(t *testing.T) {
	dir := t.TempDir()
	p := filepath.Join(dir, "wren.md")
	text := "# Wren\n\n```calc\nbeam = 4'\n```\n\n## 2027-05-01 A day\n\nText {beam}"
	os.WriteFile(p, []byte(text), 0o644)
	n, err := Open(p)
	if err != nil {
		t.Fatal(err)
	}
	e, cerr := n.NewReading("2027-05-02", "found", "beam", `4' 1"`, "")
	if cerr != nil {
		t.Fatal(cerr)
	}
	if _, err := n.Apply(context.Background(), "x", e); err != nil {
		t.Fatal(err)
	}
	if got, want := read(t, n, "wren.md"), text+"\n\n## 2027-05-02\n\n```calc\nfound beam = 4' 1\"\n```\n"; got != want {
		t.Errorf("the file is %q, want %q", got, want)
	}
	e, _ = n.NewReading("2027-05-01", "found", "beam", `4' 2"`, "")
	if _, err := n.Apply(context.Background(), "x", e); err != nil {
		t.Fatal(err)
	}
	if got, want := read(t, n, "wren.md"), "## 2027-05-01 A day\n\nText {beam}\n\n```calc\nfound beam = 4' 2\"\n```\n\n## 2027-05-02"; !strings.Contains(got, want) {
		t.Errorf("the file is %q", got)
	}
}

func TestHardLinksAndSymlinks(t *testing.T) {
	n := journalIn(t, map[string]string{TitlePage: small, "a.md": "# A\n\n```calc\nx = 3 in\n```\n"})
	outside := filepath.Join(t.TempDir(), "hard.md")
	if err := os.Link(filepath.Join(n.Root(), "a.md"), outside); err != nil {
		t.Skip("this file system has no hard links")
	}
	h, _ := n.Session.History("x", kernel.Now)
	e, _ := n.Correction(h.Readings[0].Ref, "4 in")
	if _, err := n.Apply(context.Background(), "x", e); err != nil {
		t.Fatal(err)
	}
	if b, _ := os.ReadFile(outside); !strings.Contains(string(b), "x = 4 in") {
		t.Error("the hard link was parted")
	}
	secret := filepath.Join(t.TempDir(), "secret.md")
	os.WriteFile(secret, []byte("# S\n\n```calc\ns = 3 in\n```\n"), 0o600)
	if err := os.Symlink(secret, filepath.Join(n.Root(), "out.md")); err != nil {
		t.Fatal(err)
	}
	if _, err := n.Refresh(context.Background()); err != nil {
		t.Fatal(err)
	}
	if _, ok := n.Session.Value("s", kernel.Now); ok {
		t.Error("a link out of the journal was followed")
	}
}
