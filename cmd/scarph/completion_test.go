package main

import (
	"bytes"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"testing"
)

// wren lays a small journal into a folder of its own.
func wren(t *testing.T) string {
	t.Helper()
	dir := t.TempDir()
	for name, text := range map[string]string{
		"journal.md":             "---\ntitle: Wren\n---\n```calc\ndrawn beam = 4' 1 1/2\"\nplanking = 7/16\"\nplank_width = 5 in\ninside = beam - 2 * planking\n```\n",
		"2027-05-02-measured.md": "```calc\nfound beam = 4' 1 3/4\" ± 1/16\"\n```\n",
	} {
		if err := os.WriteFile(filepath.Join(dir, name), []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	return dir
}

// typed are words of a command line and the proposals for the last of them, the first few
// of which are given; "journal" stands for the folder of the journal.
var typed = []struct {
	words string // parted by bars
	want  string // the proposals, or with … at the end the first of them
	shell bool   // asked of every shell too
}{
	{"", "new serve publish check …", true},
	{"hi", "history", true},
	{"zzz", "", false},
	{"zzz|", "", false},
	{"--v", "--version", false},
	{"history|--", "--help --version --as-of --json", false},
	{"history|--as", "--as-of", true},
	{"history|jour", ":files", true},
	{"history|journal|pl", "plank_width planking", true},
	{"history|--json|journal|be", "beam", false},
	{"history|journal|beam|", "", true},
	{"ripple|journal|plank", "plank_width= planking=", true},
	{"ripple|journal|planking=1 in|be", "beam=", false},
	{"check|journal|--as-of|2027", "2027-05-02", true},
	{"check|journal|--as-of=2027", "--as-of=2027-05-02", true},
	{"calc|-j|jour", ":files", false},
	{"calc|-j|journal|ins", "inside", false},
	{"calc|-j|journal|beam*ins", "beam*inside", false},
	{"calc|frame_spac", "frame_spacing", false},
	{"calc|--|-", "", false},
	{"functions|scarf_l", "scarf_length", false},
	{"patterns|--page|", "A4 A3 Letter roll", true},
	{"patterns|--unit=", "--unit=mm --unit=in", true},
	{"patterns|-o|", ":files", false},
	{"completion|", "bash zsh fish", true},
	{"history|nowhere|", "", false},
	{"propose|", "", false},
}

func TestPropose(t *testing.T) {
	dir := wren(t)
	for _, c := range typed {
		// once as it is typed, once as a shell hands it over that parts words at "="
		for _, words := range [][]string{strings.Split(c.words, "|"), parted(c.words)} {
			want := c.want
			if n := len(words); n > 1 && (words[n-1] == "=" || words[n-2] == "=") {
				want = strings.ReplaceAll(strings.ReplaceAll(want, "--as-of=", ""), "--unit=", "")
			}
			for i, w := range words {
				if w == "journal" {
					words[i] = dir
				}
			}
			var out, errs bytes.Buffer
			if status := run(append([]string{"propose", "--"}, words...), strings.NewReader(""), &out, &errs); status != 0 {
				t.Fatalf("%s: %s", c.words, &errs)
			}
			matches(t, strings.Join(words, " "), firstWords(out.String()), want)
		}
	}
}

// parted parts words at their equals signs, as bash does.
func parted(words string) []string {
	list := strings.ReplaceAll(words, "=", "|=|")
	if strings.HasSuffix(words, "=") {
		list = strings.TrimSuffix(list, "|")
	}
	return strings.Split(list, "|")
}

// firstWords are the words before the tabs.
func firstWords(out string) string {
	var list []string
	for _, line := range strings.Split(strings.TrimSpace(out), "\n") {
		word, _, _ := strings.Cut(line, "\t")
		list = append(list, word)
	}
	return strings.Join(list, " ")
}

func matches(t *testing.T, what, got, want string) {
	t.Helper()
	if begin, more := strings.CutSuffix(want, "…"); more && strings.HasPrefix(got, begin) {
		return
	}
	if got != want {
		t.Errorf("%s\n got %s\nwant %s", what, got, want)
	}
}

// shells load the file of each shell and ask as that shell would; ask is called for
// each line of words.
var shells = []struct {
	name, promise, script string
	args                  []string
}{
	{"bash", "SCARPH_NEEDS_BASH", `source <(scarph completion bash)
compopt() { [[ $2 == default ]] && COMPREPLY=(:files); true; }
ask() { COMP_WORDS=(scarph "$@"); COMP_CWORD=$#; _scarph; printf '%s\n' "${COMPREPLY[@]}" ==; }
`, []string{"--norc", "--noprofile"}},
	{"zsh", "SCARPH_NEEDS_ZSH", `compdef() { }
_describe() { print -rl -- "${(@)told/:/	}" }
compadd() { print -rl -- $unended }
_files() { print :files }
source <(scarph completion zsh)
ask() { words=(scarph "${(@q)@}"); CURRENT=$#words; _scarph; print -- '==' }
`, []string{"-f"}},
	{"fish", "SCARPH_NEEDS_FISH", `source (scarph completion fish | psub)
function __fish_complete_path; echo $argv:files; end
function ask; complete -C "scarph $argv"; echo ==; end
`, []string{"--no-config"}},
}

// TestShells loads the file of every shell that is here and lets it complete verbs,
// flags, names and files.
func TestShells(t *testing.T) {
	dir := wren(t)
	for _, sh := range shells {
		t.Run(sh.name, func(t *testing.T) {
			need(t, sh.name, sh.promise)
			script := sh.script
			var wants [][2]string
			for _, c := range typed {
				if !c.shell {
					continue
				}
				words, want := strings.Split(c.words, "|"), c.want
				if sh.name == "bash" {
					if words = parted(c.words); strings.Contains(c.words, "=") {
						want = strings.ReplaceAll(strings.ReplaceAll(want, "--as-of=", ""), "--unit=", "")
					}
				}
				script += "ask"
				for _, w := range words {
					script += " '" + strings.ReplaceAll(w, "journal", dir) + "'"
				}
				script += "\n"
				wants = append(wants, [2]string{c.words, want})
			}
			cmd := exec.Command(sh.name, append(sh.args, "-c", script)...)
			cmd.Env = append(os.Environ(), "HOME="+t.TempDir(), "LC_ALL=C.UTF-8")
			out, err := cmd.CombinedOutput()
			if err != nil {
				t.Fatalf("%v %s", err, out)
			}
			answers := strings.Split(string(out), "==\n")
			for i, c := range wants {
				got := firstWords(answers[i])
				if strings.HasSuffix(got, ":files") {
					got = ":files" // fish shows only what begins as the word at the cursor
				}
				if sh.name == "fish" && sortedWords(got) == sortedWords(c[1]) {
					continue // fish has its own order
				}
				if sh.name == "fish" && strings.HasSuffix(c[1], "…") && strings.Contains(got, "publish") {
					continue
				}
				matches(t, c[0], got, c[1])
			}
		})
	}
}

func sortedWords(s string) string {
	list := strings.Fields(s)
	slices.Sort(list)
	return strings.Join(list, " ")
}

// need skips the test where a program is not installed, and fails where the
// surroundings promise it.
func need(t *testing.T, name, promise string) {
	t.Helper()
	if _, err := exec.LookPath(name); err != nil {
		if os.Getenv(promise) != "" {
			t.Fatalf("%s is set, but there is no %s", promise, name)
		}
		t.Skipf("there is no %s here", name)
	}
}

// manual prints the manual page.
func manual(t *testing.T) string {
	t.Helper()
	var out bytes.Buffer
	if status := run([]string{"man"}, strings.NewReader(""), &out, io.Discard); status != 0 {
		t.Fatal("no manual page")
	}
	return out.String()
}

// TestManIsWhole looks for every verb, flag and argument of the table of commands.
func TestManIsWhole(t *testing.T) {
	page := manual(t)
	var out bytes.Buffer
	run([]string{"propose", "--", ""}, strings.NewReader(""), &out, io.Discard)
	verbs := strings.Fields(firstWords(out.String()))
	if len(verbs) < 15 {
		t.Fatalf("verbs: %v", verbs)
	}
	for _, v := range verbs {
		_, part, ok := strings.Cut(page, "\n.SS "+v+"\n")
		if !ok {
			t.Errorf("nothing of %s", v)
		}
		part, _, _ = strings.Cut(part, "\n.SS ")
		out.Reset()
		run([]string{"propose", "--", v, "--"}, strings.NewReader(""), &out, io.Discard)
		for _, f := range strings.Fields(firstWords(out.String())) {
			if f != "--help" && f != "--version" && !strings.Contains(part, roffText(f)) {
				t.Errorf("nothing of the flag %s of %s", f, v)
			}
		}
	}
	for i, line := range strings.Split(strings.TrimSuffix(page, "\n"), "\n") {
		request, _, _ := strings.Cut(line, " ")
		if strings.HasPrefix(line, ".") && !slices.Contains([]string{".TH", ".SH", ".SS", ".PP", ".TP", ".B", ".I"}, request) {
			t.Errorf("line %d: %s", i+1, line)
		}
		for _, r := range line {
			if r > '~' || r < ' ' {
				t.Errorf("line %d has %q", i+1, r)
			}
		}
	}
	if strings.Contains(page, "propose") {
		t.Error("a hidden verb is told of")
	}
}

// TestManIsSet sets the page with the formatter, where there is one: without a warning.
func TestManIsSet(t *testing.T) {
	need(t, "groff", "SCARPH_NEEDS_GROFF")
	cmd := exec.Command("groff", "-man", "-ww", "-Tascii", "-P-cbou")
	cmd.Stdin = strings.NewReader(manual(t))
	var out, errs bytes.Buffer
	cmd.Stdout, cmd.Stderr = &out, &errs
	if err := cmd.Run(); err != nil || errs.Len() > 0 {
		t.Fatalf("%v\n%s", err, &errs)
	}
	text := strings.Join(strings.Fields(out.String()), " ")
	for _, want := range []string{"scarph - a boatbuilder's journal", "scarph ripple <dir> <change> ... [flags]", "--as-of=DATE Take", "-j, --journal=DIR", "EXIT STATUS"} {
		if !strings.Contains(text, want) {
			t.Errorf("no %q in\n%s", want, out.String())
		}
	}
}
