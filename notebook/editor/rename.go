package editor

import (
	"errors"
	"fmt"
	"sort"
	"strings"
	"unicode"

	"scarph/calc"
	"scarph/calc/lang"
	"scarph/notebook/markdown"
)

// prepareRename tells which part of a name would be renamed.
func (s *Server) prepareRename(p at) (any, error) {
	doc, m, b, ok := s.pointed(p)
	if !ok {
		return nil, nil
	}
	span := m.span
	name := b.name
	if !m.label {
		offset := doc.text.offset(p.Position, s.encoding)
		found := false
		for _, at := range doc.j.partsOf(b, m) {
			if at.Start <= offset && offset <= at.End {
				span, found = at, true
			}
		}
		if !found {
			return nil, nil
		}
	} else if strings.Count(m.path, ".") == 2 {
		return nil, nil // a cell has the names of its row and its column
	}
	if b.kind == ofLabel {
		_, name, _ = strings.Cut(name, ".")
	}
	return object{"range": doc.text.textRange(span, s.encoding), "placeholder": name}, nil
}

// rename gives a value, a table, a row or a column another name wherever it stands.
func (s *Server) rename(p renameParams) (any, error) {
	doc, m, b, ok := s.pointed(p.at)
	if !ok || m.label && strings.Count(m.path, ".") == 2 {
		return nil, errors.New("there is no name here that could be changed")
	}
	name := strings.TrimSpace(p.NewName)
	if err := doc.j.mayBe(b, name); err != nil {
		return nil, err
	}
	edits := map[string][]textEdit{}
	for _, o := range doc.j.occurrences(b, "") {
		t := doc.j.text(o.path)
		span, with := o.span, name
		if o.label {
			var err error
			if span, with, err = relabel(t.src, o.span, b, name); err != nil {
				return nil, err
			}
		}
		edits[o.path] = append(edits[o.path], textEdit{t.textRange(span, s.encoding), with})
	}
	if len(edits) == 0 {
		return nil, errors.New("there is no name here that could be changed")
	}
	return s.workspaceEdit(doc.j, edits), nil
}

// mayBe reports why a bearing cannot have a name, or nil.
func (j *journal) mayBe(b bearing, name string) error {
	whole := name
	if b.kind == ofLabel {
		table, _, _ := strings.Cut(b.name, ".")
		whole = table + "." + name
	}
	if err := lang.ValidName(whole, calc.Span{}); err != nil {
		return err
	}
	if whole == b.name {
		return nil
	}
	if b.kind != ofValue && (strings.Contains(name, ".") || name != strings.ToLower(name)) {
		return fmt.Errorf("the name of a table, a row or a column is one word in small letters; %s is not", name)
	}
	if bearer, fields := j.book.Session.Bearer(whole); bearer == whole && len(fields) == 0 {
		return fmt.Errorf("%s is the name of something else already", whole)
	}
	family, _, dotted := strings.Cut(whole, ".")
	if b.kind == ofValue && dotted && j.book.Session.IsTable(family) {
		return fmt.Errorf("%s is a data table; a value cannot be one of its cells", family)
	}
	return nil
}

// relabel finds what to write in the cell of a label so that it bears another name.
// The words of the cell that are no part of the name, its kind and its unit, stay.
func relabel(src string, cell calc.Span, b bearing, name string) (calc.Span, string, error) {
	text := src[cell.Start:cell.End]
	old := b.name[strings.LastIndexByte(b.name, '.')+1:]
	at, ok := wordsOf(text, old)
	if !ok {
		return cell, "", fmt.Errorf("the label %q cannot be changed from here; change it in its table", text)
	}
	if strings.Contains(text[at.Start:at.End], " ") {
		name = strings.ReplaceAll(name, "_", " ")
	}
	return at.Shift(cell.Start), name, nil
}

// wordsOf finds in the text of a label the words that make a name: sheer half in
// "drawn sheer half (mm):".
func wordsOf(text, name string) (calc.Span, bool) {
	for start := range text {
		for end := len(text); end > start; end-- {
			part := text[start:end]
			if markdown.NameOf(part) == name && strings.TrimFunc(part, isNoLetter) == part {
				return calc.Span{Start: start, End: end}, true
			}
		}
	}
	return calc.Span{}, false
}

func isNoLetter(r rune) bool { return !unicode.IsLetter(r) && !unicode.IsDigit(r) }

// workspaceEdit puts edits of files, by their path, into the form the client takes.
func (s *Server) workspaceEdit(j *journal, edits map[string][]textEdit) workspaceEdit {
	var z workspaceEdit
	paths := make([]string, 0, len(edits))
	for p := range edits {
		paths = append(paths, p)
	}
	sort.Strings(paths)
	if !s.client.Workspace.WorkspaceEdit.DocumentChanges {
		z.Changes = map[string][]textEdit{}
		for _, p := range paths {
			z.Changes[j.uri(p)] = edits[p]
		}
		return z
	}
	for _, p := range paths {
		id := versionedID{URI: j.uri(p)}
		if doc := s.docs[id.URI]; doc != nil {
			id.Version = &doc.version
		}
		z.DocumentChanges = append(z.DocumentChanges, documentEdit{id, edits[p]})
	}
	return z
}
