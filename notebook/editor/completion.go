package editor

import (
	"fmt"
	"strings"

	"scarph/calc"
	"scarph/calc/trade"
	"scarph/kernel"
)

// itemKinds gives the kinds of proposals those of the protocol.
var itemKinds = map[string]int{"value": itemVariable, "member": itemField, "function": itemFunction, "form": itemFunction, "unit": itemUnit, "word": itemKeyword, "text": itemConstant}

// completion lists what could stand at the cursor, in a calc block or a slot.
func (s *Server) completion(p at) (any, error) {
	z := completionList{Items: []completionItem{}}
	doc, ok := s.document(p.TextDocument)
	if !ok {
		return z, nil
	}
	offset := doc.text.offset(p.Position, s.encoding)
	pl, ok := doc.placeAt(offset)
	if !ok {
		return z, nil
	}
	c := doc.j.book.Session.Complete(pl.text, offset-pl.span.Start, nil)
	z.IsIncomplete = c.More
	r := doc.text.textRange(c.Span.Shift(pl.span.Start), s.encoding)
	for i, x := range c.Items {
		if pl.slot && x.Kind == "word" && pl.span.Start+c.Span.Start == pl.span.Start {
			continue // no statement begins in a slot
		}
		z.Items = append(z.Items, s.item(x, i, r))
	}
	return z, nil
}

func (s *Server) item(x kernel.Proposal, i int, r textRange) completionItem {
	z := completionItem{Label: x.Text, Kind: itemKinds[x.Kind], Detail: x.Detail, SortText: fmt.Sprintf("%04d", i), TextEdit: &textEdit{r, x.Text}}
	if x.About != "" {
		z.Documentation = s.plainMarkup(x.About)
	}
	if x.Call {
		if s.client.TextDocument.Completion.CompletionItem.SnippetSupport {
			z.InsertTextFormat, z.TextEdit.NewText = itemSnippet, x.Text+"(${1})$0"
		} else {
			z.TextEdit.NewText = x.Text + "("
		}
	}
	return z
}

// resolveItem adds a function's documentation, with its source and caution, to the
// item that is looked at.
func (s *Server) resolveItem(x completionItem) (any, error) {
	if f, ok := trade.Find(x.Label); ok && x.Kind == itemFunction {
		c := s.newCard()
		c.function(f)
		x.Documentation = c.markup()
	}
	return x, nil
}

// spanAt is the whole of what stands at a place, trimmed.
func (p place) trimmed() calc.Span {
	lead := len(p.text) - len(strings.TrimLeft(p.text, " \t"))
	return calc.Span{Start: p.span.Start + lead, End: p.span.Start + len(strings.TrimRight(p.text, " \t\r"))}
}
