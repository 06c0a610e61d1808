package notebook

import (
	"strings"
	"testing"

	"scarph/kernel"
)

// readable is all that readers get of a journal, with what its writer is told.
func readable(t *testing.T, files map[string]string) (text string, problems, remarks []Diagnostic) {
	t.Helper()
	pub, problems, remarks := journalOf(t, files).Published(kernel.Now)
	page := Page{AsOf: kernel.Now, Hide: pub.settings.Hides}
	var b strings.Builder
	for _, e := range pub.Entries() {
		for _, x := range pub.RenderEntry(e, page) {
			b.WriteString(x)
		}
		b.WriteString(pub.PlainText(e, page))
	}
	for _, list := range []string{"dimensions", "cutlist", "rework", "checks", "ledger", "history"} {
		b.WriteString(pub.RenderList(list, page))
	}
	b.Write(pub.Cargo().Encode())
	return b.String(), problems, remarks
}

func tellsNone(t *testing.T, what, text string, secrets ...string) {
	t.Helper()
	for _, s := range secrets {
		if i := strings.Index(text, s); i >= 0 {
			t.Errorf("%s: %q is told: …%s…", what, s, text[max(0, i-80):min(len(text), i+40)])
		}
	}
}

// TestFaultyHideHidesAll: hide that cannot be understood hides all that can be hidden.
func TestFaultyHideHidesAll(t *testing.T) {
	for _, head := range []string{"hide: [Money]", "hide: money, hours", "hide:\n  money: true", "Hide: [money, hours]", "hid: [money, hours]", "title: Boat: one\nhide: [money, hours]", "hide: [money, hours]\nHide: []", "hide:"} {
		files := map[string]string{
			"journal.md":      "---\n" + head + "\n---\n# Open\n\n~~~calc\nbeam = 4 m\n~~~\n",
			"2027-01-02-a.md": "# A\n\n~~~calc\nspend 48.27 EUR on zqvarnish # zqshop\nwork 3.72 h on zqfairing\nrate = 73.21 EUR\nplanks = 6 # at 73.21 EUR each\n# 73.21 EUR it was\n~~~\n\n{rate} {sum(worked())} {beam}\n",
		}
		text, _, _ := readable(t, files)
		tellsNone(t, head, text, "zq", "48.27", "73.21", "3.72")
		if !strings.Contains(text, ">6<") {
			t.Errorf("%s: the entry is gone", head)
		}
	}
	// the title page that was to be private, and a journal in one file
	text, _, _ := readable(t, map[string]string{"journal.md": "---\nprivate: true\n---\n# zqtitle\n", "2027-01-02-a.md": "# A\n"})
	tellsNone(t, "a private title page", text, "zq")
	text, _, _ = readable(t, map[string]string{"journal.md": "---\nprivate: true\n\n# 2027-01-02 zqone\n\n# 2027-01-03 zqtwo\n"})
	tellsNone(t, "a head that is never closed", text, "zq")
}

// TestWhatIsReckonedFromPublicValuesIsPublic: a value that comes to a private one without
// hanging on it is nobody's secret.
func TestWhatIsReckonedFromPublicValuesIsPublic(t *testing.T) {
	_, problems, remarks := readable(t, map[string]string{
		"journal.md": "# Open\n\n~~~calc private\nhelpers = 2\nguess beam = 4 m\n~~~\n\n~~~calc\nfound beam = 4 m\nhalf = beam / 2\ncount = 4 - 2\nboth = count * 2\nhull = helpers * 21\n~~~\n\n{half} {beam} {count} {both} {hull}\n"})
	if len(problems) > 0 {
		t.Errorf("%v", problems)
	}
	if len(remarks) != 1 {
		t.Errorf("%v", remarks)
	}
}

// TestLinesAboutWhatIsPrivate: a public line about a private value is missed by its writer.
func TestLinesAboutWhatIsPrivate(t *testing.T) {
	text, problems, remarks := readable(t, map[string]string{
		"journal.md": "# Open\n\n~~~calc private\nsecret = 3.14159 m\npart rib: 2 of 1 in by 1 in by 1 m in ash\n~~~\n\n~~~calc\nrevise secret = 2.8882 m\nmade rib: 2\n~~~\n"})
	tellsNone(t, "lines about", text, "3.14159", "3.1416", "2.8882")
	if len(problems) > 0 || len(remarks) != 2 || !strings.Contains(remarks[0].Message, "secret is private, so this line about it is left out") || !strings.Contains(remarks[1].Message, "rib is private") {
		t.Errorf("%v %v", problems, remarks)
	}
}
