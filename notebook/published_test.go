package notebook

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"scarph/kernel"
)

// journalOf writes a journal of the given files and opens it.
func journalOf(t *testing.T, files map[string]string) *Notebook {
	t.Helper()
	dir := t.TempDir()
	for name, text := range files {
		if err := os.WriteFile(filepath.Join(dir, name), []byte(strings.ReplaceAll(text, "~~~", "```")), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	n, err := Open(dir)
	if err != nil {
		t.Fatal(err)
	}
	return n
}

const keptBack = `---
title: Kept
hide: [money]
---
# Kept

She is {beam}, built in {helpers * 2}. The wage is {wage}; the bill {bill}; altogether {gang}. Later {late}.

~~~calc private
wage = 47 mm
helpers = 12
secret_plan = 3.125 m
~~~

~~~calc
drawn beam = 4'
gang = helpers / 4 + 1
double = gang * 2
rate = 30 EUR
bill = 3 * rate
ratio = bill / rate
spend 48.20 EUR on larch
part rib: 2 * helpers of 1 in by 2 in by secret_plan - 1 in in ash
check secret_plan > 2 m
check helpers > 2
beam as of entry 3
~~~
`

func TestPublishedHoldsOnlyWhatMayBeRead(t *testing.T) {
	n := journalOf(t, map[string]string{
		"journal.md":      keptBack,
		"2027-01-01-a.md": "---\nprivate: true\n---\n~~~calc\nrevise beam = 5'\n~~~\n",
		"2027-01-02-b.md": "# B\n\n~~~calc\nfound beam = 4' 1\"\n~~~\n",
		"2027-01-03-c.md": "---\ndraft: true\n---\n~~~calc\nrevise beam = 6'\nlate = 2 m\n~~~\n",
	})
	pub, left, sealed := n.Published(kernel.Now)
	if len(pub.Entries()) != 2 {
		t.Fatalf("%d entries are published", len(pub.Entries()))
	}
	var b strings.Builder
	for _, e := range pub.Entries() {
		for _, x := range pub.RenderEntry(e, Page{AsOf: kernel.Now}) {
			b.WriteString(x)
		}
		b.WriteString(pub.PlainText(e, Page{AsOf: kernel.Now}))
	}
	for _, list := range []string{"dimensions", "cutlist", "rework", "checks", "ledger", "history"} {
		b.WriteString(pub.RenderList(list, Page{AsOf: kernel.Now}))
	}
	text := b.String()
	for _, secret := range []string{"47", "48.2", "90 ", "30 EUR", "5'", "6'", "123 1/16", "123.03", "secret_plan</", "EUR", "larch"} {
		if strings.Contains(text, secret) {
			t.Errorf("%q is told: %s", secret, text[max(0, strings.Index(text, secret)-80):min(len(text), strings.Index(text, secret)+40)])
		}
	}
	for _, told := range []string{"4&#39; 1&#34;", ">24<", ">4<", ">8<", "not told"} {
		if !strings.Contains(text, told) {
			t.Errorf("%q is missing in %s", told, text)
		}
	}
	if len(left) != 3 || !strings.Contains(left[0].Message, "wage") {
		t.Errorf("left out: %v", left)
	}
	if len(sealed) != 4 || !strings.Contains(sealed[3].Message, "hide: [money] leaves out 4 lines, 1 value in the text") {
		t.Errorf("sealed: %v", sealed)
	}
	// the line that hangs on a draft is wrong in what is published
	problems := pub.Problems(kernel.Now)
	if len(problems) != 1 || !strings.Contains(problems[0].Message, "late") {
		t.Errorf("problems: %v", problems)
	}
}

// TestPublishedLedger: what hide names is told neither by the ledger's own lines nor by
// sums and drawings made of them.
func TestPublishedLedger(t *testing.T) {
	for hide, secrets := range map[string][]string{"hours": {"7.25", "7.3 h"}, "money": {"48.2", "EUR"}} {
		n := journalOf(t, map[string]string{"journal.md": "---\ntitle: Kept\nhide: [" + hide + "]\n---\n# Kept\n\n" +
			"All told {sum(worked())} and {sum(spent())}.\n\n~~~calc\nwork 7.25 h on framing\nspend 48.20 EUR on larch\n" +
			"hours_and_money(worked(), spent())\nhours_and_money(worked())\npaid = spent()\nhours_and_money(\"none\", paid)\nsum(worked())\n~~~\n"})
		pub, _, _ := n.Published(kernel.Now)
		text := ""
		for _, e := range pub.Entries() {
			for _, x := range pub.RenderEntry(e, Page{AsOf: kernel.Now}) {
				text += x
			}
			text += pub.PlainText(e, Page{AsOf: kernel.Now})
		}
		for _, list := range []string{"dimensions", "ledger"} {
			text += pub.RenderList(list, Page{AsOf: kernel.Now})
		}
		for _, secret := range secrets {
			if i := strings.Index(text, secret); i >= 0 {
				t.Errorf("with %s hidden, %q is told: %s", hide, secret, text[max(0, i-80):min(len(text), i+40)])
			}
		}
	}
}

// TestLedgerIsDrawn: the list of hours and money begins with a picture of what is shown
// of it, and two lines of one day are one step.
func TestLedgerIsDrawn(t *testing.T) {
	n := journalOf(t, map[string]string{"journal.md": "# Drawn\n", "2027-01-02-a.md": "~~~calc\nwork 2 h on framing\nwork 3 h on paint\nspend 48.20 EUR on larch\n~~~\n", "2027-02-01-b.md": "~~~calc\nwork 4 h on paint\n~~~\n"})
	list := n.RenderList("ledger", Page{AsOf: kernel.Now})
	for _, told := range []string{`role="img"`, "<title>Hours and money</title>", "9 h from 2 Jan to 1 Feb and 48.20 EUR on 2 Jan", "running sum in EUR"} {
		if !strings.Contains(list, told) {
			t.Errorf("%q is missing", told)
		}
	}
	if n := strings.Count(list, ">2 Jan</text>"); n != 2 { // under the hours and under the money
		t.Errorf("the day is written %d times", n)
	}
	empty := journalOf(t, map[string]string{"journal.md": "# Nothing\n"})
	if list := empty.RenderList("ledger", Page{AsOf: kernel.Now}); strings.Contains(list, "<svg") {
		t.Error("nothing is drawn out of nothing")
	}
}
