package live

import (
	"encoding/json"
	"errors"
	"net/http"

	"scarph/calc"
	"scarph/kernel"
)

// answer sends a value as JSON.
func answer(w http.ResponseWriter, v any) { send(w, http.StatusOK, v) }

// refuse says why something was not done, for a script and for a person.
func refuse(w http.ResponseWriter, status int, code, message string) {
	send(w, status, kernel.Fault{Code: code, Message: message})
}

// fault sends an error of the language, placed in the text it speaks of.
func fault(w http.ResponseWriter, e *calc.Error, text string) {
	send(w, http.StatusUnprocessableEntity, kernel.FaultOf(e, text))
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
