package live

import (
	"net/http"
	"strings"

	"scarph/calc"
	"scarph/calc/lang"
	"scarph/calc/trade"
	"scarph/kernel"
)

// term is a word that can be completed: a name, a function, a unit, the word that
// begins a statement.
type term struct {
	Word string `json:"word"`
	What string `json:"what"` // its value, signature or meaning, in short
	Kind string `json:"kind"` // name, function, unit, statement
}

// vocabulary lists the words of the journal and of the language, for completion.
func (s *visit) vocabulary(w http.ResponseWriter, r *http.Request) {
	g := s.glance(r)
	list := []term{}
	for _, name := range s.book.Session.Names() {
		if v, ok := s.book.Session.Value(name, kernel.Now); ok {
			list = append(list, term{name, resultText(v, g.style), "name"})
		}
	}
	for _, f := range trade.All() {
		list = append(list, term{f.Name, f.Signature() + ": " + f.Summary, "function"})
	}
	for _, f := range lang.Forms() {
		list = append(list, term{f.Name, f.Call + ": " + f.Summary, "function"})
	}
	for _, u := range calc.Units() {
		list = append(list, term{u.Symbol, strings.Join(u.Names, ", "), "unit"})
	}
	for _, word := range lang.Words() {
		list = append(list, term{word, "", "statement"})
	}
	answer(w, list)
}
