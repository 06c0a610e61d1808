package tables

import "strings"

// splitCSV cuts the text of a table into records by RFC 4180: fields between commas,
// a field with commas, quotes or line ends between quotes, a quote in it doubled.
func splitCSV(text string) [][]string {
	var all [][]string
	var record []string
	var field strings.Builder
	quoted := false
	for i := 0; i < len(text); i++ {
		c := text[i]
		switch {
		case quoted && c == '"' && i+1 < len(text) && text[i+1] == '"':
			field.WriteByte('"')
			i++
		case c == '"':
			quoted = !quoted
		case quoted:
			field.WriteByte(c)
		case c == ',' || c == '\n':
			record = append(record, strings.TrimSuffix(field.String(), "\r"))
			field.Reset()
			if c == '\n' {
				all, record = append(all, record), nil
			}
		default:
			field.WriteByte(c)
		}
	}
	if field.Len() > 0 || record != nil {
		all = append(all, append(record, field.String()))
	}
	return all
}
