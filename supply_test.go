package scarph

import (
	"bytes"
	"crypto/sha256"
	"encoding/json"
	"fmt"
	"io/fs"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"sort"
	"strings"
	"testing"
)

// module is what the go command tells of a module.
type module struct {
	Path, Version, Dir string
	Main, Indirect     bool
	Replace            *module
}

func modules(t *testing.T) []module {
	t.Helper()
	out, err := exec.Command("go", "list", "-m", "-json", "all").Output()
	if err != nil {
		t.Fatal(err)
	}
	var list []module
	for d := json.NewDecoder(bytes.NewReader(out)); d.More(); {
		var m module
		if err := d.Decode(&m); err != nil {
			t.Fatal(err)
		}
		list = append(list, m)
	}
	return list
}

// required are the modules that go.mod names, by their paths.
func required(t *testing.T) (direct, all map[string]module) {
	t.Helper()
	text, err := os.ReadFile("go.mod")
	if err != nil {
		t.Fatal(err)
	}
	direct, all = map[string]module{}, map[string]module{}
	for _, m := range modules(t) {
		if m.Main || !bytes.Contains(text, []byte(m.Path+" "+m.Version)) {
			continue
		}
		all[m.Path] = m
		if !m.Indirect {
			direct[m.Path] = m
		}
	}
	return direct, all
}

// builtOn reads the table of the README: a module and its licences.
func builtOn(t *testing.T) map[string]string {
	t.Helper()
	text, err := os.ReadFile("README.md")
	if err != nil {
		t.Fatal(err)
	}
	_, part, ok := strings.Cut(string(text), "## What it is built on")
	if !ok {
		t.Fatal("the README does not say what the program is built on")
	}
	part, _, _ = strings.Cut(part, "\n## ")
	rows := map[string]string{}
	for _, m := range regexp.MustCompile("(?m)^\\| `([^`]+)` \\| [^|]+ \\| ([^|]+) \\|$").FindAllStringSubmatch(part, -1) {
		rows[m[1]] = m[2]
	}
	return rows
}

const mit = "Permission is hereby granted, free of charge, to any person obtaining a copy"

// licencesOf tells licences by the sentences that no two of them share.
func licencesOf(text string) string {
	text = strings.Join(strings.Fields(text), " ")
	var list []string
	text = strings.ReplaceAll(text, "https://opensource.org/license/mit", mit)
	for _, l := range []struct{ name, sentence string }{
		{"MIT", mit},
		{"Apache-2.0", "Apache License Version 2.0, January 2004"},
		{"BSD-3-Clause", "may be used to endorse or promote products derived from"},
	} {
		if strings.Contains(text, l.sentence) {
			list = append(list, l.name)
		}
	}
	return strings.Join(list, " and ")
}

// TestBuiltOn: the README names exactly the modules that the program and its tests
// import, each with the licence that lies in it. Those which come along bear one of the
// same licences, none is replaced by another, and each has its checksum.
func TestBuiltOn(t *testing.T) {
	direct, all := required(t)
	rows := builtOn(t)
	for path := range direct {
		if rows[path] == "" {
			t.Errorf("%s is not in the README's table", path)
		}
	}
	for path := range rows {
		if _, ok := direct[path]; !ok {
			t.Errorf("the README names %s, which nothing imports", path)
		}
	}
	sums, err := os.ReadFile("go.sum")
	if err != nil {
		t.Fatal(err)
	}
	for path, m := range all {
		if m.Replace != nil {
			t.Errorf("%s is replaced by %s", path, m.Replace.Path)
		}
		if !bytes.Contains(sums, []byte(path+" "+m.Version+"/go.mod h1:")) {
			t.Errorf("%s %s has no checksum", path, m.Version)
		}
		if m.Dir == "" {
			continue // no package of it is needed for a build
		}
		var text []byte
		for _, name := range []string{"LICENSE", "COPYING", "NOTICE"} {
			b, _ := os.ReadFile(filepath.Join(m.Dir, name))
			text = append(text, b...)
		}
		is := licencesOf(string(text))
		if is == "" {
			t.Errorf("%s: its licence is none of those that are known", path)
		}
		if want, ok := rows[path]; ok && !sameWords(want, is) {
			t.Errorf("%s: the README says %s, its own text is that of %s", path, want, is)
		}
	}
	if len(direct) < 5 || len(all) > 40 {
		t.Errorf("%d modules are named and %d in all: is that so?", len(direct), len(all))
	}
}

func sameWords(a, b string) bool {
	x, y := strings.Split(a, " and "), strings.Split(b, " and ")
	sort.Strings(x)
	sort.Strings(y)
	return strings.Join(x, ",") == strings.Join(y, ",")
}

// TestTestToolsArePinned: what the tests take from npm has one version, with checksums.
func TestTestToolsArePinned(t *testing.T) {
	var want struct {
		Dependencies, DevDependencies map[string]string
	}
	var lock struct {
		Packages map[string]struct{ Version, Integrity, Resolved, License string }
	}
	for file, into := range map[string]any{"package.json": &want, "package-lock.json": &lock} {
		text, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		if err := json.Unmarshal(text, into); err != nil {
			t.Fatal(err)
		}
	}
	if len(want.Dependencies) > 0 {
		t.Error("the program itself takes nothing from npm")
	}
	for name, version := range want.DevDependencies {
		if got := lock.Packages["node_modules/"+name].Version; got != version {
			t.Errorf("%s is asked for as %s and pinned to %q", name, version, got)
		}
	}
	for name, p := range lock.Packages {
		if name != "" && (!strings.HasPrefix(p.Integrity, "sha512-") || p.License == "") {
			t.Errorf("%s has no checksum or no licence", name)
		}
	}
}

// TestSameBuildTwice builds the program and the browser build in two folders, as make
// build does, and asks for the same bytes, in which neither folder is named. make reproduce
// sets SCARPH_REPRODUCE, which gives each build an empty cache: all is compiled twice.
func TestSameBuildTwice(t *testing.T) {
	sums := map[string][]string{}
	for _, folder := range []string{"here", "elsewhere/and/deeper"} {
		dir := filepath.Join(t.TempDir(), folder)
		copySource(t, dir)
		cmd := exec.Command("make", "-s", "build")
		cmd.Dir, cmd.Env = dir, append(os.Environ(), "GOFLAGS=-buildvcs=false")
		if os.Getenv("SCARPH_REPRODUCE") != "" {
			cmd.Env = append(cmd.Env, "GOCACHE="+t.TempDir())
		}
		if text, err := cmd.CombinedOutput(); err != nil {
			t.Fatalf("%v\n%s", err, text)
		}
		for _, name := range []string{"bin/scarph", "notebook/site/dist/page.wasm.gz"} {
			built, err := os.ReadFile(filepath.Join(dir, name))
			if err != nil {
				t.Fatal(err)
			}
			if bytes.Contains(built, []byte(dir)) {
				t.Errorf("%s tells where it was built", name)
			}
			sums[name] = append(sums[name], fmt.Sprintf("%x", sha256.Sum256(built)))
		}
	}
	for name, s := range sums {
		if s[0] != s[1] {
			t.Errorf("%s is %s in one folder, %s in the other", name, s[0], s[1])
		}
		t.Logf("%s: %s twice", name, s[0])
	}
}

// copySource copies what the programs are built from.
func copySource(t *testing.T, to string) {
	t.Helper()
	for _, top := range []string{"Makefile", "go.mod", "go.sum", "cmd", "notebook", "kernel", "calc"} {
		err := filepath.WalkDir(top, func(p string, d fs.DirEntry, err error) error {
			if err != nil {
				return err
			}
			if d.IsDir() {
				if d.Name() == "testdata" {
					return filepath.SkipDir
				}
				return os.MkdirAll(filepath.Join(to, p), 0o755)
			}
			if strings.HasSuffix(p, "_test.go") || !d.Type().IsRegular() {
				return nil
			}
			text, err := os.ReadFile(p)
			if err != nil {
				return err
			}
			if err := os.MkdirAll(filepath.Dir(filepath.Join(to, p)), 0o755); err != nil {
				return err
			}
			return os.WriteFile(filepath.Join(to, p), text, 0o644)
		})
		if err != nil {
			t.Fatal(err)
		}
	}
}
