package tables

import "strings"

// splitCSV cuts the text of a table into records by RFC 4180: fields between commas,
// a field with commas, quotes or line ends between quotes, a quote in it doubled.
func splitCSV(text string) [][]string {
	var all [][]string
	var record []string
	for i := 0; i < len(text); i++ { // past the comma or the line end
		field, n := firstField(text[i:])
		i += n
		record = append(record, field)
		if i == len(text) || text[i] == '\n' {
			all, record = append(all, record), make([]string, 0, len(record))
		}
	}
	if len(record) > 0 { // the text ends with a comma
		all = append(all, append(record, ""))
	}
	return all
}

// firstField returns the field at the start of the text, and what it takes up of it.
func firstField(text string) (field string, n int) {
	quoted, doubled := false, false
	for n < len(text) && (quoted || text[n] != ',' && text[n] != '\n') {
		if text[n] == '"' {
			quoted = !quoted
			doubled = doubled || quoted && n > 0
		}
		n++
	}
	field = strings.TrimSuffix(text[:n], "\r")
	if inner, ok := strings.CutPrefix(field, `"`); ok {
		field = strings.TrimSuffix(inner, `"`)
	}
	if doubled {
		field = strings.ReplaceAll(field, `""`, `"`)
	}
	return field, n
}
