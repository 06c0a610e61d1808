package live

import (
	"net/http"
	"strings"
	"unicode"

	"scarph/calc"
	"scarph/calc/lang"
	"scarph/notebook"
)

// A table of offsets is typed or pasted, read back row by row in words and in the
// other family, and then put into the text as a data table.

const (
	maxGridRows    = 200
	maxGridColumns = 60
)

// gridTable is a table as it is sent and read back.
type gridTable struct {
	Name    string    `json:"name"`
	Kind    string    `json:"kind"`
	Unit    string    `json:"unit"` // of bare numbers, "" to refuse them
	Text    string    `json:"text"` // pasted; or Columns and Rows
	Columns []string  `json:"columns"`
	Rows    []gridRow `json:"rows"`
	// Names says whether the first column of a pasted text names the rows: yes, no, or ""
	// to have it found out.
	Names string `json:"names"`
	// Commas says that 461,5 is 461.5.
	Commas bool `json:"commas"`
}

type gridRow struct {
	Name  string   `json:"name"`
	Cells []string `json:"cells"`
}

// gridBack is the table read back.
type gridBack struct {
	Columns  []string      `json:"columns"`
	Rows     []gridRowBack `json:"rows"`
	Markdown string        `json:"markdown"`
	Faults   int           `json:"faults"`
	Message  string        `json:"message,omitempty"`
	// Named says that the first column of the pasted text names the rows; Head is what
	// stands over it.
	Named bool   `json:"named"`
	Head  string `json:"head,omitempty"`
	// Commas asks whether the decimal commas of the text are decimal commas.
	Commas string `json:"commas,omitempty"`
}

type gridRowBack struct {
	Name  string         `json:"name"`
	Cells []gridCellBack `json:"cells"`
}

// gridCellBack is a cell as it was understood.
type gridCellBack struct {
	Text  string `json:"text"`
	Words string `json:"words,omitempty"` // one foot, ten inches and five eighths
	Other string `json:"other,omitempty"` // the same in the other family
	Step  string `json:"step,omitempty"`  // from the cell before it
	Fault string `json:"fault,omitempty"`
}

// readGrid answers with a table read back.
func (s *visit) readGrid(w http.ResponseWriter, r *http.Request) {
	var q gridTable
	if !receive(w, r, &q) {
		return
	}
	var p pasted
	if q.Text != "" {
		p = cutTable(q.Text, q.Names)
		q.Columns, q.Rows = p.columns, p.rows
	}
	if len(q.Rows) == 0 || len(q.Columns) == 0 {
		refuse(w, http.StatusUnprocessableEntity, "table", "no table was found there: a row for each line, and tabs, semicolons, commas, bars or blanks between the columns")
		return
	}
	if len(q.Rows) > maxGridRows || len(q.Columns) > maxGridColumns {
		refuse(w, http.StatusUnprocessableEntity, "table", "the table is too large: 200 rows and 60 columns are the most")
		return
	}
	asked := q.decimalCommas()
	z := q.back(s.book.Session.Style())
	z.Named, z.Head, z.Commas = p.named, p.head, asked
	answer(w, z)
}

// decimalCommas gives the cells points for their decimal commas, once somebody has said
// that they are such; until then it asks.
func (q *gridTable) decimalCommas() (question string) {
	for _, row := range q.Rows {
		for i, c := range row.Cells {
			if !hasDecimalComma(c) {
				continue
			}
			if q.Commas {
				row.Cells[i] = withPoints(c)
			} else if question == "" {
				question = "these have decimal commas: " + c + " is " + withPoints(c)
			}
		}
	}
	return question
}

// back reads every cell and writes the table as Markdown.
func (q *gridTable) back(style calc.Style) gridBack {
	z := gridBack{}
	for i, c := range q.Columns {
		z.Columns = append(z.Columns, nameOf(c, "st", i+1))
	}
	for i, row := range q.Rows {
		b := gridRowBack{Name: nameOf(row.Name, "row", i+1)}
		var before calc.Value
		for k := range z.Columns {
			text := ""
			if k < len(row.Cells) {
				text = strings.TrimSpace(row.Cells[k])
			}
			c := gridCellBack{Text: text}
			if text != "" {
				v, err := notebook.ReadCell(text, q.Unit)
				switch {
				case err != nil:
					c.Fault = err.Message
					if err.Hint != "" {
						c.Fault += ". " + upperFirst(err.Hint)
					}
				case strings.ContainsAny(text, "|\r\n"):
					c.Fault = "a cell holds no bar and no line end"
				case v.IsQuantity() && v.D.IsNumber() && q.Unit == "":
					c.Fault = text + " what? Say above what bare numbers are, or write " + text + " mm"
				default:
					c.Words, c.Other = spokenCell(text, v, style), otherCell(text, v, style)
					if before.V != 0 && v.D == before.D {
						c.Step = stepText(v.V-before.V, v.D, text, style)
					}
					before = v
				}
				if c.Fault != "" {
					z.Faults++
				}
			}
			b.Cells = append(b.Cells, c)
		}
		z.Rows = append(z.Rows, b)
	}
	z.Message = sameNames(&z)
	if _, known := calc.FindUnit(q.Unit); !known && q.Unit != "" {
		z.Message = q.Unit + " is no unit of bare numbers"
	}
	if z.Message != "" {
		z.Faults++
	}
	z.Markdown = q.markdown(&z)
	return z
}

// sameNames says that two rows or two columns bear one name.
func sameNames(z *gridBack) string {
	seen := map[string]bool{}
	for _, c := range z.Columns {
		if seen[c] {
			return "two columns are named " + c
		}
		seen[c] = true
	}
	seen = map[string]bool{}
	for _, r := range z.Rows {
		if seen[r.Name] {
			return "two rows are named " + r.Name
		}
		seen[r.Name] = true
	}
	return ""
}

// spokenCell says a cell in words.
func spokenCell(text string, v calc.Value, style calc.Style) string {
	if calc.LooksLikeOffset(text) {
		return spokenOffset(text)
	}
	return style.Text(v)
}

// otherCell is a cell in the other family.
func otherCell(text string, v calc.Value, style calc.Style) string {
	if calc.LooksLikeOffset(text) {
		return calc.Style{System: calc.Metric}.Text(v)
	}
	return style.Echo(v)
}

// stepText is the difference to the cell before, as a table of offsets counts.
func stepText(d float64, dim calc.Dimension, text string, style calc.Style) string {
	sign := "+"
	if d < 0 {
		sign, d = "−", -d
	}
	if calc.LooksLikeOffset(text) && dim == calc.DimLength {
		return sign + calc.FormatOffset(d)
	}
	return sign + style.Text(calc.Of(d, dim))
}

var smallNumbers = [...]string{"no", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve", "thirteen", "fourteen", "fifteen", "sixteen", "seventeen", "eighteen", "nineteen"}

// spokenOffset says 1-10-5+ as "one foot, ten inches and five eighths, a sixteenth more".
func spokenOffset(text string) string {
	t := strings.TrimSpace(text)
	sign := ""
	for _, m := range []string{"-", "−"} {
		if rest, ok := strings.CutPrefix(t, m); ok {
			t, sign = rest, "less than nothing: "
		}
	}
	tail := ""
	switch {
	case strings.HasSuffix(t, "+"):
		t, tail = strings.TrimSuffix(t, "+"), ", a sixteenth more"
	case strings.HasSuffix(t, "-") || strings.HasSuffix(t, "−"):
		t, tail = strings.TrimRight(t, "-−"), ", a sixteenth less"
	}
	p := strings.Split(t, "-")
	if len(p) != 3 {
		return text
	}
	feet, inches, eighths := spokenCount(p[0], "foot", "feet"), spokenCount(p[1], "inch", "inches"), spokenCount(p[2], "eighth", "eighths")
	return sign + feet + ", " + inches + " and " + eighths + tail
}

func spokenCount(digits, one, many string) string {
	n := 0
	for _, c := range digits {
		n = 10*n + int(c-'0')
	}
	word := strings.TrimLeft(digits, "0")
	if n < len(smallNumbers) {
		word = smallNumbers[n]
	}
	if n == 1 {
		return word + " " + one
	}
	return word + " " + many
}

// markdown writes the table with its columns one under the other.
func (q *gridTable) markdown(z *gridBack) string {
	corner := nameOf(q.Name, "offsets", 0)
	if k, ok := lang.KindOf(q.Kind); ok && k.IsReading() && q.Kind != "" {
		corner = q.Kind + " " + corner
	}
	if q.Unit != "" {
		corner += " (" + q.Unit + ")"
	}
	table := [][]string{append([]string{corner + ":"}, z.Columns...)}
	for _, r := range z.Rows {
		row := []string{r.Name}
		for _, c := range r.Cells {
			row = append(row, c.Text)
		}
		table = append(table, row)
	}
	width := make([]int, len(table[0]))
	for _, row := range table {
		for i, c := range row {
			width[i] = max(width[i], len([]rune(c)), 3)
		}
	}
	var b strings.Builder
	for n, row := range table {
		for i, c := range row {
			b.WriteString("| " + c + strings.Repeat(" ", width[i]-len([]rune(c))+1))
		}
		b.WriteString("|\n")
		if n == 0 {
			for i := range row {
				b.WriteString("|" + strings.Repeat("-", width[i]+2))
			}
			b.WriteString("|\n")
		}
	}
	return b.String()
}

// nameOf makes a name of a label; a bare number gets a word before it.
func nameOf(label, word string, number int) string {
	var b strings.Builder
	for _, r := range strings.ToLower(strings.TrimSpace(label)) {
		switch {
		case unicode.IsLetter(r) || unicode.IsDigit(r) || r == '_':
			b.WriteRune(r)
		case b.Len() > 0 && !strings.HasSuffix(b.String(), "_"):
			b.WriteByte('_')
		}
	}
	name := strings.Trim(b.String(), "_")
	switch {
	case name == "" && number == 0:
		return word
	case name == "":
		return word + "_" + calc.Style{}.Text(calc.Number(float64(number)))
	case unicode.IsDigit([]rune(name)[0]):
		return "st_" + name
	}
	return name
}
