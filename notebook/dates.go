package notebook

import (
	"path"
	"strconv"
	"strings"

	"scarph/calc"
	"scarph/calc/lang"
)

// dayOf is the day of a file's entries that have no dated heading of their own: what
// its head says, else what begins its name. What was meant for a day and is none is a
// problem, since the numbers of an entry without a day are the oldest of all; only the
// title page needs none.
func (f *File) dayOf(head string, front bool) (string, []Diagnostic) {
	base := f.base()
	named := ""
	if lang.IsDate(base) {
		named = base[:10]
	}
	if head != "" && !(len(head) == 10 && lang.IsDate(head)) {
		counts := "the entry counts as undated, before all others"
		if named != "" {
			counts = "the day in the file's name counts, " + named
		}
		d := f.settingError("date", head+" is no date; "+counts, "dates are written year-month-day: 2027-04-18")
		d.Code = calc.CodeDate
		return named, []Diagnostic{d}
	}
	if head != "" || named != "" {
		return firstOf(head, named), nil
	}
	if slip := readDay(base); !front && slip.text != "" && f.hasUndated() {
		return "", []Diagnostic{{File: f.Path, Code: calc.CodeDate, Message: slip.text + " in the file's name is " + slip.fault + "; the entry counts as undated, before all others", Hint: slip.hint(base, path.Ext(f.Path))}}
	}
	return "", nil
}

// base is the file's name without its folder and its ending.
func (f *File) base() string { return strings.TrimSuffix(path.Base(f.Path), path.Ext(f.Path)) }

// hasUndated reports whether a part of the file has no dated heading.
func (f *File) hasUndated() bool {
	for _, s := range f.Doc.Sections {
		if s.Date == "" {
			return true
		}
	}
	return false
}

func firstOf(a, b string) string {
	if a != "" {
		return a
	}
	return b
}

// daySlip is the beginning of a file's name that looks like a day and is none.
type daySlip struct {
	text  string   // as it stands in the name, "" for none
	fault string   // what is wrong with it
	meant []string // the days that may be meant
}

// readDay reads the numbers that begin a name: 2026-9-5, 2026_12_06, 20261206,
// 2026-13-06 and 6-12-2026 were meant for days.
func readDay(base string) daySlip {
	var parts []string
	end := 0
	for i := 0; len(parts) < 3; {
		from := i
		for i < len(base) && base[i] >= '0' && base[i] <= '9' {
			i++
		}
		if i == from {
			break
		}
		parts, end = append(parts, base[from:i]), i
		if i == len(base) || !strings.ContainsRune("-_. ", rune(base[i])) {
			break
		}
		i++
	}
	var days []string
	switch {
	case len(parts) == 3 && len(parts[0]) == 4 && len(parts[1]) <= 2 && len(parts[2]) <= 2:
		days = daysFrom(parts[0], parts[1], parts[2])
	case len(parts) == 3 && len(parts[2]) == 4 && len(parts[0]) <= 2 && len(parts[1]) <= 2:
		days = append(daysFrom(parts[2], parts[1], parts[0]), daysFrom(parts[2], parts[0], parts[1])...)
	case len(parts) > 0 && len(parts[0]) == 8 && (parts[0][:2] == "19" || parts[0][:2] == "20"):
		end = 8
		days = daysFrom(parts[0][:4], parts[0][4:6], parts[0][6:])
	default:
		return daySlip{}
	}
	s := daySlip{text: base[:end], fault: "no date"}
	for _, d := range days {
		if lang.IsDate(d) && (len(s.meant) == 0 || s.meant[0] != d) {
			s.meant = append(s.meant, d)
		}
	}
	if len(days) > 0 && len(s.meant) > 0 && days[0] == s.meant[0] {
		s.fault = "not read as a date"
	}
	return s
}

// daysFrom writes a day year-month-day, and where there is no such month with the two
// the other way round.
func daysFrom(year, month, day string) []string {
	m, d := twoDigits(month), twoDigits(day)
	if !lang.IsDate(year + "-" + m + "-" + d) {
		return []string{year + "-" + m + "-" + d, year + "-" + d + "-" + m}
	}
	return []string{year + "-" + m + "-" + d}
}

func twoDigits(s string) string {
	if len(s) == 1 {
		return "0" + s
	}
	return s
}

// hint says what the file should be called.
func (s daySlip) hint(base, ext string) string {
	rest := base[len(s.text):]
	if rest != "" && rest[0] != '-' {
		rest = "-" + strings.TrimLeft(rest, "-_. ")
	}
	switch len(s.meant) {
	case 0:
		return "dates are written year-month-day; name the file 2027-04-18" + rest + ext + ", with a day that there is"
	case 1:
		return "name the file " + s.meant[0] + rest + ext + ", or write date: " + s.meant[0] + " at its head"
	}
	return "name the file " + s.meant[0] + rest + ext + " or " + s.meant[1] + rest + ext + ", whichever is meant"
}

// Years between an entry and the one before it from which the year may be a slip.
const manyYears = 10

// dateNotes remarks on a head and a name that give two days, and on a year that lies
// far from the year of the entry before.
func (e *Entry) dateNotes(before *Entry) []Diagnostic {
	var list []Diagnostic
	base := e.File.base()
	if e.Section.Date == "" && !e.Front && e.Date != "" && lang.IsDate(base) && base[:10] != e.Date {
		d := e.File.settingError("date", "the head says "+e.Date+" and the file's name "+base[:10]+"; the head counts", "let both say the same day")
		d.Code = "two-days"
		list = append(list, d)
	}
	if before != nil && before.Date != "" && e.Date != "" {
		was, is := yearOf(before.Date), yearOf(e.Date)
		if is-was > manyYears {
			d := e.File.diagnose(calc.Span{Start: e.Section.Span.Start, End: e.Section.Span.Start}, "far-year", e.Date+" lies "+strconv.Itoa(is-was)+" years after "+before.Date+", the day of the entry before it", "is the year right, in both?")
			list = append(list, d)
		}
	}
	return list
}

func yearOf(date string) int {
	year, _ := strconv.Atoi(date[:4])
	return year
}
