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

// entryFront is the front matter of an entry.
type entryFront struct {
	Title    string   `yaml:"title"`
	Date     string   `yaml:"date"`
	Draft    bool     `yaml:"draft"`
	Private  bool     `yaml:"private"`
	Subjects []string `yaml:"subjects"`
	Summary  string   `yaml:"summary"`
}

// keeping are the settings that keep an entry to its writer.
var keeping = []string{"draft", "private"}

// doubt is about a head that cannot be understood, for what was to be kept back must not
// go out because of a slip of the pen.
type doubt struct {
	odd  bool // something in it means nothing
	kept bool // and that may have been draft or private
}

// about takes up a key that means nothing, or whose value does not.
func (d *doubt) about(key string) {
	d.odd = true
	d.kept = d.kept || inList(keeping, key) || calc.Nearest(key, keeping) != ""
}

// readFront reads front matter into a struct; every unknown key and every value
// of the wrong kind is a problem of its own, and the rest is read all the same. Capitals
// and small letters in a key are the same.
func (f *File) readFront(into any) ([]Diagnostic, doubt) {
	span := f.Doc.FrontMatter
	if span.End <= span.Start {
		return nil, doubt{}
	}
	var root yaml.Node
	text := f.Src[span.Start:span.End]
	if err := yaml.Unmarshal(text, &root); err != nil {
		return []Diagnostic{f.yamlError(err)}, doubt{true, true}
	}
	if len(root.Content) == 0 {
		return nil, doubt{}
	}
	if root.Content[0].Kind != yaml.MappingNode {
		return []Diagnostic{f.diagnose(span, calc.CodeSetting, "the front matter is no list of settings", "write title: My boat")}, doubt{true, true}
	}
	var d doubt
	return f.fill(root.Content[0], reflect.ValueOf(into).Elem(), "", &d), d
}

// fill sets the fields of a struct from the keys of a mapping.
func (f *File) fill(m *yaml.Node, into reflect.Value, prefix string, doubt *doubt) []Diagnostic {
	var probs []Diagnostic
	fields, names := fieldsOf(into.Type())
	seen := map[string]bool{}
	for i := 0; i+1 < len(m.Content); i += 2 {
		key, val := m.Content[i], m.Content[i+1]
		at := f.nodeSpan(key)
		name := strings.ToLower(strings.TrimSpace(key.Value))
		k, ok := fields[name]
		if !ok {
			hint := "settings are " + strings.Join(names, ", ")
			if near := calc.Nearest(key.Value, names); near != "" {
				hint = "did you mean " + near + "?"
			} else if inList(keeping, name) {
				hint = name + " stands at the head of an entry, and keeps that one to yourself"
			}
			doubt.about(name)
			probs = append(probs, f.diagnose(at, calc.CodeSetting, "there is no setting "+prefix+key.Value, hint))
			continue
		}
		if seen[name] {
			probs = append(probs, f.diagnose(at, calc.CodeSetting, prefix+name+" is set twice", "leave one of them"))
			doubt.about(name)
			continue
		}
		seen[name] = true
		field := into.Field(k)
		if field.Kind() == reflect.Struct {
			if val.Kind != yaml.MappingNode {
				probs = append(probs, f.diagnose(at, calc.CodeSetting, name+" has settings of its own", "write them under it, set in by two spaces"))
				continue
			}
			probs = append(probs, f.fill(val, field, name+".", doubt)...)
			continue
		}
		if err := set(field, val); err != nil {
			probs = append(probs, f.diagnose(f.nodeSpan(val), calc.CodeSetting, prefix+name+" "+err.Error(), ""))
			if name == "hide" || inList(keeping, name) {
				doubt.about(name)
			}
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
		if err := val.Decode(&b); err != nil || val.ShortTag() == "!!null" {
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

// straySettings finds settings that stand in the text of a file, where they do nothing:
// text had come before them, or the lines of --- are not right. It also finds what was
// meant to open a private block, and opens none.
func (f *File) straySettings() []Diagnostic {
	var list []Diagnostic
	blocks := f.blockLines()
	f.outsideFences(func(at calc.Span) {
		line := string(f.Src[at.Start:at.End])
		switch {
		case at.Start < f.Doc.FrontMatter.End, strings.HasPrefix(line, "    "):
		case isStray(line):
			list = append(list, f.diagnose(at, calc.CodeSetting, "this is meant as a setting, but stands in the text",
				"settings stand between two lines of --- at the very top of the file; until this is mended, the entry is private"))
		case !blocks[at.Start] && strings.Contains(strings.ToLower(line), "privat") && nearFence(line) != "":
			list = append(list, f.diagnose(at, calc.CodeSyntax, "this opens no calc block: "+nearFence(line), "write ```calc private on a line of its own; until this is mended, the entry is private"))
		}
	})
	return list
}

// blockLines are the places where the lines begin that open a calc block.
func (f *File) blockLines() map[int]bool {
	lines := map[int]bool{}
	for _, s := range f.Doc.Sections {
		for _, b := range s.Blocks {
			lines[f.starts[f.lineOf(b.Span.Start)]] = true
		}
	}
	return lines
}

// isStray reports whether a line of text is a setting that keeps something back.
func isStray(line string) bool {
	i := strings.IndexAny(line, ":=")
	if i < 0 || len(line) > 200 {
		return false
	}
	key, value := strings.ToLower(strings.TrimSpace(line[:i])), strings.ToLower(strings.TrimSpace(line[i+1:]))
	if inList(keeping, key) {
		return inList([]string{"true", "yes", "on", "1", "y"}, strings.Trim(value, `"'`))
	}
	if key != "hide" {
		return false
	}
	words := strings.FieldsFunc(value, func(r rune) bool { return strings.ContainsRune("[], ", r) })
	return len(words) > 0 && (value[0] == '[' || inList(hideable, words[0]))
}
