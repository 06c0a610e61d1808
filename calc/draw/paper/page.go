package paper

import (
	"strings"

	"scarph/calc"
)

// Page is a size of paper, upright, in millimetres. A roll is as long as it must be.
type Page struct {
	Name          string
	Width, Height float64
	Roll          bool
}

// pages are the sizes that have a name. Source: ISO 216 (A4, A3); ANSI/ASME Y14.1
// (Letter, 8.5 by 11 in). A roll is 24 in wide unless its width is given.
func pages() []Page {
	return []Page{
		{Name: "A4", Width: 210, Height: 297},
		{Name: "A3", Width: 297, Height: 420},
		{Name: "Letter", Width: 215.9, Height: 279.4},
		{Name: "roll", Width: 609.6, Roll: true},
	}
}

// FindPage returns the size with the given name: A4, A3, Letter, roll, or a roll with
// its width, such as "roll 36 in" or "roll 914 mm".
func FindPage(name string) (Page, error) {
	want := strings.ToLower(strings.TrimSpace(name))
	for _, p := range pages() {
		if strings.ToLower(p.Name) == want {
			return p, nil
		}
	}
	if width, ok := strings.CutPrefix(want, "roll "); ok {
		l, err := calc.ParseLiteral(strings.TrimSpace(width))
		if err == nil && l.Value.D == calc.DimLength && l.Value.V >= 0.2 && l.Value.V <= 2 {
			return Page{Name: "roll", Width: l.Value.V * 1000, Roll: true}, nil
		}
		return Page{}, calc.Errorf(calc.CodeDomain, "%s is no width for a roll of paper", width).WithHint("write roll 24 in or roll 610 mm; from 200 mm to 2000 mm")
	}
	return Page{}, calc.Errorf(calc.CodeUnknownItem, "there is no paper %s", name).WithHint("write A4, A3, Letter, roll, or roll 36 in")
}

// Options are what every sheet carries, and how its lengths are written.
type Options struct {
	Page  Page // the zero Page is A4
	Style calc.Style
	// Title is the boat or the journal.
	Title string
	// Revision is the letter of this issue: A, B, C.
	Revision string
	// Date is the day of this issue as it is to be printed: 2027-03-06.
	Date string
}

func (o Options) page() Page {
	if o.Page.Width == 0 {
		return pages()[0]
	}
	return o.Page
}

// issue says which issue of the numbers a sheet was made from.
func (o Options) issue() string {
	var parts []string
	if o.Title != "" {
		parts = append(parts, o.Title)
	}
	if o.Revision != "" {
		parts = append(parts, "revision "+o.Revision)
	}
	if o.Date != "" {
		parts = append(parts, o.Date)
	}
	return strings.Join(parts, " · ")
}
