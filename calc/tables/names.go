package tables

import (
	"sort"
	"strings"

	"scarph/calc"
)

// index finds items by the words of their names, in any order.
type index struct {
	items   []string
	byWords map[string]string
	spoken  []string // the names and aliases, for suggestions
}

func indexNames(table string, items []string) index {
	x := index{items: items, byWords: map[string]string{}}
	add := func(name, item string) {
		w := sorted(name)
		if other, ok := x.byWords[w]; ok && other != item {
			panic("tables: " + name + " names two items of " + table)
		}
		x.byWords[w] = item
		x.spoken = append(x.spoken, name)
	}
	for _, item := range items {
		add(item, item)
	}
	for _, r := range records(aliasesCSV) {
		if r[0] == table {
			add(r[1], r[2])
		}
	}
	return x
}

// signs are written in more than one way.
var signs = strings.NewReplacer("_", " ", "-", " ", "–", " ", ",", " ", "#", "no ", "é", "e", "(", " ", ")", " ", " °", "°")

// plain writes a name the one way that all its spellings share.
func plain(name string) string {
	words := strings.Fields(signs.Replace(strings.ToLower(strings.TrimSpace(name))))
	for i, w := range words {
		switch w {
		case "no.", "nr", "nr.", "number":
			words[i] = "no"
		case "ga", "ga.", "gage":
			words[i] = "gauge"
		case `in.`, "inch", "inches":
			words[i] = "in"
		}
	}
	return strings.Join(words, " ")
}

func sorted(name string) string {
	words := strings.Fields(plain(name))
	sort.Strings(words)
	return strings.Join(words, " ")
}

// find returns the item that the name means: by all its words, or by a part of
// them that fits one item alone.
func (x index) find(table, name string) (string, error) {
	if item, ok := x.byWords[sorted(name)]; ok {
		return item, nil
	}
	var fits []string
	part := plain(name)
	for _, item := range x.items {
		if within(part, plain(item)) {
			fits = append(fits, item)
		}
	}
	if len(fits) == 1 {
		return fits[0], nil
	}
	e := calc.Errorf(calc.CodeUnknownItem, "the table of %s has no %q", table, name)
	if len(fits) > 1 {
		e.Message = "the table of " + table + " has more than one " + name
		return "", e.WithHint("which? %s", listed(fits))
	}
	if near := calc.Nearest(name, x.spoken); near != "" {
		return "", e.WithHint("did you mean %q?", near)
	}
	if near := x.nearestByWords(name); near != "" {
		return "", e.WithHint("did you mean %q?", near)
	}
	return "", e.WithHint("it has %s", listed(x.items))
}

// within reports whether all words of part are words of the item, and its numbers
// numbers of the item: 3/4 in is not 1 3/4 in.
func within(part, item string) bool {
	words, numbers := strings.Fields(item), numbersOf(item)
	for _, n := range numbersOf(part) {
		if !contains(numbers, n) {
			return false
		}
	}
	for _, w := range strings.Fields(part) {
		if !contains(words, w) {
			return false
		}
	}
	return part != ""
}

// numbersOf returns the numbers in a plain name; 1 3/4 is one number.
func numbersOf(name string) []string {
	var list []string
	after := false
	for _, w := range strings.Fields(name) {
		digit := w[0] >= '0' && w[0] <= '9'
		switch {
		case digit && after:
			list[len(list)-1] += " " + w
		case digit:
			list = append(list, w)
		}
		after = digit
	}
	return list
}

func contains(words []string, w string) bool {
	for _, x := range words {
		if x == w {
			return true
		}
	}
	return false
}

// nearestByWords looks past the order of words: "oak, whte" is near "white oak".
func (x index) nearestByWords(name string) string {
	keys := make([]string, 0, len(x.byWords))
	for k := range x.byWords {
		keys = append(keys, k)
	}
	sort.Strings(keys)
	return x.byWords[calc.Nearest(sorted(name), keys)]
}
