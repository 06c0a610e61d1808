package calc

import "strings"

// Suggestion is the word that a hint proposes in place of the one that is wrong,
// "" when it proposes none: hints of that kind are all worded alike.
func Suggestion(hint string) string {
	word, ok := strings.CutPrefix(hint, "did you mean ")
	if !ok {
		return ""
	}
	word, ok = strings.CutSuffix(word, "?")
	if !ok || strings.ContainsAny(word, ",;") {
		return ""
	}
	return word
}
