package lang

// WordHelp tells about a word that begins a statement.
type WordHelp struct {
	Word    string
	Summary string
	Example string
}

var wordSummaries = map[string]string{
	"drawn":  "a reading taken from the plans",
	"found":  "a reading taken off the boat as she is",
	"built":  "a reading taken off the finished work",
	"guess":  "a number to go on with; any other reading displaces it",
	"revise": "a new number for a value that has one; it takes the place of any reading",
	"check":  "a condition that must hold; both sides are shown",
	"part":   "a line of the cut list: count, thickness by width by length, wood, further sizes, a tolerance",
	"made":   "a record that some of a part were made, to the numbers of this entry",
	"settle": "what was done about a part made before a revision: trimmed, packed, replaced or left",
	"work":   "hours, entered under a subject",
	"spend":  "money, entered under a subject",
	"stock":  "boards at hand, for laying out the cut list",
}

// AboutWord tells about a word that begins a statement; false when there is none such.
func AboutWord(word string) (WordHelp, bool) {
	s, ok := wordSummaries[word]
	if !ok {
		return WordHelp{}, false
	}
	const write = "write "
	return WordHelp{Word: word, Summary: s, Example: exampleOf(word)[len(write):]}, true
}
