package main

import (
	"cmp"
	"os"
	"path/filepath"
	"strings"

	"github.com/alecthomas/kong"

	"scarph/calc/trade"
	"scarph/kernel"
	"scarph/notebook"
)

// proposal is a word that could stand at the end of a command line.
type proposal struct{ word, about string }

// files asks the shell for names of files.
var files = proposal{word: ":files"}

// proposals says what could stand in place of the last of the words behind scarph.
func proposals(model *kong.Application, words []string) []proposal {
	words, cut := rejoined(words)
	if len(words) == 0 {
		words = []string{""}
	}
	typed := words[len(words)-1]
	l := readLine(model, words[:len(words)-1])
	var list []proposal
	switch {
	case l.wants != nil:
		list = l.values(l.wants, typed)
	case l.node == nil && !strings.HasPrefix(typed, "-"):
		for _, n := range model.Children {
			if !n.Hidden {
				list = append(list, proposal{n.Name, n.Help})
			}
		}
	case strings.HasPrefix(typed, "-") && !l.plain:
		list = l.flags(model, typed)
	case l.next() != nil:
		list = l.values(l.next(), typed)
	}
	fitting := list[:0]
	seen := map[string]bool{}
	for _, p := range list {
		if !seen[p.word] && (p == files || strings.HasPrefix(p.word, typed) && strings.HasPrefix(p.word, cut)) {
			seen[p.word] = true
			fitting = append(fitting, proposal{strings.TrimPrefix(p.word, cut), p.about})
		}
	}
	return fitting
}

// rejoined puts words together again that a shell has parted at their equals sign, and
// returns what of the last word the shell holds to be words before it.
func rejoined(words []string) (list []string, cut string) {
	for i, w := range words {
		n := len(list)
		last := i == len(words)-1
		switch {
		case w == "=" && n > 0 && i > 0:
			list[n-1] += "="
			if last {
				cut = list[n-1]
			}
		case i > 1 && words[i-1] == "=" && n > 0:
			if last {
				cut = list[n-1]
			}
			list[n-1] += w
		default:
			list = append(list, w)
		}
	}
	return list, cut
}

// commandLine is a line as far as it is written.
type commandLine struct {
	node  *kong.Node  // the verb, nil before there is one
	wants *kong.Value // of a flag that waits for its value
	given int         // positional arguments
	plain bool        // behind "--", where no more flags stand
	dir   string      // of the journal, "" where none was named
}

func readLine(model *kong.Application, words []string) *commandLine {
	l := &commandLine{}
	for _, w := range words {
		switch {
		case l.wants != nil:
			l.take(l.wants, w)
			l.wants = nil
		case w == "--" && !l.plain:
			l.plain = true
		case strings.HasPrefix(w, "-") && len(w) > 1 && !l.plain:
			name, value, valued := strings.Cut(w, "=")
			f := l.flag(model, name)
			switch {
			case f == nil || f.IsBool():
			case valued:
				l.take(f.Value, value)
			default:
				l.wants = f.Value
			}
		case l.node == nil:
			for _, n := range model.Children {
				if n.Name == w {
					l.node = n
				}
			}
			if l.node == nil {
				l.node = &kong.Node{Parent: model.Node} // no verb of ours: nothing is proposed
			}
		default:
			if v := l.next(); v != nil {
				l.take(v, w)
			}
			l.given++
		}
	}
	return l
}

func (l *commandLine) take(v *kong.Value, word string) {
	if v.Tag.Get("complete") == "journal" && word != "" {
		l.dir = word
	}
}

// next is the positional argument that stands next; the last may be one of many.
func (l *commandLine) next() *kong.Value {
	if l.node == nil || len(l.node.Positional) == 0 {
		return nil
	}
	if n := len(l.node.Positional); l.given >= n {
		if last := l.node.Positional[n-1]; last.IsCumulative() {
			return last
		}
		return nil
	}
	return l.node.Positional[l.given]
}

func (l *commandLine) allFlags(model *kong.Application) []*kong.Flag {
	n := l.node
	if n == nil {
		n = model.Node
	}
	var list []*kong.Flag
	for _, group := range n.AllFlags(true) {
		list = append(list, group...)
	}
	return list
}

func (l *commandLine) flag(model *kong.Application, word string) *kong.Flag {
	for _, f := range l.allFlags(model) {
		if word == "--"+f.Name || f.Short != 0 && word == "-"+string(f.Short) {
			return f
		}
	}
	return nil
}

// flags proposes the flags of the verb, or the values of the one that is typed.
func (l *commandLine) flags(model *kong.Application, typed string) []proposal {
	if name, value, ok := strings.Cut(typed, "="); ok {
		var list []proposal
		if f := l.flag(model, name); f != nil {
			for _, p := range l.values(f.Value, value) {
				if p != files {
					p.word = name + "=" + p.word
				}
				list = append(list, p)
			}
		}
		return list
	}
	var list []proposal
	for _, f := range l.allFlags(model) {
		list = append(list, proposal{"--" + f.Name, f.Help})
	}
	return list
}

// values proposes what an argument can be, as its tag complete says.
func (l *commandLine) values(v *kong.Value, typed string) []proposal {
	if v.Enum != "" {
		return choices(v.EnumSlice())
	}
	switch what := v.Tag.Get("complete"); what {
	case "journal", "file":
		return []proposal{files}
	case "function":
		return functions()
	case "line":
		if l.dir == "" {
			return functions()
		}
		return ofJournal(l.dir, what, typed)
	case "name", "change", "day", "entry":
		return ofJournal(cmp.Or(l.dir, "."), what, typed)
	case "":
		return nil
	default:
		return choices(strings.Split(what, ","))
	}
}

func choices(words []string) []proposal {
	list := make([]proposal, len(words))
	for i, w := range words {
		list[i].word = w
	}
	return list
}

func functions() []proposal {
	var list []proposal
	for _, f := range trade.All() {
		list = append(list, proposal{f.Name, f.Summary})
	}
	return list
}

// ofJournal proposes words of a journal, where there is surely one: a person who
// presses a key does not wait for a whole disk to be read.
func ofJournal(dir, what, typed string) []proposal {
	if !strings.HasSuffix(dir, ".md") {
		if _, err := os.Stat(filepath.Join(dir, "journal.md")); err != nil {
			return nil
		}
	}
	n, err := notebook.Open(dir)
	if err != nil {
		return nil
	}
	var list []proposal
	switch what {
	case "name", "change":
		end := ""
		if what == "change" {
			end = "="
		}
		for _, name := range n.Session.Names() {
			p := proposal{word: name + end}
			if r, ok := n.Session.Value(name, kernel.Now); ok && r.OK() {
				p.about = n.Session.Style().Text(r.Value)
			}
			list = append(list, p)
		}
	case "day", "entry":
		seen := map[string]bool{"": true}
		for _, e := range n.Session.Entries() {
			if !seen[e.Date] {
				seen[e.Date] = true
				list = append(list, proposal{e.Date, e.Title})
			}
		}
	case "line":
		c := n.Session.Complete(typed, len(typed), nil)
		for _, x := range c.Items {
			list = append(list, proposal{typed[:c.Span.Start] + x.Text, x.Detail})
		}
	}
	return list
}
