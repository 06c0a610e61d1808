package notebook

import (
	"errors"
	"fmt"
	"reflect"
	"sort"
	"strings"

	"go.yaml.in/yaml/v4"

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

// entryFront is the front matter of an entry.
type entryFront struct {
	Title    string   `yaml:"title"`
	Date     string   `yaml:"date"`
	Draft    bool     `yaml:"draft"`
	Private  bool     `yaml:"private"`
	Subjects []string `yaml:"subjects"`
	Summary  string   `yaml:"summary"`
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

// readSettings reads the front matter of the title page.
func (f *File) readSettings() (Settings, []Diagnostic) {
	var s Settings
	probs := f.readFront(&s)
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
			probs = append(probs, f.settingError("hide", h+" is nothing that can be hidden", "hide takes "+strings.Join(hideable, ", ")))
		}
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
	return s, probs
}

func inList(list []string, s string) bool {
	for _, x := range list {
		if x == s {
			return true
		}
	}
	return false
}

// readFront reads front matter into a struct; every unknown key and every value
// of the wrong kind is a problem of its own, and the rest is read all the same.
func (f *File) readFront(into any) []Diagnostic {
	span := f.Doc.FrontMatter
	if span.End <= span.Start {
		return nil
	}
	var root yaml.Node
	text := f.Src[span.Start:span.End]
	if err := yaml.Unmarshal(text, &root); err != nil {
		return []Diagnostic{f.yamlError(err)}
	}
	if len(root.Content) == 0 {
		return nil
	}
	if root.Content[0].Kind != yaml.MappingNode {
		return []Diagnostic{f.diagnose(span, calc.CodeSetting, "the front matter is no list of settings", "write title: My boat")}
	}
	return f.fill(root.Content[0], reflect.ValueOf(into).Elem(), "")
}

// fill sets the fields of a struct from the keys of a mapping.
func (f *File) fill(m *yaml.Node, into reflect.Value, prefix string) []Diagnostic {
	var probs []Diagnostic
	fields, names := fieldsOf(into.Type())
	for i := 0; i+1 < len(m.Content); i += 2 {
		key, val := m.Content[i], m.Content[i+1]
		at := f.nodeSpan(key)
		k, ok := fields[key.Value]
		if !ok {
			hint := "settings are " + strings.Join(names, ", ")
			if near := calc.Nearest(key.Value, names); near != "" {
				hint = "did you mean " + near + "?"
			}
			probs = append(probs, f.diagnose(at, calc.CodeSetting, "there is no setting "+prefix+key.Value, hint))
			continue
		}
		field := into.Field(k)
		if field.Kind() == reflect.Struct {
			if val.Kind != yaml.MappingNode {
				probs = append(probs, f.diagnose(at, calc.CodeSetting, key.Value+" has settings of its own", "write them under it, set in by two spaces"))
				continue
			}
			probs = append(probs, f.fill(val, field, key.Value+".")...)
			continue
		}
		if err := set(field, val); err != nil {
			probs = append(probs, f.diagnose(f.nodeSpan(val), calc.CodeSetting, prefix+key.Value+" "+err.Error(), ""))
		}
	}
	return probs
}

// set gives a field a scalar or a list of scalars; a date or a number stays the text
// that was written.
func set(field reflect.Value, val *yaml.Node) error {
	switch field.Kind() {
	case reflect.String:
		if val.Kind != yaml.ScalarNode {
			return errors.New("is one text")
		}
		field.SetString(val.Value)
	case reflect.Bool:
		var b bool
		if err := val.Decode(&b); err != nil {
			return errors.New("is true or false")
		}
		field.SetBool(b)
	case reflect.Slice:
		var list []string
		if val.Kind == yaml.ScalarNode {
			list = []string{val.Value}
		} else if err := val.Decode(&list); err != nil {
			return errors.New("is a list of words")
		}
		field.Set(reflect.ValueOf(list))
	}
	return nil
}

func fieldsOf(t reflect.Type) (map[string]int, []string) {
	m := map[string]int{}
	var names []string
	for i := 0; i < t.NumField(); i++ {
		tag := t.Field(i).Tag.Get("yaml")
		m[tag] = i
		names = append(names, tag)
	}
	sort.Strings(names)
	return m, names
}

func (f *File) nodeSpan(n *yaml.Node) calc.Span {
	line := f.lineOf(f.Doc.FrontMatter.Start) + n.Line - 1
	if n.Line < 1 || line >= len(f.starts) {
		return f.Doc.FrontMatter
	}
	start := f.starts[line] + n.Column - 1
	return calc.Span{Start: start, End: min(start+len(n.Value), len(f.Src))}
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

func (f *File) yamlError(err error) Diagnostic {
	span := f.Doc.FrontMatter
	message := strings.TrimPrefix(strings.Split(err.Error(), "\n")[0], "yaml: ")
	var at int
	if _, e := fmt.Sscanf(message, "line %d:", &at); e == nil {
		line := f.lineOf(span.Start) + at - 1
		if line < len(f.starts) {
			span.Start = f.starts[line]
			_, span.End = f.lineAround(span.Start)
		}
		if _, rest, ok := strings.Cut(message, ": "); ok {
			message = rest
		}
	}
	return f.diagnose(span, calc.CodeSetting, "the front matter cannot be read: "+message, `a text with a colon or a quote stands between quotes: title: "Wren: a tender"`)
}
