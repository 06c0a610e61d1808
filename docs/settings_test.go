package docs

import (
	"reflect"
	"testing"

	"scarph/notebook"
)

// settings tells of each key of the front matter of journal.md.
var settings = map[string]string{
	"title":        "the journal's title, for the head of each page",
	"boat":         "the boat's name, as it stands at the top of each page",
	"author":       "who writes; for what is published",
	"language":     "the language of the text, by BCP 47: `en`, `en-GB`, `de`",
	"show.length":  "`feet-inches` or `metric`",
	"show.nearest": "the smallest mark of the rule: `1/16\"`, `1 mm`",
	"show.angle":   "`degrees`, `degrees-minutes` or `rise-per-foot`",
	"spread":       "how ± is shown: `likely`, the root of the squares, or `worst`, the straight sum",
	"currency":     "the currency that costs are in, by its code of ISO 4217",
	"licence":      "on what terms others may use what is published",
	"canonical":    "the address that the published series will stand at",
	"description":  "one sentence about the journal, for those who find it",
	"hide":         "what is left out of all that is published: a list of `money`, `hours`, `checks`, which go wherever they stand, and `cutlist`, `rework`, `history`, of which the list goes: the entries still tell what they say of it",
	"cover":        "the picture of the title page, by its path in the journal",
	"waste":        "the share of wood that is lost, for the cut list: `35 %`",
	"waste-of":     "what that share is of: `bought`, or `added` to the net",
	"kerf":         "what the saw takes: `1/8\"`",
}

// entrySettings tells of each key at the head of an entry.
var entrySettings = [][2]string{
	{"title", "the entry's title; without it, its first heading"},
	{"date", "its day, year-month-day; without it, the date that begins its file's name"},
	{"draft", "`true` leaves the entry out of what is published, and serves it"},
	{"private", "`true` leaves the entry and its values out of what is published, for good"},
	{"subjects", "a list of subjects; each has a page in the published series"},
	{"summary", "one sentence, for lists and the feed"},
}

// settingsPage lists the settings; a key without words, or words without a key, fails.
func settingsPage(t *testing.T) string {
	p := head("Settings", "They stand between two lines of `---` at the top of `journal.md`, or of a journal in one file. All may be left out. A key that is not known is an error, with the nearest one that is.")
	p.line("")
	p.line("```")
	p.line("---\ntitle: Sorrel, a flat-bottomed skiff\nshow:\n  length: feet-inches\n  nearest: 1/16\"\n---")
	p.line("```")
	keys := keysOf(reflect.TypeOf(notebook.Settings{}), "")
	known := map[string]bool{}
	p.table("setting", "says")
	for _, k := range keys {
		known[k] = true
		if settings[k] == "" {
			t.Errorf("nothing is said of the setting %s", k)
		}
		p.row(code(k), settings[k])
	}
	for k := range settings {
		if !known[k] {
			t.Errorf("there is no setting %s", k)
		}
	}
	p.line("")
	p.line("## At the head of an entry")
	p.table("setting", "says")
	for _, s := range entrySettings {
		p.row(code(s[0]), s[1])
	}
	p.line("")
	p.line("## Behind the word calc")
	p.table("word", "says")
	p.row(code("private"), "the block is worked out and left out of what is published, and so are its values")
	p.line("")
	p.line("## What is not read")
	p.line("")
	p.line("Files and folders whose names begin with `_` or `.`, and files that do not end in `.md`. Pictures are found by their paths in the text.")
	return p.String()
}

func keysOf(typ reflect.Type, prefix string) []string {
	var keys []string
	for i := range typ.NumField() {
		f := typ.Field(i)
		key := f.Tag.Get("yaml")
		if key == "" {
			continue
		}
		if f.Type.Kind() == reflect.Struct {
			keys = append(keys, keysOf(f.Type, prefix+key+".")...)
			continue
		}
		keys = append(keys, prefix+key)
	}
	return keys
}
