package trade

import (
	"strconv"
	"strings"

	"scarph/calc"
	"scarph/calc/draw"
)

// byDates is the text that takes the days from the names of a list's elements, where
// these are dates: 2027-01-09.
const byDates = "dates"

// monthNames are short, for the foot of a picture.
var monthNames = [...]string{"Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec"}

// isoDate is a label as the date that it was in the head of a data table, where names
// are made of letters, digits and strokes: _2027_01_09.
func isoDate(label string) string {
	return strings.ReplaceAll(strings.TrimPrefix(label, "_"), "_", "-")
}

// dayOf reads a label that is an ISO 8601 date: its number, counted from any day, and
// how it is written in a picture of one year or more.
func dayOf(label string, oneYear bool) (day float64, text string, ok bool) {
	date := isoDate(label)
	part := strings.Split(date, "-")
	if len(date) != 10 || len(part) != 3 {
		return 0, "", false
	}
	y, err1 := strconv.Atoi(part[0])
	m, err2 := strconv.Atoi(part[1])
	d, err3 := strconv.Atoi(part[2])
	if err1 != nil || err2 != nil || err3 != nil || m < 1 || m > 12 || d < 1 || d > 31 {
		return 0, "", false
	}
	text = strconv.Itoa(d) + " " + monthNames[m-1]
	if !oneYear {
		text += " " + part[0]
	}
	return float64(dayNumber(y, m, d)), text, true
}

// dayNumber counts days in the calendar of ISO 8601, the year beginning in March so
// that the leap day stands last; the months March to January have 153 days in every five.
func dayNumber(y, m, d int) int {
	if m < 3 {
		y, m = y-1, m+12
	}
	return 365*y + y/4 - y/100 + y/400 + (153*(m-3)+2)/5 + d
}

// datedByLabels gives the figures of a list the days that its labels are. Where they
// are no dates, each stands a day after the one before, under its name.
func datedByLabels(labels []string, values []float64) []draw.Dated {
	oneYear := true
	for _, l := range labels {
		a, _, _ := strings.Cut(isoDate(labels[0]), "-")
		b, _, _ := strings.Cut(isoDate(l), "-")
		oneYear = oneYear && a == b
	}
	out := make([]draw.Dated, len(values))
	dates := true
	for i, v := range values {
		var ok bool
		out[i].Value = v
		out[i].Day, out[i].Label, ok = dayOf(labelAt(labels, i), oneYear)
		dates = dates && ok
	}
	for i := range out {
		if !dates {
			out[i].Day, out[i].Label = float64(i), calc.Words(labelAt(labels, i))
		}
	}
	return out
}

// datesOf takes the days from the labels of argument j.
func datesOf(c *Call, word string, j int, values, u []float64) ([]draw.Dated, error) {
	name := c.fn.Params[j].Name
	if word != byDates {
		return nil, calc.Errorf(calc.CodeUnknownItem, "%s: %s says nothing of days", c.fn.Name, word).WithHint(`write "dates", or a list of days: [0 days, 7 days]`)
	}
	labels := c.Labels(j)
	for k := range values {
		if _, _, ok := dayOf(labelAt(labels, k), true); !ok {
			return nil, calc.Errorf(calc.CodeDate, "%s: the %s are not named by dates: %s is none", c.fn.Name, name, strings.TrimSpace(calc.Words(labelAt(labels, k)))).
				WithHint("give the data table a column a day, headed 2027-01-09, or write the days: [0 days, 7 days]")
		}
	}
	if len(values) == 0 {
		return nil, calc.Errorf(calc.CodeShape, "%s: no day is given", c.fn.Name)
	}
	out := datedByLabels(labels, values)
	for k := range out {
		out[k].Spread = u[k]
		if k > 0 && out[k].Day < out[k-1].Day {
			return nil, calc.Errorf(calc.CodeDomain, "%s: days must not go back: %s comes after %s", c.fn.Name, out[k].Label, out[k-1].Label)
		}
	}
	return out, nil
}
