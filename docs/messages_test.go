package docs

import (
	"go/ast"
	"go/parser"
	"go/token"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/rogpeppe/go-internal/txtar"

	"scarph/kernel"
	"scarph/notebook"
)

// codeOf is a code with what its comment says.
type codeOf struct{ code, says string }

// messagesPage lists the codes of errors, each with a journal that provokes it.
func messagesPage(t *testing.T) string {
	p := head("Messages", `Every error has a place (file, line, column), a code, words that say what was got and what was wanted, and nearly always a hint at what to write
instead. Programs go by the code; the words may change. What only waits for another error is not reported as one.

`+"`scarph check`"+` also lists notes, which are no errors: `+"`old-number`"+`, a number typed in the text that a value no longer has; `+"`rounded-step`"+`, a rounded size that is
multiplied; `+"`two-days`"+`, a head and a file's name that give two days; `+"`far-year`"+`, a day many years after the entry before it; `+"`not-calc`"+`, a fence that nearly opens a calc
block; `+"`near-subject`"+`, a subject that is probably another one, written otherwise; `+"`two-versions`"+`, two versions of the same lines that nobody has chosen from yet.`)
	examples := provoked(t)
	for _, c := range codes(t) {
		p.line("")
		p.line("## " + c.code)
		p.line("")
		p.line(strings.ToUpper(c.says[:1]) + plain(c.says[1:]) + ".")
		if e := examples[c.code]; e != "" {
			p.line("")
			p.line("```")
			p.line(e)
			p.line("```")
		}
	}
	return p.String()
}

// codes reads the codes of calc with their comments.
func codes(t *testing.T) []codeOf {
	f, err := parser.ParseFile(token.NewFileSet(), "../calc/errors.go", nil, parser.ParseComments)
	if err != nil {
		t.Fatal(err)
	}
	var list []codeOf
	ast.Inspect(f, func(n ast.Node) bool {
		v, ok := n.(*ast.ValueSpec)
		if !ok || len(v.Values) != 1 || !strings.HasPrefix(v.Names[0].Name, "Code") {
			return true
		}
		lit, ok := v.Values[0].(*ast.BasicLit)
		if !ok || v.Comment == nil {
			t.Errorf("%s says nothing", v.Names[0].Name)
			return true
		}
		list = append(list, codeOf{strings.Trim(lit.Value, `"`), strings.TrimSpace(v.Comment.Text())})
		return true
	})
	if len(list) < 30 {
		t.Fatalf("only %d codes were found", len(list))
	}
	return list
}

// provoked opens the journals of the script that provokes every code, and returns of
// each the line that is wrong and what is said of it.
func provoked(t *testing.T) map[string]string {
	a, err := txtar.ParseFile("../testdata/script/codes.txtar")
	if err != nil {
		t.Fatal(err)
	}
	dir := t.TempDir()
	for _, f := range a.Files {
		path := filepath.Join(dir, filepath.FromSlash(f.Name))
		if err := os.MkdirAll(filepath.Dir(path), 0o755); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(path, f.Data, 0o644); err != nil {
			t.Fatal(err)
		}
	}
	folders, err := os.ReadDir(dir)
	if err != nil {
		t.Fatal(err)
	}
	examples := map[string]string{}
	for _, d := range folders {
		if !d.IsDir() {
			continue
		}
		n, err := notebook.Open(filepath.Join(dir, d.Name()))
		if err != nil {
			continue
		}
		for _, x := range n.Problems(kernel.Now) {
			if c := string(x.Code); strings.ReplaceAll(d.Name(), "_", "-") == c && examples[c] == "" {
				examples[c] = told(n, x)
			}
		}
	}
	return examples
}

// told is a problem as the terminal shows it, without its place. A line made long on
// purpose is cut.
func told(n *notebook.Notebook, x notebook.Diagnostic) string {
	var b strings.Builder
	if f, ok := n.File(x.File); ok {
		if lines := strings.Split(string(f.Src), "\n"); x.Line >= 1 && x.Line <= len(lines) {
			line := lines[x.Line-1]
			if len(line) > 100 {
				line = line[:100] + " …"
			}
			b.WriteString(line + "\n")
		}
	}
	b.WriteString("error[" + string(x.Code) + "]: " + x.Message)
	if x.Hint != "" {
		b.WriteString("\nhint: " + x.Hint)
	}
	return b.String()
}
