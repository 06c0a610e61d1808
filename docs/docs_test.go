// Package docs holds the reference. Its pages are written by these tests from what they
// tell of:
//
//	go test ./docs -update
//
// and a page that is out of date fails. language.md alone is written by hand; it is a
// journal, and every block of it is run.
package docs

import (
	"flag"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
)

var update = flag.Bool("update", false, "write the pages anew")

// pages are the written pages and what writes them.
var pages = []struct {
	file  string
	write func(t *testing.T) string
}{
	{"functions.md", functionsPage},
	{"units.md", unitsPage},
	{"tables.md", tablesPage},
	{"settings.md", settingsPage},
	{"verbs.md", verbsPage},
	{"messages.md", messagesPage},
	{"shapes.md", shapesPage},
	{"kernel.md", kernelPage},
	{"sources.md", sourcesPage},
}

func TestPagesAreUpToDate(t *testing.T) {
	for _, p := range pages {
		t.Run(p.file, func(t *testing.T) {
			text := p.write(t)
			if t.Failed() {
				return
			}
			if *update {
				if err := os.WriteFile(p.file, []byte(text), 0o644); err != nil {
					t.Fatal(err)
				}
				return
			}
			have, err := os.ReadFile(p.file)
			if err != nil {
				t.Fatal(err)
			}
			if string(have) != text {
				t.Errorf("%s is out of date at line %d; write it anew with: go test ./docs -update", p.file, firstDifference(string(have), text))
			}
		})
	}
}

func firstDifference(a, b string) int {
	x, y := strings.Split(a, "\n"), strings.Split(b, "\n")
	for i := range x {
		if i >= len(y) || x[i] != y[i] {
			return i + 1
		}
	}
	return len(x) + 1
}

// page is the text of a page while it is written.
type page struct{ strings.Builder }

// head begins a page.
func head(title, about string) *page {
	p := &page{}
	p.line("# " + title)
	p.line("")
	p.line("<!-- Written by docs_test.go. Do not edit; run: go test ./docs -update -->")
	p.line("")
	p.line(about)
	return p
}

func (p *page) line(s string) { p.WriteString(s + "\n") }

// table begins a table with the given heads.
func (p *page) table(heads ...string) {
	p.line("")
	p.line("| " + strings.Join(heads, " | ") + " |")
	p.line("|" + strings.Repeat("---|", len(heads)))
}

// row writes cells that are Markdown already.
func (p *page) row(cells ...string) { p.line("| " + strings.Join(cells, " | ") + " |") }

var plainText = strings.NewReplacer(`\`, `\\`, "|", `\|`, "*", `\*`, "_", `\_`, "`", "\\`", "<", `\<`, "[", `\[`, "{", `\{`, "~", `\~`)

// plain writes a text that is no Markdown so that it reads as it is.
func plain(s string) string { return plainText.Replace(strings.ReplaceAll(s, "\n", "; ")) }

// code writes a text as code, in a table too.
func code(s string) string {
	s = strings.ReplaceAll(s, "|", `\|`)
	if strings.Contains(s, "`") {
		return "`` " + s + " ``"
	}
	return "`" + s + "`"
}

// anchor is the address of a heading on the page.
func anchor(title string) string {
	var b strings.Builder
	for _, r := range strings.ToLower(title) {
		switch {
		case r >= 'a' && r <= 'z' || r >= '0' && r <= '9' || r == '_' || r == '-':
			b.WriteRune(r)
		case r == ' ':
			b.WriteByte('-')
		}
	}
	return b.String()
}

var program string

// scarph runs the program in a folder and returns what it printed; it may exit with 1.
func scarph(t *testing.T, dir, stdin string, args ...string) string {
	t.Helper()
	if program == "" {
		tmp, err := os.MkdirTemp("", "scarph-docs-")
		if err != nil {
			t.Fatal(err)
		}
		program = filepath.Join(tmp, "scarph")
		if out, err := exec.Command("go", "build", "-buildvcs=false", "-o", program, "../cmd/scarph").CombinedOutput(); err != nil {
			t.Fatalf("the program was not built: %s", out)
		}
	}
	cmd := exec.Command(program, args...)
	cmd.Dir, cmd.Stdin = dir, strings.NewReader(stdin)
	cmd.Env = append(os.Environ(), "NO_COLOR=1", "COLUMNS=80")
	var errs strings.Builder
	cmd.Stderr = &errs
	out, err := cmd.Output()
	if x, ok := err.(*exec.ExitError); err != nil && (!ok || x.ExitCode() > 1) {
		t.Fatalf("scarph %s: %v\n%s", strings.Join(args, " "), err, errs.String())
	}
	return string(out)
}

func TestMain(m *testing.M) {
	flag.Parse()
	r := m.Run()
	if program != "" {
		os.RemoveAll(filepath.Dir(program))
	}
	os.Exit(r)
}
