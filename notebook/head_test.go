package notebook

import (
	"strings"
	"testing"
)

func TestHeadLost(t *testing.T) {
	const before = "---\ntitle: A\nprivate: true\n---\nText.\n"
	for _, c := range []struct{ before, after, want string }{
		{before, "\n```calc\n```\n" + before, "the entry is private no longer, and would be published; the title is gone"},
		{before, "½" + before, "the entry is private no longer, and would be published; the title is gone"},
		{before, strings.Replace(before, "private: true\n", "", 1), "the entry is private no longer, and would be published"},
		{before, strings.Replace(before, "true", "tru", 1), "the entry is private no longer, and would be published"},
		{before, strings.Replace(before, "title: A", "title: \"A", 1), "the entry is private no longer, and would be published; the title is gone"},
		{before, strings.Replace(before, "title: A\n", "", 1), "the title is gone"},
		{before, strings.Replace(before, "true", "false", 1), ""},
		{before, strings.Replace(before, "title: A", "title: B", 1), ""},
		{before, before + "More.\n", ""},
		{"---\ndraft: true\ndate: 2027-01-01\n---\n", "", "the entry is a draft no longer, and would be published; the date is gone"},
		{"---\nsubjects: [paint]\n---\n", "Text.\n", "the settings at the top are none any more"},
		{"---\nhide: [money]\ntitle: A\n---\n", "---\ntitle: A\n---\n", "what was hidden would be published"},
		{"Text.\n", "More.\n", ""},
		{"Text.\n", before, ""},
		{"---\n\"\n---\n", "Text.\n", ""},
		{"\ufeff" + before, before, ""},
		{strings.ReplaceAll(before, "\n", "\r\n"), "\r\n" + strings.ReplaceAll(before, "\n", "\r\n"), "the entry is private no longer, and would be published; the title is gone"},
	} {
		if got := strings.Join(HeadLost([]byte(c.before), []byte(c.after)), "; "); got != c.want {
			t.Errorf("%q for %q loses %q, want %q", c.after, c.before, got, c.want)
		}
	}
}
