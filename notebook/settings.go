package notebook

import (
	"fmt"
	"strings"

	"scarph/calc"
)

// Settings are the front matter of journal.md, or of a journal in one file.
type Settings struct {
	Title    string `yaml:"title"`
	Boat     string `yaml:"boat"`
	Author   string `yaml:"author"`
	Language string `yaml:"language"` // BCP 47, such as en or en-GB
	Show     Show   `yaml:"show"`
	// Spread is how ± is shown: likely (root of squares) or worst (straight sum).
	Spread   string `yaml:"spread"`
	Currency string `yaml:"currency"`
	Licence  string `yaml:"licence"`
	// Canonical is the address the published series will stand at.
	Canonical   string `yaml:"canonical"`
	Description string `yaml:"description"`
	// Hide leaves out of what is published: money, hours, cut list, rework, checks, history.
	Hide []string `yaml:"hide"`
	// Cover is the picture of the title page.
	Cover string `yaml:"cover"`
	// Waste is the share that is lost of what is bought, such as 30 %.
	Waste string `yaml:"waste"`
	// WasteOf says what the share is of: bought, or added to the net.
	WasteOf string `yaml:"waste-of"`
	Kerf    string `yaml:"kerf"`
}

// Show is how quantities are shown.
type Show struct {
	Length  string `yaml:"length"`  // feet-inches or metric
	Nearest string `yaml:"nearest"` // a tape mark: 1/16" or 1 mm
	Angle   string `yaml:"angle"`   // degrees, degrees-minutes or rise-per-foot
}

// choices are the words that settings take.
var choices = []struct {
	key   string
	of    func(*Settings) *string
	words []string
}{
	{"show.length", func(s *Settings) *string { return &s.Show.Length }, []string{"feet-inches", "metric"}},
	{"show.angle", func(s *Settings) *string { return &s.Show.Angle }, []string{"degrees", "degrees-minutes", "rise-per-foot"}},
	{"spread", func(s *Settings) *string { return &s.Spread }, []string{"likely", "worst"}},
	{"waste-of", func(s *Settings) *string { return &s.WasteOf }, []string{"bought", "added"}},
}

// hideable are the words of the setting hide.
var hideable = []string{"money", "hours", "cutlist", "rework", "checks", "history"}

// Style is how the journal shows its quantities.
func (s *Settings) Style() calc.Style {
	st := calc.Style{Worst: s.Spread == "worst"}
	if s.Show.Length == "metric" {
		st.System = calc.Metric
	}
	switch s.Show.Angle {
	case "degrees-minutes":
		st.Angle = calc.DegreesMinutes
	case "rise-per-foot":
		st.Angle = calc.RisePerFoot
	}
	if l, err := calc.ParseLiteral(s.Show.Nearest); err == nil && l.Value.D == calc.DimLength && l.Value.V > 0 {
		st.Nearest = l.Value.V
	}
	return st
}

// Hides reports whether the setting hide names what.
func (s *Settings) Hides(what string) bool {
	for _, h := range s.Hide {
		if h == what {
			return true
		}
	}
	return false
}

// readSettings reads the front matter of the title page. When it cannot be understood, or
// hide cannot, all is hidden that can be.
func (f *File) readSettings() (Settings, doubt, []Diagnostic) {
	var s Settings
	probs, doubt := f.readFront(&s)
	hides := !doubt.odd
	for _, c := range choices {
		if v := *c.of(&s); v != "" && !inList(c.words, v) {
			d := f.settingError(c.key, fmt.Sprintf("%s cannot be %s", c.key, v), "it is "+strings.Join(c.words, " or "))
			if near := calc.Nearest(v, c.words); near != "" {
				d.Hint = "did you mean " + near + "?"
			}
			probs = append(probs, d)
			*c.of(&s) = ""
		}
	}
	for _, h := range s.Hide {
		if !inList(hideable, h) {
			probs = append(probs, f.settingError("hide", h+" is nothing that can be hidden", "hide takes "+strings.Join(hideable, ", ")+"; until this is mended, all of these are hidden"))
			hides = false
		}
	}
	if !hides {
		s.Hide = hideable
	}
	for _, q := range [...]struct {
		key, text string
		d         calc.Dimension
		example   string
	}{{"show.nearest", s.Show.Nearest, calc.DimLength, `1/16" or 1 mm`}, {"kerf", s.Kerf, calc.DimLength, `1/8"`}, {"waste", s.Waste, calc.DimNumber, "30 %"}} {
		if q.text == "" {
			continue
		}
		l, err := calc.ParseLiteral(q.text)
		share := q.d.IsNumber()
		if err != nil || l.Value.D != q.d || l.Value.V < 0 || l.Value.V == 0 && q.key == "show.nearest" || share && l.Value.V >= 1 {
			hint := "write " + q.key + ": " + q.example
			if err == nil && share && l.Value.V >= 1 && l.Value.V < 100 {
				hint = "write " + q.key + ": " + strings.TrimSuffix(strings.TrimSpace(q.text), "%") + " %"
			}
			probs = append(probs, f.settingError(q.key, fmt.Sprintf("%s cannot be %s", q.key, q.text), hint))
		}
	}
	if s.Currency != "" {
		if _, ok := calc.Money(1, s.Currency); !ok {
			probs = append(probs, f.settingError("currency", s.Currency+" is no currency", "write a code of ISO 4217, such as EUR or USD"))
		}
	}
	return s, doubt, probs
}

func inList(list []string, s string) bool {
	for _, x := range list {
		if x == s {
			return true
		}
	}
	return false
}

// settingError places an error at the key it speaks of.
func (f *File) settingError(key, message, hint string) Diagnostic {
	last := key[strings.LastIndexByte(key, '.')+1:]
	span := f.Doc.FrontMatter
	if i := strings.Index(string(f.Src[span.Start:span.End]), last+":"); i >= 0 {
		span.Start += i
		_, end := f.lineAround(span.Start)
		span.End = end
	}
	return f.diagnose(span, calc.CodeSetting, message, hint)
}
