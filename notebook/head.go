package notebook

import (
	"strings"

	"go.yaml.in/yaml/v4"

	"scarph/notebook/markdown"
)

// guarded are the settings of a head that are not to be lost by a slip: who may read the
// entry and what it is called hang on them.
var guarded = []struct{ key, means string }{
	{"private", "the entry is private no longer, and would be published"},
	{"draft", "the entry is a draft no longer, and would be published"},
	{"hide", "what was hidden would be published"},
	{"title", "the title is gone"},
	{"date", "the date is gone"},
}

// HeadLost says in words what a file would lose if its text became after: settings of
// its head that are not there any more, or a head that is none any more. Nothing is
// said of a setting that is given another value.
func HeadLost(before, after []byte) []string {
	was, ok := settingsOf(before)
	if !ok {
		return nil
	}
	is, _ := settingsOf(after)
	var lost []string
	for _, k := range guarded {
		old, had := was[k.key]
		if !had || (k.key == "private" || k.key == "draft") && !isYes(old) {
			continue
		}
		now, has := is[k.key]
		if !has || (k.key == "private" || k.key == "draft") && !isYes(now) && !isNo(now) {
			lost = append(lost, k.means)
		}
	}
	if len(lost) == 0 && len(was) > 0 && len(is) == 0 {
		lost = append(lost, "the settings at the top are none any more")
	}
	return lost
}

// settingsOf reads the settings at the top of a text; false for none that can be read.
func settingsOf(text []byte) (map[string]string, bool) {
	at, _ := markdown.FrontMatter(text)
	var root yaml.Node
	if at.Start == at.End || yaml.Unmarshal(text[at.Start:at.End], &root) != nil || len(root.Content) == 0 || root.Content[0].Kind != yaml.MappingNode {
		return nil, false
	}
	list, all := root.Content[0].Content, map[string]string{}
	for i := 0; i+1 < len(list); i += 2 {
		all[strings.ToLower(list[i].Value)] = list[i+1].Value
	}
	return all, true
}

func isYes(text string) bool { return strings.EqualFold(text, "true") }
func isNo(text string) bool  { return strings.EqualFold(text, "false") }
