package site_test

import (
	"fmt"
	"math/rand/v2"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"scarph/notebook"
	"scarph/notebook/site"
)

// dinghy is a journal with something on every list, whose lines the edits of
// TestPublishedAgain know.
var dinghy = map[string]string{
	"journal.md": `---
title: Dinghy
boat: Dab
canonical: https://boats.example.org/dab
cover: plan.svg
---
# Dab, {beam} wide

~~~calc
drawn beam = 4' 6"
frames = 7
part rib: 2 * frames of 1/2" by 1" by beam in ash
check beam > 4 ft
~~~
`,
	"2027-05-02-moulds.md": `---
subjects: [moulds]
summary: Moulds set up.
---
# Moulds, {frames} of them

Half is {beam / 2}, see [the planks](2027-05-09-planks.md).

| offsets: | st 1 | st 2 |
|----------|------|------|
| sheer    | 1-2-3 | 1-3-4+ |
| chine    | 0-4-5 | 0-6-1 |

~~~calc
made rib: 4
found beam = 4' 6 1/4" ± 1/16"   # across the sheer
work 3 h on ribs
~~~
`,
	"2027-05-09-planks.md": `# Planks

Each is {beam / frames} wide. ![The plan](plan.svg)

~~~calc
frame_spacing(beam, frames)
spend 12 USD on nails
strake = beam / 9
~~~

~~~calc private
paid = 300 USD
margin = 2 in
~~~

~~~calc
clear = beam - margin
~~~
`,
	"plan.svg": `<svg xmlns="http://www.w3.org/2000/svg" width="90" height="40"><path d="M0 20L90 20" stroke="#222"/></svg>`,
}

// edits change the journal in a folder, each by one thing, there and back as often as
// they come.
func edits(t *testing.T, dir string) []struct {
	name string
	do   func(r *rand.Rand)
} {
	there := func(file, one, other string) func(*rand.Rand) {
		return func(*rand.Rand) {
			name := filepath.Join(dir, file)
			text, err := os.ReadFile(name)
			if err != nil {
				return // the entry is away
			}
			to := strings.Replace(string(text), one, other, 1)
			if to == string(text) {
				to = strings.Replace(to, other, one, 1)
			}
			save(t, name, to)
		}
	}
	type edit = struct {
		name string
		do   func(r *rand.Rand)
	}
	return []edit{
		{"nothing", func(*rand.Rand) {}},
		{"a word of the text", there("2027-05-02-moulds.md", "Half is", "The half is")},
		{"a line above the numbers", there("2027-05-02-moulds.md", "Half is", "Two lines more.\n\nHalf is")},
		{"a measurement", there("2027-05-02-moulds.md", `6 1/4"`, `6 3/4"`)},
		{"the note of a reading", there("2027-05-02-moulds.md", "# across the sheer", "# across the rail")},
		{"a cell", there("2027-05-02-moulds.md", "0-6-1", "0-6-3")},
		{"the day of an entry's file", func(*rand.Rand) {
			from, to := filepath.Join(dir, "2027-05-09-planks.md"), filepath.Join(dir, "2027-05-01-planks.md")
			if os.Rename(from, to) != nil {
				_ = os.Rename(to, from)
			}
		}},
		{"a private number that a public sum reads", there("2027-05-09-planks.md", "margin = 2 in", "margin = 3 in")},
		{"a private number that nothing reads", there("2027-05-09-planks.md", "paid = 300 USD", "paid = 200 USD")},
		{"what is private", there("2027-05-09-planks.md", "calc private", "calc")},
		{"a heading", there("2027-05-09-planks.md", "# Planks", "# Planking")},
		{"another subject", there("2027-05-02-moulds.md", "subjects: [moulds]", "subjects: [ribs]")},
		{"no subjects", there("2027-05-02-moulds.md", "subjects: [ribs]", "subjects: []")},
		{"a summary", there("2027-05-02-moulds.md", "Moulds set up.", "The moulds are up.")},
		{"the title of the journal", there("journal.md", "title: Dinghy", "title: A dinghy")},
		{"the units of the journal", there("journal.md", "boat: Dab", "boat: Dab\nshow:\n  length: metric")},
		{"what is hidden", there("journal.md", "boat: Dab", "boat: Dab\nhide: [money, checks]")},
		{"the waste", there("journal.md", "boat: Dab", "boat: Dab\nwaste: 20 %")},
		{"the address", there("journal.md", "/dab", "/dab2")},
		{"a mistake", there("2027-05-09-planks.md", "strake = beam / 9", "strake = beem / 9")},
		{"a draft", there("2027-05-02-moulds.md", "subjects", "draft: true\nsubjects")},
		{"a drawing", there("plan.svg", "#222", "#444")},
		{"an entry more or fewer", func(r *rand.Rand) {
			name := filepath.Join(dir, "2027-06-01-more.md")
			if os.Remove(name) != nil {
				save(t, name, fmt.Sprintf("# More\n\n{beam}\n\n```calc\nrevise frames = %d\n```\n", 5+r.IntN(5)))
			}
		}},
	}
}

// TestPublishedAgain changes a journal by one thing after the other and publishes it to
// the same folder each time; what stands there is what publishing to an empty folder
// gives, byte for byte.
func TestPublishedAgain(t *testing.T) {
	journal := journalOf(t, dinghy)
	out, fresh := filepath.Join(t.TempDir(), "site"), t.TempDir()
	r := rand.New(rand.NewPCG(1, 2))
	list := edits(t, journal)
	kept := 0
	for i := range len(list) * 3 / 2 {
		what := list[i%len(list)] // each once in order, then as they come
		if i >= len(list) {
			what = list[r.IntN(len(list))]
		}
		what.do(r)
		again := publishTo(t, journal, out)
		kept += again.Pages - again.Rendered
		anew := filepath.Join(fresh, fmt.Sprint(i))
		first := publishTo(t, journal, anew)
		if first.Pages != first.Rendered || again.Pages != first.Pages || again.Bytes != first.Bytes {
			t.Errorf("round %d, %s: again %+v, at first %+v", i, what.name, again, first)
		}
		if d := same(readSite(t, anew), readSite(t, out)); d != "" {
			t.Fatalf("round %d, %s: published again, %s", i, what.name, d)
		}
	}
	if kept == 0 {
		t.Error("every list was worked out every time")
	}
}

// TestOnlyWhatChangedIsWorkedOut counts the pages that are worked out when the journal is
// published again: those of entries in any case, the lists when a number changed.
func TestOnlyWhatChangedIsWorkedOut(t *testing.T) {
	journal := journalOf(t, dinghy)
	out := filepath.Join(t.TempDir(), "site")
	first := publishTo(t, journal, out)
	lists := []string{"dimensions", "cutlist", "rework", "checks", "ledger", "history"}
	for _, l := range lists {
		if _, err := os.Stat(filepath.Join(out, l+".html")); err != nil {
			t.Fatal(err)
		}
	}
	step := func(what string, rendered int, change func()) {
		t.Helper()
		change()
		if r := publishTo(t, journal, out); r.Rendered != rendered || r.Pages != first.Pages || r.Written+r.Kept != first.Written {
			t.Errorf("%s: %+v, of %+v", what, r, first)
		}
	}
	name := filepath.Join(journal, "2027-05-02-moulds.md")
	text, err := os.ReadFile(name)
	if err != nil {
		t.Fatal(err)
	}
	few := first.Pages - len(lists)
	step("nothing", few, func() {})
	step("a word", few, func() { save(t, name, strings.Replace(string(text), "Half is", "The half is", 1)) })
	step("a number", first.Pages, func() { save(t, name, strings.Replace(string(text), `6 1/4"`, `6 3/4"`, 1)) })
	step("the same number", few, func() {})
	step("a damaged list", few+1, func() { save(t, filepath.Join(out, "checks.html"), "damaged") })
	step("a list that is gone", few+1, func() {
		if err := os.Remove(filepath.Join(out, "cutlist.html")); err != nil {
			t.Fatal(err)
		}
	})
	n, err := notebook.Open(journal)
	if err != nil {
		t.Fatal(err)
	}
	if r, err := site.Publish(n, out, site.Options{AsOf: 1}); err != nil || r.Rendered != r.Pages {
		t.Errorf("as of another entry: %+v, %v", r, err)
	}
	step("as of the last entry again", first.Pages, func() {})
}
