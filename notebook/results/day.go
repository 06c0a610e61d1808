package results

import (
	"strconv"
	"strings"

	"scarph/kernel"
)

// When names an entry's day: 21 February, or its title when it has no date.
func When(e kernel.EntryRef) string {
	if d := Day(e.Date); d != "" {
		return d
	}
	return e.Title
}

// Months are the names of the months.
var Months = [...]string{"January", "February", "March", "April", "May", "June", "July", "August", "September", "October", "November", "December"}

// Day writes an ISO date as people say it: 21 February 2027.
func Day(date string) string {
	if len(date) != 10 {
		return date
	}
	m, err := strconv.Atoi(date[5:7])
	if err != nil || m < 1 || m > 12 {
		return date
	}
	return strings.TrimPrefix(date[8:], "0") + " " + Months[m-1] + " " + date[:4]
}
