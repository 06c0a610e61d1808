package site_test

import (
	"fmt"
	"maps"
	"path/filepath"
	"strings"
	"testing"

	"scarph/kernel"
	"scarph/notebook"
	"scarph/notebook/site"
)

// published publishes a journal although there are problems and returns all that was
// written, unpacked, with the report.
func published(t *testing.T, journal string) (map[string]string, site.Report) {
	t.Helper()
	n, err := notebook.Open(journal)
	if err != nil {
		t.Fatal(err)
	}
	out := filepath.Join(t.TempDir(), "site")
	r, err := site.Publish(n, out, site.Options{AsOf: kernel.Now, Anyway: true})
	if err != nil {
		t.Fatal(err)
	}
	return unpackedText(t, readSite(t, out)), r
}

// unpackedText is the text in files and in all that is packed in them, but for the program
// itself.
func unpackedText(t *testing.T, files map[string][]byte) map[string]string {
	t.Helper()
	all := map[string]string{}
	for name, data := range files {
		if strings.HasPrefix(name, "assets/engine") {
			continue // the program itself
		}
		for part, data := range unpacked(t, name, data) {
			if isText(data) && !(part != name && len(data) > 1<<20) {
				all[part] = withoutPacked(string(data))
			}
		}
	}
	return all
}

// tellsNone asks that nothing of what was written holds one of the secrets.
func tellsNone(t *testing.T, files map[string]string, secrets ...string) {
	t.Helper()
	for name, text := range files {
		low := strings.ToLower(text)
		for _, s := range secrets {
			if i := strings.Index(low, strings.ToLower(s)); i >= 0 {
				t.Errorf("%s tells %q: …%s…", name, s, text[max(0, i-60):min(len(text), i+60)])
			}
		}
	}
}

// problem finds the problem on a line of a file.
func problem(list []notebook.Diagnostic, file string, line int) string {
	for _, d := range list {
		if d.File == file && d.Line == line {
			return d.Message
		}
	}
	return ""
}

// TestHeadsThatCannotBeUnderstoodStayHome: what was to keep something back and is written
// wrongly keeps it back all the same, also when the site is written with its problems.
func TestHeadsThatCannotBeUnderstoodStayHome(t *testing.T) {
	files := map[string]string{"journal.md": "---\ntitle: Open\ncanonical: https://boats.example.org/open/\n---\n# Open\n\n~~~calc\nbeam = 4 m\n~~~\n"}
	blocks := []string{"calc Private", "calc PRIVATE", "calc privat", "calc (private)", "calc private=true", "Calc private", "calc, private", "calc private once", "{calc private}", "private calc", "calc-private", "clac private"}
	for i, head := range blocks {
		files[fmt.Sprintf("2027-02-%02d-block.md", i+1)] = "# Block\n\nText.\n\n~~~" + head + "\nzqblock = 3.14159 m # zqnote\n# zqaside\n~~~\n\n{beam}\n"
	}
	heads := []string{
		"---\nDraft: true\n---\n", "---\nPRIVATE: true\n---\n", "---\nprivat: true\n---\n", "---\nprivate: yes please\n---\n", "---\nprivate:\n---\n", "---\ndraft: 'on holiday'\n---\n",
		"---\ntitle: DRAFT: RUDDER\ndraft: true\n---\n", "---\n- private\n---\n", "---\nprivate: false\nPrivate: true\n---\n", "---\ndraught: true\n---\n",
		"\n---\nprivate: true\n---\n", "A word first.\n\n---\ntitle: Late\nprivate: true\n---\n", "—\nprivate: true\n—\n", "---\nprivate: true\n", "private: yes\n\n", "+++\ndraft = true\n+++\n", "---\nprivate : true\n---\n", "``calc private\nzqshort = 1 m\n``\n\n",
	}
	for i, head := range heads {
		files[fmt.Sprintf("2027-03-%02d-head.md", i+1)] = head + "# zqhead\n\nzqtext {zqlong}\n\n~~~calc\nzqlong = 2.8882 m\n~~~\n"
	}
	all, r := published(t, journalOf(t, files))
	tellsNone(t, all, "zq", "3.14159", "3.1416", "10' 3", "2.8882", "2888")
	for i, head := range blocks {
		name := fmt.Sprintf("2027-02-%02d-block.md", i+1)
		if head != "Calc private" && !strings.Contains(problem(r.Problems, name, 5), "private") {
			t.Errorf("%s: %v", head, r.Problems)
		}
	}
	for i := range heads {
		name, found := fmt.Sprintf("2027-03-%02d-head.md", i+1), false
		for _, d := range r.Problems {
			found = found || d.File == name
		}
		if understood := i == 0 || i == 1; found == understood && heads[i] != "---\nprivate : true\n---\n" {
			t.Errorf("%q: a problem is told: %v", heads[i], found)
		}
	}
	if !strings.Contains(all["2027-02-01-block.html"], "4 m") && !strings.Contains(all["2027-02-01-block.html"], "13&#39;") {
		t.Error("the rest of the entry is gone")
	}
}

// roads are lines that would say a private value, each by another way. The private lines
// are secret, 4417 mm ± 3.5 mm since the second entry and 4381 mm before; word; tall, a
// list; shut, yes; and debt, an amount.
var roads = []string{
	"a1 = secret", "a2 = (secret)", "a3 = [secret, 1 mm]", "a4 = max(secret, 1 mm)", "a5 = secret * 1", "a6 = -secret", "a7 = secret / 1 mm", "a8 = secret / 1 m", "a9 = secret to 1/16\"",
	"b1 = at(a3, 1)", "b2 = sum([secret])", "b3 = twice / 2", "b4 = [1 mm, [2 mm, secret]]", "b5 = secret + 0 mm", "b6 = secret + secret - secret", "b7 = then(secret)", "b8 = secret as of 2027-01-02", "b9 = secret as of entry 1",
	"c1 = why(secret)", "c2 = tall", "c3 = at(tall, 2)", "c4 = tall * 1", "c5 = word", "c6 = not shut", "c7 = offset_text(secret)", "c8 = tick_strip([0 mm, secret])", "c9 = debt / 1 EUR",
	"d1 = debt * 1", "d2 = found(secret)", "d3 = (secret as of 2027-01-02) * 1", "check secret > 2 m", "part rib: 2 of 10 mm by 20 mm by secret in ash", "part rab: 2 of 10 mm by 20 mm by secret * 1 in ash",
	"work secret / 1 m * 1 h on it", "built d4 = max(secret, 1 mm)", "revise beam = secret + 0 m", "drawn d5 = secret",
}

const kept = `~~~calc private
found secret = 4417 mm ± 3.5 mm # zqnote
word = "zqyard"
tall = [4417 mm, 1234.5 mm]
shut = secret > 2 m
debt = 1777.77 EUR
~~~
`

// secretForms are the private values as they could be shown.
var secretForms = []string{"4417", "4.417", "14' 5 7/8", "14' 5&#34;", "14.49", "173.9", "4381", "4.381", "14' 4 1", "14' 4&#34;", "172.4", "1234.5", "1.2345", "4' 0 5/8", "48.6", "1777", "zqyard", "zqnote", "3.5 mm", "14-5-"}

// TestRoadsOfPrivateValues: no line, slot, cell, title, caption, description or check says
// a private value, and each that would is an error.
func TestRoadsOfPrivateValues(t *testing.T) {
	var lines, slots, cells strings.Builder
	for _, road := range roads {
		lines.WriteString(road + "\n")
		if _, expr, ok := strings.Cut(road, " = "); ok && !strings.Contains(expr, "|") {
			fmt.Fprintf(&slots, "Say {%s} here.\n\n", expr)
			if !strings.Contains(expr, "strip") {
				fmt.Fprintf(&cells, "| c %s | {%s} | {secret * 3} |\n", strings.Fields(road)[0], expr)
			}
		}
	}
	files := map[string]string{
		"journal.md":      "---\ntitle: Open\ndescription: Read\ncanonical: https://boats.example.org/open/\n---\n# Open\n\n~~~calc private\ndrawn secret = 4381 mm\n~~~\n\n~~~calc\nbeam = 4 m\n~~~\n",
		"2027-01-02-a.md": "---\nsummary: Kept\n---\n# A\n\n" + kept,
		"2027-01-03-b.md": "# B, {secret as of 2027-01-02} long\n\nHe is {secret as of 2027-01-02} tall.\n\n~~~calc\ntwice = secret * 2 # told\nhair = 4 m - secret\n" + lines.String() + "secret - 23 mm\ncheck secret - 23 mm > 2 m\ncheck secret * 1 > 2 m\nfound hull = 5 m\nrevise hull = 6 m\n~~~\n\n" +
			"| t: | x | y |\n|---|---|---|\n" + cells.String() + "\n" + slots.String() +
			"![A picture of {max(secret, 1 mm)}](a.svg \"cap {then(secret)}\") and [a link {secret * 1}](journal.md).[^1]\n\n[^1]: Note {secret as of entry 2}\n\n## Under {secret / 1 mm}\n\n> {at(a3, 1)}\n\n{twice} and {hair}\n",
		"2027-01-04-c.md": "---\nprivate: true\nsubjects: [zqsubject]\n---\n# zqtitle {secret}\n\n~~~calc\nrevise secret = 4417 mm\nmade zqrib: 2\npart zqrib: 2 of 1 in by 1 in by secret in ash\nwork 3 h on zqwork\n~~~\n\n![zqalt](zqphoto.svg)\n",
		"a.svg":           `<svg xmlns="http://www.w3.org/2000/svg" width="2" height="1"></svg>`,
		"zqphoto.svg":     `<svg xmlns="http://www.w3.org/2000/svg" width="3" height="1"><title>zqphoto</title></svg>`,
	}
	journal := journalOf(t, files)
	all, r := published(t, journal)
	n, err := notebook.Open(journal)
	if err != nil {
		t.Fatal(err)
	}
	one := filepath.Join(t.TempDir(), "one.html")
	if _, err := site.PublishOne(n, one, "", site.Options{AsOf: kernel.Now, Anyway: true}); err != nil {
		t.Fatal(err)
	}
	maps.Copy(all, unpackedText(t, readSite(t, filepath.Dir(one))))
	tellsNone(t, all, append(secretForms, "zq", "23 mm")...)
	for _, want := range []string{"cargo.js", "feed.xml", "search-index.js", "values.csv", "values.json", "history.html", "checks.html", "cutlist.html", "one.html", "tables/t.csv"} {
		found := false
		for name := range all {
			found = found || strings.HasSuffix(name, want)
		}
		if _, _, engine := site.Engine(); !found && (engine || want != "cargo.js") {
			t.Errorf("%s was not looked at", want)
		}
	}
	source := strings.Split(files["2027-01-03-b.md"], "\n")
	for i, line := range source {
		for _, road := range roads {
			if line == road && problem(r.Problems, "2027-01-03-b.md", i+1) == "" {
				t.Errorf("%s is not told as a problem", road)
			}
		}
		if strings.HasPrefix(line, "Say {") && !strings.HasPrefix(line, "Say {[") && problem(r.Problems, "2027-01-03-b.md", i+1) == "" {
			t.Errorf("%s is not told as a problem", line)
		}
	}
	for _, result := range []string{"8834 mm", "−417 mm", "not told"} { // what hangs on it keeps its result
		if !strings.Contains(all["2027-01-03-b.html"], result) {
			t.Errorf("%q is not told", result)
		}
	}
}

// TestHideTakesAllOfIt: an amount in a data table is nowhere, and the writer is told post
// by post what hide took.
func TestHideTakesAllOfIt(t *testing.T) {
	files := map[string]string{
		"journal.md":      "---\ntitle: Open\nhide: [money]\ncanonical: https://boats.example.org/open/\n---\n# Open\n",
		"2027-01-02-a.md": "# A\n\n| quotes: | larch |\n|---|---|\n| price | 66.61 EUR |\n| planks | 6 |\n\n> | inner: | x |\n> |---|---|\n> | price | 66.61 EUR |\n\nIt comes to {quotes.price.larch}, {mmm} in all. Later {mmm * 1}.\n\n~~~calc\nspend 48.27 EUR on larch # 66.61 EUR a plank\nmmm = sum(spent()) / 1 EUR\nrated = quotes.price.larch * 2 # zqnote\nplanks = 6 # 66.61 EUR each\n# 66.61 EUR each\n~~~\n",
		"2027-01-03-b.md": "# B\n\nNo money here.\n",
	}
	all, r := published(t, journalOf(t, files))
	tellsNone(t, all, "66.61", "48.27", "133.2", "zqnote")
	if !strings.Contains(all["2027-01-02-a.html"], "not told") || !strings.Contains(all["search-index.js"], " 6 ") {
		t.Error("what is not of money is gone")
	}
	if len(r.Problems) > 0 {
		t.Errorf("%v", r.Problems)
	}
	if len(r.Remarks) != 1 || r.Remarks[0].File != "2027-01-02-a.md" || !strings.Contains(r.Remarks[0].Message, "hide: [money] leaves out 3 lines, 2 cells, 3 values in the text") {
		t.Errorf("%v", r.Remarks)
	}
}
