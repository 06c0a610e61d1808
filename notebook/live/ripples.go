package live

import (
	"context"
	"net/http"
	"sync"

	"scarph/kernel"
)

// ripples keeps the latest ripples, so that a page can show the sheet of the one
// it was told of.
type ripples struct {
	mu   sync.Mutex
	last int
	list map[int]kernel.Ripple
}

// keptRipples is how many are kept.
const keptRipples = 20

func (r *ripples) keep(x kernel.Ripple) int {
	r.mu.Lock()
	defer r.mu.Unlock()
	if r.list == nil {
		r.list = map[int]kernel.Ripple{}
	}
	r.last++
	r.list[r.last] = x
	delete(r.list, r.last-keptRipples)
	return r.last
}

func (r *ripples) get(n int) (kernel.Ripple, bool) {
	r.mu.Lock()
	defer r.mu.Unlock()
	x, ok := r.list[n]
	return x, ok
}

// noted notes the last ripple when a request comes in, before anything is read for its
// answer.
func (s *Server) noted(next http.Handler) http.Handler {
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		next.ServeHTTP(w, r.WithContext(context.WithValue(r.Context(), atSheet{}, s.ripples.latest())))
	})
}

type atSheet struct{}

// asked is the number of the last ripple when the request came in.
func asked(r *http.Request) int {
	n, _ := r.Context().Value(atSheet{}).(int)
	return n
}

// latest is the number of the last ripple.
func (r *ripples) latest() int {
	r.mu.Lock()
	defer r.mu.Unlock()
	return r.last
}
