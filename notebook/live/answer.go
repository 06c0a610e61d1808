package live

import (
	"encoding/json"
	"errors"
	"net/http"

	"scarph/calc"
)

// answer sends a value as JSON.
func answer(w http.ResponseWriter, v any) { send(w, http.StatusOK, v) }

// refusal is why something was not done, for a script and for a person.
type refusal struct {
	Code    string `json:"code"`
	Message string `json:"message"`
	Hint    string `json:"hint,omitempty"`
	// Column and Width, from 1 in runes, are the place in the text that was sent.
	Column int `json:"column,omitempty"`
	Width  int `json:"width,omitempty"`
}

func refuse(w http.ResponseWriter, status int, code, message string) {
	send(w, status, refusal{Code: code, Message: message})
}

// fault sends an error of the language, placed in the text it speaks of.
func fault(w http.ResponseWriter, e *calc.Error, text string) {
	send(w, http.StatusUnprocessableEntity, refusalOf(e, text))
}

func refusalOf(e *calc.Error, text string) refusal {
	f := refusal{Code: string(e.Code), Message: e.Message, Hint: e.Hint}
	if s := e.Span; s.Start >= 0 && s.Start <= len(text) && s.End > s.Start {
		f.Column = 1 + len([]rune(text[:s.Start]))
		f.Width = len([]rune(text[s.Start:min(s.End, len(text))]))
	}
	return f
}

func send(w http.ResponseWriter, status int, v any) {
	w.Header().Set("Content-Type", "application/json; charset=utf-8")
	w.Header().Set("Cache-Control", "no-store")
	w.WriteHeader(status)
	_ = json.NewEncoder(w).Encode(v)
}

// receive reads a JSON body; on failure it has answered.
func receive(w http.ResponseWriter, r *http.Request, into any) bool {
	d := json.NewDecoder(r.Body)
	d.DisallowUnknownFields()
	if err := d.Decode(into); err != nil {
		var big *http.MaxBytesError
		if errors.As(err, &big) {
			refuse(w, http.StatusRequestEntityTooLarge, "too-large", "that is too large to take")
		} else {
			refuse(w, http.StatusBadRequest, "request", "the request cannot be read")
		}
		return false
	}
	return true
}
